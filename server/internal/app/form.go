package app

import (
	"context"
	"errors"
	"fmt"
	"math"

	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

// FormQuestion asks for the form of one frame, or of a piece of it by its name: the face that the first laminate lies
// against, and the pitch of its ordinates, mm.
type FormQuestion struct {
	Frame int
	Side  boat.Side
	Piece string
	Face  bend.Face
	Pitch float64
}

// Form is the form on which the laminates of one frame are glued up, from rabbet to sheer, or of a piece of it.
type Form struct {
	No        int       `json:"no"`
	Side      boat.Side `json:"side"`
	BasisHash string    `json:"basis_hash"`
	// Piece is absent of a whole frame. FromMM and ToMM are along the girth; absent where that is not known.
	Piece     string       `json:"piece,omitempty"`
	RestsOn   boat.RestsOn `json:"rests_on"`
	FromMM    *float64     `json:"from_mm,omitempty"`
	ToMM      *float64     `json:"to_mm,omitempty"`
	Laminates int64        `json:"laminates"`
	// ThicknessMM of a laminate, exact.
	ThicknessMM string `json:"thickness_mm"`
	// Needed is false where the frame can be cut out of a blank glued up straight, for the reason in Note.
	Needed     bool           `json:"needed"`
	Note       string         `json:"note"`
	Face       bend.Face      `json:"face"`
	DepthMM    float64        `json:"depth_mm"`
	KeepsMM    float64        `json:"keeps_length_mm"`
	Springback FormSpringback `json:"springback"`
	// LengthMM along the face and ChordMM between its ends; FrameChordMM is that of the frame when it is let go.
	LengthMM     float64        `json:"length_mm"`
	ChordMM      float64        `json:"chord_mm"`
	FrameChordMM float64        `json:"frame_chord_mm"`
	Greatest     FormOrdinate   `json:"greatest"`
	PitchMM      float64        `json:"pitch_mm"`
	PitchAlong   string         `json:"pitch_along"`
	Ordinates    []FormOrdinate `json:"ordinates"`
	// RunsOut are the laminates of a frame that tapers, from where one ends on; absent where all run through.
	RunsOut []FormRunOut `json:"runs_out,omitempty"`
	// Tapers are where those of the scarfs of a part end at the inner face.
	Tapers []FormTaper `json:"tapers,omitempty"`
	// Beyond is how far the blank runs straight on past either end; absent where that is not known.
	Beyond  *FormBeyond       `json:"beyond,omitempty"`
	Unknown []takeoff.Unknown `json:"unknown,omitempty"`
}

// FormRunOut is what is left of the laminates from a place along the frame on: FromMM is along the girth from the rabbet.
type FormRunOut struct {
	FromMM    float64 `json:"from_mm"`
	Laminates int64   `json:"laminates"`
	Share     float64 `json:"share"`
	Tighter   float64 `json:"tighter"`
}

// FormTaper is where the taper of the scarf at an end of a part ends at the inner face.
type FormTaper struct {
	End string `json:"end"`
	FormOrdinate
}

// FormBeyond is how far a blank runs on past the heel's end of its form and the head's.
type FormBeyond struct {
	HeelMM float64 `json:"heel_mm"`
	HeadMM float64 `json:"head_mm"`
}

// FormSpringback is the share of its curvature that the frame loses when it is let go, how much tighter the form is bent
// for it, and what that rests on.
type FormSpringback struct {
	Share   float64 `json:"share"`
	Tighter float64 `json:"tighter"`
	Source  string  `json:"source"`
}

// FormOrdinate is one place of the form: along the base line through its ends from the heel's, square off it, along the
// form's face, and the direction of the face from the base line.
type FormOrdinate struct {
	BaseMM       float64 `json:"base_mm"`
	OffMM        float64 `json:"off_mm"`
	AlongMM      float64 `json:"along_mm"`
	DirectionDeg float64 `json:"direction_deg"`
}

// FormOf answers from an option's takeoff on the documents as they stand. A frame that has no form is a *QuestionError.
func (a *App) FormOf(ctx context.Context, who auth.Principal, job, option string, q FormQuestion) (Form, error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return Form{}, err
	}
	w, err := a.takeoff(ctx, who, o)
	if err != nil {
		return Form{}, err
	}
	f, _, err := a.formOf(ctx, w, q)
	if err != nil {
		return Form{}, err
	}
	return formAnswer(f, w.hash), nil
}

// asQuestion is the error of a form as that of the question it was asked by.
func asQuestion(q FormQuestion, err error) error {
	var none *takeoff.UnshapedError
	if errors.As(err, &none) {
		return &QuestionError{"frame", fmt.Sprintf("frame %d %s: %s", q.Frame, q.Side, none.Detail), none.Fix}
	}
	return err
}

func formAnswer(f takeoff.Form, hash string) Form {
	out := Form{
		No: f.Member.No, Side: f.Member.Side, BasisHash: hash, Piece: f.Piece, RestsOn: f.RestsOn, Laminates: f.Laminates, ThicknessMM: f.Thickness.String(),
		Needed: !f.Straight, Note: f.Say(), Face: f.Face, DepthMM: quantity.Thousandth(f.Depth), KeepsMM: quantity.Thousandth(f.Keeps), Unknown: f.Unknown,
		Springback: FormSpringback{millionth(f.Springback.Share), millionth(f.Tighter), f.Springback.Source},
		LengthMM:   quantity.Thousandth(f.Length), ChordMM: quantity.Thousandth(f.Chord), FrameChordMM: quantity.Thousandth(f.FrameChord),
		Greatest: ordinate(f.Greatest), PitchMM: f.Pitch, PitchAlong: "base", Ordinates: make([]FormOrdinate, len(f.Ordinates)),
	}
	if f.AlongCurve {
		out.PitchAlong = "curve"
	}
	for i, o := range f.Ordinates {
		out.Ordinates[i] = ordinate(o)
	}
	for _, r := range f.RunsOut {
		out.RunsOut = append(out.RunsOut, FormRunOut{quantity.Thousandth(f.From + r.From), r.Laminates, millionth(r.Share), millionth(1 / (1 - r.Share))})
	}
	for i, end := range f.Tapers {
		out.Tapers = append(out.Tapers, FormTaper{end, ordinate(f.Marks[i])})
	}
	if f.To > f.From {
		from, to := quantity.Thousandth(f.From), quantity.Thousandth(f.To)
		out.FromMM, out.ToMM = &from, &to
		out.Beyond = &FormBeyond{quantity.Thousandth(f.BeyondHeel), quantity.Thousandth(f.BeyondHead)}
	}
	return out
}

func ordinate(o bend.Ordinate) FormOrdinate {
	return FormOrdinate{quantity.Thousandth(o.Base), quantity.Thousandth(o.Off), quantity.Thousandth(o.Along), degrees(o.Direction)}
}

func millionth(share float64) float64 { return math.Round(quantity.Snap(share*1e6)) / 1e6 }
