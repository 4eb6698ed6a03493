package drill

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/span"
)

// beside is a flight that differs from the drill in what was done, and what is to be
// done with what differs by it.
type beside struct {
	flown run.Scenario
	tell  func(compared)
}

// compared is the drill held against such a flight, as far as the drill went.
type compared struct {
	cost effect // what the drill has and it has not
	gain effect // what it has and the drill has not
	no   string // why they cannot be held against each other; "" where they can
}

// flyBeside flies them all.
func (t *teller) flyBeside(ctx context.Context, progress func(done, all int)) error {
	for i, f := range t.beside {
		if progress != nil {
			progress(i, len(t.beside))
		}
		r, err := t.s.deck.Course().Fly(ctx, f.flown)
		if err != nil {
			return err
		}
		l, err := t.ledger(ctx, r)
		if err != nil {
			return err
		}
		f.tell(t.compare(l))
	}
	return nil
}

// ledger compares with the flight on which nothing fails and nothing is done, as far
// as the drill went.
func (t *teller) ledger(ctx context.Context, r *run.Record) (*ledger.Ledger, error) {
	there, err := t.s.deck.Course().Beside(ctx, r)
	if err != nil {
		return nil, err
	}
	return ledger.Until(r, there, t.s.now), nil
}

// compare holds the drill against another flight. Where either is not answered up to
// the end of the drill, nothing is said of what differs.
func (t *teller) compare(other *ledger.Ledger) (c compared) {
	for _, l := range []*ledger.Ledger{other, t.here} {
		e := l.Here.Ending()
		broken := !e.Arrived() && e.At <= t.s.now
		if broken && (l == other || e.How == run.NeverSettles) {
			c.no = fmt.Sprintf("cannot be said: %s breaks off at %s: %s", map[bool]string{true: "the flight with that changed", false: "the drill"}[l == other], say.Clock(e.At), e.Why)
			return c
		}
	}
	c.cost, c.gain = effectOf(t.here, other), effectOf(other, t.here)
	if e := t.here.Here.Ending(); !e.Arrived() && e.At <= t.s.now && other.Here.Ending().Arrived() {
		c.cost.broke = "the flight broke off at " + say.Clock(e.At)
	}
	return c
}

// effect is what one flight has that another has not.
type effect struct {
	losses []longer
	alerts []louder
	broke  string // that it broke off
}

// louder is an alert that the other flight has not, or hears less often.
type louder struct {
	ledger.Announcement
	than int // how often it sounds in the other one; -1: it is not given there
}

// longer is a function that was lost while it was called for, and in the other flight
// not, or for less time.
type longer struct {
	ledger.Loss
	missed span.Set  // when it was
	than   book.Time // how long it is so in the other one
}

// effectOf: a loss counts that the other has not while it is called for, or has so for
// ten seconds less; an alert that is not given there, or sounds three times less.
func effectOf(a, b *ledger.Ledger) (e effect) {
	for _, l := range a.Losses {
		if !l.Mattered {
			continue
		}
		x := longer{l, missed(a, l), 0}
		if other := b.Loss(l.Function.ID); other != nil && other.Mattered {
			x.than = missed(b, *other).Length()
		}
		if x.than == 0 || x.missed.Length()-x.than > 10*book.Second {
			e.losses = append(e.losses, x)
		}
	}
	slices.SortStableFunc(e.losses, func(x, y longer) int { return cmp.Compare(grave(y.Loss), grave(x.Loss)) })
	for _, x := range a.Alerts {
		than := -1
		if i := slices.IndexFunc(b.Alerts, func(y ledger.Announcement) bool { return y.Alert == x.Alert }); i >= 0 {
			than = len(b.Alerts[i].Sounds)
		}
		if than < 0 || len(x.Sounds)-than >= 3 {
			e.alerts = append(e.alerts, louder{x, than})
		}
	}
	return e
}

// grave is the weight of a loss in a point (docs/meaning.md, section 6b): 1, 2, 4, 8;
// a half where the book gives no severity.
func grave(l ledger.Loss) float64 {
	i := slices.Index(book.Severities, l.Severity())
	if i < 0 {
		return 0.5
	}
	return float64(int(1) << i)
}

// An alert that is given weighs less than any loss; a flight that breaks off more than
// one loss (assumption).
const (
	alertWeighs  = 0.1
	brokenWeighs = 16
)

// weight of an effect, without the losses that are counted already.
func (e effect) weight(counted map[string]bool) (sum float64) {
	for _, l := range e.losses {
		if !counted[l.Function.ID] {
			sum += grave(l.Loss)
		}
	}
	if e.broke != "" {
		sum += brokenWeighs
	}
	return sum + alertWeighs*float64(len(e.alerts))
}

// mostNamed is how many consequences are named.
const mostNamed = 5

// text names an effect, up to the end of the drill; "" where there is none.
func (e effect) text(end book.Time) string {
	var list []string
	if e.broke != "" {
		list = append(list, e.broke)
	}
	for _, l := range e.losses {
		list = append(list, l.text(end))
	}
	for _, x := range e.alerts {
		list = append(list, x.text())
	}
	if more := len(list) - mostNamed; more > 0 {
		list = append(list[:mostNamed], fmt.Sprintf("%d more", more))
	}
	return say.And(list)
}

func (l longer) text(end book.Time) string {
	first, last := l.missed[0].From, l.missed[len(l.missed)-1].To
	text := fmt.Sprintf("%s lost from %s", l.Function.Title, say.Clock(first))
	switch from := l.Spans[0].From; {
	case l.than > 0:
		return fmt.Sprintf("%s lost for %s longer", l.Function.Title, say.Lasts(l.missed.Length()-l.than))
	case first-from > book.Second:
		text = fmt.Sprintf("%s lost when it was called for, at %s", l.Function.Title, say.Clock(first))
	case last < end:
		text += " to " + say.Clock(last)
	}
	return text
}

func (x louder) text() string {
	text := x.Alert.Level + " " + say.Quoted(x.Alert.Message)
	if x.than >= 0 {
		return fmt.Sprintf("%s sounding %d times more", text, len(x.Sounds)-x.than)
	}
	return text + " from " + say.Clock(x.Spans[0].From)
}

// missed is when a function was lost while it was called for, as far as that mattered.
func missed(l *ledger.Ledger, loss ledger.Loss) (all span.Set) {
	n, _ := l.Here.Circuit().Node(circuit.Value{Item: loss.Function.ID, Aspect: circuit.Wanted})
	wanted := span.Lasting(l.Here.Spans(n))
	for _, s := range loss.Spans {
		if s.Mattered {
			all = append(all, ledger.Wanted(wanted, s.Span)...)
		}
	}
	return all
}

// consequences says what the drill has that a flight has not that differs by so many
// moves.
func (t *teller) consequences(c compared, moves int) string {
	text := c.cost.text(t.s.now)
	switch {
	case c.no != "":
		return "what followed " + c.no
	case text == "" && moves > 1:
		return "nothing that lasts followed from them in this model"
	case text == "":
		return "nothing that lasts followed from it in this model"
	}
	return text
}
