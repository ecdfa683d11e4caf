package cutting_test

import (
	"slices"
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// Whatever certificate is drawn, the checker accepts no floor above the cheapest plan: those of true answers, of lists that differ a
// little, and of values out of the air, each with some of its numbers changed and some values raised as far as the checker lets them.
func TestNoCertificateAboveTheCheapestIsAccepted(t *testing.T) {
	accepted, sharp := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		l, want, _ := anyTiny(t)
		if want < 0 {
			t.Skip("no plan")
		}
		certificates := []cutting.Certificate{solve(t, l.stock, l.pieces, l.rules).Certificate, valuesOf(t, l)}
		if p, err := cutting.Solve(another(t, l.stock), l.pieces, l.rules); err == nil {
			certificates = append(certificates, p.Certificate)
		}
		for _, c := range certificates {
			for range 6 {
				c := raised(t, l, changed(t, c))
				if c.Floor = want + 1; cutting.CheckCertificate(c, l.stock, l.pieces, l.rules) == nil {
					t.Fatalf("a plan of %d lies below the floor of %+v", want, c)
				}
				if c.Floor = 0; cutting.CheckCertificate(c, l.stock, l.pieces, l.rules) == nil {
					accepted++
				}
				if c.Floor = want; cutting.CheckCertificate(c, l.stock, l.pieces, l.rules) == nil {
					sharp++
				}
			}
		}
	})
	if t.Logf("%d accepted with some floor, %d with the cheapest plan's", accepted, sharp); sharp < 20 {
		t.Errorf("only %d certificates were sharp", sharp)
	}
}

// another draws boards that differ a little in length, price and strips, all for sale without limit.
func another(t *rapid.T, stock []cutting.Stock) []cutting.Stock {
	out := slices.Clone(stock)
	for i := range out {
		s := &out[i]
		s.Price = max(1, s.Price+rapid.Int64Range(-3, 8).Draw(t, "dearer"))
		s.Strips = max(1, s.Strips-rapid.Int64Range(0, 1).Draw(t, "fewer"))
		s.Length = max(1, s.Length-rapid.Int64Range(0, 3).Draw(t, "shorter"))
		s.Avail, s.Least = -1, 0
	}
	return out
}

// valuesOf draws values of pieces and parts.
func valuesOf(t *rapid.T, l list) cutting.Certificate {
	c := cutting.Certificate{Step: 1, Unit: 1, Scale: rapid.Int64Range(1, 6).Draw(t, "scale")}
	if l.stock[0].Length > 1_000_000_000 { // no table is as fine
		c.Step = 1_000_003
	}
	most := rapid.Int64Range(1, 20).Draw(t, "most")
	values := func(lengths []int64) (out []cutting.Dual) {
		slices.Sort(lengths)
		lengths = slices.Compact(lengths)
		slices.Reverse(lengths)
		for _, length := range lengths {
			out = append(out, cutting.Dual{Length: length, Value: rapid.Int64Range(0, most).Draw(t, "value")})
		}
		return out
	}
	var whole, parts []int64
	for _, p := range l.pieces {
		whole = append(whole, p.Length)
		for _, two := range everyJoint(l, p) {
			parts = append(parts, two[:]...)
		}
	}
	c.Duals, c.Scarfed, c.Parts = values(whole), values(whole), values(parts)
	return c
}

// changed draws up to three changes to a certificate.
func changed(t *rapid.T, c cutting.Certificate) cutting.Certificate {
	n := func(label string, least, most int64) int64 { return rapid.Int64Range(least, most).Draw(t, label) }
	c.Duals, c.Scarfed, c.Parts = slices.Clone(c.Duals), slices.Clone(c.Scarfed), slices.Clone(c.Parts)
	for range n("changes", 0, 3) {
		of := []*[]cutting.Dual{&c.Duals, &c.Scarfed, &c.Parts}[n("of", 0, 2)]
		switch what := n("change", 0, 6); {
		case what == 0:
			c.Step = max(1, c.Step*n("step", 1, 4)/n("by", 1, 2))
		case what == 1:
			c.Unit = n("unit", 1, 4)
		case what == 2:
			c.Scale = max(1, c.Scale*n("times", 1, 4)/n("by", 1, 4)+n("and", -1, 1))
		case what == 3:
			c.Duals, c.Scarfed = c.Scarfed, c.Duals
		case len(*of) == 0:
		case what == 5 && n("giant", 0, 2) == 0: // sums of such leave the range of numbers
			(*of)[n("which", 0, int64(len(*of)-1))].Value = rapid.SampledFrom([]int64{1 << 60, 1 << 61, 1 << 62, 1<<63 - 1}).Draw(t, "value")
		case what == 4:
			i := int(n("which", 0, int64(len(*of)-1)))
			*of = slices.Delete(*of, i, i+1)
		default:
			d := &(*of)[n("which", 0, int64(len(*of)-1))]
			d.Value = max(0, d.Value*n("times", 1, 4)/n("by", 1, 4)+n("and", -2, 2))
		}
	}
	return c
}

// raised raises values of a certificate, those drawn first, as long as the checker accepts it with a floor of nothing: none, a few, or all.
func raised(t *rapid.T, l list, c cutting.Certificate) cutting.Certificate {
	if c.Floor = 0; cutting.CheckCertificate(c, l.stock, l.pieces, l.rules) != nil {
		return c
	}
	var all []*cutting.Dual
	for _, of := range [][]cutting.Dual{c.Duals, c.Scarfed, c.Parts} {
		for i := range of {
			all = append(all, &of[i])
		}
	}
	all = rapid.Permutation(all).Draw(t, "order")
	for _, d := range all[:min(len(all), rapid.SampledFrom([]int{0, 0, 1, 2, 100}).Draw(t, "raised"))] {
		for by := c.Scale * 64; by > c.Scale/16; by /= 2 {
			if d.Value += by; cutting.CheckCertificate(c, l.stock, l.pieces, l.rules) != nil {
				d.Value -= by
			}
		}
	}
	return c
}
