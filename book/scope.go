package book

import (
	"slices"

	"knockon/say"
)

// symbol is what the checker knows of an id on one build.
type symbol struct {
	kind    string // the block's word
	absent  bool   // the id exists in the book, but not on this build
	spoiled bool   // the block could not be taken in, and that has been told
	valued  bool   // it has a value in expressions
	typ     Type
	unit    string
	words   []string
	faults  []string // of a unit
	unnamed bool     // a number whose unit is not known
}

func (s *symbol) same(t *symbol) bool {
	return s.kind == t.kind && s.absent == t.absent && s.typ == t.typ && s.unit == t.unit &&
		s.unnamed == t.unnamed && slices.Equal(s.words, t.words)
}

// scope is what an expression may read.
type scope interface {
	// symbol looks an id up; nil if the book has no such id.
	symbol(id string) *symbol
	// fact says whether the aircraft block gives a number of this name.
	fact(name string) bool
	// suggest gives the id nearest to one that does not exist, among items of
	// some kinds, of equally near ones one of the chapter in which it is written;
	// suggestFact the same for numbers of the aircraft block.
	suggest(at Range, id string, kinds []string) string
	suggestFact(name string) string
	// where names the build in messages; "" if the book has only one.
	where() string
}

// buildScope is the scope of a finished build.
type buildScope struct{ b *Build }

func (s buildScope) symbol(id string) *symbol {
	if item, ok := s.b.items[id]; ok {
		return symbolOf(item)
	}
	for _, other := range s.b.Book.builds {
		if item, ok := other.items[id]; ok {
			return &symbol{kind: item.Named().Kind, absent: true}
		}
	}
	return nil
}

func (s buildScope) fact(name string) bool { _, ok := s.b.Aircraft.Number(name); return ok }

func (s buildScope) suggest(_ Range, id string, kinds []string) string {
	var ids []string
	for id, item := range s.b.items {
		if slices.Contains(kinds, item.Named().Kind) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return say.Nearest(id, ids)
}

func (s buildScope) suggestFact(name string) string {
	var names []string
	for _, n := range s.b.Aircraft.Numbers {
		names = append(names, n.Name)
	}
	for _, s := range s.b.Aircraft.Settings {
		names = append(names, s.MostLiftName())
	}
	return say.Nearest(name, names)
}

func (s buildScope) where() string {
	if len(s.b.Book.builds) == 1 {
		return ""
	}
	return s.b.Variant
}

func symbolOf(item Item) *symbol {
	s := &symbol{kind: item.Named().Kind}
	switch item := item.(type) {
	case *Unit:
		s.valued, s.typ = true, YesNo
		for _, f := range item.Faults {
			s.faults = append(s.faults, f.ID)
		}
	case *Function, *Alert, *Phase:
		s.valued, s.typ = true, YesNo
	case *Signal:
		s.valued, s.typ, s.unit, s.words = true, item.Type, item.Unit, item.Words
		s.unnamed = item.Type == Number && item.Unit == ""
	case *Control:
		s.valued, s.typ, s.words = true, Word, sortedWords(item.Positions)
	case *Indication:
		s.shown(item.Shows)
	}
	return s
}

func sortedWords(words []string) []string {
	sorted := slices.Clone(words)
	slices.Sort(sorted)
	return slices.Compact(sorted)
}
