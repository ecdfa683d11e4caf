package web

import (
	"errors"
	"fmt"
	"net/http"
	"regexp"
	"strconv"
	"strings"

	"ribband/server/internal/app"
	"ribband/takeoff/document"
	"ribband/takeoff/timber"
	"ribband/takeoff/timber/tally"

	"github.com/shopspring/decimal"
)

// Fields of a list of boards, in the order of the form.
var tallyFields = []string{"rule", "written", "measured", "half_foot", "grade", "dressed", "species", "moisture_pct", "stated_board_feet", "boards"}

var tallyLabels = map[string]string{
	"rule": "Counted by", "written": "Sizes are written in", "measured": "Measured", "half_foot": "Half a foot of face", "grade": "Grade", "dressed": "Dressed",
	"species": "Wood", "moisture_pct": "Moisture", "stated_board_feet": "The supplier’s board feet", "boards": "Boards",
}

// wayOf is one value of a list to choose from, with what it is called.
type wayOf struct{ Value, Text string }

// Choices of the form.
var (
	tallyRules = []wayOf{{string(tally.SurfaceMeasure), "surface measure: rough hardwood"}, {string(tally.Exact), "exact board feet: baulks"},
		{string(tally.NominalSoftwood), "nominal size: softwood"}, {string(tally.CubicMetre), "the cubic metre"}}
	tallyWays = []wayOf{{string(tally.InchesAndFeet), "inches, lengths in feet"}, {"feet_inches_eighths", "feet-inches-eighths: 8-0-0"}, {"inches", "inches: 96"}, {"mm", "millimetres: 2440"}, {"m", "metres: 2.44"}}
	tallyWhen = []wayOf{{string(tally.Dry), "dry: a net tally"}, {string(tally.Green), "green, before drying: a gross tally"}}
	tallyHalf = []wayOf{{"", "as the yard’s rules say"}, {string(timber.TieUp), "counts up"}, {string(timber.TieDown), "counts down"}, {string(timber.TieAlternate), "by turns, up first"}}
	tallyDone = []wayOf{{"", "not softwood by nominal size"}, {string(tally.SurfacedDry), "surfaced dry"}, {string(tally.SurfacedGreen), "surfaced green"}, {string(tally.RoughDry), "rough dry"}}
	tallyKind = []wayOf{{"", "not said"}, {"FAS", "FAS"}, {"F1F", "F1F"}, {"Selects", "Selects"}, {"No.1C", "No. 1 Common"}, {"No.2A", "No. 2A Common"}, {"No.3A", "No. 3A Common"}, {"No.3B", "No. 3B Common"}}
)

// picker is a list to choose from as it is shown.
type picker struct {
	Name, Label, Hint, Value, Wrong string
	Choices                         []wayOf
}

func (f form) picker(name, label, hint string, of []wayOf) picker {
	return picker{name, label, hint, f.Values[name], f.Wrong(name), of}
}

type tallyPage struct {
	form
	woods []wayOf
	// Tally is there once a list is counted, its rows beside their lines.
	Tally *app.TimberTally
	Path  string
}

// Rounds reports whether the rule rounds faces.
func (t tallyPage) Rounds() bool { return t.Tally.Rule == tally.SurfaceMeasure }

// Places that a column of the lots is written to, so that its figures stand under each other.
func (t tallyPage) Places(column string) int32 {
	var most int32
	for _, r := range t.Tally.Rows {
		d := map[string]decimal.Decimal{"thickness": r.ThicknessIn, "width": r.WidthIn, "length": r.LengthFt}[column]
		most = max(most, -d.Exponent())
	}
	return most
}

// Pickers before the list of boards.
func (t tallyPage) Pickers() []picker {
	return []picker{t.picker("rule", "Counted by", "", tallyRules), t.picker("written", "Sizes are written in", "a thickness may always be in quarters, as 8/4", tallyWays), t.picker("measured", "Measured", "", tallyWhen)}
}

// Further pickers, for what is asked beside the count.
func (t tallyPage) Further() []picker {
	return []picker{t.picker("half_foot", "Half a foot of face", "of surface measure only", tallyHalf), t.picker("grade", "Grade", "of surface measure only", tallyKind), t.picker("dressed", "Dressed", "of nominal softwood only", tallyDone), t.picker("species", "Wood", "to weigh the boards", t.woods)}
}

// woods are the yard's species to choose from.
func (p *Pages) woods(v *visit, none string) ([]wayOf, error) {
	s, err := p.app.Species(v.Context(), v.who, 0)
	if err != nil {
		return nil, err
	}
	var out []wayOf
	if none != "" {
		out = append(out, wayOf{"", none})
	}
	for _, w := range s.Doc.Species {
		out = append(out, wayOf{w.Code, w.Name})
	}
	return out, nil
}

const timberPath = "/timber"

// timber shows the form of a list of boards.
func (p *Pages) timber(v *visit) error {
	woods, err := p.woods(v, "not said, and not weighed")
	if err != nil {
		return err
	}
	body := tallyPage{form: newForm(tallyFields...), woods: woods, Path: timberPath}
	return p.showTally(v, http.StatusOK, body)
}

func (p *Pages) showTally(v *visit, status int, body tallyPage) error {
	return p.show(v, status, "timber", page{Title: body.title("Count and weigh a supplier’s boards"), Way: []link{{"Jobs", "/"}}, Body: body})
}

// tallyTimber counts the list of the form.
func (p *Pages) tallyTimber(v *visit) error {
	woods, err := p.woods(v, "not said, and not weighed")
	if err != nil {
		return err
	}
	body := tallyPage{woods: woods, Path: timberPath}
	if body.form, err = v.filled(tallyFields...); err != nil {
		return err
	}
	x := body.Values
	doc := tally.Document{Rule: tally.Rule(x["rule"]), Written: tally.Written(x["written"]), Measured: tally.Measured(x["measured"]), HalfFoot: timber.Tie(x["half_foot"]), Grade: x["grade"],
		Dressed: tally.Dressed(x["dressed"]), Species: x["species"], MoisturePct: pointed(x["moisture_pct"]), StatedBoardFeet: pointed(x["stated_board_feet"])}
	rows, lines, faults := boardLines(x["boards"])
	if len(faults) == 0 {
		doc.Boards = rows
		var t app.TimberTally
		if t, err = p.app.TallyTimber(v.Context(), v.who, doc); err == nil {
			body.Tally = &t
			return p.showTally(v, http.StatusOK, body)
		}
		if !errors.As(err, &faults) {
			return err
		}
		faults = onLines(faults, lines)
	}
	body.wrong(faults, tallyLabels)
	return p.showTally(v, http.StatusUnprocessableEntity, body)
}

// pointed is a number with a decimal comma as one with a point.
func pointed(s string) string {
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		return strings.Replace(s, ",", ".", 1)
	}
	return s
}

// apart is what stands between the figures of a line of boards.
var apart = regexp.MustCompile(`\s*(?:[xX×;]|\t)\s*`)

// boardLines reads boards, a lot to a line: how many, thickness, width, length. lines says on which line each row stood.
func boardLines(text string) (rows []tally.Row, lines []int, faults document.Faults) {
	for i, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		cells := apart.Split(line, -1)
		count, err := strconv.ParseInt(cells[0], 10, 64)
		if len(cells) != 4 || err != nil {
			faults.Add("/boards", "how many x thickness x width x length, for example 2 x 8/4 x 6 1/2 x 8", "line %d is not a lot of boards", i+1)
			continue
		}
		rows, lines = append(rows, tally.Row{Count: count, Thickness: cells[1], Width: cells[2], Length: cells[3]}), append(lines, i+1)
	}
	return rows, lines, faults
}

// rowPointer leads to one figure of a row.
var rowPointer = regexp.MustCompile(`^/boards/([0-9]+)/`)

// onLines puts faults of rows on the lines on which they were typed.
func onLines(faults document.Faults, lines []int) document.Faults {
	out := make(document.Faults, len(faults))
	for i, x := range faults {
		if m := rowPointer.FindStringSubmatch(x.Pointer); m != nil {
			if row, err := strconv.Atoi(m[1]); err == nil && row < len(lines) {
				x.Pointer, x.Detail = "/boards", fmt.Sprintf("line %d: %s", lines[row], x.Detail)
			}
		}
		out[i] = x
	}
	return out
}
