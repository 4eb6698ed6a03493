package oracle

import (
	"cmp"
	"fmt"
	"slices"

	"knockon/book"
)

// Scenario is what happens on a flight beside the flight itself.
type Scenario struct {
	Failures    []Failure
	Inoperative []book.FailureRef // failed from before the start to the end
	Actions     []Action
	Phases      []Phase // that legs of a plan have made current
	Held        []Hold  // what reads as told (docs/meaning.md, section 5a)
}

// Phase is one that becomes current at a moment, whatever it was.
type Phase struct {
	At book.Time
	ID string
}

// Failure is one failure: of a unit, by a fault of a unit, or of all that an
// event fails, when its id stands in Ref.Unit.
type Failure struct {
	Ref        book.FailureRef
	At         book.Time
	When       *book.Expr // a yes/no: strikes at each of its rises, and At is not read
	Lasts      book.Time  // 0: lasting
	Resettable bool       // the unit's reset_by ends it
}

// Action moves a control.
type Action struct {
	At       book.Time
	When     *book.Expr // a yes/no: moves at each of its rises, and At is not read
	Control  string
	Position string
	Held     bool // a timed one: the control stays so, whatever acts come, until another timed one moves it
}

// cell is one remembered value that only inputs and latching memories change.
type cell struct {
	value float64
	held  bool // no act moves it
}

// strike is a failure with the cells that it sets.
type strike struct {
	Failure
	when   *node // nil: at At
	units  []*unit
	cells  []*cell
	active []bool // by cell
	struck bool   // a timed one has come
	ends   book.Time
	rise   rise
}

// act moves a control, at a time (when is nil) or at each rise of when.
type act struct {
	when *node
	at   book.Time
	done bool // a timed one has come
	set  *cell
	to   float64
	held bool
	rise rise
}

// rise holds whether something has happened in this instant already; it may
// happen once in an instant.
type rise struct{ spent bool }

// takes reports whether the yes/no x has risen in this evaluation for the first
// time in this instant.
func (r *rise) takes(m *machine, x *node) bool {
	if r.spent || m.now[x.slot] == 0 || m.stood[x.slot] != 0 {
		return false
	}
	r.spent = true
	return true
}

func (b *builder) scenario(s Scenario) error {
	for _, ref := range s.Inoperative {
		st, err := b.strike(Failure{Ref: ref})
		if err != nil {
			return err
		}
		st.struck = true
		st.setAll(true)
	}
	for _, f := range s.Failures {
		if _, err := b.strike(f); err != nil {
			return err
		}
	}
	for _, a := range s.Actions {
		if err := b.action(a); err != nil {
			return err
		}
	}
	for _, p := range s.Phases {
		number, ok := b.phases[p.ID]
		if !ok {
			return fmt.Errorf("there is no phase %q", p.ID)
		}
		b.m.timed = append(b.m.timed, &act{at: p.At, set: b.m.phase, to: float64(number)})
	}
	slices.SortStableFunc(b.m.timed, func(x, y *act) int { return cmp.Compare(x.at, y.at) })
	return nil
}

func (b *builder) strike(f Failure) (*strike, error) {
	if f.At < 0 || f.Lasts < 0 {
		return nil, fmt.Errorf("failure of %s: a time before the start", f.Ref)
	}
	st := &strike{Failure: f, ends: book.Never}
	for _, ref := range b.expand(f.Ref) {
		u, c := b.failure(ref)
		if c == nil {
			return nil, fmt.Errorf("failure of %s: no such unit, fault or event on build %s", f.Ref, b.build.Variant)
		}
		st.units = append(st.units, u)
		st.cells = append(st.cells, c)
	}
	st.active = make([]bool, len(st.cells))
	if f.When != nil {
		st.when = b.root(f.When)
	}
	b.m.strikes = append(b.m.strikes, st)
	return st, b.err
}

// expand gives the failures behind an event's id, and any other ref as it is.
func (b *builder) expand(ref book.FailureRef) []book.FailureRef {
	for _, e := range b.build.Events {
		if e.ID == ref.Unit && ref.Fault == "" {
			return e.Fails
		}
	}
	return []book.FailureRef{ref}
}

// failure finds the cell that holds whether a unit has failed in a way; nil if
// there is no such way.
func (b *builder) failure(ref book.FailureRef) (*unit, *cell) {
	u := b.units[ref.Unit]
	if u == nil {
		return nil, nil
	}
	if ref.Fault == "" {
		return u, u.failed
	}
	return u, u.faults[ref.Fault]
}

func (b *builder) action(a Action) error {
	if a.At < 0 {
		return fmt.Errorf("action on %s: a time before the start", a.Control)
	}
	n, err := b.act(a.Control, a.Position, a.When)
	if err != nil {
		return err
	}
	if n.at, n.held = a.At, a.Held; a.When == nil {
		b.m.timed = append(b.m.timed, n)
	}
	return nil
}

// act adds an act; one with a when joins those that fire.
func (b *builder) act(control, to string, when *book.Expr) (*act, error) {
	for _, c := range b.build.Controls {
		if c.ID != control {
			continue
		}
		if !slices.Contains(c.Positions, to) {
			return nil, fmt.Errorf("control %s has no position %q", control, to)
		}
		a := &act{set: b.controls[control], to: b.word(to)}
		if when != nil {
			a.when = b.root(when)
			b.m.acts = append(b.m.acts, a)
		}
		return a, b.err
	}
	return nil, fmt.Errorf("no control %s on build %s", control, b.build.Variant)
}

func (st *strike) setAll(active bool) {
	for i := range st.active {
		st.active[i] = active
	}
}

// hit makes the failure come at t.
func (st *strike) hit(t book.Time) {
	st.struck = true
	st.setAll(true)
	if st.Lasts > 0 {
		st.ends = t + st.Lasts
	}
}
