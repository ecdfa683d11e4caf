package app

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/drawing"
)

// Store is what the app needs of the place where things are kept.
type Store interface {
	In(yard string) store.Reader
	Yards(ctx context.Context) ([]store.Yard, error)
	TokenByHash(ctx context.Context, hash string) (store.Token, error)
	Ping(ctx context.Context) error
	Write(ctx context.Context, request store.Request, change func(context.Context, *store.Tx) (store.Answer, error)) (store.Answer, bool, error)
}

// App is the running service. It may be used from many goroutines at once.
type App struct {
	store    Store
	now      func() time.Time
	version  string
	takeoffs *recent[*worked]
	drawings *recent[drawing.Drawing]
	days     *recent[string] // last days of issued revisions, by the hash of their snapshots
	gate     chan struct{}
}

// Work that may be held or done at once. Assumption: a yard has few jobs in hand at a time, and a takeoff's figures
// are some hundred kilobytes.
const (
	takeoffsKept = 64
	drawingsKept = 32
	daysKept     = 4096
	heavyAtATime = 2
)

// New is the service on a store, with its clock and the program's version.
func New(s Store, now func() time.Time, version string) *App {
	return &App{store: s, now: now, version: version, takeoffs: newRecent[*worked](takeoffsKept),
		drawings: newRecent[drawing.Drawing](drawingsKept), days: newRecent[string](daysKept), gate: make(chan struct{}, heavyAtATime)}
}

// Ready reports whether the database answers.
func (a *App) Ready(ctx context.Context) error { return a.store.Ping(ctx) }

// Who finds out who brings a token.
func (a *App) Who(ctx context.Context, token string) (auth.Principal, error) {
	return auth.Authenticate(ctx, a.store, token, a.now())
}

// Still finds out whether a token of a yard that was taken before holds now.
func (a *App) Still(ctx context.Context, yard, token string) (auth.Principal, error) {
	return auth.Confirm(ctx, a.store.In(yard), token, a.now())
}

// Key is an idempotency key with what makes the request the same one.
type Key struct{ Text, Hash string }

// Reply turns what was made into the answer that is kept with the key.
type Reply[T any] func(T) (store.Answer, error)

type trialKey struct{}

// Trial marks what is only tried: every check runs, and nothing is kept.
func Trial(ctx context.Context) context.Context { return context.WithValue(ctx, trialKey{}, true) }

// errTrial ends a change that was only tried.
var errTrial = errors.New("this was only tried")

// write runs a change for who under key, which is empty where the operation takes none.
func (a *App) write(ctx context.Context, who auth.Principal, action string, key Key, change func(context.Context, *store.Tx) (store.Answer, error)) (store.Answer, bool, error) {
	if ctx.Value(trialKey{}) != nil {
		key, change = Key{}, tried(change)
	}
	return a.store.Write(ctx, store.Request{Yard: who.Yard, Actor: who.Actor(), Action: action, Key: key.Text, RequestHash: key.Hash}, change)
}

// tried is a change whose checks run and that is then taken back.
func tried(change func(context.Context, *store.Tx) (store.Answer, error)) func(context.Context, *store.Tx) (store.Answer, error) {
	return func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		answer, err := change(ctx, tx)
		if err == nil {
			err = errTrial
		}
		return answer, err
	}
}

// errFresh ends a look for a stored answer that finds none.
var errFresh = errors.New("no answer is stored")

// replay is the answer stored under key, if there is one: asked before anything is read or computed that may have
// changed since the answer was given.
func (a *App) replay(ctx context.Context, who auth.Principal, action string, key Key) (store.Answer, bool, error) {
	if key == (Key{}) {
		return store.Answer{}, false, nil
	}
	answer, found, err := a.write(ctx, who, action, key, func(context.Context, *store.Tx) (store.Answer, error) {
		return store.Answer{}, errFresh
	})
	if errors.Is(err, errFresh) {
		return store.Answer{}, false, nil
	}
	return answer, found, err
}

// change is write for what has no key and is told by its result.
func change[T any](ctx context.Context, a *App, who auth.Principal, action string, do func(context.Context, *store.Tx) (T, error)) (T, error) {
	var out T
	_, _, err := a.write(ctx, who, action, Key{}, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		var err error
		out, err = do(ctx, tx)
		return store.Answer{}, err
	})
	return out, err
}

// heavy waits for a place among the few that compute at once, so that many callers cannot take the machine.
func (a *App) heavy(ctx context.Context) (func(), error) {
	select {
	case a.gate <- struct{}{}:
		return func() { <-a.gate }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// List is one page of things, oldest first; Next is empty on the last.
type List[T any] struct {
	Items []T    `json:"items"`
	Next  string `json:"next,omitempty"`
}

// listed turns a page of records into a page of things.
func listed[R, T any](in store.List[R], turn func(R) (T, error)) (List[T], error) {
	out := List[T]{Items: make([]T, 0, len(in.Items)), Next: in.Next}
	for _, r := range in.Items {
		t, err := turn(r)
		if err != nil {
			return List[T]{}, err
		}
		out.Items = append(out.Items, t)
	}
	return out, nil
}

// encode is a stored body.
func encode(what string, v any) ([]byte, error) {
	b, err := json.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", what, err)
	}
	return b, nil
}

// stored reads a body that this program wrote.
func stored[T any](what string, body []byte) (T, error) {
	var out T
	if err := json.Unmarshal(body, &out); err != nil {
		return out, fmt.Errorf("stored %s: %w", what, err)
	}
	return out, nil
}
