package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"

	"ribband/server/internal/auth"
)

//go:embed templates/*.html static/ribband.css
var files embed.FS

// look is the templates, each with the frame around it, and the style sheet.
type look struct {
	pages map[string]*template.Template
	css   css
}

// css is the style sheet under a path that changes with it, so that a browser may keep it.
type css struct {
	path string
	body []byte
}

func (c css) serve(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	w.Header().Set("Content-Length", strconv.Itoa(len(c.body)))
	_, _ = w.Write(c.body) // whoever asked has gone
}

// shared are templates that others use.
var shared = []string{"templates/frame.html", "templates/parts.html"}

func newLook() (look, error) {
	out := look{pages: map[string]*template.Template{}}
	body, err := files.ReadFile("static/ribband.css")
	if err != nil {
		return out, err
	}
	sum := sha256.Sum256(body)
	out.css = css{"/static/ribband-" + hex.EncodeToString(sum[:6]) + ".css", body}
	names, err := fs.Glob(files, "templates/*.html")
	if err != nil {
		return out, err
	}
	for _, name := range names {
		if name == shared[0] || name == shared[1] {
			continue
		}
		t, err := template.New("frame.html").Option("missingkey=error").Funcs(functions).ParseFS(files, append(shared, name)...)
		if err != nil {
			return out, err
		}
		out.pages[strings.TrimSuffix(path.Base(name), ".html")] = t
	}
	return out, nil
}

// page is what the frame shows around a page.
type page struct {
	// Title is the page's first line: what it is, and for which boat.
	Title string
	CSS   string
	// Plain leaves out who is signed in, where faults are shown.
	Plain bool
	Role  auth.Role
	// Way is the pages above this one, and Yard who the yard is.
	Way  []link
	Yard string
	Note string
	Body any
}

type link struct{ Text, Href string }

// render makes a whole page, or nothing.
func (l look) render(name string, v page) ([]byte, error) {
	t, ok := l.pages[name]
	if !ok {
		return nil, fmt.Errorf("there is no template %s", name)
	}
	var b bytes.Buffer
	if err := t.Execute(&b, v); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// show answers with a page.
func (p *Pages) show(v *visit, status int, name string, pg page) error {
	pg.CSS, pg.Role = p.look.css.path, v.who.Role
	if v.in() {
		yard, err := p.app.Letterhead(v.Context(), v.who)
		if err != nil {
			return err
		}
		pg.Yard, pg.Note = yard.Name, yard.Note
	}
	body, err := p.look.render(name, pg)
	if err != nil {
		return err
	}
	v.Header().Set("Content-Type", "text/html; charset=utf-8")
	v.send(status, body)
	return nil
}

func (v *visit) send(status int, body []byte) {
	v.Header().Set("Content-Length", strconv.Itoa(len(body)))
	v.WriteHeader(status)
	_, _ = v.Write(body) // whoever asked has gone
}

// Header is that of the answer.
func (v *visit) Header() http.Header { return v.ResponseWriter.Header() }

// Write writes to the answer.
func (v *visit) Write(b []byte) (int, error) { return v.ResponseWriter.Write(b) }

// to sends the browser on to a page, after a form was taken.
func (v *visit) to(address string) error {
	v.Header().Set("Location", address)
	v.send(http.StatusSeeOther, nil)
	return nil
}
