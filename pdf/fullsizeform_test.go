package pdf_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"ribband/pdf"
	"ribband/takeoff/bend"
	"ribband/takeoff/notation"
)

// arcForm is the inside form of an arc of a radius, 12 laminates of 5 mm.
func arcForm(t *testing.T) bend.Form {
	t.Helper()
	back, err := bend.ByCount(12)
	if err != nil {
		t.Fatal(err)
	}
	f, err := bend.NewForm(bend.Curve{Length: 1100, Kappa: func(float64) float64 { return 1 / 700.0 }}, bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 60, Pitch: 100, Marks: []float64{300}}, back)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The first sheet says what the form is for and what to heed; on the others every ordinate is named once, and sheets carry the
// form's own name.
func TestTheFormInFullSize(t *testing.T) {
	form := arcForm(t)
	f := pdf.FullSizeForm{Boat: "Wendeline", Date: "2026-10-05", Revision: "1", Name: "frame 12 port", Laminates: "12 laminates of 5 mm", Needed: "Needed: its line rises.", Form: form, Notation: notation.Millimetres}
	for _, paper := range []pdf.SheetSize{pdf.SheetA4, pdf.SheetA3} {
		f.Paper = paper
		file, err := pdf.WriteFullSizeFormUncompressed(f)
		if err != nil {
			t.Fatal(err)
		}
		if again, _ := pdf.WriteFullSizeFormUncompressed(f); !bytes.Equal(file, again) {
			t.Errorf("%s: written twice, it differs", paper)
		}
		words := pages(t, file)
		first := oneSpace(strings.Join(words[0], " "))
		for _, want := range []string{"Form for frame 12 port, full size, of Wendeline", "An inside form", "12 laminates of 5 mm", "ordinates 100.0 mm apart", "each side is 100.0 mm", "Bend one laminate round it dry"} {
			if !strings.Contains(first, want) {
				t.Errorf("%s: the first sheet does not say %q:\n%s", paper, want, first)
			}
		}
		if strings.Contains(first, "rabbet") {
			t.Error("a form has no rabbet")
		}
		rest := flat(words[1:])
		if !strings.Contains(rest, "taper ends") || !strings.Contains(rest, "base line") {
			t.Errorf("%s: %s", paper, rest)
		}
	}
	var none *pdf.NoFormError
	if _, err := pdf.WriteFullSizeForm(pdf.FullSizeForm{Name: "frame 1 port"}); !errors.As(err, &none) {
		t.Errorf("%v", err)
	}
}
