package web

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"
	"time"

	"ribband/pdf"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// functions that templates write with.
var functions = template.FuncMap{
	"amount": amount, "money": priced, "judged": judged, "signed": signed, "paper": paperMoney, "quantity": counted, "measured": measured, "unit": unitText, "figure": grouped,
	"plain": plain, "capital": capital, "day": func(t time.Time) string { return unbroken(day(t)) }, "explain": func(s string) template.HTML { return newExplainer().Explain(s) }, "percent": percent, "role": roleText, "remedy": remedyText, "material": materialText,
	"kind": kindText, "blank": blankText, "whole": func(mm float64) string { return grouped(strconv.FormatFloat(mm, 'f', 0, 64)) }, "clock": clockText, "alike": alike, "joints": func(m frame.MadeUp) (template.HTML, error) { return jointsPicture(m, roomy) },
	"slimjoints": func(m frame.MadeUp) (template.HTML, error) { return jointsPicture(m, drawing.Narrow) }, "tenth": tenth, "share": shareText, "wholes": wholes, "int": func(n int64) int { return int(n) }, "text": func(n int64) string { return decimal.NewFromInt(n).String() }, "date": unbroken, "because": becauseText, "row": itemText, "cell": cellText, "lines": func(s string) []string { return strings.FieldsFunc(s, func(r rune) bool { return r == '\n' }) }, "tellrefused": refusals, "bywhom": byWhom, "letter": letter, "count": countText, "hours": hoursText, "driver": driverText, "effect": effectText, "less": func(n int64) int64 { return n - 1 }, "plus": plus, "gain": gain, "unitprice": unitPrice, "sold": soldBy, "key": keyText, "head": headText, "either": quantityText, "plural": plural,
}

const minus = "−"

// grouped sets decimal text for reading: thousands apart by a comma, a true minus. Every digit stays as it was; text
// that is no decimal comes back unchanged.
func grouped(s string) string {
	if _, err := decimal.NewFromString(s); err != nil || strings.ContainsAny(s, "eE+") {
		return s
	}
	digits, negative := strings.CutPrefix(s, "-")
	whole, fraction, pointed := strings.Cut(digits, ".")
	var b strings.Builder
	if negative {
		b.WriteString(minus)
	}
	for i, d := range []byte(whole) {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteByte(d)
	}
	if pointed {
		b.WriteString("." + fraction)
	}
	return b.String()
}

// amount is the number of an amount, for columns whose caption names the currency.
func amount(m money.Money) string { return grouped(m.String()) }

// priced is an amount with its currency before it, as on paper; the space does not break.
func priced(m money.Money) string { return string(m.Currency()) + "\u00a0" + amount(m) }

// judged is one end of a judged range: without cents where it has none, since nobody judged any.
func judged(m money.Money) string {
	if d := m.Decimal(); d.IsInteger() {
		return string(m.Currency()) + "\u00a0" + grouped(d.StringFixed(0))
	}
	return priced(m)
}

// signed is an amount that says which way it goes: more or less.
func signed(m money.Money) string {
	if m.Sign() > 0 {
		return "+" + amount(m)
	}
	return amount(m)
}

func paperMoney(a pdf.Amount) string { return a.Currency + "\u00a0" + grouped(a.Text) }

// counted is a quantity with its unit.
func counted(q quantity.Quantity) string {
	return measured(q.String(), q.Unit())
}

// measured is a number with its unit: "1 piece", "2 pieces".
func measured(value string, u quantity.Unit) string {
	unit := unitText(u)
	if value == "1" {
		unit = strings.TrimSuffix(unit, "s")
	}
	return strings.TrimSpace(grouped(value) + "\u00a0" + unit)
}

// unitTexts are units as they are read; the others stand as they are.
var unitTexts = map[quantity.Unit]string{
	quantity.Each: "pieces", quantity.SquareMetre: "m²", quantity.CubicMetre: "m³", quantity.BoardFoot: "board ft", quantity.Litre: "litres",
	quantity.Hour: "hours", quantity.Ratio: "", quantity.Density: "kg/m³", quantity.LitrePerM2: "litres/m²", quantity.HourPerUnit: "hours each",
}

func unitText(u quantity.Unit) string {
	if t, ok := unitTexts[u]; ok {
		return t
	}
	return string(u)
}

// unbroken is a text such as a date whose hyphens do not break a line.
func unbroken(s string) string { return strings.ReplaceAll(s, "-", "\u2011") }

// byWhom leads up to the name of who decided: the owner, or somebody of the yard on the owner's behalf.
func byWhom(d app.Decision) string {
	if d.EnteredBy != auth.Owner {
		return ", entered by the yard for"
	}
	return " by"
}

func plain(s string) string { return strings.ReplaceAll(s, "_", " ") }

func day(t time.Time) string { return t.Format(time.DateOnly) }

// percent is a fraction such as 0.0625 as percent: "6.25 %".
func percent(fraction any) string {
	var d decimal.Decimal
	switch f := fraction.(type) {
	case decimal.Decimal:
		d = f
	case string:
		var err error
		if d, err = decimal.NewFromString(f); err != nil {
			return f
		}
	}
	return strings.Replace(d.Shift(2).String(), "-", minus, 1) + "\u00a0%"
}

func roleText(r auth.Role) string {
	switch r {
	case auth.Lead:
		return "lead of the yard"
	case auth.Owner:
		return "owner of the boat"
	}
	return string(r)
}

func remedyText(r boat.Remedy) string {
	switch r {
	case boat.Leave:
		return "leave"
	case boat.ReplaceLaminated:
		return "replace, laminated"
	case boat.ReplaceSteamed:
		return "replace, bent in steam"
	case boat.ReplaceSawn:
		return "replace, sawn"
	case boat.ReplaceStrap:
		return "replace by a strap"
	case boat.ScarfIn:
		return "scarf in a part"
	case boat.RenewPlank:
		return "new planks"
	}
	return plain(string(r))
}

func materialText(m bill.Material) string { return plain(string(m)) }

func kindText(k sheet.Kind) string { return plain(string(k)) }

// letter tells options apart as the estimate does: A, B, C.
func letter(i int) string { return string(rune('A' + i)) }

// countText is a number of things in words that fit it: "1 row", "3 rows".
func countText(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return grouped(decimal.NewFromInt(int64(n)).String()) + " " + many
}

// plural is the word for so many of a thing whose plural takes an s.
func plural(one string, n int) string {
	if n == 1 {
		return one
	}
	return one + "s"
}

// driverText is what a step is counted by, with how much there is of it: "20 patterns", "1 floor".
func driverText(q quantity.Quantity, d step.Driver) string {
	switch d {
	case step.GlueLine:
		return counted(q) + " of glue line"
	case step.Girth:
		return counted(q) + " of girth"
	case step.InSteam:
		return counted(q) + " in steam"
	case step.PlankMetres:
		return counted(q) + " of plank"
	}
	if q.String() == "1" {
		return "1 " + strings.TrimSuffix(plain(string(d)), "s")
	}
	return grouped(q.String()) + " " + plain(string(d))
}

// headText is a column's name as a heading.
func headText(s string) string { return capital(plain(s)) }

// plus is decimal text that says which way it goes.
func plus(s string) string {
	if d, err := decimal.NewFromString(s); err == nil && d.IsPositive() {
		return "+" + unitPrice(s)
	}
	return unitPrice(s)
}

// gain is a number that says which way it goes, with the places that it has.
func gain(s string) string {
	if d, err := decimal.NewFromString(s); err == nil && d.IsPositive() {
		return "+" + grouped(s)
	}
	return grouped(s)
}

// unitPrice is the price of a unit with at least two places, so that prices stand under each other.
func unitPrice(s string) string {
	d, err := decimal.NewFromString(s)
	if err != nil {
		return s
	}
	return grouped(d.StringFixed(max(2, -d.Exponent())))
}

// soldBy is a unit that goods are sold in, in words where it is one of the everyday ones.
func soldBy(code any) string {
	text := fmt.Sprint(code)
	if t, ok := map[string]string{"HUR": "hours", "EA": "each", "C62": "each", "H87": "pieces", "BFT": "board ft", "LTR": "litres", "GLL": "US gallons",
		"MTR": "m", "MTK": "m²", "MTQ": "m³", "KGM": "kg", "LBR": "lb", "FOT": "ft", "FTK": "sq ft", "DAY": "days", "MIN": "minutes", "SET": "sets", "PR": "pairs"}[text]; ok {
		return t
	}
	return sheet.Unit(text).Name()
}

// cellText is one cell of a price table: a number grouped, anything else as it stands.
func cellText(s string) string {
	if s == "" {
		return "nothing"
	}
	return plain(grouped(s))
}

// keyText is the key of a line as people read it.
func keyText(key string) string {
	return strings.ReplaceAll(strings.ReplaceAll(plain(key), "/", ", "), "~1", "/")
}
