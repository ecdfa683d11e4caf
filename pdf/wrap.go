package pdf

import (
	"strings"
	"unicode"
)

// wrap breaks t into lines no wider than width. It breaks at line breaks and
// spaces, never at no-break spaces; a word wider than the line is broken behind
// its last hyphen or stroke that fits, otherwise between letters. Empty text
// gives no line at all; runs of empty lines become one.
func (m *metrics) wrap(t printable, s style, width length) []printable {
	var lines []printable
	for _, paragraph := range strings.Split(string(t), "\n") {
		words := strings.FieldsFunc(paragraph, func(r rune) bool { return r == ' ' })
		if len(words) == 0 {
			if n := len(lines); n > 0 && lines[n-1] != "" {
				lines = append(lines, "")
			}
			continue
		}
		lines = m.fill(lines, words, s, width)
	}
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}

// fill appends words to lines as one paragraph.
func (m *metrics) fill(lines []printable, words []string, s style, width length) []printable {
	space := m.rune(' ', s)
	var line strings.Builder
	var used length
	flush := func() {
		if line.Len() > 0 {
			lines = append(lines, printable(line.String()))
			line.Reset()
			used = 0
		}
	}
	for _, word := range words {
		w := m.width(printable(word), s)
		if used > 0 && used+space+w > width {
			flush()
		}
		for w > width {
			part := m.cut(word, s, width)
			if part == len(word) {
				break
			}
			lines = append(lines, printable(word[:part]))
			word = word[part:]
			w = m.width(printable(word), s)
		}
		if line.Len() > 0 {
			line.WriteByte(' ')
			used += space
		}
		line.WriteString(word)
		used += w
	}
	flush()
	return lines
}

// cut returns how many bytes of a word too wide for the line go on it: at least
// one letter with its marks, so that it always ends.
func (m *metrics) cut(word string, s style, width length) int {
	var used length
	fits, behind := 0, 0
	var before rune // the letter before r, its marks left out
	for i, r := range word {
		if !unicode.Is(unicode.M, r) {
			fits = i
			if before == '-' || before == '/' {
				behind = i
			}
			before = r
		}
		used += m.rune(r, s)
		if used > width && fits > 0 {
			break
		}
	}
	// A break behind a hyphen is good only if it leaves a fair part of the line.
	if behind > 0 && behind*2 >= fits {
		return behind
	}
	if fits > 0 {
		return fits
	}
	return len(word)
}

// clip shortens t to one line of the given width, with an ellipsis if it had to.
func (m *metrics) clip(t printable, s style, width length) printable {
	if m.width(t, s) <= width {
		return t
	}
	t = printable(strings.TrimSuffix(string(t), "…"))
	room := width - m.rune('…', s)
	var used length
	for i, r := range t {
		used += m.rune(r, s)
		if used > room && !unicode.Is(unicode.M, r) {
			return printable(strings.TrimRight(string(t[:i]), " ")) + "…"
		}
	}
	return t
}

// wrapTo is wrap cut short behind n lines, with an ellipsis when there is more.
func (m *metrics) wrapTo(n int, t printable, s style, width length) []printable {
	lines := m.wrap(t, s, width)
	if len(lines) > n {
		lines = lines[:n]
		lines[n-1] = m.clip(lines[n-1]+"…", s, width)
	}
	return lines
}
