package plank

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Remedy of every plank.
const Remedy = boat.RenewPlank

// Job is one new plank.
type Job struct {
	Member boat.Member
	// Nth of the strake's new planks, from forward: two of them have figures of their own.
	Nth int
	// Part is which plank of the strake it is: "frames 8 to 15".
	Part      string
	Size      Size
	Thickness decimal.Decimal // of the finished plank, mm
	Species   timber.Species
	Grade     string
	// Butts are the butts that it makes new, those that it shares with a plank before it not counted again.
	Butts int
	// Longest is the longest board there is with its ends trimmed, mm; 0 where nobody said. Divide is where one more butt would
	// part the plank so that such boards do, empty where none would.
	Longest decimal.Decimal
	Divide  string
	// Ends are what its two ends stand on; nothing is known of a plank by hand. BlockWood is that of butt blocks by the rules.
	Ends      Ends
	BlockWood timber.Species
	// Crossings are the frames that it is fastened to and that take no fastenings of their own; Counted those that do.
	Crossings, Counted int
}

// Size of the smallest rectangle that holds the plank laid flat, at the high end of its range, mm; of one by hand nothing but
// the rectangle is known.
type Size struct {
	ByHand        *ByHand
	Length, Width float64
	// Run is how long the plank is along its middle, Area of the plank itself in square mm, Backing the greatest hollowing of
	// its inner face.
	Run, Area, Backing float64
	X0, X1             float64 // where its ends are, mm aft of station 0
}

// Result is what one new plank takes.
type Result struct {
	Lines    []bill.Line
	Measures []bill.Measure
	Faults   []bill.Fault
	Warnings []bill.Warning
	// WeightFigures are those of the plank and its blocks.
	WeightFigures []string
	Blocks        []MadeBlock
	// Scarfs that the bill counts for it, where it is longer than the stock; MayScarf that buying may make it of two parts.
	Scarfs   int64
	MayScarf bool
	// CrossingsFigure is empty, and there are no ScrewFigures, where nothing is fastened to frames or at hood ends, or the yard counts no
	// fastenings. What fastens ends to blocks is none of them.
	CrossingsFigure string
	ScrewFigures    []string
}

// Path is the head of its figures' ids.
func (j Job) Path() string { return fmt.Sprintf("%s/plank_%d", j.Member.Path(), j.Nth) }

// Name at the head of a sentence: "Strake 5 port, frames 8 to 15".
func (j Job) Name() string {
	out := fmt.Sprintf("Strake %d %s", j.Member.No, j.Member.Side)
	if j.Part != "" {
		out += ", " + j.Part
	}
	return out
}

// Woods are that of the plank, and that of its butt blocks where it makes some.
func (j Job) Woods() []timber.Species {
	if len(j.Ends.Blocks) > 0 && j.BlockWood.Code != "" && j.BlockWood.Code != j.Species.Code {
		return []timber.Species{j.Species, j.BlockWood}
	}
	return []timber.Species{j.Species}
}

func mm(symbol, where string, v decimal.Decimal) derivation.Input {
	return derivation.Given(symbol, where, v, quantity.Millimetre)
}

// Work puts the plank on the bill. The board is as wide as the rectangle, which holds the plank's round, so that spiling is no loss
// besides; it is as thick as plank and backing out, and planing is what buying adds, as for all timber. A
// *timber.MissingValueError where the density is not known.
func (j Job) Work(r rules.Rules, t *derivation.Table) (Result, error) {
	var out Result
	path := j.Path()
	j.size(t)
	thick := mm("T", "planking/plank_thickness", j.Thickness)
	t.Derive(path+"/board_length", "plank/board_length", []derivation.Input{t.Ref("L", path+"/length"), mm("a", "rules/blank_trim", r.BlankTrim)})
	width := t.Derive(path+"/board_width", "plank/board_width", []derivation.Input{t.Ref("W", path+"/width")})
	board := t.Derive(path+"/board_thickness", "plank/board_thickness", []derivation.Input{thick, t.Ref("b", path+"/backing")})
	t.Derive(path+"/net_volume", "plank/net_volume", []derivation.Input{t.Ref("P", path+"/area"), thick})
	t.Derive(path+"/board_volume", "plank/board_volume", []derivation.Input{t.Ref("L", path+"/board_length"), t.Ref("W", path+"/board_width"), t.Ref("T", path+"/board_thickness")})
	t.Derive(path+"/board_feet", "timber/board_feet", []derivation.Input{t.Ref("V", path+"/board_volume")})
	losses := r.For(rules.PlankTimber)
	var factors []derivation.Factor
	for _, l := range losses {
		factors = append(factors, derivation.ByFactor("l", l.Fraction, l.Name+": "+l.Source))
	}
	t.Derive(path+"/board_feet_gross", "bill/gross_board_feet", []derivation.Input{t.Ref("n", path+"/board_feet")}, factors...)
	if _, err := j.Species.Density(t); err != nil {
		return out, err
	}
	t.Derive(path+"/weight", "timber/weight", []derivation.Input{t.Ref("V", path+"/net_volume"), t.Ref("rho", timber.DensityFigure(j.Species.Code))})
	out.WeightFigures = append(out.WeightFigures, path+"/weight")
	t.Derive(path+"/planks", "plank/worked", nil)
	t.Derive(path+"/metres", "plank/metres", []derivation.Input{t.Ref("L", path+"/run")})
	if t.Err() != nil {
		return out, t.Err()
	}
	as, err := j.lengths(r, t, &out)
	if err != nil {
		return out, err
	}
	out.MayScarf = as.scarf != nil
	out.Lines = append(out.Lines, bill.Need(t, bill.Line{
		ID: path + "/timber", NetFigure: as.figure, Losses: losses, Material: bill.Timber, Driver: string(step.Planks), Member: j.Member, Part: as.part, Remedy: Remedy,
		// As a floor: what lies in the board's thickness is the siding, what lies across it the thickness.
		Pieces: &bill.Pieces{Species: j.Species.Code, Grade: j.Grade, Thickness: width.Value(), Siding: board.Value(), Planing: r.Planing, Length: as.each, Scarf: as.scarf},
	}, "bill/gross_pieces"))
	j.count(&out, t, step.Planks, path+"/planks")
	j.count(&out, t, step.PlankMetres, path+"/metres")
	if j.Butts > 0 {
		t.Derive(path+"/butts", "plank/butts", []derivation.Input{derivation.Given("k", "planks", decimal.NewFromInt(int64(j.Butts)), quantity.Each)})
		j.count(&out, t, step.NewButts, path+"/butts")
	}
	for _, of := range []func(rules.Rules, *derivation.Table, *Result) error{j.fasten, j.hooded, j.backed} {
		if err := of(r, t, &out); err != nil {
			return out, err
		}
	}
	return out, nil
}

// size puts the rectangle round the plank and the plank itself into the table.
func (j Job) size(t *derivation.Table) {
	path := j.Path()
	if h := j.Size.ByHand; h != nil {
		t.Derive(path+"/length", "plank/by_hand", []derivation.Input{mm("a", "planks/by_hand", h.Length)})
		t.Derive(path+"/width", "plank/by_hand", []derivation.Input{mm("a", "planks/by_hand", h.Width)})
		t.Derive(path+"/run", "plank/by_hand", []derivation.Input{mm("a", "planks/by_hand", h.Length)})
		t.Derive(path+"/backing", "plank/by_hand", []derivation.Input{mm("a", "planks/by_hand", decimal.Zero)})
		t.Derive(path+"/area", "plank/area_by_hand", []derivation.Input{t.Ref("L", path+"/length"), t.Ref("W", path+"/width")})
		return
	}
	place := func(symbol string, x float64) derivation.Input {
		at, err := quantity.Decimal(x, quantity.Millimetre)
		if err != nil {
			at = decimal.Zero
		}
		return mm(symbol, "planks", at.Round(1))
	}
	x0, x1 := place("x0", j.Size.X0), place("x1", j.Size.X1)
	t.Measured(path+"/length", "plank/length", j.Size.Length, x0, x1)
	t.Measured(path+"/width", "plank/width", j.Size.Width, x0, x1)
	t.Measured(path+"/run", "plank/run", j.Size.Run, x0, x1)
	t.Measured(path+"/backing", "plank/backing", j.Size.Backing, x0, x1)
	t.Measured(path+"/area", "plank/area", j.Size.Area/1e6, x0, x1)
}

func (j Job) count(out *Result, t *derivation.Table, d step.Driver, figure string) {
	out.Measures = append(out.Measures, bill.Measure{Driver: string(d), Member: j.Member, Remedy: Remedy, Quantity: t.Quantity(figure), Figure: figure})
}

// fasten puts what fastens the plank to the frames that it lies on on the bill, where the yard counts fastenings. Their gross is
// open until spare.Items shares it over the boat.
func (j Job) fasten(r rules.Rules, t *derivation.Table, out *Result) error {
	rule := r.Fastening
	if rule == nil || j.Crossings == 0 || t.Err() != nil {
		return t.Err()
	}
	path := j.Path()
	each, source, err := rule.Screws(t.Quantity(path + "/board_width").Value())
	if err != nil {
		return err
	}
	t.Derive(path+"/crossings", "plank/crossings", []derivation.Input{derivation.Given("k", "frames", decimal.NewFromInt(int64(j.Crossings+j.Counted)), quantity.Each),
		derivation.Given("r", "remedies", decimal.NewFromInt(int64(j.Counted)), quantity.Each)})
	t.Derive(path+"/screws_net", "fastening/screws", []derivation.Input{t.Ref("n", path+"/crossings")}, derivation.ByFactor("s", each, source))
	out.CrossingsFigure, out.ScrewFigures = path+"/crossings", []string{path + "/screws_net"}
	j.driven(step.PlankFastenings, "plank_screws", "plugs", path+"/screws_net", rule.Screw, rule.Plug, r, t, out)
	return t.Err()
}
