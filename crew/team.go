// Package crew turns a build, a failure scenario and a model of two pilots into
// what they do: which procedures are called for when, which line is done by whom
// at which moment, and the flight that comes of it.
//
// Invariant: a plan is a function of build, flight, scenario, pace and changes;
// its record is that of run.Course.Fly on the scenario with the plan's actions,
// to the microsecond. Rules of the model: docs/crew.md.
//
// Start reading at Team.Fly, then duty.Sees (duty.go).
package crew

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew/sight"
	"knockon/ledger"
	"knockon/run"
)

// Setting of a team. The zero value is the default.
type Setting struct {
	Pace *Pace       // nil: DefaultPace
	Run  run.Setting // how the flight is flown; Watch may hold further expressions
	Day  string      // which bulletins are in force, see book.Build.StepsOn
}

// Team is a crew on one build and flight. It may be used from many goroutines.
type Team struct {
	course *run.Course
	brief  *Brief
	pace   Pace
	alerts []caller
	looks  map[asked]sight.Look
	sided  map[*book.Procedure]bool // done for each alert that calls
	phases []circuit.Node
	low    circuit.Node             // too low or too fast for reading
	fast   circuit.Node             // on the ground, too fast for reading
	late   circuit.Node             // about to land: what can wait is not begun
	able   circuit.Node             // whether anybody can act; None: always
	rounds map[*book.Procedure]bool // has a line that goes around
	rank   map[string]int
	lists  map[*book.Procedure][]*book.Step // as they are to be done
	number map[*book.Step]string
	resets []reset
	ties   ties
}

// caller is an alert as the crew meets it.
type caller struct {
	alert *book.Alert
	list  *book.Procedure // nil: none
	level int
	given circuit.Node
}

// reset is a unit that may be tried to bring back, so often.
type reset struct {
	unit      *book.Unit
	try, lost circuit.Node
}

// Brief is what a crew must know of a build before it is compiled: how they work,
// and what they look at beside the values of the book.
type Brief struct {
	build *book.Build
	team  Team
	low   *book.Expr
	fast  *book.Expr
	late  *book.Expr
	asks  map[asked]*sight.Question
	order []asked // of asks
}

// asked is a step that asks something, in a list that is done for an alert; ""
// where it does not matter for which, or is not known.
type asked struct {
	step *book.Step
	by   string
	what what
}

// what of a step is asked.
type what int

const (
	itself     what = iota // that, when
	belonging              // whether the line belongs at all: if
	waitingFor             // whether it can begin: wait_for
	heard                  // whether somebody can hear it, by: whom
)

// NewBrief prepares a crew for a build.
func NewBrief(b *book.Build, pace *Pace, day string) (*Brief, error) {
	x := &Brief{build: b, team: Team{pace: DefaultPace()}}
	if pace != nil {
		x.team.pace = *pace
	}
	if err := x.team.pace.check(); err != nil {
		return nil, err
	}
	if day != "" && !book.ValidDay(day) {
		return nil, fmt.Errorf("%q is not a day: write it as 2026-11-25", day)
	}
	x.team.lay(b, day)
	x.prepare()
	for _, c := range []struct {
		to   **book.Expr
		text string
	}{{&x.low, x.team.pace.low()}, {&x.fast, x.team.pace.fast()}, {&x.late, x.team.pace.late()}} {
		e, diags := book.ParseExpr(c.text, b)
		if diags.HasErrors() {
			return nil, fmt.Errorf("crew: %s", diags[0].Summary)
		}
		*c.to = e
	}
	return x, nil
}

// Slower is the same brief for a crew whom everything takes so many times as long; they
// look at the same, so that both fly the same courses.
func (x *Brief) Slower(times float64) *Brief {
	slow := *x
	slow.team.pace = x.team.pace.Slower(times)
	return &slow
}

// Watches lists what a course must observe that this crew are to fly.
func (x *Brief) Watches() []*book.Expr {
	list := append(x.team.watches(x.build), x.low, x.fast, x.late)
	for _, a := range x.order {
		list = append(list, x.asks[a].Watches()...)
	}
	return list
}

// On puts the crew on a course of the build, which must observe what they watch.
func (x *Brief) On(c *run.Course) *Team {
	t := x.team
	t.course, t.brief, t.looks, t.rank = c, x, map[asked]sight.Look{}, map[string]int{}
	for a, q := range x.asks {
		t.looks[a] = q.On(c.Circuit())
	}
	t.low, _ = c.Circuit().WatchOf(x.low)
	t.fast, _ = c.Circuit().WatchOf(x.fast)
	t.late, _ = c.Circuit().WatchOf(x.late)
	t.able = circuit.None
	if n, ok := c.Circuit().Node(circuit.Value{Item: x.build.Aircraft.ID, Aspect: circuit.CrewAble}); ok {
		t.able = n
	}
	t.find(x.build)
	t.ties = newTies(x.build, c.Circuit())
	return &t
}

// NewTeam compiles a build and a flight of it (nil: its first) for a crew.
func NewTeam(b *book.Build, f *book.Flight, set Setting) (*Team, error) {
	x, err := NewBrief(b, set.Pace, set.Day)
	if err != nil {
		return nil, err
	}
	how := set.Run
	how.Watch = slices.Concat(how.Watch, x.Watches())
	course, err := run.NewCourse(b, f, how)
	if err != nil {
		return nil, err
	}
	return x.On(course), nil
}

// lay takes the procedures as they are on a day. Steps keep their numbers, and
// those of a bulletin are called by its id.
func (t *Team) lay(b *book.Build, day string) {
	t.lists, t.number, t.rounds = map[*book.Procedure][]*book.Step{}, map[*book.Step]string{}, map[*book.Procedure]bool{}
	for _, p := range b.Procedures {
		t.lists[p] = b.StepsOn(p, day)
		Walk(p.Steps, func(s *book.Step, n string) { t.number[s] = n })
		Walk(t.lists[p], func(s *book.Step, _ string) { t.rounds[p] = t.rounds[p] || s.Leg == string(run.GoAround) })
	}
	for _, x := range b.Bulletins {
		Walk(x.Steps, func(s *book.Step, n string) { t.number[s] = x.ID + "." + n })
	}
}

// Steps lists the steps of a procedure as this crew have them: with what the
// bulletins in force change.
func (t *Team) Steps(p *book.Procedure) []*book.Step { return t.lists[p] }

// Number is what a step is called: "3", "3.then.1", and with the bulletin's id
// before it for one of a bulletin.
func (t *Team) Number(s *book.Step) string { return t.number[s] }

// watches lists what the crew look at beside the values of the book.
func (t *Team) watches(b *book.Build) (list []*book.Expr) {
	for _, u := range b.Units {
		if u.ResetBy != nil && u.ResetTries > 0 {
			list = append(list, u.ResetBy)
		}
	}
	return list
}

// Walk visits the steps of a procedure, those inside others too, each with its
// number: "3", "3.then.1", "4.later.2".
func Walk(steps []*book.Step, visit func(s *book.Step, number string)) { book.WalkSteps(steps, visit) }

func (t *Team) find(b *book.Build) {
	c := t.course.Circuit()
	lists := map[string]*book.Procedure{}
	for i, p := range b.Procedures {
		lists[p.ID], t.rank[p.ID] = p, i
	}
	for _, a := range b.Alerts {
		n, _ := c.Node(circuit.Value{Item: a.ID})
		t.alerts = append(t.alerts, caller{a, lists[a.Procedure], slices.Index(book.Levels, a.Level), n})
	}
	for _, p := range b.Phases {
		n, _ := c.Node(circuit.Value{Item: p.ID})
		t.phases = append(t.phases, n)
	}
	for _, u := range b.Units {
		if u.ResetBy != nil && u.ResetTries > 0 {
			try, _ := c.WatchOf(u.ResetBy)
			lost, _ := c.Node(circuit.Value{Item: u.ID, Aspect: circuit.Failed})
			t.resets = append(t.resets, reset{u, try, lost})
		}
	}
}

// Course is the course that the team flies. It observes what the steps ask.
func (t *Team) Course() *run.Course { return t.course }

// Build is the build that the team flies.
func (t *Team) Build() *book.Build { return t.course.Build }

// Fly flies a scenario with the crew acting on what they are told. The error is
// one of run.Course.Fly, or says which change does not fit.
func (t *Team) Fly(ctx context.Context, s run.Scenario, changes ...Change) (*Plan, error) {
	d, err := t.begin(s, changes)
	if err != nil {
		return nil, err
	}
	r, err := t.course.FlyWith(ctx, s, d)
	if err != nil {
		return nil, err
	}
	return d.plan(s, r), nil
}

// Hand is this crew at the beginning of a flight on a course, for who flies it
// himself: their own course, or one that is narrowed to what they see and more.
func (t *Team) Hand(c *run.Course, s run.Scenario) run.Forker {
	d, _ := t.on(c).begin(s, nil) // without changes nothing can be wrong
	return d
}

// on is this crew on a course.
func (t *Team) on(c *run.Course) *Team {
	if c == t.course {
		return t
	}
	return c.Once(t.brief, func() any { return t.brief.On(c) }).(*Team)
}

// Sees lists all nodes of the course whose values decide what the crew do, in order.
// On a course of no more than these they do the same.
func (t *Team) Sees() []circuit.Node {
	list := slices.Concat(t.phases, t.ties.known, []circuit.Node{t.low, t.fast, t.late})
	for _, c := range t.alerts {
		list = append(list, c.given)
	}
	for _, r := range t.resets {
		list = append(list, r.try, r.lost)
	}
	for _, l := range t.looks {
		list = append(list, l.Sees()...)
	}
	if t.able != circuit.None {
		list = append(list, t.able)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// Ledger compares a plan's flight with the same flight without the failures and
// without what the crew did about them: what the crew itself takes away is a loss
// as well.
func (t *Team) Ledger(ctx context.Context, p *Plan) (*ledger.Ledger, error) {
	there, err := t.course.Beside(ctx, p.Record)
	if err != nil {
		return nil, err
	}
	return ledger.Of(p.Record, there), nil
}
