package api_test

import (
	"net/http"
	"slices"
	"strconv"
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
	ply := string(d.get(d.option(0, "ripping-list.svg") + query + "&list=" + strconv.Itoa(len(a.Ripping)+1)).want(200).body)
	if !strings.Contains(ply, "Cutting plan of pattern ply for Wendeline") || !strings.Contains(ply, "frame 21, both sides, laid into each other") {
		t.Error("the sheets of pattern stock are not drawn after the boards")
	}
	p := d.get(d.option(0, "ripping-list.svg")+query+"&list=9").refused(http.StatusBadRequest, "malformed-request")
	if len(p.Errors) != 1 || p.Errors[0].Parameter != "list" {
		t.Errorf("%+v", p.Errors)
	}
}

// What the yard has in hand stands beside the sheet's boards at what a job is charged for it, where a version of the rack is
// named; a version that is not there is told.
func TestBuyListDrawsOnTheRack(t *testing.T) {
	d := open(t, file(t))
	type listed struct {
		Rack   *struct{ N int64 }
		Cost   struct{ Amount string }
		Bound  struct{ Amount string }
		Timber []struct {
			Boards []struct {
				Offer string
				Count int64
				Cost  struct{ Amount string }
			}
		}
	}
	query := "?sheet=" + d.demo.Sheet + "&version=2"
	var without, with listed
	d.get(d.option(0, "buy-list") + query).want(200).into(&without)
	d.get(d.option(0, "buy-list") + query + "&rack=1").want(200).into(&with)
	if without.Rack != nil || with.Rack == nil || with.Rack.N != 1 {
		t.Errorf("drawn on %v and %v", without.Rack, with.Rack)
	}
	a, err := strconv.ParseFloat(without.Cost.Amount, 64)
	if err != nil {
		t.Fatal(err)
	}
	b, err := strconv.ParseFloat(with.Cost.Amount, 64)
	if err != nil || b >= a {
		t.Errorf("with the rack %v, without %v", b, a)
	}
	found := 0
	for _, x := range with.Timber[0].Boards {
		if strings.HasPrefix(x.Offer, "rack: ") {
			found++
			if x.Offer == "rack: A4" && x.Count == 2 && x.Cost.Amount != "140.00" {
				t.Errorf("%+v", x)
			}
		}
	}
	if found == 0 {
		t.Error("nothing of the rack is used")
	}
	d.get(d.option(0, "buy-list")+query+"&rack=9").refused(http.StatusNotFound, "not-found")
	d.get(d.option(0, "ripping-list.svg") + query + "&rack=1").want(200)
}

// A board of a species that no takeoff could ask for is refused, and so is one shorter than its clear stretch.
func TestRackSaysWhatIsWrong(t *testing.T) {
	d := open(t, file(t))
	rack := map[string]any{"notation": "mm", "boards": []any{map[string]any{"id": "R1", "count": 1, "species": "white_oakk", "grade": "FAS", "thickness": "50", "width": "150", "length": "2400",
		"clear": []any{map[string]any{"from": "0", "to": "2500"}}}}}
	p := d.send(http.MethodPut, "/api/v1/rack", rack, seen(`"1"`)).refused(http.StatusUnprocessableEntity, "document-faults")
	if at := p.pointers(); !slices.Equal(at, []string{"/boards/0/clear/0/to", "/boards/0/species"}) {
		t.Errorf("faults at %v", at)
	}
}

func TestRackOfAVersionThatIsNotThere(t *testing.T) {
	open(t, file(t)).get("/api/v1/rack?version=9").refused(http.StatusNotFound, "not-found")
}
