package api

import (
	"net/http"
	"regexp"
	"strconv"

	"ribband/pdf"
	"ribband/server/internal/app"
	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
)

// usualPitch of ordinates, mm: close enough for a stiff batten round a bilge.
const usualPitch = 100

// mostPitch, mm, of ordinates.
const mostPitch = 2000

var pieceName = regexp.MustCompile(`^(part|sister)_[1-9][0-9]{0,2}$`)

func pitch(text string) (float64, bool) {
	mm, ok := millimetres(text)
	return mm, ok && mm >= bend.LeastPitch && mm <= mostPitch
}

var (
	pieceForm = queryForm{"the name of a piece, as part_1 or sister_1", func(text string) bool { return pieceName.MatchString(text) }}
	faceForm  = queryForm{"inner or faying", func(text string) bool { return bend.Face(text) == bend.Inner || bend.Face(text) == bend.Faying }}
	pitchForm = queryForm{"millimetres from 5 to 2000, as 100 or 76.2", func(text string) bool { _, ok := pitch(text); return ok }}
)

// formQuestion is the form that the query asks for; known has looked at all of it.
func (c *call) formQuestion() app.FormQuestion {
	q := app.FormQuestion{Side: boat.Side(c.Query("side")), Face: bend.Inner, Pitch: usualPitch}
	q.Frame, _ = strconv.Atoi(c.Query("frame"))
	q.Piece = c.Query("piece")
	if text := c.Query("face"); text != "" {
		q.Face = bend.Face(text)
	}
	if text := c.Query("pitch_mm"); text != "" {
		q.Pitch, _ = pitch(text)
	}
	return q
}

func readForm(c *call) error {
	f, err := c.app.FormOf(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), c.formQuestion())
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", f)
}

// readFormDrawing answers a form as a drawing with its ordinates.
func readFormDrawing(c *call) error {
	q := c.formQuestion()
	f, err := c.app.FormSVG(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), q)
	if err != nil {
		return err
	}
	c.Header("Content-Disposition", `inline; filename="`+formFile(q)+`.svg"`)
	c.send(http.StatusOK, "", f.Kind, f.Body)
	return nil
}

// readFormSheets answers a form in its true size on sheets, A4 unless it says otherwise.
func readFormSheets(c *call) error {
	q, paper := c.formQuestion(), pdf.SheetA4
	if text := c.Query("paper"); text != "" {
		paper = pdf.SheetSize(text)
	}
	body, err := c.app.FormPDF(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), q, paper)
	if err != nil {
		return err
	}
	c.Header("Content-Disposition", `inline; filename="`+formFile(q)+`.pdf"`)
	c.send(http.StatusOK, "", pdfKind, body)
	return nil
}

// formFile is the name of a form's file without its end: form-12-port, form-12-port-part_1.
func formFile(q app.FormQuestion) string {
	out := "form-" + strconv.Itoa(q.Frame) + "-" + string(q.Side)
	if q.Piece != "" {
		out += "-" + q.Piece
	}
	return out
}
