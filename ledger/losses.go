package ledger

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
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
		-cmp.Compare(severity(a.Function), severity(b.Function)),
	)
}

func rank(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// severity is a function's place in book.Severities, -1 where none is given.
func severity(f *book.Function) int { return slices.Index(book.Severities, f.Severity) }

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
	liar, lied := c.lying(f, s)
	switch {
	case by != nil && at <= s.From+c.told:
		s.Class, s.By, s.At = Told, by, at
	case by != nil:
		s.Class, s.By, s.At, s.Late = ToldLate, by, at, at-s.From
		s.HeldIn = c.phasesOf(c.held(by).within(circuit.Span{From: s.From, To: at}))
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
	var held spans
	for _, a := range c.telling[f] {
		held = held.or(c.held(a).within(p))
	}
	return c.phasesOf(held)
}

// firstTold finds the alert that first tells of a loss before it ends: the
// first such moment from the strike on. Of several at one moment the one of
// the higher level, then the first in the book.
func (c *comparison) firstTold(f string, p circuit.Span) (by *book.Alert, at book.Time) {
	for _, a := range c.telling[f] {
		t, ok := c.firstNews(a, p.To)
		if ok && (by == nil || t < at || t == at && level(a) < level(by)) {
			by, at = a, t
		}
	}
	return by, at
}

// level is an alert's place in book.Levels.
func level(a *book.Alert) int { return slices.Index(book.Levels, a.Level) }

// firstNews is the first moment before end at which an alert is given here
// and not there. One that is given for no duration sounds, and so counts.
func (c *comparison) firstNews(a *book.Alert, end book.Time) (at book.Time, ok bool) {
	at = book.Never
	if s := c.news[a.ID]; len(s) > 0 {
		at = s[0].From
	}
	if p := c.passing[a.ID]; len(p) > 0 {
		at = min(at, p[0])
	}
	return at, at < end
}

// held gives when an alert is held back here and not there.
func (c *comparison) held(a *book.Alert) spans {
	if len(a.QuietIn) == 0 {
		return nil
	}
	return c.newly(a.ID, circuit.HeldBack)
}

// phasesOf lists the phases of this run that a set of moments falls into.
func (c *comparison) phasesOf(s spans) []string {
	var ids []string
	if len(s) == 0 {
		return nil
	}
	for _, p := range c.phases {
		if len(s.within(p.Span)) > 0 {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// lying notes the indications that lie about a function in a span, and gives
// the first of them.
func (c *comparison) lying(f string, s *LossSpan) (first *book.Indication, at book.Time) {
	for _, i := range c.covering[f] {
		lies := c.lies[i.ID].within(s.Span).longer(c.wrong)
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
