package pdf_test

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"ribband/pdf"
)

// written writes an estimate without compression and checks its structure.
func written(t testing.TB, e pdf.Estimate) []byte {
	t.Helper()
	file, err := pdf.WriteUncompressed(e)
	if err != nil {
		t.Fatalf("an estimate could not be written: %v", err)
	}
	wellFormed(t, file)
	return file
}

// wellFormed checks the file's table of objects: every entry points at its
// object. Readers mend a wrong table silently, so nobody would see it.
func wellFormed(t testing.TB, file []byte) {
	t.Helper()
	if !bytes.HasPrefix(file, []byte("%PDF-1.")) {
		t.Fatalf("the file does not begin as a PDF: %.20q", file)
	}
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(file)
	if m == nil {
		t.Fatalf("the file does not end as a PDF: %q", file[max(0, len(file)-60):])
	}
	at, _ := strconv.Atoi(string(m[1]))
	if at >= len(file) || !bytes.HasPrefix(file[at:], []byte("xref\n0 ")) {
		t.Fatalf("no table of objects at byte %d", at)
	}
	entries := bytes.Split(file[at:], []byte("\n"))[3:]
	for i, entry := range entries {
		if bytes.HasPrefix(entry, []byte("trailer")) {
			if i == 0 {
				t.Fatal("the table of objects is empty")
			}
			return
		}
		offset, err := strconv.Atoi(string(entry[:10]))
		want := fmt.Sprintf("%d 0 obj\n", i+1)
		if err != nil || offset >= len(file) || !bytes.HasPrefix(file[offset:], []byte(want)) {
			t.Fatalf("object %d is not where the table says", i+1)
		}
	}
	t.Fatal("the table of objects has no trailer")
}

var (
	pageStream = regexp.MustCompile(`(?s)<</Length \d+>>\nstream\n(.*?)\nendstream`)
	shown      = regexp.MustCompile(`(?s)BT [-\d. ]+ Td \(((?:\\.|[^\\)])*)\) Tj ET`)
)

// pages returns the lines of text on each page of an uncompressed file, in the
// order they are drawn.
func pages(t testing.TB, file []byte) [][]string {
	t.Helper()
	var all [][]string
	for _, m := range pageStream.FindAllSubmatch(file, -1) {
		if bytes.HasPrefix(m[1], []byte("/CIDInit")) {
			continue // the font's table of characters
		}
		var lines []string
		for _, s := range shown.FindAllSubmatch(m[1], -1) {
			lines = append(lines, decode(s[1]))
		}
		all = append(all, lines)
	}
	if n := bytes.Count(file, []byte("/Type /Page\n")); n != len(all) || n == 0 {
		t.Fatalf("%d pages, contents of %d read", n, len(all))
	}
	return all
}

// decode turns the bytes between brackets into text: UTF-16 with or without its
// mark, or plain ASCII.
func decode(b []byte) string {
	var raw []byte
	for i := 0; i < len(b); i++ {
		if b[i] == '\\' && i+1 < len(b) {
			i++
			if b[i] == 'r' {
				raw = append(raw, '\r')
				continue
			}
		}
		raw = append(raw, b[i])
	}
	wide := bytes.HasPrefix(raw, []byte{0xfe, 0xff})
	raw = bytes.TrimPrefix(raw, []byte{0xfe, 0xff})
	if len(raw)%2 != 0 || !wide && bytes.HasPrefix(raw, []byte("D:")) {
		return string(raw)
	}
	var units []uint16
	for i := 0; i < len(raw); i += 2 {
		units = append(units, uint16(raw[i])<<8|uint16(raw[i+1]))
	}
	return string(utf16.Decode(units))
}

// flat joins all text of a document, one space between words.
func flat(pages [][]string) string {
	var all []string
	for _, p := range pages {
		all = append(all, p...)
	}
	return oneSpace(strings.Join(all, " "))
}

// oneSpace makes all white of a text single spaces.
func oneSpace(s string) string { return strings.Join(strings.Fields(s), " ") }

// readable is an uncompressed file as text: strings decoded, and without what
// depends on the compiler's own compression, the font data and the places behind.
func readable(file []byte) string {
	fonts := regexp.MustCompile(`(?s)<<[^<>]*/FlateDecode[^<>]*>>\nstream\n.*?\nendstream`)
	file = fonts.ReplaceAll(file, []byte("<<compressed data>>"))
	file = file[:bytes.LastIndex(file, []byte("\nxref\n"))]
	lengths := regexp.MustCompile(`<</Length \d+>>`)
	file = lengths.ReplaceAll(file, []byte("<</Length>>"))
	quoted := regexp.MustCompile(`(?s)\(((?:\\.|[^\\)])*)\)( Tj|\n)`)
	return quoted.ReplaceAllStringFunc(string(file), func(s string) string {
		m := quoted.FindStringSubmatch(s)
		return "(" + strings.ReplaceAll(decode([]byte(m[1])), "\n", `\n`) + ")" + m[2]
	})
}
