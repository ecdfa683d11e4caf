package pdf

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Unprintable is the characters of a text that WriteEstimate would print as a box, each once, in the order they stand;
// empty where all of the text can be printed. A letter with more marks than are printed counts with its marks.
func Unprintable(text string) string {
	var whole cleaner
	whole.clean(text)
	if !whole.replaced {
		return ""
	}
	var out, marks strings.Builder
	for _, r := range norm.NFC.String(strings.ReplaceAll(text, "\r\n", "\n")) {
		if unicode.Is(unicode.M, r) {
			marks.WriteRune(r)
		}
		if shown, keep := plain(r); keep && !settable(shown) && !strings.ContainsRune(out.String(), r) {
			out.WriteRune(r)
		}
	}
	if out.Len() == 0 {
		return marks.String()
	}
	return out.String()
}
