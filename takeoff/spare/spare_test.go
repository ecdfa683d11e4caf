package spare_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/spare"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// blank is so many laminates of a length, mm, as wide as siding.
type blank struct {
	net, length, siding int64
	// in are the shorter lengths that each laminate is made up of; none where it is in one.
	in []int64
}

// boatOf draws the blanks of a boat: a few sections, lengths near one another.
func boatOf(rt *rapid.T) []blank {
	var out []blank
	for range rapid.IntRange(1, 30).Draw(rt, "blanks") {
		b := blank{net: rapid.Int64Range(1, 20).Draw(rt, "net"), length: rapid.Int64Range(1000, 1020).Draw(rt, "length"), siding: rapid.Int64Range(44, 45).Draw(rt, "siding")}
		if rapid.IntRange(0, 4).Draw(rt, "made up") == 0 {
			b.in = []int64{rapid.Int64Range(500, 520).Draw(rt, "part"), 530}
		}
		out = append(out, b)
	}
	return out
}

func lossesOf(rt *rapid.T) []bill.Loss {
	var out []bill.Loss
	for i := range rapid.IntRange(0, 3).Draw(rt, "losses") {
		out = append(out, bill.Loss{Name: string(rune('a' + i)), Fraction: decimal.New(rapid.Int64Range(0, 60).Draw(rt, "share"), -2), Source: "made up"})
	}
	return out
}

// shared is the bill of blanks with their spares shared out. Frames are numbered as they stand, but for those that order puts
// elsewhere.
func shared(tb rapid.TB, of []blank, order []int, losses []bill.Loss) (bill.Bill, *derivation.Table) {
	t := derivation.NewTable()
	var out bill.Bill
	given := func(n int64, u quantity.Unit) derivation.Input {
		return derivation.Given("n", "here", decimal.NewFromInt(n), u)
	}
	for _, no := range order {
		b := of[no]
		m := boat.Member{Kind: boat.Frame, No: no, Side: boat.Port}
		t.Derive(m.Path()+"/laminates", "frame/made_up_pieces", []derivation.Input{given(b.net, quantity.Each)})
		line := func(name string, net string, long int64) {
			id := m.Path() + "/" + name + "_long"
			metres := t.Derive(id, "frame/made_up_length", []derivation.Input{derivation.Given("a", "here", decimal.Zero, quantity.Millimetre), derivation.Given("b", "here", decimal.NewFromInt(long), quantity.Millimetre)})
			out.Lines = append(out.Lines, spare.Laminate(m.Path(), name, net, bill.Line{Losses: losses, Member: m,
				Pieces: &bill.Pieces{Species: "oak", Grade: "FAS", Thickness: decimal.NewFromInt(6), Siding: decimal.NewFromInt(b.siding), Length: metres}}, t))
		}
		if b.in == nil {
			line("laminates_timber", m.Path()+"/laminates", b.length)
		}
		for i, long := range b.in {
			net := fmt.Sprintf("%s/length_%d_pieces", m.Path(), i+1)
			t.Derive(net, "frame/made_up_pieces", []derivation.Input{given(b.net, quantity.Each)})
			line(fmt.Sprintf("length_%d_timber", i+1), net, long)
		}
		out.Measures = append(out.Measures, spare.Ripped(m.Path(), bill.Line{Member: m}))
	}
	if err := spare.Laminates(&out, t); err != nil {
		tb.Fatal(err)
	}
	return out, t
}

func inOrder(of []blank) []int {
	out := make([]int, len(of))
	for i := range out {
		out[i] = i
	}
	return out
}

// had sums what is bought, by siding; every line has at least what stays in the boat.
func had(rt *rapid.T, of bill.Bill) (net, gross map[string]int64) {
	net, gross = map[string]int64{}, map[string]int64{}
	for _, l := range of.Lines {
		n, g := l.Net.Value().IntPart(), l.Gross.Value().IntPart()
		if g < n {
			rt.Fatalf("%s: %d bought for %d", l.ID, g, n)
		}
		net[l.Pieces.Siding.String()] += n
		gross[l.Pieces.Siding.String()] += g
	}
	return net, gross
}

// asked is how many must be bought so that so many are left.
func asked(n int64, losses []bill.Loss) int64 {
	return decimal.NewFromInt(n).DivRound(bill.Remaining(losses), 40).Ceil().IntPart()
}

func ripped(of bill.Bill) int64 {
	sum := int64(0)
	for _, m := range of.Measures {
		sum += m.Quantity.Value().IntPart()
	}
	return sum
}

// Over pieces that are alike what is bought is rounded up once, whatever the frames; and of the longest, however many are
// taken, so many at least as long are bought as the losses ask. What is ripped is whole laminates, likewise rounded up once.
func TestALossIsRoundedUpOnceOverAllThatAreAlike(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		of, losses := boatOf(rt), lossesOf(rt)
		out, table := shared(rt, of, inOrder(of), losses)
		net, gross := had(rt, out)
		for siding, n := range net {
			if want := asked(n, losses); gross[siding] != want {
				rt.Fatalf("%s mm wide: %d bought for %d, %d wanted", siding, gross[siding], n, want)
			}
		}
		for _, at := range out.Lines {
			n, g := int64(0), int64(0)
			for _, l := range out.Lines {
				if l.Pieces.Siding.Equal(at.Pieces.Siding) && l.Pieces.Length.Value().GreaterThanOrEqual(at.Pieces.Length.Value()) {
					n, g = n+l.Net.Value().IntPart(), g+l.Gross.Value().IntPart()
				}
			}
			if want := asked(n, losses); g < want {
				rt.Fatalf("%d pieces as long as %s are bought for %d, %d wanted", g, at.ID, n, want)
			}
		}
		whole := map[int64]int64{}
		for _, b := range of {
			whole[b.siding] += b.net
		}
		want := int64(0)
		for _, n := range whole {
			want += asked(n, losses)
		}
		if got := ripped(out); got != want {
			rt.Fatalf("%d laminates ripped for %v, %d wanted", got, whole, want)
		}
		for _, m := range out.Measures {
			if !m.Quantity.Value().Equal(table.Quantity(m.Figure).Value()) {
				rt.Fatalf("%s is not what %s says", m.Quantity, m.Figure)
			}
		}
	})
}

// The order that frames are in changes nothing.
func TestTheOrderOfFramesChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		of, losses := boatOf(rt), lossesOf(rt)
		one, _ := shared(rt, of, inOrder(of), losses)
		other, _ := shared(rt, of, rapid.Permutation(inOrder(of)).Draw(rt, "order"), losses)
		counts := func(b bill.Bill) map[string]string {
			out := map[string]string{}
			for _, l := range b.Lines {
				out[l.ID] = l.Gross.String()
			}
			for _, m := range b.Measures {
				out[m.Figure] = m.Quantity.String()
			}
			return out
		}
		if d := cmp.Diff(counts(one), counts(other)); d != "" {
			rt.Fatal(d)
		}
	})
}

// More loss never asks for less, in pieces or in volume; the same frames twice ask for twice as much at most.
func TestMoreLossNeverAsksForLess(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		of, losses := boatOf(rt), lossesOf(rt)
		one, _ := shared(rt, of, inOrder(of), losses)
		more := append(slices.Clone(losses), bill.Loss{Name: "more", Fraction: decimal.New(rapid.Int64Range(0, 30).Draw(rt, "more"), -2), Source: "made up"})
		lossier, _ := shared(rt, of, inOrder(of), more)
		twice := append(slices.Clone(of), of...)
		double, _ := shared(rt, twice, inOrder(twice), losses)
		_, g := had(rt, one)
		_, l := had(rt, lossier)
		_, d := had(rt, double)
		for siding := range maps.Keys(g) {
			if l[siding] < g[siding] {
				rt.Fatalf("%s mm wide: %d with more loss, %d without", siding, l[siding], g[siding])
			}
			if d[siding] > 2*g[siding] || d[siding] < g[siding] {
				rt.Fatalf("%s mm wide: %d of twice the frames, %d of these", siding, d[siding], g[siding])
			}
		}
		const bits = 1e-9 // of a volume summed in floats
		v := volume(one)
		if lossy := volume(lossier); lossy < v*(1-bits) {
			rt.Fatalf("%v m3 with more loss, %v without", lossy, v)
		}
		if doubled := volume(double); doubled > 2*v*(1+bits) {
			rt.Fatalf("%v m3 of twice the frames, %v of these", doubled, v)
		}
		if got := spare.Volume(one.Lines); got < v*(1-bits) || got > v*(1+bits) {
			rt.Fatalf("%v m3, the lines are %v", got, v)
		}
	})
}

// volume of what the lines buy, m3.
func volume(of bill.Bill) float64 {
	sum := 0.0
	for _, l := range of.Lines {
		sum += l.Gross.Value().Mul(l.Pieces.Thickness).Mul(l.Pieces.Siding).Mul(l.Pieces.Length.Value()).Shift(-6).InexactFloat64()
	}
	return sum
}

// Three frames of two laminates each at a loss of a quarter: 6 / 0.75 are 8, of which frame by frame there would be 9. The spares
// are had with the longest, where the count passes them: 2 / 0.75 = 2.67, 4 / 0.75 = 5.33, 6 / 0.75 = 8.
func TestASpareIsHadWithTheFrameThatTheCountPassesItAt(t *testing.T) {
	of := []blank{{net: 2, length: 900, siding: 45}, {net: 2, length: 1100, siding: 45}, {net: 2, length: 1000, siding: 45}}
	out, table := shared(t, of, inOrder(of), []bill.Loss{{Name: "breakage", Fraction: decimal.New(25, -2), Source: "made up"}})
	var got []string
	for _, l := range out.Lines {
		got = append(got, l.Gross.Value().String())
	}
	if d := cmp.Diff([]string{"2", "3", "3"}, got); d != "" {
		t.Error(d)
	}
	f, ok := table.Find("frame/0/port/laminates_timber_gross")
	if !ok || f.Formula != "bill/shared_pieces" {
		t.Errorf("%+v", f)
	}
	if again, ok := table.Find("frame/0/port/laminates_timber_counted"); !ok || again.Value != "6" {
		t.Errorf("%+v", again)
	}
}

// Screws of one item are rounded up once over the boat, whatever their frames; another item by itself.
func TestItemsShareTheirSpares(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		table, losses := derivation.NewTable(), lossesOf(rt)
		var out bill.Bill
		for no := range rapid.IntRange(1, 20).Draw(rt, "frames") {
			m := boat.Member{Kind: boat.Frame, No: no, Side: boat.Starboard}
			net := m.Path() + "/screws_net"
			n := rapid.Int64Range(1, 60).Draw(rt, "screws")
			table.Derive(net, "frame/made_up_pieces", []derivation.Input{derivation.Given("n", "here", decimal.NewFromInt(n), quantity.Each)})
			item := rapid.SampledFrom([]string{"short", "long"}).Draw(rt, "item")
			out.Lines = append(out.Lines, spare.Item(m.Path()+"/screws", net, bill.Line{Material: bill.Fastenings, Item: item, Losses: losses, Member: m}, table))
		}
		if err := spare.Items(&out, table); err != nil {
			rt.Fatal(err)
		}
		net, gross := map[string]int64{}, map[string]int64{}
		for _, l := range out.Lines {
			net[l.Item] += l.Net.Value().IntPart()
			gross[l.Item] += l.Gross.Value().IntPart()
			if l.Gross.Value().LessThan(l.Net.Value()) {
				rt.Fatalf("%s: %s for %s", l.ID, l.Gross, l.Net)
			}
		}
		for item, n := range net {
			if want := asked(n, losses); gross[item] != want {
				rt.Fatalf("%s: %d bought for %d, %d wanted", item, gross[item], n, want)
			}
		}
	})
}
