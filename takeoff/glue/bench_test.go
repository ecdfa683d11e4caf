package glue_test

import (
	"fmt"
	"strconv"
	"testing"
	"time"

	"ribband/takeoff/glue"

	"github.com/shopspring/decimal"
)

// The plan of so many blanks, half of them with a joint in the hull, as a multiple of the simplest plan there is, timed
// beside it: load every blank, and begin a new batch whenever the next has no room. batches_of_simple is how many batches it
// has of the simple plan's.
func BenchmarkPlanAgainstTheSimplestOne(b *testing.B) {
	for _, n := range []int{12, 68, 400} {
		b.Run(fmt.Sprintf("%d_blanks", n), func(b *testing.B) {
			y := yard()
			cold := dec("14")
			y.HullC = &cold
			var blanks []glue.Blank
			for i := range n {
				// made up, and uneven: from 0.9 to 2.1 m2, and from 1.9 to 3.1 m
				k := int64(i * 37 % 13)
				path := strconv.Itoa(i)
				blanks = append(blanks, glue.Blank{Path: path, Lines: 11, AreaM2: decimal.New(90+10*k, -2), LengthMM: decimal.NewFromInt(1900 + 100*k)})
				if i%2 == 0 {
					blanks = append(blanks, glue.Blank{Path: path + "/scarfs", Where: glue.Hull, After: path, Lines: 1, AreaM2: dec("0.06"), Clamps: 4 + k})
				}
			}
			var simple, plan time.Duration
			var few, many int
			for b.Loop() {
				start := time.Now()
				many = nextFit(b, y, blanks)
				simply := time.Now()
				p, err := glue.Make(pots(), y, blanks)
				if err != nil || len(p.TooLong) > 0 {
					b.Fatal(p.TooLong, err)
				}
				plan += time.Since(simply)
				simple += simply.Sub(start)
				few = len(p.Batches)
			}
			b.ReportMetric(float64(plan)/float64(simple), "x_simple")
			b.ReportMetric(float64(few)/float64(many), "batches_of_simple")
		})
	}
}

// nextFit is how many batches there are where one is closed as soon as the next blank has no room, at each place.
func nextFit(b *testing.B, y glue.Layup, blanks []glue.Blank) int {
	batches := 0
	for _, place := range []glue.Place{"", glue.Hull} {
		c := y.ShopC
		if place == glue.Hull {
			c = *y.HullC
		}
		here, err := pots().At(c)
		if err != nil {
			b.Fatal(err)
		}
		room := y.Room(here.Working)
		hands, clamps := room.Hands, room.Clamps // of a batch that is full
		for _, k := range blanks {
			if k.Where != place {
				continue
			}
			l, err := y.Load(k)
			if err != nil {
				b.Fatal(err)
			}
			if hands+l.Hands() > room.Hands || clamps+l.Clamps > room.Clamps {
				batches, hands, clamps = batches+1, 0, 0
			}
			hands, clamps = hands+l.Hands(), clamps+l.Clamps
		}
	}
	return batches
}
