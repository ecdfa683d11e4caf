package takeoff

import (
	"errors"
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/fastening"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
	"ribband/takeoff/plank"
	"ribband/takeoff/quantity"
	"ribband/takeoff/spare"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Fastened is how the planks are fastened to the new frames, and why.
type Fastened struct {
	// Rule that says how many screws a strake takes on a frame, Each how many that is here; 1.5 is one and two by turns.
	Rule   fastening.PerCrossing `json:"rule"`
	Each   string                `json:"screws_each"`
	Source string                `json:"source"`
	// Crossings and Screws over all frames worked on, those lost not counted.
	Crossings quantity.Quantity `json:"crossings"`
	Screws    quantity.Quantity `json:"screws"`
	// Published is the screw that a published table has for such planking; nil where it has none.
	Published *PublishedScrew `json:"published,omitempty"`
	// Woods are how the frames' woods hold it.
	Woods []HeldIn `json:"woods"`
	Why   string   `json:"why"`
	// Change is what it would take to change it.
	Change   string    `json:"change"`
	Cautions []Caution `json:"cautions"`
}

// Caution is something to look out for at the work, with its source.
type Caution struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// PublishedScrew is a row of the published table, inches as it writes them.
type PublishedScrew struct {
	Plank   string `json:"plank_in"`
	Gauge   int64  `json:"gauge"`
	Body    string `json:"body_in"`
	Length  string `json:"length_in"`
	Plug    string `json:"plug_in"`
	PlugOr  string `json:"plug_or_in,omitempty"`
	ShankIn string `json:"shank_in"`
	Source  string `json:"source"`
	Note    string `json:"note,omitempty"`
}

// HeldIn is how a wood holds the published screw: the allowable pull of an inch of thread in side grain, and the lead hole for it.
type HeldIn struct {
	Species string `json:"species"`
	// Gravity on oven-dry weight and volume.
	Gravity      string `json:"gravity_oven_dry"`
	WithdrawalLb string `json:"withdrawal_lb_in"`
	// LeadPct of the root; empty where none is published for so light a wood.
	LeadPct string `json:"lead_pct_of_root,omitempty"`
	Source  string `json:"source"`
	Note    string `json:"note,omitempty"`
}

// fastenings gathers what is fastened over the boat.
type fastenings struct {
	crossings, screws []string // figures
	woods             []timber.Species
	shallowest        decimal.Decimal
	worked, missing   bool
	planking          *frame.Planking
	// ofPlanks are how many of the crossings are with new planks.
	ofPlanks int
	// hoods are the hood ends of new planks.
	hoods int
}

// planks counts what fastens a new plank.
func (all *fastenings) planks(b Basis, j plank.Job, r plank.Result, t *derivation.Table) {
	if r.CrossingsFigure != "" {
		all.crossings = append(all.crossings, r.CrossingsFigure)
	}
	all.screws = append(all.screws, r.ScrewFigures...)
	all.hoods += j.Ends.Hoods
	all.ofPlanks += j.Crossings
	for _, f := range b.Frames {
		if all.shallowest.IsZero() || f.Moulded.LessThan(all.shallowest) {
			all.shallowest = f.Moulded
		}
		if all.planking == nil && f.Planking != nil {
			all.planking = f.Planking
		}
	}
	if all.planking == nil { // nothing beside the frames: the plank's own, its finished thickness
		all.planking = &frame.Planking{Thickness: j.Thickness, Width: t.Quantity(j.Path() + "/board_width").Value()}
	}
}

// fasten puts on the bill what fastens the planks to a frame that is worked on: to all of it, or to the pieces of a plan.
func (b Basis) fasten(s stand, c frame.Choice, wood timber.Species, p plan, t *derivation.Table, out *bill.Bill, all *fastenings) error {
	if len(p.faults) > 0 || len(p.jobs) == 0 && p.steamed == nil {
		return nil
	}
	all.worked = true
	rule, planks := b.Rules.Fastening, s.frame.Planking
	all.planking = planks // one for the boat
	if rule == nil || planks == nil {
		all.missing = true
		return nil
	}
	each, source, err := rule.Screws(planks.Width)
	if err != nil {
		return err
	}
	path := s.frame.Member().Path()
	w := derivation.Given("w", "frames/planking", planks.Width, quantity.Millimetre)
	one := func(at string) {
		t.Derive(at+"/plank_screws_net", "fastening/screws", []derivation.Input{t.Ref("n", at+"/crossings")}, derivation.ByFactor("s", each, source))
		need := func(name, net string, m bill.Material, item string) {
			out.Lines = append(out.Lines, spare.Item(at+"/"+name, net, bill.Line{Losses: b.Rules.For(m), Material: m, Item: item,
				Driver: string(step.PlankFastenings), Member: s.frame.Member(), Remedy: c.Remedy}, t))
		}
		need("plank_screws", at+"/plank_screws_net", bill.Fastenings, rule.Screw)
		if rule.Plug != "" {
			t.Derive(at+"/plugs_net", "fastening/plugs", []derivation.Input{t.Ref("N", at+"/plank_screws_net")})
			need("plugs", at+"/plugs_net", bill.Plugs, rule.Plug)
		}
		out.Measures = append(out.Measures, bill.Measure{Driver: string(step.PlankFastenings), Member: s.frame.Member(), Remedy: c.Remedy, Quantity: t.Quantity(at + "/plank_screws_net"), Figure: at + "/plank_screws_net"})
		all.crossings, all.screws = append(all.crossings, at+"/crossings"), append(all.screws, at+"/plank_screws_net")
	}
	if p.whole() {
		high, err := quantity.Decimal(s.shape.GirthHigh, quantity.Ratio)
		if err != nil {
			high = decimal.NewFromInt(1)
		}
		t.Derive(path+"/crossings", "fastening/crossings", []derivation.Input{t.Ref("G", path+"/girth"), w}, derivation.ByFactor("f", high, s.shape.RangeSource()))
		one(path)
	} else {
		for _, j := range p.jobs {
			at := path + "/" + j.Piece.Name
			t.Derive(at+"/crossings", "fastening/crossings_of_piece", []derivation.Input{derivation.Given("a", "pieces", j.Piece.From.Round(3), quantity.Millimetre),
				derivation.Given("b", "pieces", j.Piece.To.Round(3), quantity.Millimetre), w})
			one(at)
		}
	}
	deep := s.frame.Moulded
	if s.frame.MouldedHead.IsPositive() {
		deep = decimal.Min(deep, s.frame.MouldedHead)
	}
	if all.shallowest.IsZero() || deep.LessThan(all.shallowest) {
		all.shallowest = deep
	}
	for _, known := range all.woods {
		if known.Code == wood.Code {
			return t.Err()
		}
	}
	all.woods = append(all.woods, wood)
	return t.Err()
}

// why the crossings are as many as they are, of strakes so wide.
func (all fastenings) why(of *Fastened, source, wide string) string {
	out := all.whyCrossings(of, source, wide)
	if all.hoods > 0 {
		out += fmt.Sprintf(" Besides, %s fastened at stem, stern or transom.", hoodEnds(all.hoods))
	}
	return out
}

func hoodEnds(n int) string {
	if n == 1 {
		return "1 hood end is"
	}
	return fmt.Sprintf("%d hood ends are", n)
}

func (all fastenings) whyCrossings(of *Fastened, source, wide string) string {
	planks := "A new plank is fastened to every frame that it lies on, by its own width, and not again where that frame is renewed too"
	if all.worked && all.ofPlanks == 0 {
		return fmt.Sprintf("A new frame takes every strake that crosses it: %s crossings of strakes %s wide on the whole, %s screws each (%s).", of.Crossings, wide, of.Each, source)
	}
	if len(all.crossings) > 0 && !all.worked {
		return fmt.Sprintf("%s: %s crossings (%s).", planks, of.Crossings, source)
	}
	return fmt.Sprintf("A new frame takes every strake that crosses it, of strakes %s wide on the whole %s screws each (%s). %s: %d of %s crossings in all.", wide, of.Each, source, planks, all.ofPlanks, of.Crossings)
}

// lacks says what is missing for the fastenings to be counted; nil where nothing is.
func (b Basis) lacks(all fastenings) *bill.Warning {
	if !all.missing {
		return nil
	}
	var lacks []string
	if b.Rules.Fastening == nil {
		lacks = append(lacks, "plank_fastenings in the yard's rules")
	}
	if all.planking == nil {
		lacks = append(lacks, "planking, its thickness and the width of a strake, with the frames")
	}
	return &bill.Warning{Code: "fastenings_not_counted", Detail: "What fastens the planks to the new frames is not on the bill.", Fix: "Enter " + strings.Join(lacks, " and ") + "."}
}

// fastened tells of the boat's fastenings; nil where none are counted.
func (b Basis) fastened(all fastenings, t *derivation.Table) (*Fastened, []bill.Warning, error) {
	var warnings []bill.Warning
	if len(all.screws) == 0 {
		return nil, nil, nil
	}
	rule := b.Rules.Fastening
	each, source, err := rule.Screws(all.planking.Width)
	if err != nil {
		return nil, nil, err
	}
	sum := func(figures []string) quantity.Quantity {
		total := decimal.Zero
		for _, f := range figures {
			total = total.Add(t.Quantity(f).Value())
		}
		return quantity.Count(total.IntPart())
	}
	out := &Fastened{Rule: rule.PerCrossing, Each: each.String(), Source: source, Crossings: sum(all.crossings), Screws: sum(all.screws), Woods: []HeldIn{}, Cautions: fastenCautions(),
		Change: "Another rule or number in the yard's rules of fastenings, or strakes of another width with the frames."}
	out.Why = all.why(out, source, b.width(all.planking.Width.InexactFloat64()))
	screw, exact, err := fastening.PlankingFor(all.planking.Thickness)
	var none *fastening.RangeError
	switch {
	case errors.As(err, &none):
		out.Why += " " + capitalised(none.Detail) + "."
		return out, warnings, nil
	case err != nil:
		return nil, nil, err
	}
	shank, err := fastening.Shank(screw.Gauge)
	if err != nil {
		return nil, nil, err
	}
	out.Published = &PublishedScrew{screw.Plank, screw.Gauge, screw.Body, screw.Length, screw.Plug, screw.PlugOr, shank.String(), fastening.PlankingSource, ""}
	if !exact {
		out.Published.Note = fmt.Sprintf("Planking of %s mm lies between two rows: this is the thicker plank's.", all.planking.Thickness)
	}
	long, err := notation.Inches.Parse(screw.Length)
	if err != nil {
		return nil, nil, err
	}
	if room := all.planking.Thickness.Add(all.shallowest); long.Decimal().GreaterThanOrEqual(room) {
		warnings = append(warnings, bill.Warning{Code: "screws_come_through", Detail: fmt.Sprintf("Screws of %s in, as published for such planking, are as long as plank and frame together are thick (%s mm) and come through.", screw.Length, room),
			Fix: "Shorter screws, counterbored less, or through fastenings."})
	}
	for _, wood := range all.woods {
		held, err := heldIn(wood, shank)
		if err != nil {
			return nil, nil, err
		}
		if held != nil {
			out.Woods = append(out.Woods, *held)
		}
	}
	return out, warnings, nil
}

func capitalised(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// heldIn is how a wood holds a shank, inches; nil where the wood's weight when oven-dry is not known.
func heldIn(wood timber.Species, shank decimal.Decimal) (*HeldIn, error) {
	density, err := wood.DensityAt(decimal.Zero)
	var missing *timber.MissingValueError
	if errors.As(err, &missing) {
		return nil, nil //nolint:nilnil // a wood of which that is not known is left out
	}
	if err != nil {
		return nil, err
	}
	g := density.Shift(-3).Round(3)
	pull, err := fastening.Withdrawal(g, shank)
	if err != nil {
		return nil, err
	}
	out := &HeldIn{Species: wood.Code, Gravity: g.String(), WithdrawalLb: pull.Round(0).String(), Source: fastening.HoldingSource + "; specific gravity: " + wood.GravityAt12.Source}
	lead, err := fastening.LeadFor(g)
	var light *fastening.RangeError
	switch {
	case errors.As(err, &light):
		out.Note = "For a wood as light no lead hole is published: try one in a piece of it."
	case err != nil:
		return nil, err
	default:
		out.LeadPct = lead.ShareOfRoot.Shift(2).String()
		out.Source += "; lead: " + lead.Source
	}
	return out, nil
}

// fastenCautions are what to look out for when planks are fastened to new frames.
func fastenCautions() []Caution {
	const handbook = "US Army, TB 55-1900-201-45/1 (repair of wooden craft), undated"
	const trade = "common practice, no source"
	return []Caution{
		{"New fastenings are at least as many and as large as those that come out; brass is not for salt water.", handbook},
		{"Old holes in planks are plugged or taken up by a larger screw; a new one beside an old one splits the plank's edge.", trade},
		{"One metal below the waterline: bronze beside iron or steel eats the lesser of the two.", trade},
		{"Old fastenings spring and break when they are drawn: eyes are covered, and nobody stands in line with the bar.", trade},
	}
}
