package pdf_test

import (
	"testing"

	"ribband/pdf"
)

func TestUnprintableCharactersAreNamed(t *testing.T) {
	for text, want := range map[string]string{
		"":                            "",
		"Half on acceptance.\r\n\tÅ½": "",
		"Märsch A\u030a, naïve":       "", // composed before it is printed
		"soft\u00adhyphen":            "",
		"中村 of 中":                     "中村",
		"🚢 at sea":                    "🚢",
		"שלום":                        "שלום",
		"a\u202eb":                    "\u202e",
		"q\u0301\u0301\u0301\u0301":   "\u0301\u0301\u0301\u0301",
	} {
		if got := pdf.Unprintable(text); got != want {
			t.Errorf("of %q %q cannot be printed, want %q", text, got, want)
		}
	}
}
