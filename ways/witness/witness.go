// Package witness looks for a set of failures that makes terms of a logic true
// together. It learns from each search what no set can do, and so is quick where
// many terms are asked about that have most of their parts in common.
//
// The one invariant: what it says of a set is checked by the very clauses that
// spell the terms out; "none" is said only when proven, and where the search was
// too long it says that it does not know.
//
// Start reading at Finder.Find.
package witness

import "knockon/ways/logic"

// Answer is what a search comes to.
type Answer uint8

// The answers.
const (
	Unknown Answer = iota // the search was given up
	None                  // no set of failures makes the terms true together
	Some                  // Failed says which set does
)

// Finder searches a logic, which may grow between searches. It is not safe for
// concurrent use.
type Finder struct {
	l *logic.Logic
	solver
	literal map[logic.Term]lit // by plain term
	event   []int              // by variable: the event that it is, or -1
}

// New returns a finder for a logic.
func New(l *logic.Logic) *Finder {
	f := &Finder{l: l, literal: map[logic.Term]lit{}}
	always := f.variable(-1)
	f.add(always)
	f.literal[logic.False] = always.not()
	return f
}

// Find looks for a set of failures for which all terms are true. It gives up
// after so many tries.
func (f *Finder) Find(most int, terms ...logic.Term) Answer {
	wanted := make([]lit, len(terms))
	for i, t := range terms {
		wanted[i] = f.of(t)
	}
	return f.search(wanted, most)
}

// Same says that two terms are true for the same sets; Some means that they are
// not, and Failed then says for which set.
func (f *Finder) Same(most int, a, b logic.Term) Answer {
	for _, wanted := range [][]logic.Term{{a, b.Not()}, {a.Not(), b}} {
		if found := f.Find(most, wanted...); found != None {
			return found
		}
	}
	x, y := f.of(a), f.of(b)
	f.add(x, y.not())
	f.add(x.not(), y)
	return None
}

// Failed says whether an event is in the set that was found last.
func (f *Finder) Failed(event int) bool {
	e, ok := f.literal[f.l.EventTerm(event)]
	return ok && f.model[e.of()] == yes
}

// of spells a term out in clauses, and what it is made of.
func (f *Finder) of(t logic.Term) lit {
	x, ok := f.literal[t.Plain()]
	if !ok {
		x = f.spell(t.Plain())
		f.literal[t.Plain()] = x
	}
	if t.Negated() {
		return x.not()
	}
	return x
}

func (f *Finder) spell(t logic.Term) lit {
	if f.l.Op(t) == logic.Basic {
		return f.variable(f.l.K(t))
	}
	args := make([]lit, len(f.l.Args(t)))
	for i, a := range f.l.Args(t) {
		args[i] = f.of(a)
	}
	switch f.l.Op(t) {
	case logic.And:
		return f.and(args...)
	case logic.Or:
		return f.or(args...)
	case logic.AtLeast:
		return f.atLeast(f.l.K(t), args)
	}
	odd := args[0]
	for _, a := range args[1:] {
		odd = f.or(f.and(odd, a.not()), f.and(odd.not(), a))
	}
	return odd
}

// and makes a variable that is yes where all of these are.
func (f *Finder) and(args ...lit) lit {
	x := f.variable(-1)
	whole := []lit{x}
	for _, a := range args {
		f.add(x.not(), a)
		whole = append(whole, a.not())
		f.from[x.of()] = append(f.from[x.of()], a.of())
	}
	f.add(whole...)
	return x
}

func (f *Finder) or(args ...lit) lit {
	none := make([]lit, len(args))
	for i, a := range args {
		none[i] = a.not()
	}
	return f.and(none...).not()
}

// atLeast adds one after another to rows, where rows[j] is "at least j of those
// so far".
func (f *Finder) atLeast(k int, args []lit) lit {
	always := f.literal[logic.False].not()
	rows := make([]lit, k+1)
	rows[0] = always
	for j := range k {
		rows[j+1] = always.not()
	}
	for _, a := range args {
		for j := k; j > 0; j-- {
			rows[j] = f.or(rows[j], f.and(rows[j-1], a))
		}
	}
	return rows[k]
}
