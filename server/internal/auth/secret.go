package auth

import (
	"crypto/rand"
	"encoding/base64"
	"fmt"
	"io"
	"strings"

	"ribband/server/internal/store"
)

// Prefix begins every token, so that one in the wrong place is recognised.
const Prefix = "rbd_"

// secretBytes is the random part of a token: 256 bits.
const secretBytes = 32

// Secret is a token in full, as it is handed out once. Printing it by accident
// shows no more than its prefix; [Secret.Reveal] gives the text.
type Secret struct{ text string }

// NewSecret makes a new token from the system's random source.
func NewSecret() (Secret, error) { return newSecret(rand.Reader) }

func newSecret(random io.Reader) (Secret, error) {
	var raw [secretBytes]byte
	if _, err := io.ReadFull(random, raw[:]); err != nil {
		return Secret{}, fmt.Errorf("random bits for a token: %w", err)
	}
	return Secret{Prefix + base64.RawURLEncoding.EncodeToString(raw[:])}, nil
}

// ParseSecret reads a token as a caller brings it. Only the exact text that was
// handed out is taken.
func ParseSecret(text string) (Secret, bool) {
	random, found := strings.CutPrefix(text, Prefix)
	if !found || len(random) != base64.RawURLEncoding.EncodedLen(secretBytes) {
		return Secret{}, false
	}
	// Strict: of the spellings that decode alike only one was handed out. The
	// decoder would skip line breaks, which no token holds.
	if raw, err := base64.RawURLEncoding.Strict().DecodeString(random); err != nil || len(raw) != secretBytes {
		return Secret{}, false
	}
	return Secret{text}, true
}

// Reveal is the token in full. It is shown once, to whom it is for, and never
// logged or stored.
func (s Secret) Reveal() string { return s.text }

// Hash is what is stored of the token: its SHA-256 in hexadecimal.
func (s Secret) Hash() string { return store.HashOf([]byte(s.text)) }

// String hides the token from logs and messages.
func (s Secret) String() string { return Prefix + "(hidden)" }

// GoString hides the token from %#v too.
func (s Secret) GoString() string { return s.String() }
