package app

import (
	"errors"

	"ribband/takeoff"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/pattern"
)

// shapes are what the boat's shape is read from: lines, patterns, both, or neither, when every frame is taped.
type shapes struct {
	offsets *offsets.Table
	set     *pattern.Set
}

// readShapes reads both, or says everything that is wrong, each fault under the name of its paper.
func readShapes(lines *offsets.Document, patterns *pattern.Document) (s shapes, all document.Faults) {
	if lines != nil {
		table, faults := offsets.Read(lines)
		s.offsets = table
		all = append(all, hullFaults(faults).Under("/hull")...)
	}
	if patterns != nil {
		set, faults := pattern.Read(*patterns)
		s.set = set
		all = append(all, faults.Under("/patterns")...)
	}
	return s, all
}

// fit draws the fair curves into the basis, or says which points make none.
func (s shapes) fit(b *takeoff.Basis) (all document.Faults) {
	if s.offsets != nil {
		fitted, err := hull.Fit(s.offsets)
		b.Hull = fitted
		var unfair *offsets.FaultsError
		if errors.As(err, &unfair) {
			all = append(all, hullFaults(unfair.Faults).Under("/hull")...)
		} else if err != nil {
			all = append(all, document.Fault{Pointer: "/hull", Detail: err.Error(), Fix: "check the offsets"})
		}
	}
	if s.set != nil {
		fitted, faults := s.set.Fit()
		b.Patterns = fitted
		all = append(all, faults.Under("/patterns")...)
	}
	return all
}

// judged holds the offsets against the boat they make, with the error that the fitted lines were read with; nil where there
// are none.
func (s shapes) judged(fitted *hull.Hull) *fairness.Report {
	if s.offsets == nil || fitted == nil {
		return nil
	}
	worse, _, _ := fitted.ReadWorse()
	return fairness.Judge(s.offsets, worse)
}
