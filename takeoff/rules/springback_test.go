package rules_test

import (
	"testing"

	"ribband/takeoff/rules"
)

func TestASpringbackIsAShareOrATrial(t *testing.T) {
	d := demo(t)
	d.Springback = []rules.SpringbackRule{
		{Species: "white_oak", Thickness: "1/4", Share: "0.02", Source: "made up"},
		{Species: "teak", Thickness: "1/4", Trial: &rules.TrialRule{Radius: "24", Length: "60", Moved: "1"}, Source: "made up"},
	}
	r, faults := rules.Read(d)
	if len(faults) > 0 || len(r.Springback) != 2 || r.Springback[0].Share.String() != "0.02" || r.Springback[1].Length.String() != "1524" || r.Springback[1].Moved.String() != "25.4" {
		t.Fatalf("%+v, %v", r.Springback, faults)
	}
	good := d.Springback
	for pointer, change := range map[string]func(s *rules.SpringbackRule){
		"/springback/0":           func(s *rules.SpringbackRule) { s.Trial = good[1].Trial },
		"/springback/0/share":     func(s *rules.SpringbackRule) { s.Share = "0.6" },
		"/springback/0/thickness": func(s *rules.SpringbackRule) { s.Thickness = "0" },
		"/springback/0/species":   func(s *rules.SpringbackRule) { s.Species = "" },
		"/springback/0/source":    func(s *rules.SpringbackRule) { s.Source = "" },
		"/springback/1":           func(s *rules.SpringbackRule) { s.Species = "teak" },
		"/springback/0/trial/moved": func(s *rules.SpringbackRule) {
			s.Share, s.Trial = "", &rules.TrialRule{Radius: "24", Length: "60", Moved: "7"}
		},
		"/springback/0/trial/length": func(s *rules.SpringbackRule) {
			s.Share, s.Trial = "", &rules.TrialRule{Radius: "24", Length: "150", Moved: "1"}
		},
		"/springback/0/trial/radius": func(s *rules.SpringbackRule) {
			s.Share, s.Trial = "", &rules.TrialRule{Radius: "0", Length: "60", Moved: "1"}
		},
	} {
		one := good[0]
		change(&one)
		d.Springback = []rules.SpringbackRule{one, good[1]}
		_, faults := rules.Read(d)
		found := false
		for _, f := range faults {
			found = found || f.Pointer == pointer
		}
		if !found {
			t.Errorf("%s: %v", pointer, faults)
		}
	}
}
