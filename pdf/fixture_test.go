package pdf_test

import (
	"fmt"
	"strings"
	"time"

	"ribband/pdf"
)

// usd is an amount of whole cents in invented dollars.
func usd(cents int64) pdf.Amount {
	sign := ""
	if cents < 0 {
		sign, cents = "-", -cents
	}
	return pdf.Amount{Text: fmt.Sprintf("%s%d.%02d", sign, cents/100, cents%100), Currency: "USD"}
}

// priced is a line of the fixture before it is printed: its amount in cents.
type priced struct {
	text, quantity, unit string
	cents                int64
}

// step sums its lines, as the quote would.
func step(title string, lines ...priced) (pdf.StepLines, int64) {
	s := pdf.StepLines{Title: title}
	var total int64
	for _, l := range lines {
		s.Lines = append(s.Lines, pdf.Line{Text: l.text, Quantity: l.quantity, Unit: l.unit, Amount: usd(l.cents)})
		total += l.cents
	}
	s.Subtotal = usd(total)
	return s, total
}

// withTotals gives an option its steps and the totals they come to, taxed at
// 6.25 % on all of it, half a cent rounded up.
func withTotals(o pdf.Option, add ...func() (pdf.StepLines, int64)) pdf.Option {
	var net int64
	for _, f := range add {
		s, cents := f()
		o.Steps = append(o.Steps, s)
		net += cents
	}
	tax := (net*625 + 5000) / 10000
	o.Net = usd(net)
	o.Taxes = []pdf.Tax{{Category: "State sales tax", Rate: "6.25", Taxable: usd(net), Amount: usd(tax)}}
	o.Gross = usd(net + tax)
	o.RangeLow, o.RangeHigh = usd((net+tax)*9/1000000*100000), usd((net+tax)*125/10000000*100000)
	o.RangeNote = "the yard's own judgement, not a computed range"
	return o
}

func steps(title string, lines ...priced) func() (pdf.StepLines, int64) {
	return func() (pdf.StepLines, int64) { return step(title, lines...) }
}

// demo is an issued estimate with two options. Yard, people, boat and prices
// are invented.
func demo() pdf.Estimate {
	all := withTotals(pdf.Option{
		Name: "All 34 pairs of frames",
		InPlainWords: []string{
			"Every frame, port and starboard, is taken out and a new one is put in its place. A frame is one of the curved ribs inside the planking.",
			"Each new frame is glued up from thin strips of white oak, bent to the shape measured on that side of the boat.",
			"The boat keeps her shape because only a few frames are out at any time.",
		},
		Undone: []string{
			"The floors, the heavy timbers across the keel, are cleaned and looked at but not replaced.",
			"The planking stays. Planks found soft when the frames are out are told to you before anything is done.",
		},
		WeightKg: "486",
		TimeText: "about 1,240 hours of work",
	},
		steps("Take patterns",
			priced{"Lift a pattern for every frame and side, 68 in all", "102", "h", 734400},
			priced{"Pattern stock, 6 mm plywood", "14", "sheets", 48300}),
		steps("Rip and plane",
			priced{"White oak, 1 in boards for laminates", "1184.5", "board ft", 1622765},
			priced{"Rip, plane and sort 816 laminates", "163.25", "h", 1175400}),
		steps("Laminate frames",
			priced{"Thickened structural epoxy, mixed 1:1", "94", "litres", 394800},
			priced{"Glue up 68 frames on the form, 12 laminates each", "272", "h", 1958400},
			priced{"Clamps, film and form stock", "", "", 85000}),
		steps("Old frames out",
			priced{"Back out fastenings and take out 68 frames, never more than two side by side", "238", "h", 1713600},
			priced{"Bring waste ashore, sorted, as the yard's permit says", "1", "lot", 64000}),
		steps("Clean up and bevel",
			priced{"Clean up and bevel 214.6 m of frame to the planking", "171.7", "h", 1236240}),
		steps("Fit and fasten",
			priced{"Fit 68 frames and fasten plank by plank", "293.1", "h", 2110320},
			priced{"Silicon bronze screws, 2 ½ in × 14", "3264", "each", 326400},
			priced{"Bungs and bedding", "", "", 41250},
			priced{"Allowance returned for fastenings that can be used again", "", "", -36000}),
	)
	worst := withTotals(pdf.Option{
		Name: "The 20 pairs amidships",
		InPlainWords: []string{
			"The 20 pairs of frames around the middle of the boat, where the survey found breaks at the turn of the bilge, are replaced as in option A.",
			"The seven pairs at each end are left as they are.",
		},
		Undone: []string{
			"Seven pairs forward and seven aft stay. Four of them have hairline cracks that were filled before; expect to replace them within some years.",
			"The floors and the planking stay, as in option A.",
		},
		WeightKg: "298",
		TimeText: "about 760 hours of work",
	},
		steps("Take patterns",
			priced{"Lift a pattern for every frame and side, 40 in all", "60", "h", 432000},
			priced{"Pattern stock, 6 mm plywood", "9", "sheets", 31050}),
		steps("Rip and plane",
			priced{"White oak, 1 in boards for laminates", "724", "board ft", 991880},
			priced{"Rip, plane and sort 480 laminates", "96", "h", 691200}),
		steps("Laminate frames",
			priced{"Thickened structural epoxy, mixed 1:1", "57", "litres", 239400},
			priced{"Glue up 40 frames on the form, 12 laminates each", "160", "h", 1152000},
			priced{"Clamps, film and form stock", "", "", 60000}),
		steps("Old frames out",
			priced{"Back out fastenings and take out 40 frames", "140", "h", 1008000},
			priced{"Bring waste ashore, sorted, as the yard's permit says", "1", "lot", 40000}),
		steps("Fit and fasten",
			priced{"Clean up, bevel, fit 40 frames and fasten plank by plank", "276.4", "h", 1990080},
			priced{"Silicon bronze screws, 2 ½ in × 14", "1920", "each", 192000}),
	)
	return pdf.Estimate{
		Yard: pdf.Yard{
			Name:    "Ebbing Reach Boat Yard",
			Address: []string{"4 Slip Lane", "Ebbing Reach, ME 00000"},
			Contact: "office@ebbing-reach.example",
			Note:    "This yard, this boat, all people and all prices are invented, to show what an estimate looks like.",
		},
		Customer: pdf.Customer{Name: "Wren Hallorand", Address: []string{"17 Invented Street", "Ebbing Reach, ME 00000"}},
		Boat: pdf.Boat{
			Name:        "Grey Plover",
			Description: "Carvel sloop of 11.2 m, planked in Douglas-fir on bent frames of white oak, 34 to a side.",
		},
		Number: "2026-014", Revision: 2, IssuedDate: "2026-11-25", ValidUntilDate: "2027-01-31",
		Intro: []string{
			"The frames of Grey Plover have broken at the turn of the bilge, and the survey of 2026-10-14 found 41 of 68 at fault.",
			"We replace frames one by one with new ones glued up from thin strips of white oak, each made to the shape of its own side.",
			"The planking, the deck and the engine stay in place while we work.",
		},
		Options: []pdf.Option{all, worst},
		Terms: []string{
			"One third is due when the work begins, one third when half the new frames are in, the rest when the boat is handed over.",
			"Work that is found only when the boat is open is priced by the same hours and the same price sheet, told to you, and done only when you agree.",
			"Storage indoors is included from the first day of work to the last.",
		},
		Cautions: []pdf.Caution{
			{Step: "Opening up", Text: "What is said of the timber here rests on what could be seen and sounded. Opening up may show more."},
			{Step: "Old frames out", Text: "The hull is shored and braced before frames come out, and measured again after each pair."},
			{Step: "Old frames out", Text: "Old paint is treated as holding lead until a test says otherwise."},
			{Step: "Laminate frames", Text: "Epoxy hardens by heat of its own; cold days make the glue slower and the work longer."},
			{Step: "Launch", Text: "A hull that has dried out leaks until the planks have swollen. She hangs in the slings until she is tight."},
		},
		LinesNote:  "A quantity is what the work takes; its price includes losses and whole boards.",
		Deferral:   "The condition of the boat is for a qualified surveyor of wooden boats to decide, structure for a naval architect, and local codes and licensed practice stand over anything written here.",
		HashText:   "3f9a1c2047be",
		Signatures: []pdf.SignaturePlace{{Role: "For the owner"}, {Role: "For the yard"}},
		CreatedAt:  time.Date(2026, 11, 25, 9, 30, 0, 0, time.UTC),
		PageSize:   pdf.A4,
	}
}

// options returns the demo with n options, letters following.
func withOptions(n int) pdf.Estimate {
	e := demo()
	base := e.Options
	e.Options = nil
	for i := range n {
		o := base[i%len(base)]
		o.Name = fmt.Sprintf("%s (%d)", o.Name, i+1)
		e.Options = append(e.Options, o)
	}
	return e
}

// withLines returns the demo with one option of n lines in steps of 30.
func withLines(n int) pdf.Estimate {
	e := demo()
	o := e.Options[0]
	var add []func() (pdf.StepLines, int64)
	for from := 0; from < n; from += 30 {
		var ls []priced
		for k := from; k < min(n, from+30); k++ {
			words := fmt.Sprintf("Frame %d, new, glued up and fitted", k+1)
			if k%90 == 45 {
				words = strings.Repeat("Scarf in a new heel, with everything that goes with it, and fair the faying surface. ", 12)
			}
			ls = append(ls, priced{words, fmt.Sprintf("%d.%d", k%17+1, k%4*25), "h", int64(10000 + k*1234)})
		}
		add = append(add, steps(fmt.Sprintf("Frames %d to %d", from+1, min(n, from+30)), ls...))
	}
	o.Steps = nil
	o = withTotals(o, add...)
	e.Options = []pdf.Option{o}
	return e
}

// draft returns the demo before it is issued.
func draft() pdf.Estimate {
	e := demo()
	e.Draft, e.Number, e.Revision, e.HashText, e.IssuedDate = true, "", 0, "", ""
	return e
}

// awkward is text that no yard would type and that some day somebody will paste.
var awkward = []string{
	"Plank 🪵 sawn 👩🏽‍🔧 by hand", "船大工 かんな", "Ωμέγα Ναυπηγείο", "Łódź Ångström šíp ½ ⅛ ⅜ ⅝ ⅞",
	"safe\u202egnp.exe\u202c", "nul\x00 bell\a esc\x1b", "bad \xff\xfe bytes", "שלום עולם", "مرحبا",
	"z\u0351\u0352\u0353\u0354\u0355\u0356a\u0301", "a\u200bb\u00adc\ufeffd", "{nb} (paren) \\ back",
	"tab\there", "line\r\nbreak\n\n\n\nmore", "Ċ ċ č \u0a0a \u5c5c",
}

// ugly returns the demo with awkward and overlong text in every field.
func ugly() pdf.Estimate {
	e := demo()
	long := strings.Repeat("Rumpfplankenerneuerung", 228)[:5000]
	all := strings.Join(awkward, " · ")
	e.Boat.Name, e.Boat.Description = long, all
	e.Yard.Name, e.Yard.Contact = long, all
	e.Customer.Name = all
	e.Number, e.HashText = long, all
	e.Intro = awkward
	e.Options[0].Name, e.Options[1].Name = long, all
	e.Options[0].InPlainWords, e.Options[0].Undone = awkward, []string{long}
	e.Options[0].Steps[0].Title = long
	e.Options[0].Steps[0].Lines[0].Text = long
	e.Options[0].Steps[0].Lines[0].Unit = long
	e.Options[0].Steps[0].Lines[1].Quantity = all
	e.Options[0].Steps[1].Lines[0].Amount.Text = all
	e.Options[0].Steps[2].Title = all
	e.Options[1].Gross.Currency = "DUBLOONS OF NO COUNTRY"
	e.Terms = append(awkward, long)
	e.Cautions = append(e.Cautions, pdf.Caution{Step: long, Text: all})
	e.Deferral, e.LinesNote = long, long
	e.Signatures[0].Role = long
	return e
}

// wide returns the demo with the longest amounts and quantities there are, with
// nought and with amounts below it.
func wide() pdf.Estimate {
	e := demo()
	for i := range e.Options {
		o := &e.Options[i]
		o.Gross.Text, o.Net.Text, o.RangeLow.Text, o.RangeHigh.Text = "123456789012.34", "123456789012.34", "0.00", "999999999999.99"
		for k := range o.Steps {
			o.Steps[k].Subtotal.Text = "-999999999999.99"
			o.Steps[k].Lines[0].Amount.Text = "0.00"
			o.Steps[k].Lines[0].Quantity = "999999999999.999999"
		}
	}
	return e
}
