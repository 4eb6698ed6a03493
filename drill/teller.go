package drill

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
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
	asked       run.Scenario   // the failures, and nothing done
	record      *run.Record    // the drill as it went, and on to the end
	here, alone *ledger.Ledger // of it, and of the flight on which nobody does anything
	best        *crew.Plan
	done        []Input // what was done, in order
	called      map[string]bool
	beside      []beside
}

// beside is a flight that differs from the drill in what was done, and where what
// the drill has that it has not is to be said.
type beside struct {
	actions []run.Action
	moves   int // that it differs by
	tell    func(text string)
}

// flyBeside flies them all.
func (t *teller) flyBeside(ctx context.Context, progress func(done, all int)) error {
	for i, f := range t.beside {
		if progress != nil {
			progress(i, len(t.beside))
		}
		s := t.s.Flown()
		s.Actions = f.actions
		r, err := t.s.deck.Course().Fly(ctx, s)
		if err != nil {
			return err
		}
		l, err := t.ledger(ctx, r)
		if err != nil {
			return err
		}
		f.tell(consequences(t.here, l, f.moves))
	}
	return nil
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
	if t.alone, err = ledger.Answer(ctx, course, t.asked); err != nil {
		return err
	}
	for _, l := range []*ledger.Ledger{t.here, t.alone} {
		if err := known.Judge(ctx, l); err != nil {
			return err
		}
	}
	t.best, err = t.s.deck.team.Fly(ctx, t.asked)
	for _, i := range t.s.valid {
		t.done = append(t.done, t.s.log[i])
	}
	return err
}

// ledger compares with the flight on which nothing fails and nothing is done.
func (t *teller) ledger(ctx context.Context, r *run.Record) (*ledger.Ledger, error) {
	return t.s.deck.team.Ledger(ctx, &crew.Plan{Asked: t.asked, Record: r})
}

func (t *teller) moment(at book.Time) Moment { return Moment{at.Seconds(), say.Clock(at)} }

// stories tells what became of each alert that was given in the drill.
func (t *teller) stories(d *Debrief) {
	for _, a := range t.here.Alerts {
		given := a.Spans[0].From
		if given > t.s.now {
			continue
		}
		st := Story{ID: a.Alert.ID, Level: a.Alert.Level, Message: a.Alert.Message, Given: t.moment(given), Procedure: a.Alert.Procedure}
		switch at, ok := t.answered(a.Alert, given); {
		case a.Alert.Procedure == "":
			st.Text = "calls for no procedure"
		case !ok:
			st.Text = "was never answered"
		default:
			m := t.moment(at)
			st.Answered, st.AfterS = &m, (at - given).Seconds()
			st.Text = fmt.Sprintf("was answered after %s", say.Lasts(at-given))
		}
		if best, ok := t.begun(a.Alert); ok {
			st.BestS = best.Seconds()
			st.Text += fmt.Sprintf("; a crew begin with it after %s", say.Lasts(best))
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

// steps holds what was done against what the best crew move.
func (t *teller) steps(d *Debrief) {
	t.called = map[string]bool{}
	before, used := map[*book.Procedure]book.Time{}, map[int]bool{}
	for _, l := range t.best.Lines {
		if l.Control == "" || l.To > t.s.now {
			continue
		}
		t.called[l.Control+"="+l.Position] = true
		x := Done{Procedure: l.Procedure.Title, Number: l.Number, Says: t.s.says(l.Step), Moves: l.Control + "=" + l.Position, Best: t.moment(l.To)}
		switch i := t.move(l, used); {
		case i >= 0:
			at := t.done[i].At
			m := t.moment(at)
			x.At, x.LateS, x.Early = &m, max(0, (at-l.To).Seconds()), at < before[l.Procedure]
			before[l.Procedure] = max(before[l.Procedure], at)
			x.Text = x.timely()
		case t.stands(l.Control, l.To) == l.Position:
			x.Already, x.Text = true, "the control stood there already"
		default:
			missing := run.Action{Control: l.Control, Position: l.Position, At: book.Moment{Offset: l.To}}
			at := len(d.Steps)
			t.beside = append(t.beside, beside{t.with(missing), 1, func(text string) { d.Steps[at].Text = "left out: " + text }})
		}
		d.Steps = append(d.Steps, x)
	}
}

// move finds the first input that does a line, after its alert, and uses it up;
// -1 if there is none.
func (t *teller) move(l crew.Line, used map[int]bool) int {
	given := t.best.Calls[l.Call].Given
	for i, in := range t.done {
		if in.Do == Move && in.ID == l.Control && in.To == l.Position && in.At >= given && !used[i] {
			used[i] = true
			return i
		}
	}
	return -1
}

func (x Done) timely() string {
	text := "done in time"
	if x.LateS >= 10 {
		text = fmt.Sprintf("done %s late", say.Lasts(book.AtSeconds(x.LateS)))
	}
	if x.Early {
		text += ", before the step in front of it"
	}
	return text
}

// stands is where a control stood in the drill just before a moment.
func (t *teller) stands(control string, at book.Time) string {
	c := t.record.Circuit()
	n, _ := c.Node(circuit.Value{Item: control})
	return c.WordText(t.record.Before(n, at))
}

// with is what was done in the drill, and one action more.
func (t *teller) with(a run.Action) []run.Action {
	all := append(slices.Clone(t.s.Flown().Actions), a.Taken())
	slices.SortStableFunc(all, func(a, b run.Action) int { return cmp.Compare(a.At.Offset, b.At.Offset) })
	return all
}

// mostTurns is how many moves of one control are listed.
const mostTurns = 12

// others lists what was moved without being called for, and what came of it. The
// moves of one control are taken together: of two that do the same, neither alone
// is to blame.
func (t *teller) others(d *Debrief) {
	turns, order := map[string][]int{}, []string(nil)
	for i, in := range t.done {
		if in.Do != Move || t.called[in.ID+"="+in.To] {
			continue
		}
		if turns[in.ID] == nil {
			order = append(order, in.ID)
		}
		turns[in.ID] = append(turns[in.ID], i)
	}
	d.Others = make([]Moved, len(order))
	for i, id := range order {
		t.moved(&d.Others[i], id, turns[id])
	}
}

// moved tells of the moves of one control that nobody called for.
func (t *teller) moved(m *Moved, id string, turns []int) {
	*m = Moved{Control: id, Title: t.b.Title(id), Times: len(turns)}
	for _, i := range turns[:min(len(turns), mostTurns)] {
		in := t.done[i]
		m.Turns = append(m.Turns, Turn{in.Who, in.To, t.moment(in.At)})
	}
	if !slices.ContainsFunc(turns, t.turned) {
		m.Text = "the control stood there already"
		return
	}
	rest := slices.DeleteFunc(slices.Clone(t.s.Flown().Actions), func(a run.Action) bool {
		return a.Control == id && !t.called[id+"="+a.Position]
	})
	t.beside = append(t.beside, beside{rest, len(turns), func(text string) { m.Text = text }})
}

// turned says whether a move may have changed where its control stood: not when
// it stood there, unless something else was done in the same moment.
func (t *teller) turned(i int) bool {
	in := t.done[i]
	with := i > 0 && t.done[i-1].At == in.At || i+1 < len(t.done) && t.done[i+1].At == in.At
	return with || t.stands(in.ID, in.At+1) != in.To
}

// mostNamed is how many consequences are named.
const mostNamed = 5

// consequences says what one ledger has that another has not, for so many moves.
func consequences(a, b *ledger.Ledger, moves int) string {
	var list []string
	for _, l := range a.Losses {
		other := b.Loss(l.Function.ID)
		if l.Mattered && (other == nil || !other.Mattered || length(l)-length(*other) > 10*book.Second) {
			list = append(list, fmt.Sprintf("%s lost from %s (%s)", l.Function.Title, say.Clock(l.Spans[0].From), l.Class))
		}
	}
	for _, x := range a.Alerts {
		if !slices.ContainsFunc(b.Alerts, func(y ledger.Announcement) bool { return y.Alert == x.Alert && len(x.Sounds)-len(y.Sounds) < 3 }) {
			list = append(list, fmt.Sprintf("%s %q from %s", x.Alert.Level, x.Alert.Message, say.Clock(x.Spans[0].From)))
		}
	}
	switch {
	case len(list) == 0 && moves > 1:
		return "nothing that lasts follows from them in this model"
	case len(list) == 0:
		return "nothing that lasts follows from it in this model"
	}
	if more := len(list) - mostNamed; more > 0 {
		list = append(list[:mostNamed], fmt.Sprintf("and %d more", more))
	}
	return strings.Join(list, "; ")
}

func length(l ledger.Loss) (sum book.Time) {
	for _, s := range l.Spans {
		sum += s.Length()
	}
	return sum
}

// looks lists what was looked at, and what nobody looked at that would have told.
func (t *teller) looks(d *Debrief) {
	seen := map[string][]book.Time{}
	for _, in := range t.done {
		if in.Do != Look {
			continue
		}
		seen[in.ID] = append(seen[in.ID], in.At+LookTakes)
		i := slices.IndexFunc(d.Looks, func(l Looked) bool { return l.Indication == t.b.Title(in.ID) && l.By == in.Who })
		if i < 0 {
			d.Looks = append(d.Looks, Looked{t.b.Title(in.ID), in.Who, 1, t.moment(in.At)})
		} else {
			d.Looks[i].Times++
		}
	}
	for _, l := range t.here.Losses {
		for _, s := range l.Spans {
			if s.Class != ledger.OnlyShown || !s.Mattered || s.At > t.s.now {
				continue
			}
			if !slices.ContainsFunc(seen[s.Via.ID], func(at book.Time) bool { return at >= s.At && at < s.To }) {
				d.Unseen = append(d.Unseen, Unseen{l.Function.Title, s.Via.Title, t.moment(s.At),
					fmt.Sprintf("%s would have shown that %s is lost; nobody looked", s.Via.Title, l.Function.Title)})
			}
		}
	}
}

// events is the drill in one list.
func (t *teller) events(d *Debrief) {
	add := func(when string, at book.Time, text string) {
		if at <= t.s.now {
			d.Events = append(d.Events, Event{when, t.moment(at), text})
		}
	}
	for i, k := range t.record.Scenario.Strikes {
		if t.record.Struck[i].Came {
			for _, f := range k.Fail {
				add("true", t.record.Struck[i].At, t.b.FailureTitle(f.String())+" fails")
			}
		}
	}
	for _, l := range t.here.Losses {
		for _, s := range l.Spans {
			if s.Mattered {
				add("true", s.From, l.Function.Title+" is lost ("+s.Class.String()+")")
			}
		}
	}
	for _, a := range t.here.Alerts {
		for _, s := range a.Spans {
			add("told", s.From, a.Alert.Level+" "+a.Alert.Message)
		}
	}
	for _, in := range t.done {
		add("done", in.At, t.deed(in))
	}
	slices.SortStableFunc(d.Events, func(a, b Event) int { return cmp.Compare(a.At.TimeS, b.At.TimeS) })
}

func (t *teller) deed(in Input) string {
	switch in.Do {
	case Move:
		return fmt.Sprintf("%s: %s to %s", who(in.Who), t.b.Title(in.ID), in.To)
	case Look:
		return fmt.Sprintf("%s: looks at %s", who(in.Who), t.b.Title(in.ID))
	case Call:
		return fmt.Sprintf("%s: calls for the list %q", who(in.Who), t.b.Title(in.ID))
	case TurnTo:
		return fmt.Sprintf("%s: turns the flight: %s", who(in.Who), strings.ReplaceAll(in.To, "_", " "))
	case Tick:
		return fmt.Sprintf("%s: finishes line %s of %q", who(in.Who), in.Step, t.b.Title(in.ID))
	}
	var names []string
	for _, f := range in.Strike.What {
		names = append(names, t.b.FailureTitle(f))
	}
	return "the instructor lets fail: " + strings.Join(names, ", ")
}

// who names a person of the drill in words.
func who(r Role) string {
	if r == Alone {
		return "pilot"
	}
	return string(r)
}
