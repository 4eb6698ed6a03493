package worth

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/span"
)

// alerts compares what is announced: what is false, what is given at all, and
// what never stops sounding.
func (c *comparison) alerts() {
	for _, a := range c.build.Alerts {
		c.announced(False, a, c.right.Ledger.False, c.trial.Ledger.False)
		if c.repeats(a) {
			continue
		}
		c.announced(Announce, a, c.right.Ledger.Alerts, c.trial.Ledger.Alerts)
	}
}

// level is the place of an alert's level counted from below, as a severity.
func level(a *book.Alert) int { return len(book.Levels) - 1 - slices.Index(book.Levels, a.Level) }

func (c *comparison) announced(kind Kind, a *book.Alert, was, is []ledger.Announcement) {
	old, now := given(was, a.ID), given(is, a.ID)
	if alike(old, now) {
		return
	}
	for _, d := range []struct {
		list   span.Set
		better bool
	}{{c.later(span.Set(now).Minus(old)), false}, {c.later(span.Set(old).Minus(now)), true}} {
		if d.list.Length() <= c.slack {
			continue
		}
		from := d.list[0].From
		for _, s := range append(slices.Clone(old), now...) {
			if kind == Announce && len(d.list.Within(s)) > 0 {
				from = min(from, s.From)
			}
		}
		c.add(Harm{Kind: kind, Item: a.ID, From: from, Bites: d.list[0].From, Lasts: d.list.Length(), Severity: level(a), Better: d.better})
	}
}

func given(rows []ledger.Announcement, id string) []circuit.Span {
	if r := row(rows, id); r != nil {
		return r.Spans
	}
	return nil
}

func row(rows []ledger.Announcement, id string) *ledger.Announcement {
	for i := range rows {
		if rows[i].Alert.ID == id {
			return &rows[i]
		}
	}
	return nil
}

// fewest is how many more times an alert must sound to count as one that
// repeats for ever.
const fewest = 3

// repeats notes an alert that sounds on until the landing, and of which the
// flight done right is rid.
func (c *comparison) repeats(a *book.Alert) bool {
	if a.RepeatsS <= 0 {
		return false
	}
	was, is := soundsOf(c.right, a.ID), soundsOf(c.trial, a.ID)
	switch {
	case len(is) >= len(was)+fewest && toEnd(is, a, c.trial) && !toEnd(was, a, c.right):
		c.add(c.endless(a, c.trial, len(is)-len(was), false))
	case len(was) >= len(is)+fewest && toEnd(was, a, c.right) && !toEnd(is, a, c.trial):
		c.add(c.endless(a, c.right, len(was)-len(is), true))
	default:
		return false
	}
	return true
}

func (c *comparison) endless(a *book.Alert, f *Flown, more int, better bool) Harm {
	sounds := soundsOf(f, a.ID)
	last := sounds[len(sounds)-1]
	return Harm{Why: f.Plan.Record.Ending().Why, Kind: Repeats, Item: a.ID, From: sounds[0], Bites: max(sounds[0], c.due), Lasts: last - sounds[0], Severity: level(a), Count: more, Better: better}
}

func soundsOf(f *Flown, id string) []book.Time {
	if r := row(f.Ledger.Alerts, id); r != nil {
		return r.Sounds
	}
	return nil
}

// toEnd says that an alert still sounds when the aircraft touches down, or when
// the flight ends in the air.
func toEnd(sounds []book.Time, a *book.Alert, f *Flown) bool {
	end := f.Plan.Record.End
	if at, landed := touchdown(f); landed {
		end = at
	}
	n := len(sounds)
	return n > 0 && sounds[n-1]+2*book.AtSeconds(a.RepeatsS) >= end
}
