package oracle

import (
	"fmt"

	"knockon/book"
)

// builder looks up the ids of a build and lays out the machine.
type builder struct {
	build *book.Build
	m     *machine
	err   error // the first one

	parts    map[string]*part // by id, the main values
	units    map[string]*unit
	controls map[string]*cell
	faults   map[string]*part // by unit.fault
	failed   map[string]*part
	phases   map[string]int
	words    map[string]float64
	givenBy  *node // the aircraft's alerts_given_by
	looks    bool  // the expression is what people look at: an indication is what it shows
	shows    map[string]*part
	lit      map[string]*part
	held     map[Aspect]*holds
}

func newMachine(b *book.Build, f *book.Flight, s Scenario, watch []*book.Expr) (*machine, error) {
	bu := &builder{
		build: b, m: &machine{phase: &cell{}},
		parts: map[string]*part{}, units: map[string]*unit{}, controls: map[string]*cell{},
		faults: map[string]*part{}, failed: map[string]*part{}, phases: map[string]int{}, words: map[string]float64{},
		shows: map[string]*part{}, lit: map[string]*part{}, held: map[Aspect]*holds{},
	}
	bu.holds(s.Held)
	bu.mains()
	bu.items()
	for i, e := range watch {
		bu.part(fmt.Sprint(i), "watch", e)
	}
	if err := bu.acts(f); err != nil {
		return nil, err
	}
	if err := bu.scenario(s); err != nil {
		return nil, err
	}
	if bu.err == nil {
		bu.err = bu.m.sort()
	}
	return bu.m, bu.err
}

// mains makes a place for the main value of every item, so that expressions
// may name items that come later in the book.
func (b *builder) mains() {
	for _, u := range b.build.Units {
		b.main(u.ID, Works)
		b.waysToFail(u)
	}
	for _, s := range b.build.Signals {
		b.main(s.ID, Value)
	}
	for _, c := range b.build.Controls {
		b.main(c.ID, Position)
		b.controls[c.ID] = &cell{value: b.word(c.Initial)}
	}
	for _, f := range b.build.Functions {
		b.main(f.ID, Works)
	}
	for _, a := range b.build.Alerts {
		b.main(a.ID, Given)
	}
	for i, p := range b.build.Phases {
		b.main(p.ID, Active)
		b.phases[p.ID] = i
	}
}

func (b *builder) waysToFail(u *book.Unit) {
	own := &unit{failed: &cell{}, faults: map[string]*cell{}}
	b.units[u.ID] = own
	b.m.units = append(b.m.units, own)
	b.failed[u.ID] = b.extra(u.ID, Failed, b.cell(own.failed, book.YesNo))
	for _, f := range u.Faults {
		own.faults[f.ID] = &cell{}
		b.faults[u.ID+"."+f.ID] = b.extra(u.ID, Fault(f.ID), b.cell(own.faults[f.ID], book.YesNo))
	}
}

func (b *builder) main(id, of string) {
	p := &part{Aspect: Aspect{Item: id, Of: of}}
	b.parts[id] = p
	b.m.parts = append(b.m.parts, p)
}

// extra adds a value of an item beside its main one.
func (b *builder) extra(id, of string, root *node) *part {
	p := &part{Aspect: Aspect{Item: id, Of: of}, root: root}
	b.m.parts = append(b.m.parts, p)
	return p
}

func (b *builder) part(id, of string, e *book.Expr) *part { return b.extra(id, of, b.expr(e)) }

// root adds a value that no item shows, such as the condition of an act.
func (b *builder) root(e *book.Expr) *node { return b.alsoRoot(b.expr(e)) }

func (b *builder) alsoRoot(n *node) *node {
	b.m.roots = append(b.m.roots, n)
	return n
}

func (b *builder) items() {
	if a := b.build.Aircraft; a != nil && a.AlertsGivenBy != nil {
		b.givenBy = b.ref(b.extra("aircraft", "alerts_given_by", b.expr(a.AlertsGivenBy)))
	}
	if a := b.build.Aircraft; a != nil && a.Flyable != nil {
		b.extra("aircraft", Flyable, b.expr(a.Flyable))
	}
	if a := b.build.Aircraft; a != nil && a.CrewAble != nil {
		b.extra("aircraft", CrewAble, b.expr(a.CrewAble))
	}
	for _, u := range b.build.Units {
		b.unit(u)
	}
	for _, s := range b.build.Signals {
		b.signal(s)
	}
	for _, c := range b.build.Controls {
		b.parts[c.ID].root = b.cell(b.controls[c.ID], book.Word)
	}
	for i, p := range b.build.Phases {
		b.phase(i, p)
	}
	for _, f := range b.build.Functions {
		b.parts[f.ID].root = b.expr(f.Works)
		b.extra(f.ID, Wanted, b.orYes(f.Wanted))
	}
	for _, a := range b.build.Alerts {
		b.alert(a)
	}
	for _, i := range b.build.Indications {
		b.indication(i)
	}
	for _, f := range b.build.Functions {
		b.noticed(f)
	}
	b.hold()
}

// unit: works = has not failed, has no fault that stops it, and needs.
func (b *builder) unit(u *book.Unit) {
	works := []*node{b.not(b.ref(b.failed[u.ID]))}
	for _, f := range u.Faults {
		if f.Stops {
			works = append(works, b.not(b.ref(b.faults[u.ID+"."+f.ID])))
		}
	}
	b.parts[u.ID].root = b.op(book.OpAll, append(works, b.orYes(u.Needs))...)
	if u.ResetBy != nil {
		b.units[u.ID].resetBy = b.root(u.ResetBy)
	}
}

func (b *builder) signal(s *book.Signal) {
	if s.Value != nil {
		b.parts[s.ID].root = b.expr(s.Value)
		return
	}
	l := latch{set: b.root(s.Set), reset: b.root(s.Reset), cell: &cell{value: bit(s.Initial)}}
	b.m.latches = append(b.m.latches, l)
	b.parts[s.ID].root = b.cell(l.cell, book.YesNo)
}

func (b *builder) phase(i int, p *book.Phase) {
	n := b.op(opPhase)
	n.cell, n.num = b.m.phase, float64(i)
	b.parts[p.ID].root = n
	var begins *node
	if p.Begins != nil && i > 0 {
		begins = b.root(p.Begins)
	}
	b.m.begins = append(b.m.begins, begins)
}

func (b *builder) alert(a *book.Alert) {
	believed := b.part(a.ID, Believed, a.When)
	givenBy, until := b.op(book.OpAll), b.op(book.OpAny)
	switch {
	case a.GivenBy != nil:
		givenBy = b.expr(a.GivenBy)
	case b.givenBy != nil:
		givenBy = b.givenBy
	}
	if a.Until != nil {
		until = b.expr(a.Until)
	}
	reaches, ways := b.reaches(a)
	can := b.extra(a.ID, CanBeGiven, b.op(book.OpAll, b.ref(believed), givenBy, b.not(until), reaches))
	quiet := b.op(book.OpAny)
	for _, id := range a.QuietIn {
		quiet.args = append(quiet.args, b.named(id))
	}
	if a.QuietWhen != nil {
		quiet.args = append(quiet.args, b.expr(a.QuietWhen))
	}
	given := b.parts[a.ID]
	given.root = b.op(opGiven, b.ref(can), quiet)
	b.extra(a.ID, HeldBack, b.op(book.OpAll, b.ref(can), b.not(b.ref(given))))
	trueWhen := b.ref(believed)
	if a.TrueWhen != nil {
		trueWhen = b.expr(a.TrueWhen)
	}
	b.extra(a.ID, False, b.op(book.OpAll, b.ref(given), b.not(trueWhen)))
	heard := given
	for i, way := range ways {
		if way != nil {
			by := b.extra(a.ID, book.Ways[i], b.op(book.OpAll, b.ref(given), b.expr(way)))
			if book.Ways[i] == "sound" {
				heard = by
			}
		}
	}
	if reaches.op == book.OpAny && ways[2] == nil { // it can be told, but not by a sound
		return
	}
	b.m.sounds = append(b.m.sounds, &sound{alert: heard, repeats: book.AtSeconds(a.RepeatsS)})
}

// reaches is whether an alert reaches the crew in some way, and in which.
func (b *builder) reaches(a *book.Alert) (any *node, ways [3]*book.Expr) {
	of := a.Telling
	if of.Text == nil && of.Light == nil && of.Sound == nil && b.build.Aircraft != nil {
		for _, t := range b.build.Aircraft.Telling {
			if t.Level == a.Level {
				of = *t
			}
		}
	}
	any = b.op(book.OpAny)
	for i, e := range []*book.Expr{of.Text, of.Light, of.Sound} {
		if e != nil {
			ways[i] = e
			any.args = append(any.args, b.expr(e))
		}
	}
	if len(any.args) == 0 {
		return b.op(book.OpAll), ways
	}
	return any, ways
}

func (b *builder) indication(i *book.Indication) {
	shows := b.part(i.ID, Shows, i.Shows)
	lit := b.extra(i.ID, Lit, b.orYes(i.LitBy))
	b.shows[i.ID], b.lit[i.ID] = shows, lit
	differs := b.op(book.OpAny)
	if i.Means != nil {
		means := b.part(i.ID, Means, i.Means)
		differs = b.differs(b.ref(shows), b.ref(means), i.Within)
	}
	b.extra(i.ID, Wrong, b.op(book.OpAll, b.ref(lit), differs))
}

func (b *builder) differs(x, y *node, within float64) *node {
	if x.typ != book.Number {
		return b.op(book.OpNe, x, y)
	}
	far := b.op(book.OpAbs, b.op(book.OpSub, x, y))
	limit := b.slot(&node{op: book.OpNumber, typ: book.Number, num: within})
	return b.op(book.OpGt, far, limit)
}

func (b *builder) acts(f *book.Flight) error {
	if f == nil {
		return nil
	}
	for _, a := range f.Acts {
		if _, err := b.act(a.Set, a.To, a.When); err != nil {
			return fmt.Errorf("%s: %w", a.Range, err)
		}
	}
	return nil
}

func bit(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}
