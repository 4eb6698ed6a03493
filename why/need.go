package why

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// Need is something that a difference between two runs hangs on: had it been as in the
// other run, the value would have been as there.
type Need struct {
	Node  circuit.Node
	Value circuit.Value // its name; a way of failing has its unit's
	Label string        // what a person calls it
	Says  string        // its value here in words
	At    book.Time     // the moment at which it counts here
	Far   int           // how many named steps away it is, 0 for the value itself
	Hand  bool          // a control that somebody moved, and no act of the flight
}

// Needs finds what differences between two runs hang on (docs/meaning.md, section 6a).
// What was found for one value serves the next. It is not safe for concurrent use.
type Needs struct {
	*walker
	calc  *circuit.Calculator
	rules map[pair]*rule
}

// NewNeeds makes needs of the run here beside the run there, which must have gone the
// same way.
func NewNeeds(here, there *circuit.Trace) *Needs {
	c := here.Circuit()
	x := &explainer{c: c, here: newSide(here, c)}
	x.there = newSide(there, c)
	return &Needs{walker: x.walker(x.there, nil, false), calc: circuit.NewCalculator(c), rules: map[pair]*rule{}}
}

// Of lists what a value's difference at a moment hangs on, the nearest first; nil
// where it does not differ there.
func (n *Needs) Of(v circuit.Value, at book.Time) []Need {
	node, ok := n.c.Node(v)
	if !ok || at > n.there.End || at > n.here.End {
		return nil
	}
	p := n.pinned(pair{node, n.here.settled(at), n.there.settled(at)})
	if !n.differs(p) {
		return nil
	}
	n.explore(p)
	return n.listed(p)
}

// pinned takes an evaluation after which a node stays as it is for the settled one.
func (n *Needs) pinned(p pair) pair {
	if n.here.quiet(p.n, p.here) && n.there.quiet(p.n, p.there) {
		p.here.pass, p.there.pass = 0, 0
	}
	return p
}

// rule is how a pair comes to differ: what it reads that differs, and whether it would
// be as there with some of that as there.
type rule struct {
	from  []pair
	saved func(there []bool) bool
	needs []circuit.Node // sorted
	all   bool           // not worked out yet: whatever may be asked of it
}

// explore works out the rules of all that a pair hangs on. Sets begin as everything and
// shrink until no rule takes anything away: what is met again within its own
// explanation counts as everything.
func (n *Needs) explore(p pair) {
	fresh := n.grow(p, nil)
	for changed := true; changed; {
		changed = false
		for _, q := range fresh {
			changed = n.shrink(q) || changed
		}
	}
}

// grow lists what has no rule yet, what is read before what reads it.
func (n *Needs) grow(p pair, list []pair) []pair {
	if _, ok := n.rules[p]; ok {
		return list
	}
	r := &rule{all: true}
	n.rules[p] = r
	r.from, r.saved = n.ruleOf(p)
	for i, q := range r.from {
		r.from[i] = n.pinned(q)
		list = n.grow(r.from[i], list)
	}
	return append(list, p)
}

// shrink works a set out anew from what it reads.
func (n *Needs) shrink(p pair) (changed bool) {
	r := n.rules[p]
	var list []circuit.Node
	switch {
	case len(r.from) > 0 && !slices.ContainsFunc(r.from, func(q pair) bool { return !n.rules[q].all }):
		return false
	case len(r.from) > 0:
		list = n.passing(r)
	}
	if n.tells(p.n) {
		list = insert(list, p.n)
	}
	if !r.all {
		list = slices.DeleteFunc(list, func(m circuit.Node) bool { return !has(r.needs, m) })
	}
	changed = r.all || len(list) != len(r.needs)
	r.needs, r.all = list, false
	return changed
}

// tells says that a node is something of its own: it has a name.
func (n *Needs) tells(m circuit.Node) bool {
	_, named := n.c.NameOf(m)
	return named
}

// passing lists what would save the pair of a rule by what it saves of what that reads.
func (n *Needs) passing(r *rule) (list []circuit.Node) {
	for _, q := range r.from {
		for _, m := range n.rules[q].needs {
			if has(list, m) {
				continue
			}
			there := make([]bool, len(r.from))
			for i, o := range r.from {
				there[i] = n.rules[o].all || has(n.rules[o].needs, m)
			}
			if r.saved(there) {
				list = insert(list, m)
			}
		}
	}
	return list
}

func has(list []circuit.Node, m circuit.Node) bool {
	_, found := slices.BinarySearch(list, m)
	return found
}

func insert(list []circuit.Node, m circuit.Node) []circuit.Node {
	i, found := slices.BinarySearch(list, m)
	if found {
		return list
	}
	return slices.Insert(list, i, m)
}

// listed gives the needs of a pair with their moments and how far away they are.
func (n *Needs) listed(root pair) (list []Need) {
	r, seen := n.rules[root], map[pair]bool{root: true}
	if r.all {
		return nil
	}
	for layer, far := []pair{root}, 0; len(layer) > 0; far++ {
		var next []pair
		for i := 0; i < len(layer); i++ {
			p := layer[i]
			v, named := n.c.NameOf(p.n)
			if named && has(r.needs, p.n) && !slices.ContainsFunc(list, func(o Need) bool { return o.Node == p.n }) {
				list = append(list, Need{p.n, v, n.label(p.n, v), n.says(p.n, v, n.here.value(p.n, p.here)), p.here.at, far, n.hand(p)})
			}
			for _, q := range n.rules[p].from {
				switch {
				case seen[q]:
				case named:
					next, seen[q] = append(next, q), true
				default:
					layer, seen[q] = append(layer, q), true
				}
			}
		}
		layer = next
	}
	return list
}

// hand says that a pair is a control which only a hand moved otherwise than there.
func (n *Needs) hand(p pair) bool {
	return n.c.Gate(p.n).Kind == circuit.GateSwitch && len(n.rules[p].from) == 0
}
