package known

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/span"
)

// A loss is distant from what it follows from at so many steps, or after so long
// (assumption).
const (
	distantSteps = 3
	distantAfter = 60 * book.Second
)

// Judge works out how people can know of each loss of a ledger, and notes it there.
// It fails only where the told run cannot be flown or ctx is done.
func Judge(ctx context.Context, l *ledger.Ledger) error {
	v := VoicesOf(l.Here.Course)
	held := holdings(l, v)
	r, err := told(ctx, l, v, held)
	if err != nil {
		return err
	}
	j := newJudge(l)
	if r != nil {
		j.told, j.chains = r, newChains(l, r, held)
		l.Concluded = j.concluded()
	}
	for i := range l.Losses {
		j.loss(&l.Losses[i])
	}
	return nil
}

// judge is one ledger being judged.
type judge struct {
	l             *ledger.Ledger
	build         *book.Build
	told          *run.Record // nil: nothing is held
	chains        *chains
	within, wrong book.Time
	lies          map[*book.Indication]span.Set
}

func newJudge(l *ledger.Ledger) *judge {
	b := l.Here.Course.Build
	return &judge{l: l, build: b, within: ledger.ToldWithin(b.Aircraft), wrong: ledger.WrongAfter(b.Aircraft), lies: map[*book.Indication]span.Set{}}
}

// concluded lists the functions that what is told takes away, and that work.
func (j *judge) concluded() (list []ledger.Conclusion) {
	for _, f := range j.build.Functions {
		v := circuit.Value{Item: f.ID}
		works := at(j.l.Here, v, true).And(at(j.l.There, v, true))
		if s := works.And(at(j.told, v, false)).Longer(j.wrong); len(s) > 0 {
			list = append(list, ledger.Conclusion{Function: f, Spans: s})
		}
	}
	return list
}

func (j *judge) loss(l *ledger.Loss) {
	heaviest := -1.0
	for i := range l.Spans {
		s := &l.Spans[i]
		s.Known = j.span(l.Function, s)
		if w := Weight(s.Known); s.Mattered == l.Mattered && w > heaviest {
			l.Known, heaviest = s.Known.Word, w
		}
	}
}

// span judges one stretch of a loss.
func (j *judge) span(f *book.Function, s *ledger.LossSpan) ledger.Known {
	x := Facts{Due: max(s.From, s.Wanted.From), Within: j.within, Tells: book.Never, Follows: j.follows(f.ID, s), Noticed: j.noticed(f, s)}
	if s.By != nil {
		x.Tells = s.At
	}
	x.Denied = j.denied(f, s, x)
	return x.Known()
}

// follows finds from what a loss follows, if it does.
func (j *judge) follows(f string, s *ledger.LossSpan) *ledger.Following {
	if j.told == nil {
		return nil
	}
	v := circuit.Value{Item: f}
	down := at(j.told, v, false).And(at(j.l.There, v, true)).Within(s.Span).Longer(span.Rounding)
	if len(down) == 0 {
		return nil
	}
	x := &ledger.Following{At: down[0].From}
	h, steps, ok := j.chains.back(f, x.At)
	if !ok {
		return nil
	}
	x.From, x.Title, x.Alert, x.Claimed, x.Steps = h.Item(), j.build.Title(h.Item()), h.alert, h.From, steps
	x.Distant = Distant(steps, x.At-h.From)
	return x
}

// denied says that an indication lies about a loss before anything tells it, and
// before people see through it.
func (j *judge) denied(f *book.Function, s *ledger.LossSpan, x Facts) bool {
	if len(s.Lies) == 0 {
		return false
	}
	wanted := at(j.l.Here, circuit.Value{Item: f.ID, Aspect: circuit.Wanted}, true)
	return slices.ContainsFunc(s.Lies, func(i *book.Indication) bool {
		if _, ok := j.lies[i]; !ok {
			j.lies[i] = ledger.Lying(j.l.Here, j.l.There, i)
		}
		return Denies(j.lies[i].And(wanted), s.Span, x, j.wrong)
	})
}

// noticed finds when a loss is noticed, if it is.
func (j *judge) noticed(f *book.Function, s *ledger.LossSpan) *ledger.Noticing {
	if f.Noticed == nil {
		return nil
	}
	v := circuit.Value{Item: f.ID, Aspect: circuit.Noticed}
	return Notices(f.Noticed, func() span.Set { return at(j.l.Here, v, true).Minus(at(j.l.There, v, true)) }, s.Span, j.within, j.wrong)
}
