package worth

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/span"
)

// comparison lays the flight of a trial beside the one done right.
type comparison struct {
	build        *book.Build
	right, trial *Flown
	due          book.Time // when the step was due
	end          book.Time // where one of them breaks off; Never: none does
	slack        book.Time // shorter differences say nothing
	harms        []Harm
}

// compare lists how a trial differs, the gravest first. Differences before the
// step is due cannot come from it; those shorter than wrong_after_s say nothing.
func compare(right, trial *Flown, due book.Time) []Harm {
	b := right.Plan.Record.Course.Build
	c := &comparison{build: b, right: right, trial: trial, due: due, end: min(broken(right), broken(trial)), slack: ledger.WrongAfter(b.Aircraft)}
	c.losses()
	c.readings(Misleads, right.Ledger.Wrong, trial.Ledger.Wrong)
	c.readings(Dark, right.Ledger.Dark, trial.Ledger.Dark)
	c.alerts()
	c.effects()
	c.endings()
	slices.SortStableFunc(c.harms, gravest)
	return c.harms
}

// gravest orders harms: what is bad before what is better, what mattered first.
func gravest(a, b Harm) int {
	return cmp.Or(
		cmp.Compare(no(a.Better), no(b.Better)),
		cmp.Compare(a.grade(), b.grade()),
		-cmp.Compare(a.Class, b.Class),
		-cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Bites, b.Bites),
		cmp.Compare(a.Item, b.Item),
	)
}

func no(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// grade is how grave a kind of harm is, 0 the gravest.
func (h Harm) grade() int {
	order := []Kind{Breaks, Loss, False, Worse, Misleads, Stop, Range, Repeats, Announce, Dark}
	g := slices.Index(order, h.Kind)
	if h.Kind == Loss && !h.Mattered {
		return len(order)
	}
	return g
}

func (c *comparison) add(h Harm) {
	h.Already = h.From < c.due
	c.harms = append(c.harms, h)
}

func (c *comparison) losses() {
	for _, f := range c.build.Functions {
		was, is := c.right.Ledger.Loss(f.ID), c.trial.Ledger.Loss(f.ID)
		if alike(lossSpans(was), lossSpans(is)) {
			if was != nil && was.Class != is.Class {
				c.told(f, was, is)
			}
			continue
		}
		more := c.later(lossSpans(is).Minus(lossSpans(was)))
		less := c.later(lossSpans(was).Minus(lossSpans(is)))
		if more.Length() > c.slack {
			c.add(c.loss(f, is, c.trial, more))
		}
		if less.Length() > c.slack {
			h := c.loss(f, was, c.right, less)
			h.Better = true
			c.add(h)
		}
	}
}

// later cuts spans to what comes after the step was due: nothing before that can
// come from it. What began before and lasts is kept from the moment it was due.
// Nothing is compared behind the place where one of the flights breaks off.
func (c *comparison) later(list span.Set) span.Set {
	return list.Within(circuit.Span{From: c.due, To: max(c.due, c.end)})
}

// broken is where a flight breaks off; Never: it arrives.
func broken(f *Flown) book.Time {
	if e := f.Plan.Record.Ending(); !e.Arrived() {
		return e.At
	}
	return book.Never
}

func lossSpans(l *ledger.Loss) (list span.Set) {
	if l == nil {
		return nil
	}
	for _, s := range l.Spans {
		list = append(list, s.Span)
	}
	return list
}

// loss describes the moments in which a function is lost in one flight only.
func (c *comparison) loss(f *book.Function, l *ledger.Loss, in *Flown, list span.Set) Harm {
	h := Harm{Kind: Loss, Item: f.ID, From: list[0].From, Bites: list[0].From, Lasts: list.Length(), Severity: slices.Index(book.Severities, f.Severity)}
	wanted := list.And(yes(in, circuit.Value{Item: f.ID, Aspect: circuit.Wanted}))
	if f.Wanted == nil {
		wanted = list
	}
	if wanted.Length() > c.slack {
		h.Mattered, h.Bites = true, wanted[0].From
	}
	for _, s := range l.Spans {
		if len(list.Within(s.Span)) > 0 {
			h.Class = max(h.Class, s.Class)
			h.Begin(s.From)
		}
	}
	return h
}

// Begin moves the start of a harm to that of the stretch that it is part of.
func (h *Harm) Begin(from book.Time) { h.From = min(h.From, from) }

// told notes a loss that is the same, and told in another way.
func (c *comparison) told(f *book.Function, was, is *ledger.Loss) {
	h := Harm{Kind: Worse, Item: f.ID, From: is.Spans[0].From, Bites: is.Spans[0].From, Lasts: lossSpans(is).Length(),
		Mattered: is.Mattered, Class: is.Class, Severity: slices.Index(book.Severities, f.Severity)}
	if is.Class < was.Class {
		h.Better, h.Class = true, was.Class
	}
	c.add(h)
}

func (c *comparison) readings(kind Kind, was, is []ledger.Reading) {
	for _, i := range c.build.Indications {
		a, b := readingSpans(was, i.ID), readingSpans(is, i.ID)
		if alike(a, b) {
			continue
		}
		for _, d := range []struct {
			list   span.Set
			better bool
		}{{c.later(span.Set(b).Minus(a)), false}, {c.later(span.Set(a).Minus(b)), true}} {
			if d.list.Length() > c.slack {
				c.add(Harm{Kind: kind, Item: i.ID, From: d.list[0].From, Bites: d.list[0].From, Lasts: d.list.Length(),
					Class: ledger.ToldWrong, Severity: -1, Better: d.better})
			}
		}
	}
}

func readingSpans(rows []ledger.Reading, id string) (list span.Set) {
	for _, r := range rows {
		if r.Indication.ID != id {
			continue
		}
		for _, s := range r.Spans {
			list = append(list, s.Span)
		}
	}
	return list
}

// yes is when a yes/no value is yes in a flight.
func yes(in *Flown, v circuit.Value) []circuit.Span {
	n, ok := in.Plan.Record.Circuit().Node(v)
	if !ok {
		return nil
	}
	return in.Plan.Record.Spans(n)
}

// endings notes that one of the flights breaks off, and the other does not or later.
func (c *comparison) endings() {
	was, is := broken(c.right), broken(c.trial)
	h := Harm{Kind: Breaks, From: c.end, Bites: c.end, Severity: -1, Mattered: true}
	switch {
	case is < was:
		h.Why = c.trial.Plan.Record.Ending().Why
	case was < is:
		h.Why, h.Better = c.right.Plan.Record.Ending().Why, true
	default:
		return
	}
	c.add(h)
}
