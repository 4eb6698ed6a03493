package costs

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
)

// Lapse is a grave function that is gone before touchdown: one of the gravest
// severity that is called for while it is lost, whatever takes it, or one that
// goes for good because something runs out.
type Lapse struct {
	Function *book.Function
	Minutes  float64 // from the turn to when it goes; negative: before the turn
	Needed   float64 // Fatal: from the turn to when it is first called for
	What     string  // runs out: the title of the quantity; "" where nothing does
	Fatal    bool    // it counts against the place
}

// when says when it goes.
func (l Lapse) when() string {
	text := "gone " + fromTurn(l.Minutes, "after %.0f min", "%.0f min before the turn")
	if l.Fatal && l.Needed-l.Minutes >= 0.5 {
		text += ", called for " + fromTurn(l.Needed, "after %.0f min", "from %.0f min before the turn")
	}
	return text
}

func fromTurn(minutes float64, after, before string) string {
	if max(minutes, -minutes) < 0.5 {
		return "at the turn"
	}
	if minutes < 0 {
		return fmt.Sprintf(before, -minutes)
	}
	return fmt.Sprintf(after, minutes)
}

// gravest says that a function's loss counts, grave that it is told.
func gravest(f *book.Function) bool { return f.Severity == book.Severities[len(book.Severities)-1] }
func grave(f *book.Function) bool {
	return gravest(f) || f.Severity == book.Severities[len(book.Severities)-2]
}

// Reached says of a place that is not good that it is landed at all the same: all that
// speaks against it is gone at the turn already, and so wherever the flight goes.
func (s *Side) Reached() bool {
	return s.Arrives && len(s.Reasons) == 1 && s.Reasons[0].Kind == Time &&
		!slices.ContainsFunc(s.fatal(), func(l Lapse) bool { return l.Minutes > 0 })
}

// lapses lists the grave functions that are gone before touchdown.
func (d *desk) lapses(ctx context.Context, s *Side) (list []Lapse, err error) {
	for _, f := range d.course.Build.Functions {
		if !grave(f) {
			continue
		}
		l, found, err := d.fatal(ctx, s, f)
		if err != nil {
			return nil, err
		}
		if !found {
			l, found = d.ranOut(s, f)
		}
		if found {
			list = append(list, l)
		}
	}
	return list, nil
}

// weigh judges the failed side of a place with what lapses on the way.
func (d *desk) weigh(ctx context.Context, s *Side) (err error) {
	if s.Lapses, err = d.lapses(ctx, s); err == nil {
		s.weigh()
	}
	return err
}

// fatal finds the first loss of a function of the gravest severity that is called
// for before touchdown: before the turn, or on the way.
func (d *desk) fatal(ctx context.Context, s *Side, f *book.Function) (l Lapse, found bool, err error) {
	if !gravest(f) {
		return l, false, nil
	}
	since := underWay{gone: d.at, called: book.Never}
	for _, p := range d.before[f] {
		called := p.Mattered && p.Wanted.From < d.at
		if called && !survived(f, min(p.To, d.at)-p.Wanted.From) {
			return d.lapse(d.whole, f, p.From, p.Wanted.From), true, nil
		}
		if p.From < d.at && p.To >= d.at {
			if since.gone = p.From; called {
				since.called = p.Wanted.From
			}
		}
	}
	counts := func(p ledger.LossSpan) bool { return since.counts(d.at, s.down(), f, p) }
	spans, err := lost(s.record, f, counts, func() (*run.Record, error) { return d.beside(ctx, s) })
	if len(spans) == 0 || err != nil {
		return l, false, err
	}
	r, from := s.record, spans[0].From
	called := since.first(d.at, spans[0])
	if from == d.at && since.gone < d.at {
		r, from = d.whole, since.gone
	}
	return d.lapse(r, f, from, called), true, nil
}

// survived says of a loss that is over after so long that it has been lived through.
func survived(f *book.Function, long book.Time) bool {
	return f.SurvivableS > 0 && long <= book.AtSeconds(f.SurvivableS)
}

// underWay is a loss that stands at the turn: from when, and when it was first called for; at the
// turn and never where none stands, or none was.
type underWay struct{ gone, called book.Time }

// first is when a loss on the way is first called for, or was before the turn.
func (s underWay) first(turn book.Time, p ledger.LossSpan) book.Time {
	called := book.Never
	if p.Mattered {
		called = p.Wanted.From
	}
	if p.From == turn {
		called = min(called, s.called)
	}
	return called
}

// counts says that a loss on the way speaks against the place: it is called for before
// the touchdown, and stands there or has stood too long to be lived through.
func (s underWay) counts(turn, down book.Time, f *book.Function, p ledger.LossSpan) bool {
	called := s.first(turn, p)
	return called < down && (p.To > down || p.ToEnd || !survived(f, p.To-called))
}

func (d *desk) lapse(r *run.Record, f *book.Function, gone, needed book.Time) Lapse {
	first, _ := d.whole.FirstStrike()
	return Lapse{Function: f, Minutes: d.minutes(gone), Needed: d.minutes(needed), What: runsOut(r, f, max(first, r.Instants()[0]), gone), Fatal: true}
}

func (d *desk) minutes(t book.Time) float64 { return (t - d.at).Seconds() / 60 }

// lost gives the losses of a function that count. The run without the failures is
// asked for only where the function does not work.
func lost(here *run.Record, f *book.Function, counts func(ledger.LossSpan) bool, beside func() (*run.Record, error)) ([]ledger.LossSpan, error) {
	needed := func(there *run.Record) []ledger.LossSpan {
		return slices.DeleteFunc(ledger.Lost(here, there, f), func(p ledger.LossSpan) bool { return !counts(p) })
	}
	if len(needed(nil)) == 0 {
		return nil, nil
	}
	there, err := beside()
	if err != nil {
		return nil, err
	}
	return needed(there), nil
}

// down is when a diversion touches down, or its end.
func (s *Side) down() book.Time {
	if _, down, lands := s.Flown(); lands {
		return down
	}
	return s.record.End
}

// beside is the run without the failures along the way that a diversion took.
func (d *desk) beside(ctx context.Context, s *Side) (*run.Record, error) {
	if s.right == nil && s.rows != nil {
		right, err := d.course.Along(s.rows).Fly(ctx, d.rows.healthy.scenario)
		s.right = right
		return right, err
	}
	if s.right == nil {
		right, err := d.there.Along(ctx, s.Path())
		s.right = right
		return right, err
	}
	return s.right, nil
}

// lostBefore notes which functions of the gravest severity are lost at some
// moment of the flight as it would go on.
func (d *desk) lostBefore(ctx context.Context, right *run.Record) (err error) {
	d.before = map[*book.Function][]ledger.LossSpan{}
	for _, f := range d.course.Build.Functions {
		if !gravest(f) || len(ledger.Lost(d.whole, nil, f)) == 0 {
			continue
		}
		if right == nil {
			if right, err = d.course.Beside(ctx, d.whole); err != nil {
				return err
			}
		}
		d.before[f] = ledger.Lost(d.whole, right, f)
	}
	return nil
}

// ranOut finds a function that goes for good because something runs out, on the
// way or before the turn.
func (d *desk) ranOut(s *Side, f *book.Function) (l Lapse, found bool) {
	r, from, to := s.record, d.at, s.down()
	n, ok := r.Circuit().Node(circuit.Value{Item: f.ID})
	if !ok {
		return l, false
	}
	if r.At(n, d.at) == 0 && r.At(n, to) == 0 {
		r, to = d.whole, d.at
		from, _ = d.whole.FirstStrike()
	}
	at, lost := lostFrom(r, n, from, to)
	if !lost {
		return l, false
	}
	what := runsOut(r, f, from, at)
	return Lapse{Function: f, Minutes: d.minutes(at), What: what}, what != ""
}
