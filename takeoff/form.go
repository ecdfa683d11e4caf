package takeoff

import (
	"errors"
	"fmt"

	bending "ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Form is the form on which a frame's laminates are glued up, with the laminates that it is for.
type Form struct {
	Member boat.Member
	frame.Stack
	bending.Form
}

// Form of one frame that the takeoff r of this basis glues up whole. Errors are *UnshapedError.
func (b Basis) Form(r Result, m boat.Member, face bending.Face, pitch float64) (Form, error) {
	choice, ok := b.Remedies[m]
	if !ok || choice.Remedy != boat.ReplaceLaminated {
		return Form{}, &UnshapedError{m, "the option glues up no new frame there", "a frame whose remedy is replace_laminated"}
	}
	out := Form{Member: m, Stack: frame.Stack{Species: choice.Species}}
	for id, take := range map[string]func(decimal.Decimal){
		m.Path() + "/laminates":          func(d decimal.Decimal) { out.Laminates = d.IntPart() },
		m.Path() + "/laminate_thickness": func(d decimal.Decimal) { out.Thickness = d },
	} {
		q, ok := r.figure(id)
		if !ok {
			return Form{}, fmt.Errorf("%s: the takeoff has no figure %s", m, id)
		}
		take(q)
	}
	f, section, err := b.Shaped(m)
	if err != nil {
		return Form{}, err
	}
	if out.Form, err = frame.NewForm(f, section, out.Stack, b.Rules, face, pitch); err != nil {
		fix := "another face, or a pitch of more"
		var no *frame.FormError
		if errors.As(err, &no) {
			fix = no.Fix
		}
		return Form{}, &UnshapedError{m, err.Error(), fix}
	}
	return out, nil
}

// figure's exact value by its id.
func (r Result) figure(id string) (decimal.Decimal, bool) {
	for _, f := range r.Figures {
		if f.ID == id {
			d, err := quantity.ParseDecimal(f.Value)
			return d, err == nil
		}
	}
	return decimal.Zero, false
}
