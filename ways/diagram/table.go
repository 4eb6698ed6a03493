package diagram

import (
	"context"
	"errors"
)

// ErrNodes says that a diagram would have needed more nodes than its limit.
var ErrNodes = errors.New("the limit on diagram nodes was reached")

// node is one decision. lo is what follows when its variable is no (or absent),
// hi when it is yes (or present).
type node struct{ level, lo, hi uint32 }

// leafLevel is the level of the terminals: below every variable.
const leafLevel = ^uint32(0)

// table holds nodes so that no two are equal, and remembers results of
// operations for as long as their slot is not needed by another.
type table struct {
	nodes []node
	slots []uint32 // open addressing over nodes; 0 is empty
	cache []result
	limit int
	ctx   context.Context
}

// result is a remembered operation: op on a and b gave r.
type result struct{ a, b, op, r uint32 }

const (
	firstSlots = 1 << 8
	firstCache = 1 << 8
	mostCache  = 1 << 21 // 32 MB
)

func newTable(ctx context.Context, limit, terminals int) table {
	t := table{
		slots: make([]uint32, firstSlots),
		cache: make([]result, firstCache),
		limit: limit,
		ctx:   ctx,
	}
	for range terminals {
		t.nodes = append(t.nodes, node{level: leafLevel})
	}
	return t
}

// Len returns the number of nodes made so far.
func (t *table) Len() int { return len(t.nodes) }

// stop carries an error out of a deep recursion to guard.
type stop struct{ err error }

// guard runs f and turns running out of nodes or of time into an error.
func guard(f func() uint32) (r uint32, err error) {
	defer func() {
		switch p := recover().(type) {
		case nil:
		case stop:
			err = p.err
		default:
			panic(p)
		}
	}()
	return f(), nil
}

func mix(a, b, c uint32) uint32 {
	h := (uint64(a)*0x9E3779B97F4A7C15 ^ uint64(b)) * 0xD6E8FEB86659FD93
	h = (h>>29 ^ h ^ uint64(c)) * 0xA0761D6478BD642F
	return uint32(h >> 32)
}

// find returns the index of the node with this level and these branches,
// making it if there is none.
func (t *table) find(level, lo, hi uint32) uint32 {
	mask := uint32(len(t.slots) - 1)
	i := mix(level, lo, hi) & mask
	for ; t.slots[i] != 0; i = (i + 1) & mask {
		n := &t.nodes[t.slots[i]]
		if n.lo == lo && n.hi == hi && n.level == level {
			return t.slots[i]
		}
	}
	index := uint32(len(t.nodes))
	t.slots[i] = index
	t.push(node{level, lo, hi})
	return index
}

// push appends a node and keeps the slots at most two thirds full.
func (t *table) push(n node) {
	if len(t.nodes) >= t.limit {
		panic(stop{ErrNodes})
	}
	if len(t.nodes)&0xfff == 0 {
		if err := t.ctx.Err(); err != nil {
			panic(stop{err})
		}
	}
	t.nodes = append(t.nodes, n)
	if len(t.nodes)*3 > len(t.slots)*2 {
		t.grow()
	}
}

// small is up to how many slots a table grows by four and not by two: most
// tables are small, and filling them anew is most of their time.
const small = 1 << 15

func (t *table) grow() {
	times := 2
	if len(t.slots) < small {
		times = 4
	}
	t.slots = make([]uint32, times*len(t.slots))
	t.fill()
	if len(t.cache) < mostCache && len(t.cache) < len(t.slots) {
		t.growCache(times)
	}
}

func (t *table) growCache(times int) {
	old := t.cache
	t.cache = make([]result, times*len(old))
	for _, e := range old {
		if e.op != 0 {
			*t.slot(e.op, e.a, e.b) = e
		}
	}
}

// slot returns where the result of op on a and b is or would be remembered.
func (t *table) slot(op, a, b uint32) *result {
	return &t.cache[mix(op, a, b)&uint32(len(t.cache)-1)]
}

func (t *table) recall(op, a, b uint32) (r uint32, ok bool) {
	e := t.slot(op, a, b)
	return e.r, e.op == op && e.a == a && e.b == b
}

func (t *table) remember(op, a, b, r uint32) { *t.slot(op, a, b) = result{a, b, op, r} }

// keep drops every node that is neither a terminal nor reached from those that
// roots marks, and returns the new index of each that stays. Branches hold an
// index shifted left by shift.
func (t *table) keep(terminals int, roots func(mark func(uint32)), shift uint) []uint32 {
	to := make([]uint32, len(t.nodes))
	roots(func(index uint32) { to[index] = 1 })
	// A node stands after its branches, so one pass from the end marks all.
	for i := len(t.nodes) - 1; i >= terminals; i-- {
		if to[i] != 0 {
			to[t.nodes[i].lo>>shift], to[t.nodes[i].hi>>shift] = 1, 1
		}
	}
	old := t.nodes
	t.nodes = append(make([]node, 0, t.alive(to, terminals)), old[:terminals]...)
	for i := range terminals {
		to[i] = uint32(i)
	}
	low := uint32(1)<<shift - 1
	for i := terminals; i < len(old); i++ {
		if to[i] == 0 {
			continue
		}
		to[i] = uint32(len(t.nodes))
		n := old[i]
		n.lo = to[n.lo>>shift]<<shift | n.lo&low
		n.hi = to[n.hi>>shift]<<shift | n.hi&low
		t.nodes = append(t.nodes, n)
	}
	t.refill()
	return to
}

func (t *table) alive(marks []uint32, terminals int) int {
	count := terminals
	for _, m := range marks[terminals:] {
		if m != 0 {
			count++
		}
	}
	return count
}

// refill makes the slots anew and forgets all results.
func (t *table) refill() {
	size := firstSlots
	for len(t.nodes)*3 > size*2 {
		size *= 2
	}
	t.slots = make([]uint32, size)
	t.cache = make([]result, min(size, mostCache))
	t.fill()
}

func (t *table) fill() {
	mask := uint32(len(t.slots) - 1)
	for index, n := range t.nodes {
		if n.level == leafLevel {
			continue
		}
		i := mix(n.level, n.lo, n.hi) & mask
		for t.slots[i] != 0 {
			i = (i + 1) & mask
		}
		t.slots[i] = uint32(index)
	}
}

// Seal gives back what is only needed to make nodes. None can be made after it.
func (t *table) Seal() { t.slots, t.cache = nil, nil }
