package drill

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/crew"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
)

// teller has the flights that a debrief speaks of.
type teller struct {
	s           *Session
	b           *book.Build
	asked       run.Scenario    // the failures, and nothing done
	record      *run.Record     // the drill as it went, and on to the end
	best        *crew.Plan      // what a crew by the book do
	here, alone *ledger.Ledger  // of the drill, and of the flight on which nobody does anything
	right       *ledger.Ledger  // of that of the crew by the book; all three up to the end of the drill
	done        []Input         // what was done, in order
	called      map[string]bool // moves that the lists of that crew ask for, as control=position
	owed        []owed
	improving   []candidate
	did         []good
	unsaid      []string // what could not be held against another flight
	beside      []beside
}

func (t *teller) fly(ctx context.Context) (err error) {
	course := t.s.deck.Course()
	t.asked = t.s.Flown()
	t.asked.Actions, t.asked.Plan = nil, t.s.asked.Plan // where it was turned on the way is what they did
	if t.record, err = course.Fly(ctx, t.s.Flown()); err != nil {
		return err
	}
	if t.here, err = t.ledger(ctx, t.record); err != nil {
		return err
	}
	alone, err := course.Fly(ctx, t.asked)
	if err != nil {
		return err
	}
	if t.best, err = t.s.deck.team.Fly(ctx, t.asked); err != nil {
		return err
	}
	for _, i := range t.s.valid {
		t.done = append(t.done, t.s.log[i])
	}
	return t.judge(ctx, alone)
}

// judge says how people could know of each loss of the three flights.
func (t *teller) judge(ctx context.Context, alone *run.Record) (err error) {
	if t.alone, err = t.ledger(ctx, alone); err != nil {
		return err
	}
	if t.right, err = t.ledger(ctx, t.best.Record); err != nil {
		return err
	}
	for _, l := range []*ledger.Ledger{t.here, t.alone, t.right} {
		if err := known.Judge(ctx, l); err != nil {
			return err
		}
	}
	return nil
}

// stories tells what became of each alert that was given in the drill.
func (t *teller) stories(d *Debrief) {
	for _, a := range t.here.Alerts {
		given := a.Spans[0].From
		st := Story{ID: a.Alert.ID, Level: a.Alert.Level, Message: a.Alert.Message, Given: momentOf(given), Procedure: a.Alert.Procedure}
		switch at, ok := t.answered(a.Alert, given); {
		case a.Alert.Procedure == "":
			st.Text = "calls for no procedure"
		case !ok:
			st.Text = "was never answered"
		default:
			m := momentOf(at)
			st.Answered, st.AfterS = &m, (at - given).Seconds()
			st.Text = fmt.Sprintf("was answered after %s", say.Lasts(at-given))
		}
		if best, ok := t.begun(a.Alert); ok {
			st.BestS = best.Seconds()
			st.Text += fmt.Sprintf("; a crew by the book begin with it after %s", say.Lasts(best))
		}
		d.Alerts = append(d.Alerts, st)
	}
}

// answered is when somebody first took up an alert: called for its list, or moved
// a control that it names.
func (t *teller) answered(a *book.Alert, given book.Time) (at book.Time, ok bool) {
	list, ok := t.s.deck.lists[a.Procedure]
	if !ok {
		return 0, false
	}
	var moves []string
	crew.Walk(t.s.deck.team.Steps(list), func(x *book.Step, _ string) { moves = append(moves, x.Set) })
	for _, in := range t.done {
		if in.At >= given && (in.Do == Call && in.ID == a.Procedure || in.Do == Move && slices.Contains(moves, in.ID)) {
			return in.At, true
		}
	}
	return 0, false
}

// begun is how long after an alert the best crew begin with it.
func (t *teller) begun(a *book.Alert) (after book.Time, ok bool) {
	for _, c := range t.best.Calls {
		if c.Alert == a && c.Begun != book.Never {
			return c.Begun - c.Given, true
		}
	}
	return 0, false
}

// heading says what had failed by the end of the drill, and whether the flight broke off.
func (t *teller) heading() string {
	var list []string
	for i, k := range t.record.Scenario.Strikes {
		if at := t.record.Struck[i]; at.Came && at.At <= t.s.now {
			for _, f := range k.Fail {
				list = append(list, fmt.Sprintf("%s failed at %s", t.b.FailureTitle(f.String()), say.Clock(at.At)))
			}
		}
	}
	text := "Nothing failed"
	if len(list) > 0 {
		text = say.And(list)
	}
	var out []string
	for _, f := range t.asked.Inoperative {
		out = append(out, t.b.FailureTitle(f.String()))
	}
	return strings.TrimSpace(text + say.Ahead("; inoperative from the start: ", say.And(out)) + ". " + t.broken(t.here))
}

// broken says that a flight breaks off before the end of the drill, and why; "" where it
// does not.
func (t *teller) broken(l *ledger.Ledger) string {
	if e := l.Here.Ending(); !e.Arrived() && e.At <= t.s.now {
		return fmt.Sprintf("The flight breaks off at %s: %s.", say.Clock(e.At), e.Why)
	}
	return ""
}

// began is when somebody first let the clock go: what was due before is nobody's.
func (s *Session) began() book.Time {
	if len(s.log) > 0 && s.log[0].Do == Clock {
		return s.log[0].At
	}
	return 0
}

// setting says where the drill was, and from when to when.
func (t *teller) setting() string {
	return fmt.Sprintf("%s, build %s; %s. The drill went from %s to %s of the flight.", t.b.Aircraft.Title, t.b.VariantTitle(), t.s.deck.Course().Flight.Title, say.Clock(t.s.began()), say.Clock(t.s.now))
}

// turns says where a flight was turned up to the end of the drill.
func (t *teller) turns(r *run.Record) (list []string) {
	for _, x := range r.Turns {
		if x.At <= t.s.now {
			list = append(list, say.Sentence(ledger.Turned(x)))
		}
	}
	return list
}
