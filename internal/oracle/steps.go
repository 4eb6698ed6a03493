package oracle

import (
	"math"
	"slices"
	"strings"

	"knockon/book"
)

// link is an item on a way from what is held to a function: what it reads, and
// whether it counts as a step.
type link struct {
	id    string
	reads []*book.Expr
	steps int // 1 with a title
	ways  []string
	main  string
	hand  bool // a control that is moved by hand
}

// links are all items that a way can lead through, in the order of the book.
func (k *knower) links() (list []link) {
	for _, u := range k.Build.Units {
		l := link{id: u.ID, main: Works, reads: []*book.Expr{u.Needs}, steps: titled(u.Head), ways: []string{Failed}}
		for _, f := range u.Faults {
			l.ways = append(l.ways, Fault(f.ID))
		}
		list = append(list, l)
	}
	for _, s := range k.Build.Signals {
		list = append(list, link{id: s.ID, main: Value, reads: []*book.Expr{s.Value, s.Set, s.Reset}, steps: titled(s.Head)})
	}
	for _, f := range k.Build.Functions {
		list = append(list, link{id: f.ID, main: Works, reads: []*book.Expr{f.Works}, steps: titled(f.Head)})
	}
	for _, c := range k.Build.Controls {
		if slices.ContainsFunc(k.Here.Actions[len(k.There.Actions):], func(a Action) bool { return a.Control == c.ID }) {
			list = append(list, link{id: c.ID, main: Position, steps: titled(c.Head), hand: true})
		}
	}
	return list
}

// titled counts an item that the book gives a title of its own.
func titled(h book.Head) int {
	if h.Title == strings.ReplaceAll(h.ID, "_", " ") {
		return 0
	}
	return 1
}

func (l link) read(id string) bool {
	found := false
	for _, e := range l.reads {
		e.Walk(func(x *book.Expr) {
			names := x.Op == book.OpRef || x.Op == book.OpFailed || x.Op == book.OpFault
			found = found || names && x.ID == id
		})
	}
	return found
}

// way is the shortest way to a function that follows at a moment; ok is false where
// there is none.
func (k *knower) way(f *book.Function, at book.Time) (best KnownFollowing, ok bool) {
	var links []link
	for _, l := range k.links() {
		if k.differs(l, at) {
			links = append(links, l)
		}
	}
	for _, from := range links {
		since, held := k.since(from, at)
		if !held {
			continue
		}
		if n, reached := shortest(links, from, f.ID); reached && (!ok || n < best.Steps) {
			best, ok = KnownFollowing{At: at, From: from.id, Since: since, Steps: n}, true
		}
	}
	return best, ok
}

// since is when something began to be held of an item without a break, the last time
// up to a moment.
func (k *knower) since(l link, by book.Time) (since book.Time, ok bool) {
	for _, s := range k.moments.stretches(func(at book.Time) bool {
		if l.hand {
			return k.told.History(l.id, l.main).settled(at) != k.there.History(l.id, l.main).settled(at)
		}
		return slices.ContainsFunc(k.held, func(h Hold) bool { return h.Item == l.id && h.From <= at && at < h.To })
	}) {
		if s.From <= by {
			since, ok = s.From, true
		}
	}
	return since, ok
}

// shortest is how many steps the shortest way has, by going over all links until
// no way gets any shorter.
func shortest(links []link, from link, to string) (n int, ok bool) {
	far := map[string]int{from.id: from.steps}
	for again := true; again; {
		again = false
		for _, l := range links {
			for _, before := range links {
				d, reached := far[before.id]
				if !reached || !l.read(before.id) {
					continue
				}
				if was, ok := far[l.id]; !ok || d+l.steps < was {
					far[l.id], again = d+l.steps, true
				}
			}
		}
	}
	n, ok = far[to]
	return n, ok
}

// differs tells whether an item is not in the told run what it is there at some
// settled moment up to one: its main value or a way in which it fails.
func (k *knower) differs(l link, to book.Time) bool {
	for _, of := range append([]string{l.main}, l.ways...) {
		told, there := k.told.History(l.id, of), k.there.History(l.id, of)
		if !told.IsNumber() {
			for _, at := range k.moments {
				if at <= to && told.settled(at) != there.settled(at) {
					return true
				}
			}
			continue
		}
		for i, c := range told.Changes {
			if c.At > to || i >= len(there.Changes) {
				break
			}
			x, y := c.Value.Number, there.Changes[i].Value.Number
			if math.Abs(x-y) > 1e-9*max(math.Abs(x), math.Abs(y)) {
				return true
			}
		}
	}
	return false
}
