package crew

import (
	"fmt"
	"maps"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// duty is the crew on one flight. Each time they see a moment they end the
// lines whose time is over, notice what alerts have come, and begin what can be
// begun:
//
//	alert ──reaction──► task ──choose──► line ──its time──► action, answer
//
// A line that has begun is finished; between lines something more urgent may come
// first.
type duty struct {
	team    *Team
	asked   run.Scenario // what is flown, without what the crew do
	changes map[*book.Step]Change
	view    run.View
	now     book.Time
	known   []bool // per alert: given when last seen
	tried   []bool // per reset
	tries   []int
	tasks   []*task
	under   []underway
	free    [2]book.Time // pilot flying, pilot monitoring
	recess  recess
	briefed string          // the phase that was briefed last
	closing *book.Procedure // a last list that is begun; nil: none
	tell    *task           // what is still to be told on the radio
	calls   []Call
	lines   []Line
	moves   []run.Action
	legs    []run.Leg
	bound   bool    // the flight goes somewhere else already
	stays   bool    // it is not begun: it stops before the take-off
	levelFt float64 // it has been sent down to this level; 0: nowhere
	choices []Choice
	found   []Finding
	often   map[string]int // alert: how often it has called
	mind    *beliefs       // what the alerts that stand say; nil: not asked yet
	sure    bool           // the mind is that of this moment
	slowly  bool           // what steps ask is worked out from the record, part by part
}

// task is a procedure, or a part of one, that is to be done.
type task struct {
	list      *book.Procedure
	calls     []int // that it answers
	level     int
	frames    []frame // the innermost last
	notBefore book.Time
	last      book.Time   // when its last line ended
	begun     bool        // something of it has been done
	read      bool        // not only what is done from memory
	found     bool        // the list is in hand
	phase     int         // left for this phase and those after it; -1 for none
	until     *book.Step  // left until what this asks is seen to be so; nil: not, or it has been
	left      bool        // for later
	of        *book.Step  // what has left it
	part      bool        // a step of its own, done late
	caller    *book.Alert // that it is done for; nil: for all that call
	sent      bool        // begun because a line of another list says so
	after     *task       // not before this one is finished
	told      bool        // control has been told by a line of it
}

// frame is a list of steps and how far it is done.
type frame struct {
	steps []*book.Step
	at    int
}

// underway is a line that has begun.
type underway struct {
	task *task
	line int
	to   book.Time
}

// begin puts a crew on a flight.
func (t *Team) begin(s run.Scenario, changes []Change) (*duty, error) {
	d := &duty{bound: slices.ContainsFunc(s.Plan, run.Leg.OverGround) || !t.course.CanTurn(), team: t, asked: s, changes: map[*book.Step]Change{}, often: map[string]int{},
		known: make([]bool, len(t.alerts)), tried: make([]bool, len(t.resets)), tries: make([]int, len(t.resets))}
	for _, c := range changes {
		if err := t.fits(c); err != nil {
			return nil, err
		}
		d.changes[c.Step] = c
	}
	return d, nil
}

func (t *Team) fits(c Change) error {
	known := false
	for _, p := range t.Build().Procedures {
		Walk(t.lists[p], func(s *book.Step, _ string) { known = known || s == c.Step })
	}
	switch {
	case !known:
		return fmt.Errorf("crew: a change names a step that is not in the book")
	case c.Kind == Late && (c.By <= 0 || c.By > 86400*book.Second):
		return fmt.Errorf("%s: a step is late by more than nothing and less than a day", c.Step.Range)
	case c.Kind != Wrong:
		return nil
	}
	if _, _, ok := t.course.Circuit().Control(c.Control, c.Position); !ok || c.Step.Kind != "do" {
		return fmt.Errorf("%s: no control %s with a position %q for a do", c.Step.Range, c.Control, c.Position)
	}
	return nil
}

// Fork is run.Forker.
func (d *duty) Fork() run.Hand {
	n := *d
	n.mind, n.sure = nil, false
	n.known, n.tried, n.tries = slices.Clone(d.known), slices.Clone(d.tried), slices.Clone(d.tries)
	n.calls, n.lines, n.choices, n.found = slices.Clone(d.calls), slices.Clone(d.lines), slices.Clone(d.choices), slices.Clone(d.found)
	n.often = maps.Clone(d.often)
	same := map[*task]*task{}
	n.tasks = nil
	for _, t := range d.tasks {
		n.tasks = append(n.tasks, t.fork(same))
	}
	n.under = slices.Clone(d.under)
	for i, u := range n.under {
		n.under[i].task = u.task.fork(same)
	}
	n.tell = d.tell.fork(same)
	return &n
}

// fork is a task apart from this one; the same for all who ask with one list.
func (t *task) fork(same map[*task]*task) *task {
	if t == nil || same[t] != nil {
		return same[t]
	}
	n := *t
	n.calls, n.frames = slices.Clone(t.calls), slices.Clone(t.frames)
	same[t] = &n
	n.after = t.after.fork(same)
	return &n
}

// Sees is run.Hand.
func (d *duty) Sees(v run.View) run.Will {
	d.view, d.now, d.moves, d.legs, d.sure = v, v.Now(), nil, nil, false
	d.end()
	d.notice()
	d.await()
	d.countTries()
	for d.able() && d.next() {
	}
	return run.Will{Moves: d.moves, Legs: d.legs, Look: d.look()}
}

// able says that somebody is there who can act.
func (d *duty) able() bool { return d.team.able == circuit.None || d.yes(d.team.able) }

func (d *duty) yes(n circuit.Node) bool { return d.view.Value(n) != 0 }

// notice takes up alerts that have come.
func (d *duty) notice() {
	for i, c := range d.team.alerts {
		given := d.yes(c.given)
		if given && !d.known[i] {
			d.call(c)
		}
		d.known[i] = given
	}
}

// call puts an alert's procedure on the crew's mind.
func (d *duty) call(c caller) {
	noticed := d.now + d.team.pace.reaction(c.level, d.yes(d.team.fast))
	number := len(d.calls)
	call := Call{Alert: c.alert, Procedure: c.list, Given: d.now, Noticed: noticed, Begun: book.Never, Done: book.Never}
	switch open := d.open(c); {
	case c.list == nil:
	case open != nil:
		call.Joined, call.Begun = true, d.calls[open.calls[0]].Begun
		open.calls = append(open.calls, number)
		if !open.read {
			open.level = min(open.level, c.level)
		}
	case d.closing != nil:
		call.Past = d.closing
	case d.team.pace.MostCalls > 0 && d.often[c.alert.ID] >= d.team.pace.MostCalls:
		d.found = append(d.found, Finding{Kind: AgainAndAgain, At: d.now, Procedure: c.list, Alert: c.alert})
	default:
		d.often[c.alert.ID]++
		t := &task{list: c.list, calls: []int{number}, level: c.level, notBefore: noticed, phase: -1,
			frames: []frame{{steps: memoryFirst(d.arranged(d.team.lists[c.list]))}}}
		if d.team.sided[c.list] {
			t.caller = c.alert
		}
		d.tasks = append(d.tasks, t)
	}
	d.calls = append(d.calls, call)
}

// open is the task that answers an alert already: one whose list is not in hand
// yet, unless it is done for another side; or one that the same alert has called.
func (d *duty) open(c caller) *task {
	for _, t := range d.tasks {
		if t.list != c.list || t.left || t.part {
			continue
		}
		same := slices.ContainsFunc(t.calls, func(i int) bool { return d.calls[i].Alert == c.alert })
		if same || !t.read && t.caller == nil {
			return t
		}
	}
	return nil
}

// arranged is a list in the order in which this crew do it.
func (d *duty) arranged(steps []*book.Step) []*book.Step {
	list := slices.Clone(steps)
	for i, s := range steps {
		if c, ok := d.changes[s]; ok && c.Kind == Swap && i+1 < len(steps) {
			list[i], list[i+1] = steps[i+1], s
		}
	}
	return list
}

// countTries counts how often a failed unit's reset was tried.
func (d *duty) countTries() {
	for i, r := range d.team.resets {
		now := d.yes(r.try)
		if now && !d.tried[i] && d.yes(r.lost) && d.now > 0 {
			if d.tries[i]++; d.tries[i] == r.unit.ResetTries+1 {
				d.found = append(d.found, Finding{Kind: TooManyTries, At: d.now, Unit: r.unit})
			}
		}
		d.tried[i] = now
	}
}

// end finishes the lines whose time is over.
func (d *duty) end() {
	left := d.under[:0]
	for _, u := range d.under {
		if u.to > d.now {
			left = append(left, u)
			continue
		}
		if u.task == nil {
			continue
		}
		l := &d.lines[u.line]
		if l.Kind != ListLine { // it is found while its line waits
			u.task.last = u.to
		}
		d.finish(u.task, l)
	}
	d.under = left
	d.tasks = slices.DeleteFunc(d.tasks, d.done)
}

// finish gives a line its answer and goes the way that it opens.
func (d *duty) finish(t *task, l *Line) {
	s := l.Step
	if whom := l.whom(); whom != "" && !l.Omitted {
		l.Answer = d.hears(l)
	}
	if l.Kind != StepLine || l.Omitted {
		return
	}
	if s.Kind != "later" && s.Kind != "tell" {
		l.Answer = d.looks(t, s)
	}
	switch {
	case d.closed(t.list): // and what it would have led to with it
	case s.Kind == "check" && l.Answer == No:
		d.found = append(d.found, Finding{Kind: NotAsItShould, At: d.now, Procedure: l.Procedure, Step: s})
	case s.Kind == "tell" && l.Answer == No:
		t.enter(d.arranged(s.Else))
	case s.Kind == "decide":
		t.enter(d.arranged(branch(s, d.way(s, l.Answer))))
	case s.Kind == "later":
		d.leave(t, s)
	case s.GoTo != "":
		d.send(t, s)
	}
}

// way is the answer that a decision is taken by.
func (d *duty) way(s *book.Step, a Answer) Answer {
	if d.changes[s].Kind == Otherwise {
		return map[Answer]Answer{Yes: No, No: Yes, Unseen: Yes, None: No}[a]
	}
	return a
}

// branch is what follows an answer.
func branch(s *book.Step, a Answer) []*book.Step {
	switch {
	case a == Unseen && len(s.Unknown) > 0:
		return s.Unknown
	case a == Unseen, a == No:
		return s.Else
	}
	return s.Then
}

func (t *task) enter(steps []*book.Step) {
	t.frames = append(t.frames, frame{steps: steps})
}

// leave puts steps off to their phase, or until what they wait for is seen to be
// so; or does them at once if it has come.
func (d *duty) leave(t *task, s *book.Step) {
	if len(s.Then) == 0 {
		return
	}
	if d.leftAlready(t, s) {
		return
	}
	steps := d.arranged(s.Then)
	rest := &task{list: t.list, calls: t.calls, caller: t.caller, level: t.level, phase: -1, last: d.now, begun: true, read: true, found: true, left: true, of: s,
		frames: []frame{{steps: steps}}}
	come := false
	if s.When != nil {
		rest.until, come = s, d.looks(t, s) == Yes
	} else {
		rest.phase = slices.IndexFunc(d.team.Build().Phases, func(p *book.Phase) bool { return p.ID == s.In })
		come = rest.phase <= d.phase()
	}
	if come {
		t.enter(steps)
		return
	}
	d.tasks = append(d.tasks, rest)
}

// leftAlready says that a list has left the same steps before, and none of them is
// done yet: once is enough.
func (d *duty) leftAlready(t *task, s *book.Step) bool {
	return slices.ContainsFunc(d.tasks, func(o *task) bool {
		return o.of == s && o.caller == t.caller && len(o.frames) == 1 && o.frames[0].at == 0
	})
}

// await lets go on what waited for something that is seen now.
func (d *duty) await() {
	for _, t := range d.tasks {
		if t.until != nil && d.looks(t, t.until) == Yes {
			t.until = nil
		}
	}
}

func (d *duty) phase() int {
	return slices.IndexFunc(d.team.phases, d.yes)
}

// done says that nothing is left of a task, and closes its calls.
func (d *duty) done(t *task) bool {
	if !d.come(t) || d.head(t) != nil || slices.ContainsFunc(d.under, func(u underway) bool { return u.task == t && u.to > d.now }) {
		return false
	}
	if t.left || t.part {
		return true
	}
	for _, i := range t.calls {
		d.calls[i].Done = d.now
	}
	if t.level == 0 && t.begun && !t.told && d.team.pace.RadioS > 0 && d.tell == nil {
		d.tell = t
	}
	return true
}

// head is the step of a task that comes next: of those that are left the first
// that belongs now. Nil when there is none.
func (d *duty) head(t *task) *book.Step {
	depth, at := d.place(t)
	if depth < 0 {
		return nil
	}
	return t.frames[depth].steps[at]
}

// place is where the next step of a task stands: its frame, and its place there.
func (d *duty) place(t *task) (depth, at int) {
	for i := len(t.frames) - 1; i >= 0; i-- {
		f := t.frames[i]
		for at := f.at; at < len(f.steps); at++ {
			if d.belongs(t, f.steps[at]) {
				return i, at
			}
		}
	}
	return -1, 0
}

// pass goes past the next step of a task, and past those before it that do not
// belong, and gives it.
func (d *duty) pass(t *task) *book.Step {
	depth, at := d.place(t)
	t.frames = t.frames[:depth+1]
	f := &t.frames[depth]
	f.at = at + 1
	return f.steps[at]
}

func (d *duty) plan(asked run.Scenario, r *run.Record) *Plan {
	return &Plan{Asked: asked, Record: r, Lines: d.lines, Calls: d.calls, Choices: d.choices, Findings: d.findings(r)}
}
