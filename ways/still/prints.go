package still

import (
	"math/bits"

	"knockon/ways/logic"
)

// prints tells terms apart quickly: each term's values in some cases are its
// print. Terms with different prints differ; only of those with the same print
// it must be proven that they do not.
type prints struct {
	l     *logic.Logic
	known []print // by node
	proof proof
}

// print holds the values in 512 cases: mostly of few failures.
type print [8]uint64

func (p *prints) of(t logic.Term) print {
	for i := len(p.known); i <= int(t>>1); i++ {
		p.known = append(p.known, p.make(logic.Term(i)<<1))
	}
	v := p.known[t>>1]
	if t.Negated() {
		for i := range v {
			v[i] = ^v[i]
		}
	}
	return v
}

func (p *prints) make(t logic.Term) print {
	var v print
	args := p.l.Args(t)
	switch p.l.Op(t) {
	case logic.Basic:
		return cases(p.l.K(t))
	case logic.And:
		v = p.of(args[0])
		for _, a := range args[1:] {
			for i, x := range p.of(a) {
				v[i] &= x
			}
		}
	case logic.Or:
		for _, a := range args {
			for i, x := range p.of(a) {
				v[i] |= x
			}
		}
	case logic.Xor:
		for _, a := range args {
			for i, x := range p.of(a) {
				v[i] ^= x
			}
		}
	case logic.AtLeast:
		return p.atLeast(p.l.K(t), args)
	}
	return v
}

func (p *prints) atLeast(k int, args []logic.Term) print {
	rows := make([]print, k+1)
	for i := range rows[0] {
		rows[0][i] = ^uint64(0)
	}
	for _, a := range args {
		v := p.of(a)
		for j := k; j > 0; j-- {
			for i := range v {
				rows[j][i] |= rows[j-1][i] & v[i]
			}
		}
	}
	return rows[k]
}

// cases says in which cases an event has happened: in words 0 to 5 in about one
// of 64, in word 6 in one of 8, in word 7 in every other. The numbers come from
// a fixed mixing of the event's index, so that they are the same every time.
func cases(event int) print {
	var v print
	x := uint64(event)*0x9E3779B97F4A7C15 + 0xD6E8FEB86659FD93
	next := func() uint64 {
		x ^= x << 13
		x ^= x >> 7
		x ^= x << 17
		return bits.RotateLeft64(x*0xA0761D6478BD642F, 29)
	}
	for i := range 6 {
		v[i] = 1 << (next() & 63)
	}
	a, b, c := next(), next(), next()
	v[6] = a & b & c
	v[7] = next()
	return v
}

// same says whether two terms are true in the same cases.
func (p *prints) same(a, b logic.Term) bool {
	switch {
	case a == b:
		return true
	case p.of(a) != p.of(b):
		return false
	}
	return p.proof.same(a, b)
}
