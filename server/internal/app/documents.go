package app

import (
	"context"
	"errors"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// Kinds of documents, as the store and a basis name them.
const (
	kindHull     = "hull"
	kindPatterns = "patterns"
	kindFrames   = "frames"
	kindFloors   = "floors"
	kindFindings = "findings"
	// kindPlanking is how a job's boat is planked, kindPlanks what an option renews of it.
	kindPlanking = "planking"
	kindPlanks   = "planks"
	kindRemedies = "remedies"
	kindSpecies  = "species"
	kindSteps    = "step-library"
	kindRules    = "rules"
	kindRack     = "rack"
	kindSheet    = "price-sheet"
	kindPrices   = "price-sheet-version"
)

// yardOwn is the id of a document of which a yard has one.
const yardOwn = "yard"

// schema is the shape that documents are written in now.
const schema = 1

// Written is a document as it is kept, with its version.
type Written[T any] struct {
	Doc  T
	N    int64
	Hash string
}

func writtenOf[T any](d store.Document) (Written[T], error) {
	doc, err := stored[T](d.Kind, d.Body)
	return Written[T]{doc, d.N, d.Hash}, err
}

// absent turns the store's word for a document that is not there yet into what to do about it.
func absent(err error, what, fix string) error {
	var none *store.NotFoundError
	if errors.As(err, &none) {
		return &MissingDocumentError{what, fix}
	}
	return err
}

// jobDocument reads the newest version of a job's document; the job has to be one that who may see.
func jobDocument[T any](ctx context.Context, a *App, who auth.Principal, kind, job string) (Written[T], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[T]{}, err
	}
	d, err := a.store.In(who.Yard).Document(ctx, kind, job)
	if err != nil {
		return Written[T]{}, err
	}
	return writtenOf[T](d)
}

// put writes the next version of a document. before runs in the same transaction and may refuse.
func put[T any](ctx context.Context, a *App, who auth.Principal, kind, id string, doc T, seen store.Seen, before func(context.Context, *store.Tx) error) (Written[T], error) {
	body, err := encode(kind, doc)
	if err != nil {
		return Written[T]{}, err
	}
	return change(ctx, a, who, "put "+kind, func(ctx context.Context, tx *store.Tx) (Written[T], error) {
		if before != nil {
			if err := before(ctx, tx); err != nil {
				return Written[T]{}, err
			}
		}
		d, err := tx.PutDocument(ctx, store.Document{Kind: kind, ID: id, Schema: schema, Body: body}, seen)
		if err != nil {
			return Written[T]{}, err
		}
		return writtenOf[T](d)
	})
}
