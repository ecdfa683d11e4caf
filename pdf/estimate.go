package pdf

import "time"

// PageSize names the paper an estimate is laid out for.
type PageSize string

// The two papers in use: ISO 216 A4 (210 x 297 mm) and ANSI/ASME Y14.1 A,
// called Letter (8 1/2 x 11 in). Anything else is laid out on A4.
const (
	A4     PageSize = "A4"
	Letter PageSize = "Letter"
)

// Amount is money, already rounded: exact decimal text in plain notation with a
// point ("12345.60", "-40.00") and the ISO 4217 code of its currency ("USD").
// Digits are grouped for print and never changed. Text that is not such a
// decimal is printed as it stands.
type Amount struct {
	Text     string
	Currency string
}

// Estimate is everything an estimate for an owner says, at selling prices only.
// There is no field for the yard's cost, margin, wages or suppliers, so none can
// be printed by mistake. All text is plain; line breaks in it are kept.
type Estimate struct {
	Yard     Yard
	Customer Customer
	Boat     Boat

	// Number is the yard's number of an issued estimate; empty for a draft.
	Number string
	// Revision counts from 1 within a number; 0 leaves it out.
	Revision int
	// IssuedDate and ValidUntilDate are ISO 8601 dates, "2026-11-25".
	IssuedDate     string
	ValidUntilDate string
	// Draft puts "Draft, not an offer" on every page and leaves no place to sign.
	Draft bool

	// Intro is the scope in plain sentences, three of them as a rule.
	Intro []string
	// Options are the ways to do the work, in the order the yard proposes them.
	Options []Option
	// Terms are the conditions, numbered in print from 1.
	Terms []string
	// Cautions stand in the order of the work.
	Cautions []Caution
	// LinesNote says once, above the lines of each option, what their quantities and prices stand for.
	LinesNote string
	// Deferral ends the cautions: it defers to surveyor, local codes and
	// licensed practice.
	Deferral string

	// HashText is the short hash of the frozen record (12 hexadecimal digits,
	// say), for the foot of each page, where it is called the fingerprint; what
	// is too long for its place is cut there. Empty for a draft.
	HashText string
	// Signatures are the places to sign, in order; a draft has none in print.
	Signatures []SignaturePlace
	// CreatedAt is the record's time, in print only as the file's dates.
	CreatedAt time.Time
	PageSize  PageSize
}

// Yard is who makes the estimate.
type Yard struct {
	Name    string
	Address []string // lines, top to bottom
	Contact string   // telephone, mail address, or both, one line each
	Note    string   // for a demo: that yard, boat, people and prices are invented
}

// Customer is who asked for it.
type Customer struct {
	Name    string
	Address []string
}

// Boat is what is to be rebuilt.
type Boat struct {
	Name        string
	Description string // one or two sentences: type, length, build, year
}

// Option is one way to do the work, complete with its price.
type Option struct {
	Name string
	// InPlainWords says what is done, one sentence an entry.
	InPlainWords []string
	// Undone says what stays undone, and what that means.
	Undone []string
	// Net is the price before tax, Gross the price the owner pays. Gross is Net
	// plus the Taxes; this package relies on it and does not check it.
	Net   Amount
	Taxes []Tax
	Gross Amount
	// RangeLow and RangeHigh bound the likely price, tax included like Gross.
	RangeLow, RangeHigh Amount
	// RangeNote says where the range comes from, so that it reads on from "The
	// range is": "the yard's own judgement, not a computed range".
	RangeNote string
	// WeightKg is the net weight of the new timber in kg as decimal text ("212").
	WeightKg string
	// Planks: it renews planks, so that not all its timber is glued up.
	Planks bool
	// TimeText is how long the work takes, in words with its unit ("about 640
	// hours", "11 weeks in the shed").
	TimeText string
	Steps    []StepLines
}

// StepLines are the lines of one step of the work, with their sum.
type StepLines struct {
	Title    string
	Lines    []Line
	Subtotal Amount
}

// Line is one thing the owner pays for.
type Line struct {
	Text string
	// Quantity is decimal text ("12.5"), Unit its unit as printed ("h", "board
	// ft"); both are empty for a lump sum.
	Quantity string
	Unit     string
	Amount   Amount
}

// Tax is one tax on an option: what it is called, its rate in percent as
// decimal text ("6.25"), what it is charged on, and how much it is.
type Tax struct {
	Category string
	Rate     string
	Taxable  Amount
	Amount   Amount
}

// Caution is one sentence of warning at the step where it matters.
type Caution struct {
	Step string
	Text string
}

// SignaturePlace is a line to sign on.
type SignaturePlace struct {
	Role string // "For the owner", "For the yard"
}
