package handout

import (
	"context"
	"errors"
	"time"

	"knockon/ask"
	"knockon/crew/worth"
	"knockon/ledger"
	"knockon/point/vary"
	"knockon/say"
	"knockon/scenario"
)

// Beside is what other flights make of an answer.
type Beside struct {
	Others   []ledger.Varied
	Saves    *ledger.Varied // what saves the gravest of what nobody knows; nil: there is nothing to save
	Phases   []vary.Cell
	Worths   []*worth.Worth
	NoWorths string // why there are none; "" there are, or there is no list
	Price    string // what it costs, in a sentence; "" where no airfields are known

	short bool // there was no time for all of it
}

// Whole says that there was time for all that was flown.
func (b *Beside) Whole() bool { return !b.short }

// How long each part may take.
const (
	othersWithin = 6 * time.Second
	savedWithin  = 8 * time.Second
	worthWithin  = 10 * time.Second
	phasesWithin = 8 * time.Second
)

// Fly flies what a handout takes beside its answer. What there is no time for is not
// answered, and the handout says so. The others and what saves are flown where they are
// not there yet.
func (b *Beside) Fly(ctx context.Context, a *ask.Answer, workers int) error {
	within := func(d time.Duration, do func(context.Context)) {
		short, stop := context.WithTimeout(ctx, d)
		defer stop()
		do(short)
		b.short = b.short || short.Err() != nil
	}
	if b.Others == nil {
		within(othersWithin, func(ctx context.Context) { b.Others = vary.Of(ctx, a, workers) })
		within(savedWithin, func(ctx context.Context) {
			if x, ok := vary.Saves(ctx, a, workers); ok {
				b.Saves = &x
			}
		})
	}
	within(worthWithin, func(ctx context.Context) { b.worth(ctx, a) })
	within(phasesWithin, func(ctx context.Context) { b.Phases = vary.Strip(ctx, a, workers) })
	return errors.Join(b.price(ctx, a), ctx.Err())
}

// worth assesses the lists on the flight's own profile, as knockon worth does: a flight
// that goes elsewhere for want of a line differs in too much that is not the line's.
func (b *Beside) worth(ctx context.Context, a *ask.Answer) {
	if len(procedures(a)) == 0 {
		return
	}
	team, err := a.Profiled()
	if err == nil {
		b.Worths, err = worth.Omissions(ctx, team, a.Scenario)
	}
	switch {
	case err == nil:
	case ctx.Err() != nil:
		b.NoWorths = "There was no time to work out what each line is worth."
	default:
		b.NoWorths = "What each line is worth cannot be worked out: " + say.Sentence(err.Error())
	}
	if err != nil {
		b.Worths = nil
	}
}

// price says in a sentence what it costs, where airfields are known.
func (b *Beside) price(ctx context.Context, a *ask.Answer) error {
	if a.Ground == nil {
		return nil
	}
	c, err := a.Costs(ctx, a.Ground, ask.Price{})
	var trouble *scenario.Trouble
	switch {
	case errors.As(err, &trouble):
		b.Price = "Not worked out: " + say.Sentence(trouble.Text)
		return nil
	case err != nil:
		return err
	}
	v := c.View(a.Ledger.View().Asked)
	b.Price = v.Summary + say.Ahead(" ", v.Turn)
	return nil
}

// rescue is what saves the gravest of what nobody knows.
func (b *Beside) rescue(v *ledger.View) string {
	switch {
	case b.Saves != nil:
		return b.Saves.Text
	case v.Unanswered != "":
		return "Cannot be said: the question has no full answer."
	}
	return "Nothing that is lost when it is called for is hidden or denied, so no rescue was looked for."
}

// notes are a line each for builds, a deferral and the price.
func (b *Beside) notes(a *ask.Answer) (list []Note) {
	for _, x := range []struct{ axis, title string }{{vary.Build, "Builds"}, {vary.Deferral, "Deferral"}} {
		for _, o := range b.Others {
			if o.Axis == x.axis {
				list = append(list, Note{x.title, o.Text})
			}
		}
	}
	if b.Price != "" {
		list = append(list, Note{"Price", b.Price})
	}
	return list
}
