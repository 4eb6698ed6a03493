package module

import "slices"

// tidy rewrites each "any of these products" whose products nothing else uses:
// products that add nothing are dropped, arguments that make no difference are
// dropped from the products, and what several products share is put before a
// bracket.
func (n *Net) tidy() *Net {
	uses := n.uses()
	return n.rebuild(func(to *Net, i int, args []Ref) Ref {
		node := &n.Nodes[i]
		if node.Op != And {
			return to.make(node.Op, node.K, args)
		}
		var sum []product
		for j, a := range args {
			inner := &to.Nodes[a>>1]
			if a&1 == 1 && inner.Op == And && uses[node.Args[j]>>1] == 1 {
				sum = append(sum, newProduct(inner.Args))
			} else {
				sum = append(sum, product{a ^ 1})
			}
		}
		if len(sum) > mostProducts {
			return to.and(args)
		}
		return to.bracket(shorten(sum)) ^ 1
	})
}

// mostProducts keeps the time for one gate, which grows with the square of
// their number, within bounds.
const mostProducts = 200

// product is a sorted list of values that must all be yes.
type product []Ref

func newProduct(args []Ref) product {
	p := product(slices.Clone(args))
	slices.Sort(p)
	return p
}

// never says that p holds a value and its opposite, or the constant no.
func (p product) never() bool {
	for i, a := range p {
		if a == no || i > 0 && a == p[i-1]^1 {
			return true
		}
	}
	return false
}

func (p product) has(r Ref) bool { _, ok := slices.BinarySearch(p, r); return ok }

// without returns p without one of its values.
func (p product) without(r Ref) product {
	return slices.DeleteFunc(slices.Clone(p), func(a Ref) bool { return a == r })
}

// within says whether each value of p is one of q's.
func (p product) within(q product) bool {
	return !slices.ContainsFunc(p, func(a Ref) bool { return !q.has(a) })
}

// shorten drops from the products what makes no difference to their sum: an
// argument x of one, if another says the same of the opposite of x with no more
// conditions; and a product all of which another one asks for.
func shorten(sum []product) []product {
	for changed := true; changed; {
		changed = false
		for i := range sum {
			for _, x := range sum[i] {
				if idle(sum, i, x) {
					sum[i] = sum[i].without(x)
					changed = true
				}
			}
		}
	}
	var kept []product
	for i, p := range sum {
		if !absorbed(sum, i, p) {
			kept = append(kept, p)
		}
	}
	return kept
}

func idle(sum []product, i int, x Ref) bool {
	for j, q := range sum {
		if j != i && q.has(x^1) && q.without(x^1).within(sum[i]) {
			return true
		}
	}
	return false
}

// absorbed says whether another product asks for no more than p; of equal ones
// the first stays.
func absorbed(sum []product, i int, p product) bool {
	for j, q := range sum {
		if j != i && q.within(p) && (len(q) < len(p) || j < i) {
			return true
		}
	}
	return false
}

// bracket makes the sum of products, with the value that most of them share put
// before a bracket, and so on inside it and beside it.
func (n *Net) bracket(sum []product) Ref {
	x, count := mostShared(sum)
	if count < 2 {
		terms := make([]Ref, len(sum))
		for i, p := range sum {
			terms[i] = n.and(p)
		}
		return n.or(terms)
	}
	var with, rest []product
	for _, p := range sum {
		if p.has(x) {
			with = append(with, p.without(x))
		} else {
			rest = append(rest, p)
		}
	}
	inner := n.and([]Ref{x, n.bracket(with)})
	if len(rest) == 0 {
		return inner
	}
	return n.or([]Ref{inner, n.bracket(rest)})
}

func mostShared(sum []product) (x Ref, count int) {
	counts := map[Ref]int{}
	for _, p := range sum {
		for _, a := range p {
			counts[a]++
			if c := counts[a]; c > count || c == count && a < x {
				x, count = a, c
			}
		}
	}
	return x, count
}
