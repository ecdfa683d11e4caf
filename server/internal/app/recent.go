package app

import (
	"container/list"
	"sync"
)

// recent keeps the results used last under their keys, a bounded number of them.
type recent[T any] struct {
	mu    sync.Mutex
	most  int
	order *list.List // newest use in front
	at    map[string]*list.Element
}

type kept[T any] struct {
	key   string
	value T
}

func newRecent[T any](most int) *recent[T] {
	return &recent[T]{most: most, order: list.New(), at: map[string]*list.Element{}}
}

func (r *recent[T]) get(key string) (T, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	e, ok := r.at[key]
	if !ok {
		var none T
		return none, false
	}
	r.order.MoveToFront(e)
	return e.Value.(kept[T]).value, true
}

func (r *recent[T]) put(key string, value T) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if e, ok := r.at[key]; ok {
		r.order.MoveToFront(e)
		e.Value = kept[T]{key, value}
		return
	}
	r.at[key] = r.order.PushFront(kept[T]{key, value})
	if r.order.Len() > r.most {
		last := r.order.Back()
		delete(r.at, r.order.Remove(last).(kept[T]).key)
	}
}
