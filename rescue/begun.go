package rescue

import (
	"fmt"
	"slices"

	"knockon/book"
)

// Many sets begin with the same moves: of those that are made one after another, all
// with the same first ones fly alike up to the last. So these are flown up to there
// once, and every such set parts from there.

// first is how many of a set's moves are made before the last, or the last together.
func (s Set) first() int {
	return slices.IndexFunc(s, func(m Placed) bool { return m.After == s[len(s)-1].After })
}

// flyOn flies a set at this moment, from where its first moves have been flown.
func (m *moment) flyOn(set Set) (*outcome, error) {
	n := set.first()
	if n == 0 {
		return m.try(m.ctx, m.thin, m.stem.at, set, m.howToFly(set))
	}
	a, err := m.upTo(set[:n], set[n].After, len(set), m.howToFly(set))
	switch {
	case err != nil:
		return nil, err
	case a.over():
		return a.outcome(set), nil
	}
	if m.keeps(set[:n]) {
		a = a.part()
	}
	if err := a.move(set[n:]); err != nil {
		return nil, err
	}
	if err := a.fly(m.ctx, false, book.Never); err != nil {
		return nil, err
	}
	defer a.giveBack()
	return a.outcome(set), nil
}

// over says that no move that is made later changes anything.
func (a *attempt) over() bool { return a.clear || a.here.Ended() }

// upTo is the first moves of sets of so many, flown up to where the next is made.
func (m *moment) upTo(first Set, next book.Time, of int, h how) (*attempt, error) {
	key, kept := fmt.Sprint(of, " ", int64(next), " ", first.key()), m.begun
	if len(first) > 1 {
		kept = m.pairs
	}
	if a := kept[key]; a != nil {
		return a, nil
	}
	a, err := m.flyFirst(first, next, of, h)
	if err == nil && m.keeps(first) {
		kept[key] = a
	}
	return a, err
}

func (m *moment) flyFirst(first Set, next book.Time, of int, h how) (a *attempt, err error) {
	n := first.first()
	if n == 0 {
		a = m.grove.begin(m.thin, m.stem, h)
	} else if a, err = m.upTo(first[:n], first[n].After, of, h); err != nil || a.over() {
		return a, err
	} else {
		a = a.part()
	}
	if err := a.move(first[n:]); err != nil {
		return nil, err
	}
	a.made = book.Never // more is moved
	return a, a.fly(m.ctx, false, m.stem.at+next-1)
}

func (s Set) has(m Move) bool {
	return slices.ContainsFunc(s, func(p Placed) bool { return p.Move == m })
}

// keeps says of first moves that sets to come will have them too.
func (m *moment) keeps(first Set) bool { return len(first) == 1 || first.has(m.led) }

// lead says which move is the first of the sets to come, in the order of the book.
// Sets of three begin with two moves that are kept while one of them leads, and no
// longer: there are too many.
func (m *moment) lead(first Move) {
	m.led = first
	clear(m.pairs)
}

// part is another attempt that has come as far.
func (a *attempt) part() *attempt {
	k := *a
	k.here, k.suspect = a.here.PartInto(a.w.spare()), slices.Clone(a.suspect)
	k.now, k.other = clipped(a.now), clipped(a.other)
	if a.there != nil {
		k.there = a.there.Part()
	}
	if a.reader != nil {
		k.reader = a.reader.part()
	}
	if a.doubt != nil {
		k.doubt = a.doubt.along(k.here, a.g.over(a.doubt))
	}
	return &k
}

// clipped are histories to which more is added elsewhere.
func clipped(list []history) []history {
	list = slices.Clone(list)
	for i, h := range list {
		list[i] = history{slices.Clip(h.works), slices.Clip(h.wanted)}
	}
	return list
}
