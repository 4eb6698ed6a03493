package diagram

// Chance returns the probability that f is yes when each variable is yes with
// the probability in p, independently.
func (d *Decisions) Chance(f Ref, p []float64) float64 {
	return d.chances(f, p).of(f)
}

// Slopes returns, besides the probability of f, by how much it changes with the
// probability of each variable: that of f when the variable is yes, less that
// of f when it is no.
func (d *Decisions) Slopes(f Ref, p []float64) (chance float64, slopes []float64) {
	value := d.chances(f, p)
	slopes = make([]float64, len(p))
	weight := make([]float64, int(f>>1)+1)
	weight[f>>1] = sign(f)
	for i := int(f >> 1); i > 0; i-- {
		n, w := &d.nodes[i], weight[i]
		if w == 0 {
			continue
		}
		lo, hi := Ref(n.lo), Ref(n.hi)
		slopes[n.level] += w * (value.of(hi) - value.of(lo))
		weight[lo>>1] += w * (1 - p[n.level])
		weight[hi>>1] += w * p[n.level] * sign(hi)
	}
	return value.of(f), slopes
}

// chances holds the probability of each node.
type chances []float64

func (c chances) of(f Ref) float64 {
	if f&1 == 1 {
		return 1 - c[f>>1]
	}
	return c[f>>1]
}

// chances works upwards: a node stands after its branches. All terms of the sum
// are positive, so small probabilities keep their accuracy.
func (d *Decisions) chances(f Ref, p []float64) chances {
	value := make(chances, int(f>>1)+1)
	for i := 1; i < len(value); i++ {
		n := &d.nodes[i]
		x := p[n.level]
		value[i] = (1-x)*value.of(Ref(n.lo)) + x*value.of(Ref(n.hi))
	}
	return value
}

func sign(f Ref) float64 { return 1 - 2*float64(f&1) }

// Sum returns the sum over the sets of z of the products of their members'
// weights.
func (s *Families) Sum(z Family, w []float64) float64 {
	return s.fold(z, func(n *node, without, with float64) float64 { return without + w[n.level]*with })[z]
}

// Largest returns the largest such product.
func (s *Families) Largest(z Family, w []float64) float64 {
	return s.fold(z, func(n *node, without, with float64) float64 { return max(without, w[n.level]*with) })[z]
}

func (s *Families) fold(z Family, join func(n *node, without, with float64) float64) []float64 {
	value := make([]float64, max(int(z), 1)+1)
	value[Unit] = 1
	for i := 2; i < len(value); i++ {
		n := &s.nodes[i]
		value[i] = join(n, value[n.lo], value[n.hi])
	}
	return value
}

// Holding returns the function that is yes when all members of one of the sets
// of z that hold variable v are yes, v itself left aside.
func (d *Decisions) Holding(s *Families, z Family, v int) (Ref, error) {
	h := holding{d: d, s: s, v: uint32(v), any: map[Family]Ref{Nothing: No, Unit: Yes}, with: map[Family]Ref{Nothing: No, Unit: No}}
	return d.guard(func() Ref { return h.holdingV(z) })
}

type holding struct {
	d         *Decisions
	s         *Families
	v         uint32
	any, with map[Family]Ref // functions of all sets, of those that hold v
}

func (h *holding) holdingV(z Family) Ref {
	if f, ok := h.with[z]; ok {
		return f
	}
	n := h.s.nodes[z]
	f := No
	switch {
	case n.level == h.v:
		f = h.anySet(Family(n.hi))
	case n.level < h.v:
		f = h.join(n.level, h.holdingV(Family(n.lo)), h.holdingV(Family(n.hi)))
	}
	h.with[z] = f
	return f
}

func (h *holding) anySet(z Family) Ref {
	if f, ok := h.any[z]; ok {
		return f
	}
	n := h.s.nodes[z]
	f := h.join(n.level, h.anySet(Family(n.lo)), h.anySet(Family(n.hi)))
	h.any[z] = f
	return f
}

// join returns the function of the sets without the variable, no, and of those
// with it, yes.
func (h *holding) join(level uint32, no, yes Ref) Ref { return h.d.mk(level, no, h.d.or(no, yes)) }

// Possible says whether f can be yes when only the variables that can are yes.
func (d *Decisions) Possible(f Ref, can []bool) bool {
	// By node: whether it can be no, and yes.
	no, yes := make([]bool, int(f>>1)+1), make([]bool, int(f>>1)+1)
	no[0] = true
	either := func(r Ref) (canNo, canYes bool) {
		if r&1 == 1 {
			return yes[r>>1], no[r>>1]
		}
		return no[r>>1], yes[r>>1]
	}
	for i := 1; i < len(yes); i++ {
		n := &d.nodes[i]
		no[i], yes[i] = either(Ref(n.lo))
		if can[n.level] {
			n1, y1 := either(Ref(n.hi))
			no[i], yes[i] = no[i] || n1, yes[i] || y1
		}
	}
	_, canYes := either(f)
	return canYes
}
