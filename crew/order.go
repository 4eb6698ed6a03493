package crew

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
)

// Order holds the choices of many flights against the book's rules and against
// each other. The zero value is ready.
type Order struct {
	Choices int // that were noted
	Sets    int // different ones

	first map[string]chosen
	pairs map[[2]string]chosen
}

type chosen struct {
	procedure string
	in        string // the flight in which it was chosen first
}

// Quarrel is an order that a book's rules do not settle: the same procedures
// were begun in another order in another flight, or a rule was broken.
type Quarrel struct {
	Of     []string // ids of the procedures
	In     [2]string
	Chosen [2]string
	Text   string
}

// Note takes the choices of a flight, which has a name, and gives what does not
// fit the rules or the flights before it.
func (o *Order) Note(name string, p *Plan, b *book.Build) (found []Quarrel) {
	if o.first == nil {
		o.first, o.pairs = map[string]chosen{}, map[[2]string]chosen{}
	}
	for _, c := range p.Choices {
		o.Choices++
		found = append(found, broken(name, c, b)...)
		found = append(found, o.same(name, c)...)
		found = append(found, o.both(name, c)...)
	}
	return found
}

// broken holds a choice against the rules, in the plainest words: of those that
// wait for no cause, none has a higher level, or in that level a lower priority
// number, or in that an earlier place in the book.
func broken(name string, c Choice, b *book.Build) (found []Quarrel) {
	at := slices.IndexFunc(c.Of, func(x Candidate) bool { return x.Procedure == c.Chosen })
	for i, other := range c.Of {
		if i != at && (c.Of[at].Under != nil || other.Under == nil && before(other, c.Of[at], b)) {
			found = append(found, Quarrel{Of: c.ids(), In: [2]string{name, name}, Chosen: [2]string{c.Chosen.ID, other.Procedure.ID},
				Text: fmt.Sprintf("%s: %s was begun before %s, against the rules", name, c.Chosen.ID, other.Procedure.ID)})
		}
	}
	return found
}

func before(x, y Candidate, b *book.Build) bool {
	if l, m := slices.Index(book.Levels, x.Level), slices.Index(book.Levels, y.Level); l != m {
		return l < m
	}
	if x.Procedure.Priority != y.Procedure.Priority {
		return x.Procedure.Priority < y.Procedure.Priority
	}
	return slices.Index(b.Procedures, x.Procedure) < slices.Index(b.Procedures, y.Procedure)
}

func (c Choice) ids() (ids []string) {
	for _, x := range c.Of {
		ids = append(ids, x.Procedure.ID)
	}
	return ids
}

// same compares with the first flight that chose among the same procedures.
func (o *Order) same(name string, c Choice) []Quarrel {
	key := strings.Join(c.ids(), " ")
	was, ok := o.first[key]
	if !ok {
		o.Sets++
		o.first[key] = chosen{c.Chosen.ID, name}
		return nil
	}
	return quarrel(c.ids(), was, chosen{c.Chosen.ID, name})
}

// both compares, for each procedure that was not chosen though it waited for no
// cause, with flights in which it was chosen before the one that was chosen here.
func (o *Order) both(name string, c Choice) (found []Quarrel) {
	for _, x := range c.Of {
		if x.Procedure == c.Chosen || x.Under != nil {
			continue
		}
		pair := [2]string{c.Chosen.ID, x.Procedure.ID}
		if was, ok := o.pairs[[2]string{pair[1], pair[0]}]; ok {
			found = append(found, quarrel(pair[:], was, chosen{c.Chosen.ID, name})...)
		}
		if _, ok := o.pairs[pair]; !ok {
			o.pairs[pair] = chosen{c.Chosen.ID, name}
		}
	}
	return found
}

func quarrel(of []string, was, is chosen) []Quarrel {
	if was.procedure == is.procedure {
		return nil
	}
	return []Quarrel{{Of: of, In: [2]string{was.in, is.in}, Chosen: [2]string{was.procedure, is.procedure},
		Text: fmt.Sprintf("of %s, %s goes first in %s and %s in %s: give one of them a priority", strings.Join(of, ", "), was.procedure, was.in, is.procedure, is.in)}}
}
