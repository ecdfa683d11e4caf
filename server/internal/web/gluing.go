package web

import (
	"fmt"
	"net/http"
	"strings"

	"ribband/server/internal/app"
	"ribband/takeoff"
)

// gluingPage is how an option's blanks are glued up, and a record of each to fill in at the bench.
type gluingPage struct {
	Option app.Option
	Says   lengths
	app.Gluing
}

func gluingPath(job, option string) string { return optionPath(job, option) + "/gluing" }

// gluing is the page of batches and glue records, made to be printed.
func (p *Pages) gluing(v *visit) error {
	job, option := v.PathValue("job"), v.PathValue("option")
	j, o, _, err := p.takenOff(v)
	if err != nil {
		return err
	}
	g, err := p.app.GluingOf(v.Context(), v.who, job, option)
	if err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "gluing", page{Title: "Gluing for " + j.Boat.Name + ", option “" + o.Name + "”",
		Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(job)}, {o.Name, optionPath(job, option)}}, Body: gluingPage{o, lengths{j.Notation}, g}})
}

// blankText is a blank's path in words: "frame 12 port, part 1", and of its joint "frame 12 port, part 1, scarfs".
func blankText(path string) string {
	parts := strings.Split(path, "/")
	member := min(3, len(parts))
	out := strings.Join(parts[:member], " ")
	for _, below := range parts[member:] {
		out += ", " + plain(below)
	}
	return out
}

// clockText is minutes as people say them: "1 h 14 min".
func clockText(minutes int64) string {
	h, m := minutes/60, minutes%60
	switch {
	case h == 0:
		return fmt.Sprintf("%d\u00a0min", m)
	case m == 0:
		return fmt.Sprintf("%d\u00a0h", h)
	}
	return fmt.Sprintf("%d\u00a0h %d\u00a0min", h, m)
}

// glueRecord is the record of a blank, with its glue line as the page tells areas.
type glueRecord struct {
	takeoff.GlueRecord
	GlueLine string
}

// In are the records of a batch.
func (g gluingPage) In(no int) []glueRecord {
	var out []glueRecord
	for _, r := range g.Records {
		if r.Batch == no {
			out = append(out, glueRecord{r, g.Says.Counted(r.Area)})
		}
	}
	return out
}
