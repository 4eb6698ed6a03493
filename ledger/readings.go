package ledger

import (
	"cmp"
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/say"
	"knockon/span"
)

// readings gives the indications that show wrong and those that are dark, in
// the order of the book.
func (c *comparison) readings() (wrong, dark []Reading) {
	for _, i := range c.build.Indications {
		if lies := c.lies[i.ID]; len(lies) > 0 {
			wrong = append(wrong, Reading{i, c.readingSpans(i, lies)})
		}
		if out := c.isThere(i.ID, circuit.Lit).Beyond(c.isHere(i.ID, circuit.Lit)); len(out) > 0 {
			dark = append(dark, Reading{i, c.darkSpans(i, out)})
		}
	}
	return wrong, dark
}

func (c *comparison) readingSpans(i *book.Indication, s span.Set) []ReadingSpan {
	var list []ReadingSpan
	for _, p := range s {
		at := c.worst(i, p)
		list = append(list, ReadingSpan{
			Span: p, ToEnd: p.To == c.end, At: at,
			Shows: c.text(i, circuit.Main, i.Shows, at), Means: c.text(i, circuit.Means, i.Means, at),
		})
	}
	return list
}

// worst is the moment of a stretch at which an indication is farthest from the truth,
// of those at which numbers are looked at; of words and yes/no, its middle.
func (c *comparison) worst(i *book.Indication, p circuit.Span) book.Time {
	at := p.From + p.Length()/2
	n, _ := c.here.Circuit().Node(circuit.Value{Item: i.ID})
	m, ok := c.here.Circuit().Node(circuit.Value{Item: i.ID, Aspect: circuit.Means})
	if i.Shows.Type != book.Number || !ok {
		return at
	}
	off := func(t book.Time) float64 { return math.Abs(c.here.At(n, t) - c.here.At(m, t)) }
	most := off(at)
	for _, t := range c.looks() {
		if t >= p.From && t < p.To && off(t) > most {
			at, most = t, off(t)
		}
	}
	return at
}

func (c *comparison) darkSpans(i *book.Indication, s span.Set) []ReadingSpan {
	var list []ReadingSpan
	for _, p := range s {
		r := ReadingSpan{Span: p, ToEnd: p.To == c.end}
		if i.Means != nil {
			r.Means = c.text(i, circuit.Means, i.Means, p.From+p.Length()/2)
		}
		list = append(list, r)
	}
	return list
}

// text is what an indication shows or means at a moment, as a person reads it.
func (c *comparison) text(i *book.Indication, a circuit.Aspect, e *book.Expr, t book.Time) string {
	n, ok := c.here.Circuit().Node(circuit.Value{Item: i.ID, Aspect: a})
	if !ok {
		return ""
	}
	v := c.here.At(n, t)
	switch {
	case e.Type == book.Number:
		return say.Quantity(v, e.Unit)
	case e.Type == book.Word:
		return c.here.Circuit().WordText(v)
	case v != 0:
		return "on"
	}
	return "off"
}

// announcements gives the alerts that are given here and not there in the
// order in which they are given, those that are false, and those held back.
func (c *comparison) announcements() (given, false_, held []Announcement) {
	for _, a := range c.build.Alerts {
		if n := c.given(a); len(n.Spans) > 0 {
			given = append(given, n)
		}
		if n := c.falsely(a); len(n.Spans) > 0 {
			false_ = append(false_, n)
		}
		if n := c.heldBack(a); len(n.Spans) > 0 {
			held = append(held, n)
		}
	}
	for _, list := range [][]Announcement{given, false_, held} {
		slices.SortStableFunc(list, func(a, b Announcement) int {
			return cmp.Or(cmp.Compare(a.Spans[0].From, b.Spans[0].From), cmp.Compare(level(a.Alert), level(b.Alert)))
		})
	}
	return given, false_, held
}

func (c *comparison) given(a *book.Alert) Announcement {
	news := c.news[a.ID].With(c.passing[a.ID])
	return Announcement{Alert: a, Spans: news, Sounds: c.sounds(a, news)}
}

// falsely gives when an alert is false here and not there. A false alert of no
// duration counts if it sounds.
func (c *comparison) falsely(a *book.Alert) Announcement {
	here, there := c.both(a.ID, circuit.False)
	s := span.Lasting(here).Beyond(span.Lasting(there))
	sounds := c.allSounds(a)
	brief := slices.DeleteFunc(span.OnlyHere(here, there), func(t book.Time) bool { return !slices.Contains(sounds, t) })
	all := s.With(brief)
	return Announcement{Alert: a, Spans: all, Sounds: c.sounds(a, all)}
}

func (c *comparison) heldBack(a *book.Alert) Announcement {
	n := Announcement{Alert: a, Spans: c.held(a)}
	if len(n.Spans) == 0 {
		return n
	}
	n.Phases = c.phasesOf(n.Spans)
	n.At = book.Never
	for _, s := range c.news[a.ID].With(c.passing[a.ID]) {
		if s.From >= n.Spans[0].From {
			n.At = min(n.At, s.From)
		}
	}
	n.Given = n.At != book.Never
	if !n.Given {
		n.At = 0
	}
	return n
}

// sounds lists when an alert sounds within given stretches.
func (c *comparison) sounds(a *book.Alert, in []circuit.Span) []book.Time {
	var list []book.Time
	for _, t := range c.allSounds(a) {
		if slices.ContainsFunc(in, func(s circuit.Span) bool { return s.From <= t && (t < s.To || t == s.From) }) {
			list = append(list, t)
		}
	}
	return list
}

func (c *comparison) allSounds(a *book.Alert) []book.Time {
	return slices.DeleteFunc(c.here.Sounds(a), func(t book.Time) bool { return t > c.end })
}
