package ledger

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/span"
)

// losses gives a row for each function that is lost, the worst first.
func (c *comparison) losses() []Loss {
	var list []Loss
	for _, f := range c.build.Functions {
		if gone := c.lost(f); len(gone) > 0 {
			list = append(list, c.loss(f, gone))
		}
	}
	slices.SortStableFunc(list, worseFirst)
	return list
}

func worseFirst(a, b Loss) int {
	return cmp.Or(
		-cmp.Compare(rank(a.Mattered), rank(b.Mattered)),
		-cmp.Compare(a.Class, b.Class),
		-cmp.Compare(severity(a), severity(b)),
	)
}

func rank(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// Severity is the class of a loss as it is: one that is hidden or denied may be graded
// otherwise than one that people know of.
func (l Loss) Severity() string { return l.Function.Graded(l.Word().Unknown()) }

// severity is its place in book.Severities, -1 where none is given.
func severity(l Loss) int { return slices.Index(book.Severities, l.Severity()) }

func (c *comparison) loss(f *book.Function, gone []LossSpan) Loss {
	l := Loss{Function: f}
	for _, s := range gone {
		c.classify(f.ID, &s)
		l.Mattered = l.Mattered || s.Mattered
		l.Spans = append(l.Spans, s)
	}
	for _, s := range l.Spans {
		if s.Mattered == l.Mattered {
			l.Class = max(l.Class, s.Class)
		}
	}
	return l
}

// classify sorts one span of a loss: the first class that fits.
func (c *comparison) classify(f string, s *LossSpan) {
	by, at := c.firstTold(f, s.Span)
	due := max(s.From, s.Wanted.From)
	liar, lied := c.lying(f, s)
	if liar != nil {
		s.Shown, s.ShownAt = c.firstShown(f, s.Span)
	}
	switch {
	case by != nil && at <= due+c.told:
		s.Class, s.By, s.At = Told, by, at
	case by != nil:
		s.Class, s.By, s.At, s.Late = ToldLate, by, at, at-due
		s.HeldIn = c.phasesOf(c.held(by).Within(circuit.Span{From: s.From, To: at}))
	case liar != nil:
		s.Class, s.Via, s.At = ToldWrong, liar, lied
		s.HeldIn = c.heldAny(f, s.Span)
	default:
		s.Class, s.HeldIn = NotTold, c.heldAny(f, s.Span)
		if via, at := c.firstShown(f, s.Span); via != nil {
			s.Class, s.Via, s.At = OnlyShown, via, at
		}
	}
}

// heldAny lists the phases that hold back any alert that would tell of a loss.
func (c *comparison) heldAny(f string, p circuit.Span) []string {
	var held span.Set
	for _, a := range c.telling[f] {
		held = held.Or(c.held(a).Within(p))
	}
	return c.phasesOf(held)
}

// firstTold finds the alert that first tells of a loss, and when it was given.
// Of several at one moment the one of the higher level, then the first in the book.
func (c *comparison) firstTold(f string, p circuit.Span) (by *book.Alert, at book.Time) {
	for _, a := range c.telling[f] {
		t, ok := Tells(c.right[a.ID], p, c.told)
		if ok && (by == nil || t < at || t == at && level(a) < level(by)) {
			by, at = a, t
		}
	}
	return by, at
}

// level is an alert's place in book.Levels.
func level(a *book.Alert) int { return slices.Index(book.Levels, a.Level) }

// leastGiven is how long an alert must be given to tell anything: what is gone
// sooner has hardly been seen (common practice).
const leastGiven = book.Second / 2

// Tells finds when an alert was given that tells of a loss, soon enough or late:
// the first stretch that stands when the loss begins, ended no longer than within
// before, or begins while it lasts. right is when the alert is given here and not
// there, and not false.
func Tells(right []circuit.Span, loss circuit.Span, within book.Time) (given book.Time, ok bool) {
	for _, s := range right {
		if s.Length() >= leastGiven && s.To >= loss.From-within && s.From < loss.To {
			return s.From, true
		}
	}
	return 0, false
}

// held gives when an alert is held back here and not there.
func (c *comparison) held(a *book.Alert) span.Set {
	if len(a.QuietIn) == 0 && a.QuietWhen == nil {
		return nil
	}
	return c.newly(a.ID, circuit.HeldBack)
}

// phasesOf lists the phases of this run that a set of moments falls into.
func (c *comparison) phasesOf(s span.Set) []string {
	var ids []string
	if len(s) == 0 {
		return nil
	}
	for _, p := range c.phases {
		if len(s.Within(p.Span)) > 0 {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// lying notes the indications that lie about a function in a span, and gives
// the first of them.
func (c *comparison) lying(f string, s *LossSpan) (first *book.Indication, at book.Time) {
	for _, i := range c.covering[f] {
		lies := c.lies[i.ID].Within(s.Span).Longer(c.wrong)
		if len(lies) == 0 {
			continue
		}
		s.Lies = append(s.Lies, i)
		if first == nil || lies[0].From < at {
			first, at = i, lies[0].From
		}
	}
	return first, at
}
