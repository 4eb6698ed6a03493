package claim

import (
	"fmt"
	"math"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/say"
)

// event is when something comes, from the strike on: the stretches in which
// something observed is yes, or the moments at which a line is done, a list is begun
// or a leg is flown.
type event struct {
	name  string
	spans []circuit.Span
	why   string // it cannot come: why; "" where it could
}

func (v event) came() bool { return len(v.spans) > 0 }

// at is when it first comes.
func (v event) at() book.Time { return v.spans[0].From }

// first is seconds to it.
func (v event) first(strike book.Time) float64 {
	if !v.came() {
		return never
	}
	return (v.at() - strike).Seconds()
}

// from is when it first is so at a moment or after it.
func (v event) from(t book.Time) (at book.Time, ok bool) {
	for _, s := range v.spans {
		if s.From >= t || s.To > t {
			return max(s.From, t), true
		}
	}
	return 0, false
}

// event finds when an argument of a claim's function comes.
func (f *finder) event(e *book.Expr) (event, error) {
	v := event{name: e.String()}
	switch {
	case e.Op != book.OpLedger:
		t, err := f.timesOf(e)
		return event{name: "first", spans: t.from}, err
	case e.Word == "ticks":
		t, err := f.timesOf(e.Args[2])
		v.spans = t.from
		return v, err
	case e.Word == "flown":
		f.turned(&v, run.Manoeuvre(e.Args[0].Word))
		return v, nil
	case f.a.Crew == nil:
		v.why = "nobody acts"
		return v, nil
	case e.Word == "read":
		for _, c := range f.a.Crew.Calls {
			if c.Procedure != nil && c.Procedure.ID == e.Args[0].ID {
				v.add(c.Begun, f)
			}
		}
		return v, nil
	}
	if kind, ok := seen[e.Word]; ok {
		for _, x := range f.a.Crew.Findings {
			if x.Kind == kind && x.Procedure != nil && x.Procedure.ID == e.Args[0].ID && numbered(x, e.Args[1].Word) {
				v.add(x.At, f)
			}
		}
		return v, nil
	}
	for _, l := range f.a.Crew.Lines {
		if l.Procedure != nil && l.Procedure.ID == e.Args[0].ID && l.Number == e.Args[1].Word && !l.Omitted {
			v.add(l.To, f)
		}
	}
	return v, nil
}

// seen are the findings of a crew that claims ask for.
var seen = map[string]crew.FindingKind{"misled": crew.Misled, "cannot_see": crew.CannotBeSeen, "not_heard": crew.NotHeard, "no_longer": crew.NoLonger}

// numbered says that a finding is of the line of a number.
func numbered(x crew.Finding, number string) bool {
	s, ok := x.Procedure.Line(number)
	return ok && s == x.Step
}

// add notes a moment of the flight, in its place.
func (v *event) add(at book.Time, f *finder) {
	if at < f.strike || at > f.l.Here.End {
		return
	}
	i := len(v.spans)
	for i > 0 && v.spans[i-1].From > at {
		i--
	}
	v.spans = append(v.spans[:i:i], append([]circuit.Span{{From: at, To: at}}, v.spans[i:]...)...)
}

// turned notes when a leg was flown; of one that was not, why.
func (f *finder) turned(v *event, do run.Manoeuvre) {
	for _, t := range f.l.Here.Turns {
		switch {
		case t.Leg.Do != do:
		case t.Why == "":
			v.add(t.At, f)
		default:
			v.why = t.Why
		}
	}
}

// comes says when an event comes.
func (f *finder) comes(v event) string {
	switch {
	case v.name == "first":
		return "first = " + measured("first", v.first(f.strike))
	case v.came():
		return v.name + " at " + f.clock(v.at())
	case v.why != "":
		return v.name + " never comes: " + v.why
	}
	return v.name + " never comes"
}

// named finds an event that is one of several, and is called by what it is.
func (f *finder) named(e *book.Expr) (event, error) {
	v, err := f.event(e)
	v.name = e.String()
	return v, err
}

// inOrder says whether events come, each later than the one before it.
func (f *finder) inOrder(args []*book.Expr) (float64, error) {
	var list []event
	var texts []string
	for _, a := range args {
		v, err := f.named(a)
		if err != nil {
			return 0, err
		}
		list, texts = append(list, v), append(texts, f.comes(v))
	}
	all, broken := true, false
	for i, v := range list {
		all = all && v.came()
		for _, w := range list[i+1:] {
			broken = broken || w.came() && (!v.came() || w.at() <= v.at())
		}
	}
	return f.soFar(yes(all && !broken), all || broken, strings.Join(texts, "; ")), nil
}

// by says whether an event comes at most so many seconds after the strike.
func (f *finder) by(s float64, e *book.Expr) (float64, error) {
	v, err := f.named(e)
	until := f.strike + book.AtSeconds(s)
	in := v.came() && v.at() <= until
	return f.soFar(yes(in), v.came() || until < f.l.Here.End, f.comes(v)), err
}

// within says whether one event comes, and another at it or at most so many seconds
// after it.
func (f *finder) within(s float64, one, other *book.Expr) (float64, error) {
	x, err := f.named(one)
	if err != nil {
		return 0, err
	}
	y, err := f.named(other)
	if err != nil || !x.came() {
		return f.soFar(0, false, f.comes(x)), err
	}
	at, came := y.from(x.at())
	in := came && at-x.at() <= book.AtSeconds(s)
	text := f.comes(x) + "; " + y.name + " does not come after it"
	if came {
		text = f.comes(x) + "; " + y.name + " " + say.Lasts(at-x.at()) + " after it"
	}
	return f.soFar(yes(in), came || x.at()+book.AtSeconds(s) < f.l.Here.End, text), nil
}

// about says whether a number is another, give or take a third.
func (f *finder) about(args []*book.Expr) (float64, error) {
	v, err := f.value(args[0])
	if err != nil || math.IsNaN(v) {
		return v, err
	}
	off := math.Abs(v - args[1].Num)
	if off > args[2].Num {
		f.got = append(f.got, fmt.Sprintf("%.4g off", off))
	}
	return yes(off <= args[2].Num), nil
}
