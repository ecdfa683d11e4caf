package butt

// Rule is what a butt or a plank is held to.
type Rule struct {
	Name   string // short and lasting: adjacent_strakes
	Says   string
	Source string
}

const handbook = "US Army, TB 55-1900-201-45/1 (repair of wooden craft), "

// The rules there are.
var (
	// Adjacent: "3 frame spaces (or 5 ft)" is taken as either being enough, unless Terms.Both.
	Adjacent = Rule{"adjacent_strakes", "butts in adjacent strakes stand at least 3 frame spaces, or 5 ft, apart", handbook + "par. 2-13"}
	SameBay  = Rule{"same_bay", "between two butts in one frame bay lie at least 3 solid strakes", handbook + "par. 2-13"}
	Shortest = Rule{"shortest_plank", "a plank that replaces another is at least 6 frame spaces and at least 5 ft long", handbook + "par. 2-12 (number inferred)"}
	Remnant  = Rule{"remnant", "what is left of a plank is as long as a plank that replaces one", "common practice, no source"}
	InABay   = Rule{"place", "a butt stands on a block in the middle of a frame bay", "common practice, no source"}
	Stock    = Rule{"stock", "a plank is got out of the longest board there is", "from the stock that was given"}
)

// Terms are the figures of the rules. Frame spaces are counted, lengths millimetres.
type Terms struct {
	OnFrames             bool // butts may stand on frames too, and a butt between is in a bay all the same
	ApartSpaces, ApartMM float64
	Both                 bool // the two are both asked for; otherwise either is enough
	Solid                int  // strakes between two butts in one bay
	LeastSpaces, LeastMM float64
	Longest              float64 // board there is; 0 where it is not known
	middleFrom, middleTo float64
	nearFrame            float64
	trials               int
}

// Usual is the handbook's figures.
func Usual() Terms {
	return Terms{ApartSpaces: 3, ApartMM: 5 * 304.8, Solid: 3, LeastSpaces: 6, LeastMM: 5 * 304.8,
		// An assumption, no source: the middle third of a bay is its middle, and a tenth of a space from a frame is on it.
		middleFrom: 1. / 3, middleTo: 2. / 3, nearFrame: 0.1,
		trials: 100_000}
}

// slack is what a rounded length may fall short of a rule, mm.
const slack = 0.01

// Rules are all of them.
func Rules() []Rule { return []Rule{Adjacent, SameBay, Shortest, Remnant, InABay, Stock} }
