package app

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
)

// MissingDocumentError: something has to be put before this can be answered.
type MissingDocumentError struct {
	What string // "the job has no hull yet"
	Fix  string // "put jobs/{job}/hull first"
}

func (e *MissingDocumentError) Error() string { return e.What + ": " + e.Fix }

// MemberInUseError: frames that an option names were to be taken away.
type MemberInUseError struct{ Uses []Use }

// Use is a member that an option names.
type Use struct {
	Option, Name string
	Member       boat.Member
}

func (e *MemberInUseError) Error() string {
	return fmt.Sprintf("%d frames that options name would be gone, the first: %s of option %s", len(e.Uses), e.Uses[0].Member, e.Uses[0].Name)
}

// FaultyTakeoffError: what was measured and chosen cannot be built as it stands, so no quote on it is issued.
type FaultyTakeoffError struct{ Faults []bill.Fault }

func (e *FaultyTakeoffError) Error() string {
	return fmt.Sprintf("the takeoff has %d faults, the first: %s", len(e.Faults), e.Faults[0].Detail)
}

// FaultyTwinError is FaultyTakeoffError for documents that came along: each fault has its place in them.
type FaultyTwinError struct{ Faults []PlacedFault }

// PlacedFault is a takeoff's fault and the JSON pointer of what causes it.
type PlacedFault struct {
	bill.Fault
	Pointer string `json:"pointer"`
}

func (e *FaultyTwinError) Error() string {
	return fmt.Sprintf("the takeoff has %d faults, the first: %s", len(e.Faults), e.Faults[0].Detail)
}

// BasisMovedError: the job or documents that a draft rests on have another version now.
type BasisMovedError struct{ Moved []Moved }

// Moved is a document with the version a draft rests on and the one that stands.
type Moved struct {
	Kind string `json:"kind"`
	ID   string `json:"id"`
	Was  int64  `json:"was"`
	Is   int64  `json:"is"`
}

func (e *BasisMovedError) Error() string {
	return fmt.Sprintf("%d documents have moved, the first: %s from version %d to %d", len(e.Moved), e.Moved[0].Kind, e.Moved[0].Was, e.Moved[0].Is)
}

// PublishedError: a published version of a price sheet was to be changed.
type PublishedError struct{ N int64 }

func (e *PublishedError) Error() string { return fmt.Sprintf("version %d is published", e.N) }

// NotPublishedError: prices were asked for from a version that is still a draft.
type NotPublishedError struct{ N int64 }

func (e *NotPublishedError) Error() string { return fmt.Sprintf("version %d is not published", e.N) }

// VersionOrderError: a draft was put at a number that is not the next.
type VersionOrderError struct{ N, Next int64 }

func (e *VersionOrderError) Error() string {
	return fmt.Sprintf("version %d cannot be begun: the next is %d", e.N, e.Next)
}

// ComputeError: the documents are sound each by itself, and yet nothing can be computed from them together.
type ComputeError struct{ Faults document.Faults }

func (e *ComputeError) Error() string { return "cannot be computed: " + e.Faults.Error() }

// CurrencyStaysError: the currency of a job that has quotes or spend was to be changed.
type CurrencyStaysError struct{ Is, Asked string }

func (e *CurrencyStaysError) Error() string {
	return fmt.Sprintf("the job stays in %s and does not change to %s", e.Is, e.Asked)
}
