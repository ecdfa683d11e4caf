package rules_test

import (
	"testing"

	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// joints is a rule of laminate joints in inches, as a yard writes it.
func joints() *rules.LaminateJointsRule {
	return &rules.LaminateJointsRule{Joint: rules.FeatherJoint, Slope: &rules.Sourced{Value: "12", Source: "of a test"}, Longest: "144", ApartThicknesses: "24", FromBend: "6", FromHeel: "3", Source: "of a test"}
}

func TestLaminateJoints(t *testing.T) {
	d := demo(t)
	d.LaminateJoints = joints()
	r, faults := rules.Read(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	j := r.LaminateJoints
	thick := decimal.RequireFromString("6.35")
	for what, pair := range map[string][2]string{
		"longest": {j.Longest.String(), "3657.6"}, "apart": {j.ApartOf(thick).String(), "152.4"}, "from the bend": {j.FromBend.String(), "152.4"},
		"from the heel": {j.FromHeel.String(), "76.2"}, "from the head": {j.FromHead.String(), "0"}, "slope": {j.Slope.String(), "12"},
	} {
		if pair[0] != pair[1] {
			t.Errorf("%s: %s, %s wanted", what, pair[0], pair[1])
		}
	}
	if j.Across != 1 {
		t.Errorf("across %d", j.Across)
	}
	for pointer, spoil := range map[string]func(*rules.LaminateJointsRule){
		"/joint":             func(j *rules.LaminateJointsRule) { j.Joint = "dovetail" },
		"/slope":             func(j *rules.LaminateJointsRule) { j.Joint = rules.ButtJoint },
		"/slope/value":       func(j *rules.LaminateJointsRule) { j.Slope.Value = "60" },
		"/slope/source":      func(j *rules.LaminateJointsRule) { j.Slope.Source = "" },
		"/longest":           func(j *rules.LaminateJointsRule) { j.Longest = "2000" },
		"/apart":             func(j *rules.LaminateJointsRule) { j.Apart = "6" },
		"/apart_thicknesses": func(j *rules.LaminateJointsRule) { j.ApartThicknesses = "-1" },
		"/across":            func(j *rules.LaminateJointsRule) { j.Across = 9 },
		"/from_bend":         func(j *rules.LaminateJointsRule) { j.FromBend = "near" },
		"/source":            func(j *rules.LaminateJointsRule) { j.Source = "" },
	} {
		d.LaminateJoints = joints()
		spoil(d.LaminateJoints)
		_, faults := rules.Read(d)
		if len(faults) != 1 || faults[0].Pointer != "/laminate_joints"+pointer || faults[0].Fix == "" {
			t.Errorf("%s: %+v", pointer, faults)
		}
	}
	d.LaminateJoints = joints()
	d.LaminateJoints.Slope = nil
	if _, faults := rules.Read(d); len(faults) != 1 || faults[0].Pointer != "/laminate_joints/slope" {
		t.Errorf("a scarf without a slope: %+v", faults)
	}
}
