package swept

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"slices"
	"strconv"
	"sync"
	"time"

	"knockon/web/door"
)

// Limits of the ways (docs/limits.md). One question has waysMegabytes for its
// diagrams, whichever way it is asked.
const (
	boundOrder    = 3 // up to which a page waits for its answer; above, it is begun
	mostOrder     = 8 // that can be asked for; 0 asks for every order
	waysMegabytes = 150
	mostSearches  = 12 // kept
	searchLimit   = 10 * time.Minute
)

// Doors of the ways: those that a page waits for, and those that are begun.
var (
	quickWays = door.Setting{AtWork: 2, Waiting: 40, Patience: 20 * time.Second, Limit: 30 * time.Second}
	longWays  = door.Setting{AtWork: 1, Waiting: 4}
)

// searches are the ways without a bound that were begun; the last are kept.
type searches struct {
	*door.Works
	log   *slog.Logger
	mu    sync.Mutex
	all   map[string]*search // by the address that asks the same
	order []string           // the oldest first
}

// search is one of them. What it found stands still once it is over.
type search struct {
	*door.Work
	answer *waysAnswer
}

func newSearches(log *slog.Logger) *searches {
	return &searches{Works: door.NewWorks(longWays), log: log, all: map[string]*search{}}
}

func (s *searches) look(key string) *search {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.all[key]
}

// begin begins a search, or leaves alone the one that is there and has not
// failed. The error is a *door.Refusal where there is no room.
func (s *searches) begin(key string, find func(context.Context) (*waysAnswer, error)) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if had := s.all[key]; had != nil && (!had.Over() || had.Err() == nil) {
		return nil
	}
	place, err := s.Enter()
	if err != nil {
		return err
	}
	s.forget(key)
	if len(s.order) >= mostSearches {
		s.forget(s.order[max(0, slices.IndexFunc(s.order, func(k string) bool { return s.all[k].Over() }))])
	}
	one := &search{}
	one.Work = s.Begin(place, searchLimit, func(ctx context.Context) (err error) {
		one.answer, err = find(ctx)
		return err
	}, func(err error) { s.log.Error("ways", "question", key, "error", err) })
	s.all[key], s.order = one, append(s.order, key)
	return nil
}

func (s *searches) forget(key string) {
	if one := s.all[key]; one != nil {
		one.Stop()
		delete(s.all, key)
		s.order = slices.DeleteFunc(s.order, func(k string) bool { return k == key })
	}
}

// begun says that a question is one whose search is begun, not waited for.
func (a waysAsk) begun() bool { return a.order == 0 || a.order > boundOrder }

// searched puts what a search has found on a page, or how long it has been at
// work, or the button that begins it.
func (p *Pages) searched(r *http.Request, page *waysPage, a waysAsk) error {
	key := a.address()
	page.Hidden = a.hidden()
	one := p.searches.look(key)
	if one == nil {
		page.Begin = fmt.Sprintf("Sets of more than %d failures can take minutes to find, so this is begun by hand. It may take %.0f minutes and %d MB; what is sure by then is the answer.", boundOrder, searchLimit.Minutes(), waysMegabytes)
		return nil
	}
	if one.Wait(r.Context(), patience) {
		page.Answer = one.answer
		return one.Err()
	}
	page.Refresh = 1
	page.Working = fmt.Sprintf("It was begun %d s ago, and is given up after %.0f minutes.", int(time.Since(one.Began).Seconds()), searchLimit.Minutes())
	return r.Context().Err()
}

// hidden are the parts of the question, for a form that is posted.
func (a waysAsk) hidden() (list []option) {
	v := a.allValues()
	var parts []string
	for part := range v {
		parts = append(parts, part)
	}
	slices.Sort(parts)
	for _, part := range parts {
		list = append(list, option{ID: part, Title: v.Get(part)})
	}
	return list
}

// beginWays answers POST /ways/begin, and leads to the page of the ways.
func (p *Pages) beginWays(r *http.Request) (reply, error) {
	a, _, err := posted(r, p.waysAsk)
	if err != nil {
		return reply{}, err
	}
	if !a.begun() {
		return reply{To: a.address()}, nil
	}
	if _, err := a.sought.Condition(a.build); err != nil {
		return reply{}, err
	}
	return reply{To: a.address()}, p.searches.begin(a.address(), func(ctx context.Context) (*waysAnswer, error) { return p.waysAnswer(ctx, a) })
}

// stopWays answers POST /ways/stop.
func (p *Pages) stopWays(r *http.Request) (reply, error) {
	a, _, err := posted(r, p.waysAsk)
	if err != nil {
		return reply{}, err
	}
	p.searches.mu.Lock()
	p.searches.forget(a.address())
	p.searches.mu.Unlock()
	return reply{To: a.address()}, nil
}

// waysOrders are the orders that can be asked for.
func waysOrders(chosen int) (list []option) {
	for n := 1; n <= mostOrder; n++ {
		list = append(list, option{ID: strconv.Itoa(n), Chosen: n == chosen})
	}
	return append(list, option{ID: "0", Title: "any number", Chosen: chosen == 0})
}
