package api_test

import (
	"net/http"
	"strings"
	"testing"
)

type rippingAnswer struct {
	Timber []struct {
		Boards []struct{ Count, Used, Strips int64 }
	}
	Ripping []struct {
		Boards []struct {
			First, Last int64
			Strips      []struct {
				Count  int64
				Pieces []struct {
					Line  string
					Count int64
				}
				Keep *bool
			}
		}
	}
}

// The boards of the ripping list are those of the buy list, strip for strip, and the drawing shows them.
func TestRippingListCutsTheBoardsThatAreBought(t *testing.T) {
	d := open(t, file(t))
	query := "?sheet=" + d.demo.Sheet + "&version=2"
	var a rippingAnswer
	d.get(d.option(0, "buy-list") + query).want(200).into(&a)
	if len(a.Ripping) != len(a.Timber) || len(a.Ripping) == 0 {
		t.Fatalf("%d lists of %d kinds of timber", len(a.Ripping), len(a.Timber))
	}
	for i, list := range a.Ripping {
		var boards, used, all int64
		for _, b := range list.Boards {
			n := b.Last - b.First + 1
			boards += n
			for _, s := range b.Strips {
				all += n * s.Count
				if len(s.Pieces) > 0 {
					used += n * s.Count
				}
				if s.Keep != nil && len(s.Pieces) == 0 && !*s.Keep {
					t.Error("a whole strip is said to be too short to keep")
				}
			}
		}
		for _, b := range a.Timber[i].Boards {
			boards, used, all = boards-b.Count, used-b.Used, all-b.Strips
		}
		if boards != 0 || used != 0 || all != 0 {
			t.Errorf("list %d: boards %+d, strips cut %+d, strips %+d against what is bought", i, boards, used, all)
		}
	}
	svg := string(d.get(d.option(0, "ripping-list.svg") + query).want(200).body)
	if !strings.Contains(svg, "Ripping list for Wendeline") || !strings.Contains(svg, "frame 21 port") {
		t.Error("the drawing does not name the boat or a frame")
	}
	p := d.get(d.option(0, "ripping-list.svg")+query+"&list=9").refused(http.StatusBadRequest, "malformed-request")
	if len(p.Errors) != 1 || p.Errors[0].Parameter != "list" {
		t.Errorf("%+v", p.Errors)
	}
}
