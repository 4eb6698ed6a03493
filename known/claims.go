package known

import (
	"knockon/book"
	"knockon/circuit"
)

// Claim is something that an alert says: an item that is yes or no, or a way of
// failing that has come.
type Claim struct {
	ref book.FailureRef // of an item its id alone
	way bool
	yes bool // of an item
}

// claimsOf lists what an alert claims: what its condition forces, being yes, and
// what it takes for down.
func claimsOf(b *book.Build, a *book.Alert) []Claim {
	f := forcing{build: b, seen: map[Claim]bool{}}
	truth := a.TrueWhen
	if truth == nil {
		truth = a.When
	}
	f.expr(truth, true)
	for _, r := range a.ClaimsDown {
		if r.Fault == "" {
			f.ref(r.Unit, false)
		} else {
			f.take(Claim{ref: book.FailureRef{Unit: r.Unit, Fault: r.Fault}, way: true})
		}
	}
	return f.list
}

// forcing walks from a condition down to all that it forces.
type forcing struct {
	build *book.Build
	seen  map[Claim]bool
	list  []Claim
}

func (f *forcing) item(id string) book.Item {
	item, _ := f.build.Item(id)
	return item
}

// take notes a claim; fresh is false for one that was there.
func (f *forcing) take(c Claim) (fresh bool) {
	if f.seen[c] {
		return false
	}
	f.seen[c] = true
	f.list = append(f.list, c)
	return true
}

// expr takes an expression that is yes, or no.
func (f *forcing) expr(e *book.Expr, yes bool) {
	switch e.Op {
	case book.OpRef:
		f.ref(e.ID, yes)
	case book.OpFailed, book.OpFault:
		if yes {
			f.take(Claim{ref: book.FailureRef{Unit: e.ID, Fault: e.Word}, way: true})
		}
	case book.OpNot:
		f.expr(e.Args[0], !yes)
	case book.OpHeld, book.OpPulse:
		if yes {
			f.expr(e.Args[0], true)
		}
	default:
		if forces(e, yes) {
			for _, a := range e.Args {
				f.expr(a, yes)
			}
		}
	}
}

// forces says that all operands have the value of the whole.
func forces(e *book.Expr, yes bool) bool {
	switch e.Op {
	case book.OpAnd, book.OpAll:
		return yes || len(e.Args) == 1
	case book.OpOr, book.OpAny:
		return !yes || len(e.Args) == 1
	case book.OpAtLeast:
		return yes && int(e.Num) == len(e.Args) || !yes && e.Num == 1
	}
	return false
}

// ref takes an item that is yes, or no, and what that forces in its own text.
func (f *forcing) ref(id string, yes bool) {
	var inside *book.Expr
	switch it := f.item(id).(type) {
	case *book.Unit:
		if inside = it.Needs; !yes {
			inside = nil
		}
	case *book.Function:
		inside = it.Works
	case *book.Signal:
		if it.Type != book.YesNo {
			return
		}
		inside = it.Value
	default:
		return
	}
	if f.take(Claim{ref: book.FailureRef{Unit: id}, yes: yes}) && inside != nil {
		f.expr(inside, yes)
	}
}

// Item is the id of what is claimed.
func (c Claim) Item() string { return c.ref.Unit }

// Value is what stands for a claim in a circuit, and which value it claims there.
func (c Claim) Value() (v circuit.Value, yes bool) {
	switch {
	case !c.way:
		return circuit.Value{Item: c.ref.Unit}, c.yes
	case c.ref.Fault == "":
		return circuit.Value{Item: c.ref.Unit, Aspect: circuit.Failed}, true
	}
	return circuit.Value{Item: c.ref.Unit, Aspect: circuit.Aspect(c.ref.Fault)}, true
}

// Put is the way of failing in which a claim is held.
func (c Claim) Put() book.FailureRef {
	switch {
	case c.way:
		return c.ref
	case c.yes:
		return book.FailureRef{Unit: c.ref.Unit, Fault: circuit.HeldYes}
	}
	return book.FailureRef{Unit: c.ref.Unit, Fault: circuit.HeldNo}
}
