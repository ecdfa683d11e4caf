// Package hulltest is for tests alone: it reads tables of offsets that are meant to be sound and fits hulls to them.
package hulltest

import (
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// Read is the table of a document; every fault of it fails the test.
func Read(t testing.TB, doc *offsets.Document) *offsets.Table {
	t.Helper()
	o, faults := offsets.Read(doc)
	for _, f := range faults {
		t.Errorf("fault: %v", f)
	}
	if len(faults) > 0 {
		t.FailNow()
	}
	return o
}

// Fit is the hull of a table.
func Fit(t testing.TB, o *offsets.Table) *hull.Hull {
	t.Helper()
	h, err := hull.Fit(o)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Hull is the hull of a document.
func Hull(t testing.TB, doc *offsets.Document) *hull.Hull {
	t.Helper()
	return Fit(t, Read(t, doc))
}
