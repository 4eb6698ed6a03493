package ask

import (
	"context"
	"slices"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
	"knockon/scenario"
)

// Otherwise is the same question with the other conduct: hands off where a crew by
// the book act, and the other way round.
type Otherwise struct {
	Crew string   // the other conduct, as it is typed
	Says []string // what is otherwise then; one sentence where nothing is
}

// Otherwise answers a question with the other conduct and says what differs.
func (d *Desk) Otherwise(ctx context.Context, a *Answer) (*Otherwise, error) {
	b, err := d.answer(ctx, other(a.Question))
	if err != nil {
		return nil, err
	}
	return otherwise(a, b), nil
}

// Both is Answer and Otherwise, each on a processor of its own. Where the other
// conduct alone has no answer it gives none, and Otherwise says why.
func (d *Desk) Both(ctx context.Context, q Question) (*Answer, *Otherwise, error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	found := make(chan *Answer, 1)
	go func() {
		defer close(found)
		defer func() { _ = recover() }() // whoever asks Otherwise meets it on his own goroutine
		if b, err := d.answer(ctx, other(q)); err == nil {
			found <- b
		}
	}()
	a, err := d.Answer(ctx, q)
	if err != nil {
		return nil, nil, err
	}
	if b := <-found; b != nil {
		return a, otherwise(a, b), nil
	}
	return a, nil, nil
}

// other is the same question with the other conduct.
func other(q Question) Question {
	if q.ByTheBook() {
		q.Crew = scenario.Nobody
	} else {
		q.Crew = scenario.ByTheBook
	}
	return q
}

// otherwise says what differs between the answers of both conducts.
func otherwise(a, b *Answer) *Otherwise {
	o := &Otherwise{Crew: b.Question.Crew}
	if never(a) || never(b) {
		o.Says = []string{"Nothing is said of the other conduct, since the question is not answered."}
		return o
	}
	o.Says = differ(a.Ledger, b.Ledger, b.Crew != nil)
	return o
}

// never says that a failure of the question never came on a flight that arrived.
func never(a *Answer) bool { return a.Here.Ending().Arrived() && a.Ledger.Unanswered() != "" }

// differ says what is otherwise in the second of two ledgers of one question.
func differ(a, b *ledger.Ledger, crewed bool) (list []string) {
	who := "Hands off "
	if crewed {
		who = "With a crew by the book "
	}
	if s := endings(a, b, who); s != "" {
		return []string{s}
	}
	elsewhere := apart(a, b)
	if elsewhere {
		list = append(list, who+"the flight ends at "+b.Here.Bound()+", "+say.Lasts(b.Here.End)+" after it began, not "+say.Lasts(a.Here.End)+".")
	}
	list = append(list, landings(a, b, who)...)
	add := func(before string, functions []*book.Function) {
		if len(functions) > 0 {
			list = append(list, who+before+say.And(titles(functions))+".")
		}
	}
	add("this is lost to the end: ", lasting(b, a))
	add("this is lost only for a while: ", lasting(a, b))
	add("this is lost as well: ", only(b, a))
	add("this is kept: ", only(a, b))
	if !elsewhere { // moments of two flights that go apart are not held against each other
		add("this is lost more than a minute sooner: ", sooner(b, a))
		add("this is lost more than a minute later: ", sooner(a, b))
	}
	if len(list) == 0 {
		list = []string{who + "the same is lost, none of it more than a minute sooner or later."}
	}
	return list
}

// landings says how the landing of a flight that arrives differs from that of another.
func landings(a, b *ledger.Ledger, who string) (list []string) {
	differs := func(was, is bool, yes, no string) {
		if is && !was {
			list = append(list, who+yes)
		} else if was && !is {
			list = append(list, who+no)
		}
	}
	_, _, off := a.Here.Overrun()
	_, _, offToo := b.Here.Overrun()
	differs(off, offToo, "the landing runs off the end of the runway.", "the landing stops on the runway.")
	differs(a.Here.LandsOnLess(), b.Here.LandsOnLess(), "it lands with the gear not all down and locked.", "it lands with the gear down and locked.")
	_, _, heavy := a.Here.Overweight()
	_, _, heavyToo := b.Here.Overweight()
	differs(heavy, heavyToo, "it lands above the greatest landing mass.", "it lands below the greatest landing mass.")
	return list
}

// apart says that two flights end at different fields, or more than a minute from
// each other: their moments are then not held against each other.
func apart(a, b *ledger.Ledger) bool {
	d := a.Here.End - b.Here.End
	return a.Here.Bound() != b.Here.Bound() || max(d, -d) > 60*book.Second
}

// endings says how the flights end where one of them does not arrive; no more can
// then be said of both.
func endings(a, b *ledger.Ledger, who string) string {
	x, y := a.Here.Ending(), b.Here.Ending()
	switch {
	case x.Arrived() && y.Arrived():
		return ""
	case y.Arrived():
		return strings.TrimSpace(who + "the flight arrives. " + b.Landing())
	case x.Arrived() || x.How != y.How || x.At != y.At:
		return who + "the flight breaks off at " + say.Clock(y.At) + ": " + y.Why + "."
	}
	return who + "the flight breaks off at the same moment, for the same reason."
}

// lasting lists what is grave, lost in both, to the end of the first and not of the
// second: that a fire burns on counts for more than what putting it out takes away.
func lasting(a, b *ledger.Ledger) (list []*book.Function) {
	for _, x := range a.Losses {
		y := b.Loss(x.Function.ID)
		grave := slices.Index(book.Severities, x.Function.Severity) >= slices.Index(book.Severities, "hazardous")
		if grave && x.Mattered && y != nil && toEnd(&x) && !toEnd(y) {
			list = append(list, x.Function)
		}
	}
	return list
}

// toEnd says that a loss lasts to the end of its flight.
func toEnd(l *ledger.Loss) bool { return l.Spans[len(l.Spans)-1].ToEnd }

func mattered(l *ledger.Ledger, f *book.Function) (from book.Time, ok bool) {
	if loss := l.Loss(f.ID); loss != nil && loss.Mattered {
		return loss.Spans[0].From, true
	}
	return 0, false
}

// only lists what is lost and called for in one ledger and not in another, the
// worst first.
func only(in, notIn *ledger.Ledger) (list []*book.Function) {
	for _, l := range in.Losses {
		if _, too := mattered(notIn, l.Function); l.Mattered && !too {
			list = append(list, l.Function)
		}
	}
	return list
}

// sooner lists what is lost in both, and more than a minute sooner in the first.
func sooner(first, then *ledger.Ledger) (list []*book.Function) {
	for _, l := range first.Losses {
		from, ok := mattered(first, l.Function)
		if at, too := mattered(then, l.Function); ok && too && from < at-60*book.Second {
			list = append(list, l.Function)
		}
	}
	return list
}

// mostNamed is how many functions a sentence names before it counts.
const mostNamed = 6

func titles(list []*book.Function) (names []string) {
	for i, f := range list {
		if i == mostNamed && len(list) > mostNamed+1 {
			return append(names, say.Counted(len(list)-i, "more thing"))
		}
		names = append(names, say.Lower(f.Title))
	}
	return slices.Clip(names)
}
