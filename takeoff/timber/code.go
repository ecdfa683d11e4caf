package timber

import "strings"

// Meant says what would do in place of a code that the catalogue has not: the code that the text most likely stands for, by the
// wood's name or a slip of the pen, or what a code is.
func (c Catalogue) Meant(code string) string {
	const fix = "the code of one of the yard's species"
	plain := asCode(code)
	if plain == "" {
		return fix
	}
	meant, least := "", slips(plain)+1
	for _, s := range c.Species {
		for _, as := range []string{asCode(s.Code), asCode(s.Name)} {
			if off := apart(plain, as, least); off < least {
				meant, least = s.Code, off
			}
		}
	}
	if meant == "" {
		return fix
	}
	return fix + "; the nearest is " + meant
}

// longestSlip is the most letters of a text that is held against codes: longer ones name no wood.
const longestSlip = 60

// slips is how many letters a text may be off a code and still stand for it: one in three, as oak for aok. An assumption, no
// source.
func slips(text string) int {
	if len(text) > longestSlip {
		return -1
	}
	return len(text) / 3
}

// asCode is a text as codes are written, so that a name or a capital is no slip: "White oak" is white_oak.
func asCode(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == '-' || r == '_' || r == ',' }), "_")
}

// apart is how many letters one text is off another: left out, put in, put for another, or two side by side put the other way
// round. Counted in bytes, and no farther than most, where it matters no more.
func apart(a, b string, most int) int {
	if most <= 0 || len(a)-len(b) >= most || len(b)-len(a) >= most {
		return most
	}
	rows := [3][]int{make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(a); i++ {
		before, last, now := rows[0], rows[1], rows[2]
		now[0] = i
		for j := 1; j <= len(b); j++ {
			put := last[j-1]
			if a[i-1] != b[j-1] {
				put++
			}
			now[j] = min(put, last[j]+1, now[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		rows = [3][]int{last, now, before}
	}
	return min(most, rows[1][len(b)])
}
