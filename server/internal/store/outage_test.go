package store_test

import (
	"context"
	"errors"
	"io"
	"net"
	"net/url"
	"sync"
	"testing"
	"time"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// inVain is how long the tests wait for what will not answer.
const inVain = time.Second

// briefly is a context for a call that is made to wait in vain.
func briefly(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(t.Context(), inVain)
	t.Cleanup(cancel)
	return ctx
}

// background is a context without a test.
func background() context.Context { return context.Background() }

// silence is a relay to a database that can be made to swallow everything, as a
// cut network does: nothing is closed, nothing answers.
type silence struct {
	net.Listener
	target string
	mu     sync.Mutex
	silent bool
	open   []net.Conn
}

func newSilence(t *testing.T, target string) *silence {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	relay := &silence{Listener: listener, target: target}
	go relay.serve()
	t.Cleanup(func() {
		relay.mu.Lock()
		defer relay.mu.Unlock()
		_ = relay.Close()
		for _, conn := range relay.open {
			_ = conn.Close()
		}
	})
	return relay
}

func (r *silence) set(silent bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.silent = silent
}

func (r *silence) isSilent() bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.silent
}

func (r *silence) serve() {
	for {
		near, err := r.Accept()
		if err != nil {
			return
		}
		far, err := net.Dial("tcp", r.target)
		if err != nil {
			_ = near.Close()
			return
		}
		r.mu.Lock()
		r.open = append(r.open, near, far)
		r.mu.Unlock()
		go r.carry(far, near)
		go r.carry(near, far)
	}
}

// carry hands bytes on until one side closes; what arrives in silence is lost and
// so is the connection, without either side being told.
func (r *silence) carry(to io.WriteCloser, from io.Reader) {
	buffer := make([]byte, 32*1024)
	lost := false
	for {
		n, err := from.Read(buffer)
		lost = lost || r.isSilent()
		if n > 0 && !lost {
			if _, err := to.Write(buffer[:n]); err != nil {
				return
			}
		}
		if err != nil {
			if !lost {
				_ = to.Close()
			}
			return
		}
	}
}

// TestSilentDatabase cuts the network to PostgreSQL without a word and mends it.
func TestSilentDatabase(t *testing.T) {
	e := storetest.PostgreSQL(t)
	address, err := url.Parse(e.Address)
	if err != nil {
		t.Fatal(err)
	}
	relay := newSilence(t, address.Host)
	address.Host = relay.Addr().String()
	through := storetest.Place{Engine: e.Engine, Address: address.String(), Raw: e.Raw}
	s := through.Open(t)
	yard := founded(t, s)
	aJob(t, s, yard)

	relay.set(true)
	_, read := s.In(yard).Jobs(briefly(t), store.Page{})
	write := tryWrite(briefly(t), s, yard, draftOf("none"))
	ping := s.Ping(briefly(t))
	for what, err := range map[string]error{"read": read, "write": write, "ping": ping} {
		var unavailable *store.UnavailableError
		if !errors.As(err, &unavailable) || unavailable.RetryAfter <= 0 {
			t.Errorf("%s in silence gave %v", what, err)
		}
	}
	relay.set(false)
	for try := 0; ; try++ {
		err := s.Ping(briefly(t))
		if err == nil {
			break
		}
		if try == 20 { // more than the pool's 16 connections, each of which may be a lost one
			t.Fatalf("the network is mended and the database still %v", err)
		}
	}
	aJob(t, s, yard)
	jobs, err := s.In(yard).Jobs(t.Context(), store.Page{})
	if err != nil || len(jobs.Items) != 2 {
		t.Errorf("%d jobs, %v", len(jobs.Items), err)
	}
}

// TestCallerLeft ends a caller's context before the write.
func TestCallerLeft(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		_, read := s.In(yard).Jobs(ctx, store.Page{})
		for _, err := range []error{read, tryWrite(ctx, s, yard, draftOf("none"))} {
			if !errors.Is(err, context.Canceled) {
				t.Errorf("a caller that left got %v", err)
			}
		}
		late, cancel := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
		defer cancel()
		var unavailable *store.UnavailableError
		if err := tryWrite(late, s, yard, draftOf("none")); !errors.As(err, &unavailable) {
			t.Errorf("a deadline that had passed gave %v", err)
		}
	})
}

// TestPatience gives a store no time at all.
func TestPatience(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t, store.WithPatience(time.Nanosecond))
		_, read := s.Yards(t.Context())
		for what, err := range map[string]error{"read": read, "ping": s.Ping(t.Context()), "write": tryWrite(t.Context(), s, "a", draftOf("none"))} {
			var unavailable *store.UnavailableError
			if !errors.As(err, &unavailable) {
				t.Errorf("%s gave %v", what, err)
			}
		}
	})
}
