package api_test

import (
	"bytes"
	"net/http"
	"strings"
	"testing"

	"ribband/seed"

	"github.com/shopspring/decimal"
)

type scarfedList struct {
	Cost, Bound amount
	ScarfLabour *amount `json:"scarf_labour"`
	WithScarfs  *amount `json:"cost_with_scarfs"`
	Timber      []struct {
		Lines   []string
		Cost    amount
		Scarfed *struct {
			Count, Must int
			Labour      amount
			Saves       *amount
		}
	}
	Added   []struct{ ID string }
	Ripping []struct {
		Boards []struct {
			Strips []struct {
				Pieces []struct {
					Line  string
					Scarf *struct{ Boards []int }
				}
			}
		}
	}
}

// A plank that boards give whole is made of two where long boards are dear: the stored bill is bought so, the quote has the hours of
// the joints that the plan makes and no others, with how they came about, and the issued quote reprices to itself to the cent. On
// prices at which long boards are cheap again the hours go with the scarfs, and the account says so.
func TestAScarfedPlankIsQuotedAndRepriced(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		dear := bytes.ReplaceAll(bytes.ReplaceAll(seed.PricesCSV(2), []byte("BFT,13.10"), []byte("BFT,93.10")), []byte("BFT,14.75"), []byte("BFT,99.75"))
		sheet := d.sheetOf(dear)
		option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "One plank"}, d.key()).want(201).header.Get("Location")
		taped := map[string]any{"strake": 4, "side": "port", "species": "white_oak", "grade": "FAS", "thickness": "0-1-2", "by_hand": map[string]any{"length": "11-0-0", "width": "0-4-0"}}
		d.send(http.MethodPut, option+"/planks", planksOf(taped), firstPut).want(201)
		var list scarfedList
		bought := d.get(option + "/buy-list?version=1&sheet=" + id(sheet)).want(200)
		bought.into(&list)
		if warned := bought.warned(); !strings.Contains(warned, "planks_scarfed") {
			t.Errorf("%q is warned of, not that a plank's scarf may lie beside another", warned)
		}
		s := list.Timber[0].Scarfed
		// 2 hours at 48.50
		if len(list.Timber) != 1 || s == nil || s.Count != 1 || s.Must != 0 || s.Labour.Amount.String() != "97" || s.Saves == nil || s.Saves.Amount.Sign() <= 0 || list.ScarfLabour == nil || len(list.Added) != 1 {
			t.Fatalf("%+v", list)
		}
		if all := list.Cost.Amount.Add(list.ScarfLabour.Amount); list.WithScarfs == nil || !list.WithScarfs.Amount.Equal(all) || list.Bound.Amount.GreaterThan(all) {
			t.Errorf("%s with its scarfs, not %s; none below %s", list.WithScarfs, all, list.Bound.Amount)
		}
		halves := 0
		for _, b := range list.Ripping[0].Boards {
			for _, strip := range b.Strips {
				for _, piece := range strip.Pieces {
					if piece.Scarf != nil && len(piece.Scarf.Boards) > 0 {
						halves++
					}
				}
			}
		}
		if halves == 0 {
			t.Errorf("no halves on the ripping list: %+v", list.Ripping)
		}
		drawn := d.get(option + "/ripping-list.svg?version=1&list=1&sheet=" + id(sheet)).want(200)
		if !strings.Contains(string(drawn.body), "other half on board") {
			t.Error("the drawing does not say where the other half lies")
		}
		fields := d.quoteFields(id(option))
		fields["sheet"], fields["version"] = id(sheet), 1
		revision := d.send(http.MethodPost, d.job("quotes"), fields, d.key()).want(201).header.Get("Location") + "/revisions/1"
		var quoted struct {
			Priced struct {
				Options []struct {
					Total   amount
					Lines   []quotedLine
					Figures []struct{ ID, Formula, Value string }
				}
			}
		}
		d.get(revision).want(200).into(&quoted)
		hours := labourOf(quoted.Priced.Options[0].Lines, "scarf_plank")
		// an hour of setting up, and two
		if len(hours) != 1 || hours[0].Quantity.Value.String() != "3" || hours[0].Cost.Amount.String() != "145.5" || hours[0].Figure != "step/scarf_plank/hours_as_planned" {
			t.Fatalf("%+v", hours)
		}
		figures := quoted.Priced.Options[0].Figures
		if len(figures) == 0 || figures[len(figures)-1].ID != hours[0].Figure || figures[len(figures)-1].Formula != "step/hours_as_planned" {
			t.Errorf("%+v", figures)
		}
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
		var same, other repriced
		d.get(revision + "/repriced?version=1&sheet=" + id(sheet)).want(200).into(&same)
		o := same.Options[0]
		if !o.Total.Difference.Amount.IsZero() || !o.Total.Old.Amount.Equal(quoted.Priced.Options[0].Total.Amount) {
			t.Errorf("%+v", o.Total)
		}
		d.get(revision + "/repriced?version=2&sheet=" + d.demo.Sheet).want(200).into(&other)
		said := false
		for _, l := range other.Options[0].Lines {
			cost := decimal.Zero
			for _, b := range l.Because {
				cost = cost.Add(b.Cost.Amount)
				said = said || strings.HasPrefix(l.Key, "scarf_plank/shipwright/") && strings.Contains(b.Detail, "now 0.00 h, before 3.00 h")
			}
			if !cost.Equal(l.Cost.Difference.Amount) {
				t.Errorf("%s: %s of %s is told", l.Key, cost, l.Cost.Difference.Amount)
			}
		}
		if !said {
			t.Errorf("%+v", other.Options[0].Lines)
		}
	})
}

type quotedLine struct {
	Step, Item, Kind, Figure string
	Quantity                 struct{ Value decimal.Decimal }
	Cost                     amount
}

func labourOf(lines []quotedLine, step string) []quotedLine {
	var out []quotedLine
	for _, l := range lines {
		if l.Step == step && l.Kind == "labour" {
			out = append(out, l)
		}
	}
	return out
}

// Planks of two widths that one board holds side by side are bought, drawn, quoted and repriced so.
func TestPlanksSideBySideAreQuotedAndRepriced(t *testing.T) {
	d := open(t, file(t))
	option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Two planks"}, d.key()).want(201).header.Get("Location")
	taped := func(strake int, length, width string) map[string]any {
		return map[string]any{"strake": strake, "side": "port", "species": "longleaf_pine", "grade": "clear", "thickness": "0-1-2", "by_hand": map[string]any{"length": length, "width": width}}
	}
	d.send(http.MethodPut, option+"/planks", planksOf(taped(4, "11-0-0", "0-3-4"), taped(6, "9-0-0", "0-5-4")), firstPut).want(201)
	var list struct {
		Timber []struct {
			Boards     []struct{ Count int }
			Proven     bool
			SideBySide *struct {
				Cost, Apart amount
				Layouts     []struct{ Strips []any }
			} `json:"side_by_side"`
		}
	}
	query := "version=2&sheet=" + d.demo.Sheet
	d.get(option + "/buy-list?" + query).want(200).into(&list)
	s := list.Timber[0].SideBySide
	if len(list.Timber) != 1 || !list.Timber[0].Proven || len(list.Timber[0].Boards) != 1 || list.Timber[0].Boards[0].Count != 1 || s == nil || len(s.Layouts) != 1 || len(s.Layouts[0].Strips) != 2 || !s.Cost.Amount.LessThan(s.Apart.Amount) {
		t.Fatalf("%+v", list)
	}
	if drawn := d.get(option + "/ripping-list.svg?list=1&" + query).want(200); !strings.Contains(string(drawn.body), " wide") {
		t.Error("the drawing does not say how wide the strips are")
	}
	revision := d.send(http.MethodPost, d.job("quotes"), d.quoteFields(id(option)), d.key()).want(201).header.Get("Location") + "/revisions/1"
	d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
	var same repriced
	d.get(revision + "/repriced?" + query).want(200).into(&same)
	if o := same.Options[0]; !o.Total.Difference.Amount.IsZero() || o.Total.Old.Amount.Sign() <= 0 {
		t.Errorf("%+v", o.Total)
	}
	d.get(revision + "/repriced?version=1&sheet=" + d.demo.Sheet).want(200)
}
