package auth

import (
	"fmt"
	"regexp"
)

// tokenShaped is what may be a token, whole or in part: whatever goes on after the prefix, and any run as long as the
// random part of a token, which is longer than an id and stands bare where the prefix was written in another way.
var tokenShaped = regexp.MustCompile(`(?i:` + regexp.QuoteMeta(Prefix) + `)\S*|[A-Za-z0-9_-]{40,}`)

// Hide is a text as a log may hold it: nothing in it is shaped like a token.
func Hide(text string) string { return tokenShaped.ReplaceAllString(text, Prefix+"(hidden)") }

// HideCause is what a panic was raised with, as a log may hold it.
func HideCause(cause any) string { return Hide(fmt.Sprint(cause)) }
