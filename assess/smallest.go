package assess

import (
	"slices"

	"knockon/book"
	"knockon/sweep"
)

// loss is what is assessed: that a function is lost and mattered; hidden: that
// nobody knew of it (ledger.Word.Unknown).
type loss struct {
	function int32
	hidden   bool
}

// losses lists what can be assessed of a build: the functions with a severity,
// and those whose hidden loss has one of its own.
func losses(b *book.Build) (list []loss) {
	for i, f := range b.Functions {
		if f.Severity != "" {
			list = append(list, loss{function: int32(i)})
		}
		if f.SeverityIfHidden != "" && f.SeverityIfHidden != f.Severity {
			list = append(list, loss{int32(i), true})
		}
	}
	return list
}

// bits are a yes or no for each loss.
type bits []uint64

func (b bits) set(i int) { b[i/64] |= 1 << (i % 64) }

// finder finds the smallest sets of one sheet.
type finder struct {
	sheet *sweep.Sheet
	words int
	comes []bits // outcome -> losses
}

func newFinder(sheet *sweep.Sheet, all []loss) *finder {
	f := &finder{sheet: sheet, words: (len(all) + 63) / 64}
	places := map[int32][]int{}
	for i, l := range all {
		places[l.function] = append(places[l.function], i)
	}
	for _, o := range sheet.Outcomes {
		f.comes = append(f.comes, f.of(o, all, places))
	}
	return f
}

// of is which losses an outcome has.
func (f *finder) of(o sweep.Outcome, all []loss, places map[int32][]int) bits {
	b := make(bits, f.words)
	for _, l := range o.Lost {
		for _, i := range places[l.Function] {
			if l.Mattered && (!all[i].hidden || l.Known.Unknown()) {
				b.set(i)
			}
		}
	}
	return b
}

// parts is which losses some part of a set, one member left out, comes to.
func (f *finder) parts(s sweep.Set) bits {
	some := make(bits, f.words)
	add := func(b bits) {
		for w := range some {
			some[w] |= b[w]
		}
	}
	for i := range s {
		add(f.comes[f.sheet.Singles[s[i]]])
		if len(s) == 3 {
			pair := sweep.Set{s[(i+1)%3], s[(i+2)%3]}
			slices.Sort(pair)
			if at, own := slices.BinarySearch(f.sheet.Sets, pair.Key()); own {
				add(f.comes[f.sheet.Of[at]])
			}
		}
	}
	return some
}

// each gives every loss with every smallest set that brings it about: the loss
// is in the outcome of the set, and in that of no proper part of it. A set that
// is not of its own comes to no more than its parts, so it is none.
func (f *finder) each(give func(loss int, s sweep.Set)) {
	for n, of := range f.sheet.Singles {
		f.give(f.comes[of], make(bits, f.words), sweep.Set{n}, give)
	}
	for i, key := range f.sheet.Sets {
		s := sweep.SetOf(key)
		f.give(f.comes[f.sheet.Of[i]], f.parts(s), s, give)
	}
}

func (f *finder) give(here, less bits, s sweep.Set, give func(loss int, s sweep.Set)) {
	for w := range here {
		for i, rest := 64*w, here[w]&^less[w]; rest != 0; i, rest = i+1, rest>>1 {
			if rest&1 != 0 {
				give(i, s)
			}
		}
	}
}
