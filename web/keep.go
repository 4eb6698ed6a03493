package web

import (
	"container/list"
	"context"
	"fmt"
	"sync"

	"knockon/ask"
	"knockon/ledger"
)

// keeper answers questions and keeps the last answers: one page asks for the
// same answer again for its chains, pictures and downloads. Courses and
// flights without failures are kept by the desk.
type keeper struct {
	desk *ask.Desk
	turn chan struct{} // how many are worked out at one time

	mu     sync.Mutex
	byKey  map[string]*list.Element
	recent *list.List // of *kept, the last used in front
}

// kept is an answer with its words.
type kept struct {
	key string
	*ask.Answer
	view *ledger.View
}

// Limits of a keeper. An answer holds two records, of some hundred kilobytes.
const (
	mostAnswers = 48
	mostAtOnce  = 4
)

func newKeeper(d *ask.Desk) *keeper {
	return &keeper{desk: d, turn: make(chan struct{}, mostAtOnce), byKey: map[string]*list.Element{}, recent: list.New()}
}

// answer gives the answer to a question, kept or new.
func (k *keeper) answer(ctx context.Context, q ask.Question) (*kept, error) {
	key := fmt.Sprintf("%#v", q)
	if a := k.find(key); a != nil {
		return a, nil
	}
	select {
	case k.turn <- struct{}{}:
		defer func() { <-k.turn }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	if a := k.find(key); a != nil { // somebody asked the same while we waited
		return a, nil
	}
	a, err := k.desk.Answer(ctx, q)
	if err != nil {
		return nil, err
	}
	return k.keep(&kept{key, a, a.Ledger.View()}), nil
}

func (k *keeper) find(key string) *kept {
	k.mu.Lock()
	defer k.mu.Unlock()
	e, ok := k.byKey[key]
	if !ok {
		return nil
	}
	k.recent.MoveToFront(e)
	return e.Value.(*kept)
}

func (k *keeper) keep(a *kept) *kept {
	k.mu.Lock()
	defer k.mu.Unlock()
	if e, ok := k.byKey[a.key]; ok {
		return e.Value.(*kept)
	}
	k.byKey[a.key] = k.recent.PushFront(a)
	if k.recent.Len() > mostAnswers {
		last := k.recent.Back()
		k.recent.Remove(last)
		delete(k.byKey, last.Value.(*kept).key)
	}
	return a
}
