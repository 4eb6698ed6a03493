package still

import (
	"context"

	"knockon/ways"
	"knockon/ways/diagram"
	"knockon/ways/logic"
)

// proof decides whether terms are the same with one decision diagram for all of
// them: terms that are asked about have most of their parts in common.
type proof struct {
	l     *logic.Logic
	d     *diagram.Decisions // nil until needed, and again when it is full
	ref   map[logic.Term]diagram.Ref
	level map[int]int // by event
}

const mostProofNodes = 2_000_000

// same falls back on a search of its own for terms that the shared diagram
// cannot hold. Where that fails too it says no, which costs another round and
// nothing else.
func (p *proof) same(a, b logic.Term) bool {
	if p.d == nil {
		p.d = diagram.NewDecisions(context.Background(), mostProofNodes)
		p.ref = map[logic.Term]diagram.Ref{logic.False: diagram.No}
		p.level = map[int]int{}
	}
	f, err := p.of(a)
	if err == nil {
		var g diagram.Ref
		if g, err = p.of(b); err == nil {
			return f == g
		}
	}
	p.d = nil
	w, err := ways.Find(context.Background(), p.l, p.l.Xor(a, b), ways.Options{Megabytes: 50})
	return err == nil && w.Never
}

// of builds the diagram of a term. Events are decided in the order in which
// they are met.
func (p *proof) of(t logic.Term) (diagram.Ref, error) {
	mark := diagram.Ref(t & 1)
	t = t.Plain()
	if f, ok := p.ref[t]; ok {
		return f ^ mark, nil
	}
	args := make([]diagram.Ref, len(p.l.Args(t)))
	for i, a := range p.l.Args(t) {
		var err error
		if args[i], err = p.of(a); err != nil {
			return 0, err
		}
	}
	f, err := p.join(t, args)
	p.ref[t] = f
	return f ^ mark, err
}

func (p *proof) join(t logic.Term, args []diagram.Ref) (diagram.Ref, error) {
	switch p.l.Op(t) {
	case logic.Basic:
		e := p.l.K(t)
		if _, ok := p.level[e]; !ok {
			p.level[e] = len(p.level)
		}
		return p.d.Var(p.level[e])
	case logic.And:
		return p.d.And(args...)
	case logic.Or:
		for i := range args {
			args[i] ^= 1
		}
		f, err := p.d.And(args...)
		return f ^ 1, err
	case logic.AtLeast:
		return p.d.AtLeast(p.l.K(t), args...)
	}
	return p.d.Xor(args...)
}
