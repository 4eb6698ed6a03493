package ways

import (
	"math/big"
	"math/bits"

	"knockon/ways/diagram"
)

// counts holds numbers of sets by order, in small numbers while they suffice.
type counts struct {
	small []uint64
	large []*big.Int // instead of small
}

var oneEvent = counts{small: []uint64{0, 1}}

func (c counts) len() int { return max(len(c.small), len(c.large)) }

func (c counts) big() []*big.Int {
	if c.large != nil {
		return c.large
	}
	large := make([]*big.Int, len(c.small))
	for i, n := range c.small {
		large[i] = new(big.Int).SetUint64(n)
	}
	return large
}

// lowest returns the smallest order with a set, or AllOrders.
func (c counts) lowest() int {
	for i, n := range c.small {
		if n != 0 {
			return i
		}
	}
	for i, n := range c.large {
		if n.Sign() != 0 {
			return i
		}
	}
	return AllOrders
}

// count counts the sets of a net by order, each leaf counting as its own sets.
// Sets above the highest order are left out.
func (s *solved) count(parts []*found, highest int) counts {
	leaves := make([]counts, len(s.setsAt))
	exact := true
	for level, part := range s.setsAt {
		leaves[level] = parts[part].counts
		exact = exact && leaves[level].large == nil
	}
	if exact {
		if small, ok := s.countSmall(leaves, highest); ok {
			return counts{small: small}
		}
	}
	return counts{large: s.countLarge(leaves, highest)}
}

// reach returns the families below and including z, each after its branches.
func reach(s *diagram.Families, z diagram.Family) []diagram.Family {
	seen := make([]bool, s.Len())
	var order []diagram.Family
	var visit func(diagram.Family)
	visit = func(z diagram.Family) {
		if seen[z] || z <= diagram.Unit {
			return
		}
		seen[z] = true
		without, with := s.Branch(z)
		visit(without)
		visit(with)
		order = append(order, z)
	}
	visit(z)
	return order
}

// countSmall fails with ok false when a number grows too large.
func (s *solved) countSmall(leaves []counts, highest int) (small []uint64, ok bool) {
	by := make([][]uint64, s.s.Len())
	by[diagram.Unit] = []uint64{1}
	for _, z := range reach(s.s, s.sets) {
		without, with := s.s.Branch(z)
		sum, ok := addProduct(by[without], by[with], leaves[s.s.Level(z)].small, highest)
		if !ok {
			return nil, false
		}
		by[z] = sum
	}
	return by[s.sets], true
}

// addProduct returns a + b*c as polynomials, cut above the highest power.
func addProduct(a, b, c []uint64, highest int) (sum []uint64, ok bool) {
	size := len(a)
	if len(b) > 0 && len(c) > 0 {
		size = max(size, min(len(b)+len(c)-1, highest+1))
	}
	sum = make([]uint64, size)
	copy(sum, a)
	for j, y := range c {
		if y == 0 {
			continue
		}
		for i, x := range b[:max(0, min(len(b), size-j))] {
			over, low := bits.Mul64(x, y)
			var carry uint64
			sum[i+j], carry = bits.Add64(sum[i+j], low, 0)
			if over != 0 || carry != 0 {
				return nil, false
			}
		}
	}
	return trim(sum), true
}

func trim(p []uint64) []uint64 {
	for len(p) > 0 && p[len(p)-1] == 0 {
		p = p[:len(p)-1]
	}
	return p
}

func (s *solved) countLarge(leaves []counts, highest int) []*big.Int {
	large := make([][]*big.Int, len(leaves))
	for i, c := range leaves {
		large[i] = c.big()
	}
	by := make([][]*big.Int, s.s.Len())
	by[diagram.Unit] = []*big.Int{big.NewInt(1)}
	for _, z := range reach(s.s, s.sets) {
		without, with := s.s.Branch(z)
		by[z] = addLargeProduct(by[without], by[with], large[s.s.Level(z)], highest)
	}
	return by[s.sets]
}

func addLargeProduct(a, b, c []*big.Int, highest int) []*big.Int {
	var sum []*big.Int
	at := func(i int) *big.Int {
		for len(sum) <= i {
			sum = append(sum, new(big.Int))
		}
		return sum[i]
	}
	for i, x := range a {
		at(i).Set(x)
	}
	var product big.Int
	for i, x := range b {
		for j, y := range c {
			if i+j <= highest && x.Sign() != 0 && y.Sign() != 0 {
				product.Mul(x, y)
				at(i+j).Add(at(i+j), &product)
			}
		}
	}
	return sum
}

// has says whether there is a set of this order.
func (c counts) has(order int) bool {
	switch {
	case order < len(c.small):
		return c.small[order] != 0
	case order < len(c.large):
		return c.large[order].Sign() != 0
	}
	return false
}
