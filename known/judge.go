package known

import (
	"context"

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

// A lie that is seen through so soon denies nothing (assumption).
const seenThrough = 120 * book.Second

// Judge works out how people can know of each loss of a ledger, and notes it there.
// It fails only where the told run cannot be flown or ctx is done.
func Judge(ctx context.Context, l *ledger.Ledger) error {
	v := voicesOf(l.Here.Course)
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

// Weight is how much a way of knowing leaves to teach (docs/meaning.md, section 5a;
// assumption).
func Weight(k ledger.Known) float64 {
	switch k.Word {
	case ledger.Hidden, ledger.Denied:
		return 4
	case ledger.InUse:
		return 3
	case ledger.Late:
		late := k.LateBy.Seconds()
		return 2 * late / (late + 60)
	case ledger.Follows:
		if k.Follows.Distant {
			return 2
		}
		return 1
	}
	return 0.25
}

// span judges one stretch of a loss.
func (j *judge) span(f *book.Function, s *ledger.LossSpan) (k ledger.Known) {
	due := max(s.From, s.Wanted.From)
	k.Follows, k.Noticed = j.follows(f.ID, s), j.noticed(f, s)
	late := s.Class == ledger.ToldLate
	fits := []struct {
		word ledger.Word
		fits bool
	}{
		{ledger.IsTold, s.Class == ledger.Told},
		{ledger.Denied, j.denied(f, s, k.Noticed)},
		{ledger.Follows, k.Follows != nil && k.Follows.At <= due+j.within},
		{ledger.AtOnce, k.Noticed != nil && k.Noticed.AtOnce},
		{ledger.Late, late || k.Follows != nil && k.Follows.At > due+j.within},
		{ledger.InUse, k.Noticed != nil && !k.Noticed.AtOnce},
		{ledger.Hidden, true},
	}
	for _, w := range fits {
		switch {
		case !w.fits || w.word == ledger.Hidden && k.Word != "":
		case k.Word == "":
			k.Word = w.word
		default:
			k.Also = append(k.Also, w.word)
		}
	}
	if k.ByAlert = late; late {
		k.LateBy = s.Late
	}
	if k.Follows != nil && k.Follows.At-due > j.within && (!late || k.Follows.At-due < k.LateBy) {
		k.LateBy, k.ByAlert = k.Follows.At-due, false
	}
	return k
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
	x.From, x.Title, x.Alert, x.Claimed, x.Steps = h.ref.Unit, j.build.Title(h.ref.Unit), h.alert, h.From, steps
	x.Distant = steps >= distantSteps || x.At-h.From > distantAfter
	return x
}

// denied says that an indication lies about a loss before anything tells it, and
// before people see through it.
func (j *judge) denied(f *book.Function, s *ledger.LossSpan, n *ledger.Noticing) bool {
	until, least := s.To, j.wrong
	if s.By != nil {
		until = min(until, s.At)
	}
	if n != nil && n.At <= until {
		until, least = n.At, seenThrough
	}
	if until <= s.From {
		return false
	}
	wanted := at(j.l.Here, circuit.Value{Item: f.ID, Aspect: circuit.Wanted}, true)
	for _, i := range s.Lies {
		if _, ok := j.lies[i]; !ok {
			j.lies[i] = ledger.Lying(j.l.Here, j.l.There, i)
		}
		if lies := j.lies[i].And(wanted).Within(circuit.Span{From: s.From, To: until}); len(lies.Longer(least)) > 0 {
			return true
		}
	}
	return false
}

// noticed finds when a loss is noticed, if it is.
func (j *judge) noticed(f *book.Function, s *ledger.LossSpan) *ledger.Noticing {
	n := f.Noticed
	switch {
	case n == nil:
		return nil
	case n.AtOnce:
		return &ledger.Noticing{At: s.From, By: n.By, AtOnce: true, Source: n.Source}
	}
	v := circuit.Value{Item: f.ID, Aspect: circuit.Noticed}
	signs := at(j.l.Here, v, true).Minus(at(j.l.There, v, true))
	for _, p := range signs {
		if t := max(s.From, p.From+j.wrong); t < s.To && t <= p.To && p.To-p.From >= j.wrong {
			return &ledger.Noticing{At: t, By: n.By, AtOnce: t-s.From <= j.within, Source: n.Source}
		}
	}
	return nil
}
