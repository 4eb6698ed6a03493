package web

import (
	"container/list"
	"context"
	"fmt"
	"sync"
	"time"

	"knockon/ask"
	"knockon/handout"
	"knockon/ledger"
	"knockon/web/door"
)

// keeper answers questions and keeps the last answers: one page asks for the
// same answer again for its chains, pictures and downloads. Courses and
// flights without failures are kept by the desk.
type keeper struct {
	desk *ask.Desk
	door *door.Door

	mu     sync.Mutex
	byKey  map[string]*list.Element
	recent *list.List // of *kept, the last used in front
}

// kept is an answer with its words.
type kept struct {
	key string
	*ask.Answer
	view *ledger.View

	once  sync.Mutex
	other *ask.Otherwise // nil: not worked out yet

	varying sync.Mutex
	varied  []ledger.Varied // what other runs make of it; nil: not worked out yet, or not all
	saving  sync.Mutex
	saves   *ledger.Varied // what saves the gravest loss; nil likewise

	worths keptWorth // what each step of its crew is worth

	handing sync.Mutex
	sheet   *handout.Beside // what the handout takes beside; nil likewise
}

// mostAnswers is how many answers of a book are kept. One holds two records, of
// some hundred kilobytes.
const mostAnswers = 48

// answers lets questions in: one takes some ten milliseconds.
var answers = door.Setting{AtWork: 4, Waiting: 256, Patience: 20 * time.Second, Limit: 30 * time.Second}

func newKeeper(d *ask.Desk) *keeper {
	return &keeper{desk: d, door: door.New(answers), byKey: map[string]*list.Element{}, recent: list.New()}
}

// answer gives the answer to a question, kept or new.
func (k *keeper) answer(ctx context.Context, q ask.Question) (*kept, error) {
	return k.answerBy(ctx, q, func(ctx context.Context, q ask.Question) (*ask.Answer, *ask.Otherwise, error) {
		a, err := k.desk.Answer(ctx, q)
		return a, nil, err
	})
}

// both gives the same, and if it is new works out the other conduct meanwhile.
func (k *keeper) both(ctx context.Context, q ask.Question) (*kept, error) {
	return k.answerBy(ctx, q, k.desk.Both)
}

func (k *keeper) answerBy(ctx context.Context, q ask.Question, work func(context.Context, ask.Question) (*ask.Answer, *ask.Otherwise, error)) (*kept, error) {
	key := fmt.Sprintf("%#v", q)
	if a := k.find(key); a != nil {
		return a, nil
	}
	var a *kept
	err := k.door.Do(ctx, func(ctx context.Context) error {
		if a = k.find(key); a != nil { // somebody asked the same while we waited
			return nil
		}
		fresh, other, err := work(ctx, q)
		if err == nil {
			a = k.keep(&kept{key: key, Answer: fresh, view: fresh.View(), other: other})
		}
		return err
	})
	return a, err
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
