package still

import (
	"math/bits"

	"knockon/ways/logic"
	"knockon/ways/witness"
)

// prints tells terms apart quickly: each term's values in some cases are its
// print. Terms with different prints differ; only of those with the same print
// it must be proven that they do not. A case that shows that two differ after
// all is one of the cases from then on.
type prints struct {
	l      *logic.Logic
	known  []known // by node
	finder *witness.Finder
	learnt int                    // cases added
	proven map[[2]logic.Term]bool // what a search came to: that two terms are the same
}

// known is the print of a node, as it was when so many cases had been added.
type known struct {
	print
	learnt int
}

// print holds the values in 512 cases, mostly of few failures, and in the last
// 512 that were found to tell terms apart.
type print [firstWords + addedWords]uint64

const firstWords, addedWords = 8, 8

func newPrints(l *logic.Logic) *prints {
	p := &prints{l: l, finder: witness.New(l), proven: map[[2]logic.Term]bool{}, known: make([]known, 1)}
	for e := range l.Events() {
		p.upTo(l.EventTerm(e))
	}
	return p
}

func (p *prints) of(t logic.Term) print {
	p.upTo(t.Plain())
	v := p.known[t>>1].print
	if t.Negated() {
		for i := range v {
			v[i] = ^v[i]
		}
	}
	return v
}

// upTo works out the print of a node as far as cases were added since it was
// worked out last.
func (p *prints) upTo(t logic.Term) {
	for len(p.known) <= int(t>>1) {
		p.known = append(p.known, known{learnt: -1})
	}
	from := p.known[t>>1].learnt
	if from == p.learnt || t == logic.False {
		return
	}
	p.known[t>>1].learnt = p.learnt
	if p.l.Op(t) == logic.Basic {
		p.known[t>>1].print = cases(p.l.K(t)) // those that were added are put in by learn
		return
	}
	for _, a := range p.l.Args(t) {
		p.upTo(a.Plain())
	}
	first := 0
	if from >= 0 {
		first = max(from, p.learnt-addedWords*64+1) / 64
		for w := first; w <= (p.learnt-1)/64; w++ {
			p.work(t, firstWords+w%addedWords)
		}
		return
	}
	for w := range len(print{}) {
		p.work(t, w)
	}
}

// work works out one word of a node's print.
func (p *prints) work(t logic.Term, word int) {
	args := p.l.Args(t)
	v := p.word(args[0], word)
	switch p.l.Op(t) {
	case logic.And:
		for _, a := range args[1:] {
			v &= p.word(a, word)
		}
	case logic.Or:
		for _, a := range args[1:] {
			v |= p.word(a, word)
		}
	case logic.Xor:
		for _, a := range args[1:] {
			v ^= p.word(a, word)
		}
	case logic.AtLeast:
		v = p.atLeast(p.l.K(t), args, word)
	}
	p.known[t>>1].print[word] = v
}

func (p *prints) word(t logic.Term, word int) uint64 {
	return p.known[t>>1].print[word] ^ -uint64(t&1)
}

func (p *prints) atLeast(k int, args []logic.Term, word int) uint64 {
	rows := make([]uint64, k+1)
	rows[0] = ^uint64(0)
	for _, a := range args {
		for j := k; j > 0; j-- {
			rows[j] |= rows[j-1] & p.word(a, word)
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
	return p.prove(a, b)
}

// never says that a term is true in no case.
func (p *prints) never(t logic.Term) bool { return p.same(t, logic.False) }

// mostTries bounds the search for a case in which two terms differ. Where it is
// too short they are said to differ, which costs another round and nothing else.
const mostTries = 500_000

func (p *prints) prove(a, b logic.Term) bool {
	key := [2]logic.Term{min(a, b), max(a, b)}
	same, ok := p.proven[key]
	if !ok {
		found := p.finder.Same(mostTries, a, b)
		if same = found == witness.None; found == witness.Some {
			p.learn()
		}
		p.proven[key] = same
	}
	return same
}

// learn adds the case that was found last, in place of the oldest where there
// are too many.
func (p *prints) learn() {
	word, bit := firstWords+p.learnt/64%addedWords, uint64(1)<<(p.learnt%64)
	p.learnt++
	for e := range p.l.Events() {
		k := &p.known[p.l.EventTerm(e)>>1]
		k.learnt = p.learnt
		if k.print[word] &^= bit; p.finder.Failed(e) {
			k.print[word] |= bit
		}
	}
}
