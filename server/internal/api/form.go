package api

import (
	"net/http"
	"regexp"
	"strconv"

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

func readForm(c *call) error {
	q := app.FormQuestion{Side: boat.Side(c.Query("side")), Face: bend.Inner, Pitch: usualPitch}
	q.Frame, _ = strconv.Atoi(c.Query("frame")) // known has looked at all of it
	q.Piece = c.Query("piece")
	if text := c.Query("face"); text != "" {
		q.Face = bend.Face(text)
	}
	if text := c.Query("pitch_mm"); text != "" {
		q.Pitch, _ = pitch(text)
	}
	f, err := c.app.FormOf(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), q)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", f)
}
