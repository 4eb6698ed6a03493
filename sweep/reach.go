package sweep

import (
	"math/bits"

	"knockon/circuit"
)

// reach is the set of nodes and items that read something which some failures
// change, at some moment. Failures whose reaches have nothing in common do not
// meet: each value is, with both, what it is with one of them alone.
type reach []uint64

func (r reach) meets(o reach) bool {
	for i := range r {
		if r[i]&o[i] != 0 {
			return true
		}
	}
	return false
}

// meetings says of every two of a list whether they meet: those that have a node or
// an item do so in it.
func meetings(list []reach) [][]bool {
	meets, have := make([][]bool, len(list)), map[int][]int{}
	for a, r := range list {
		meets[a] = make([]bool, len(list))
		for w, left := range r {
			for ; left != 0; left &= left - 1 {
				i := w<<6 + bits.TrailingZeros64(left)
				for _, b := range have[i] {
					meets[a][b], meets[b][a] = true, true
				}
				have[i] = append(have[i], a)
			}
		}
	}
	return meets
}

func (r reach) join(o reach) {
	for i, w := range o {
		r[i] |= w
	}
}

func (r reach) add(i int32) { r[i>>6] |= 1 << (i & 63) }

// readersOf lists, for every node, what reads it: nodes, controls that it moves,
// phases that it begins, and items of the ledger behind the nodes.
func (p *program) readersOf() [][]int32 {
	list := make([][]int32, len(p.gates))
	for i, g := range p.gates {
		for _, n := range g.readers {
			list[i] = append(list[i], int32(n))
		}
		for _, n := range g.wakes {
			list[i] = append(list[i], int32(n))
		}
		for _, a := range g.acts {
			list[i] = append(list[i], int32(p.controls[p.acts[a].Control]))
		}
		for k, n := range p.begins {
			if n == circuit.Node(i) && k > 0 {
				list[i] = append(list[i], int32(p.phases[k]), int32(p.phases[k-1]))
			}
		}
	}
	for b, x := range p.bundles {
		for _, i := range x.nodes {
			n := p.watched[i]
			list[n] = append(list[n], int32(len(p.gates)+b))
		}
	}
	return list
}

// newReach has room for the gates and items of the flight, and behind them for the
// gates and items of the told run.
func (p *program) newReach() reach {
	n := len(p.gates) + len(p.bundles)
	if p.told != nil {
		n += len(p.told.gates) + len(p.told.items)
	}
	return make(reach, (n+63)/64)
}

// reachOf gives the reach of the failures of a lane of the block that was flown.
func (e *engine) reachOf(into []reach) {
	for _, n := range e.changed {
		e.ever[n].each(func(lane int) {
			if lane >= len(into) || into[lane] == nil {
				return
			}
			for _, r := range e.p.readers[n] {
				into[lane].add(r)
			}
		})
	}
}
