package store

import (
	"strings"
	"unicode/utf8"
)

// checkText refuses text that the two engines would treat differently. Names and
// values alternate.
func checkText(namesAndValues ...string) error {
	for i := 0; i+1 < len(namesAndValues); i += 2 {
		if reason := textFault(namesAndValues[i+1]); reason != "" {
			return &TextError{Field: namesAndValues[i], Reason: reason}
		}
	}
	return nil
}

// textFault says what keeps a text from being stored, or nothing.
func textFault(text string) string {
	switch {
	case !utf8.ValidString(text):
		return "is not UTF-8"
	case strings.ContainsRune(text, 0):
		return "holds a NUL character"
	}
	return ""
}

// checkBody refuses a JSON body that is no text. It is not parsed: what it means
// is for whoever put it.
func checkBody(name string, body []byte) error {
	if reason := textFault(string(body)); reason != "" {
		return &TextError{Field: name, Reason: reason}
	}
	return nil
}

// isKind tells whether a text is lower-case words joined by hyphens.
func isKind(text string) bool {
	if text == "" || len(text) > 40 {
		return false
	}
	for _, c := range text {
		if (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' && c != '_' {
			return false
		}
	}
	return true
}
