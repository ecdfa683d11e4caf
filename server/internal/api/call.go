package api

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// call is one request on its way: who asks, what for, and how it is answered.
type call struct {
	*gin.Context
	app *app.App
	who auth.Principal
	// link of a token; nil where nobody can sign in by one.
	link func(token string) string
	// misfits of the body, where there are any: then the operation is only tried, to find out what else is wrong.
	misfits *misfits
}

// maxBody is how long a body may be.
const maxBody = 2 << 20

// body reads the whole body, which has to be of one of the kinds; it tells which.
func (c *call) body(kinds ...string) (string, []byte, error) {
	kind, more, err := mime.ParseMediaType(c.GetHeader("Content-Type"))
	if err != nil || !contains(kinds, kind) {
		return "", nil, wrongMediaType.say("Send %s, and say so in Content-Type.", strings.Join(kinds, " or "))
	}
	if charset, given := more["charset"]; given && !strings.EqualFold(charset, "utf-8") && !strings.EqualFold(charset, "us-ascii") {
		return "", nil, wrongMediaType.say("The body is said to be written in %s. Send it in UTF-8.", shown(charset))
	}
	if coding := c.GetHeader("Content-Encoding"); coding != "" && coding != "identity" {
		return "", nil, wrongMediaType.say("The body is encoded as %s. Send it plain.", shown(coding))
	}
	body, err := io.ReadAll(http.MaxBytesReader(c.Writer, c.Request.Body, maxBody))
	var over *http.MaxBytesError
	if err != nil && !errors.As(err, &over) {
		return "", nil, malformedRequest.say("The body did not arrive whole. Send it again.")
	}
	if err == nil && kind == csvKind {
		err = turningRows(body)
	}
	return kind, body, err
}

// turningRows refuses a table with characters that turn the direction of writing, by line.
func turningRows(table []byte) error {
	var faults document.Faults
	row := 0
	for line := range bytes.Lines(table) {
		row++
		if r := turning(string(line)); r != 0 && len(faults) < maxFaults {
			faults = append(faults, document.Fault{Row: row, Detail: fmt.Sprintf("the row holds U+%04X, which turns the direction of writing", r), Fix: "the row without it"})
		}
	}
	return faults.Err()
}

// jsonBody reads a JSON body into a T, with its bytes.
func jsonBody[T any](c *call) (T, []byte, error) {
	_, body, err := c.body(jsonKind)
	if err != nil {
		var none T
		return none, nil, err
	}
	out, err := decoded[T](c, body)
	return out, body, err
}

// decoded reads a body into a T. What does not fit is kept for the answer, and from here on nothing is.
func decoded[T any](c *call, body []byte) (T, error) {
	out, err := decode[T](body)
	if errors.As(err, &c.misfits) {
		c.Request = c.Request.WithContext(app.Trial(c.Request.Context()))
		return out, nil
	}
	return out, err
}

// Kinds of bodies.
const (
	jsonKind = "application/json"
	csvKind  = "text/csv"
	pdfKind  = "application/pdf"
	yamlKind = "application/yaml"
)

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// key is the Idempotency-Key with the hash of what makes this request the same one.
func (c *call) key(body []byte) (app.Key, error) {
	text := strings.TrimSpace(c.GetHeader("Idempotency-Key"))
	// The draft of the header makes it a quoted string; people send it bare.
	if len(text) >= 2 && text[0] == '"' && text[len(text)-1] == '"' {
		text = text[1 : len(text)-1]
	}
	if text == "" {
		return app.Key{}, keyMissing.say("Send the header Idempotency-Key with a text of your own, once per thing to be made.")
	}
	if len(text) > 200 {
		return app.Key{}, malformedRequest.say("The Idempotency-Key has %d characters, 200 are taken.", len(text))
	}
	for _, r := range text {
		if r < 0x20 || r > 0x7e {
			return app.Key{}, malformedRequest.say("The Idempotency-Key holds characters beyond printable ASCII.")
		}
	}
	return app.Key{Text: text, Hash: store.RequestHash(c.Request.Method, c.Request.URL.RequestURI()+"\n"+c.GetHeader("Content-Type"), body)}, nil
}

// number is a whole number from 1 in the path; anything else is not there.
func (c *call) number(name string) (int64, error) {
	n, ok := count(c.Param(name))
	if !ok {
		return 0, nothingHere()
	}
	return n, nil
}

func count(text string) (int64, bool) {
	if len(text) == 0 || len(text) > 9 || text[0] == '0' || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.ParseInt(text, 10, 64)
	return n, err == nil
}

// shown is a text of the caller's in a message: quoted and short.
func shown(text string) string { return strconv.QuoteToASCII(clip(text)) }

// clip is a text of the caller's at a length that a message can hold.
func clip(text string) string {
	if len(text) > 40 {
		text = strings.ToValidUTF8(text[:40], "") + "…"
	}
	return strings.ToValidUTF8(text, "\ufffd")
}

// json answers with v. Without an ETag of its own the answer gets the hash of its bytes.
func (c *call) json(status int, etag string, v any) error {
	body, err := json.Marshal(v)
	if err != nil {
		return fmt.Errorf("answer: %w", err)
	}
	c.send(status, etag, jsonKind, body)
	return nil
}

// send answers with bytes; a GET whose If-None-Match names them gets 304.
func (c *call) send(status int, etag, kind string, body []byte) {
	if c.misfits != nil {
		return // what was only tried is not answered
	}
	if etag == "" && reading(c.Request.Method) {
		sum := sha256.Sum256(body)
		etag = `"` + hex.EncodeToString(sum[:8]) + `"`
	}
	if etag != "" {
		c.Header("ETag", etag)
	}
	if reading(c.Request.Method) {
		if c.who.Yard != "" {
			c.Header("Cache-Control", "private, no-cache")
		} else {
			c.Header("Cache-Control", "no-cache")
		}
		if matches(c.GetHeader("If-None-Match"), etag) {
			c.Status(http.StatusNotModified)
			c.Writer.WriteHeaderNow()
			return
		}
	}
	c.write(status, kind, body)
}

// write sends status, kind and bytes; of a HEAD the bytes stay behind.
func (c *call) write(status int, kind string, body []byte) {
	c.Header("Content-Type", kind)
	c.Header("Content-Length", strconv.Itoa(len(body)))
	c.Status(status)
	c.Writer.WriteHeaderNow()
	if c.Request.Method != http.MethodHead {
		_, _ = c.Writer.Write(body) // whoever asked has gone
	}
}

// answer sends what was kept with an idempotency key, byte for byte.
func (c *call) answer(a store.Answer) {
	if a.Location != "" {
		c.Header("Location", a.Location)
	}
	c.send(a.Status, a.ETag, a.ContentType, a.Body)
}

// made is the answer to keep for something that was made.
func made(status int, etag, location string, v any) (store.Answer, error) {
	body, err := json.Marshal(v)
	return store.Answer{Status: status, ETag: etag, Location: location, ContentType: jsonKind, Body: body}, err
}

// listed answers with a page of a list.
func (c *call) listed(next string, v any) error {
	if next != "" {
		q := c.Request.URL.Query()
		q.Set("cursor", next)
		c.Header("Link", "<"+c.Request.URL.Path+"?"+q.Encode()+`>; rel="next"`)
	}
	return c.json(http.StatusOK, "", v)
}

func reading(method string) bool { return method == http.MethodGet || method == http.MethodHead }
