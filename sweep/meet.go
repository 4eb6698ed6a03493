package sweep

import (
	"context"
	"fmt"

	"knockon/circuit"
)

// Reach is what reads something that some change touches: see reach. It is kept for
// those who hold failures against something other than failures.
type Reach struct{ r reach }

// Meets says that two have a reader in common. Where they do not, each value is with
// both what it is with one of them alone.
func (r Reach) Meets(o Reach) bool { return r.r.meets(o.r) }

// Add adds a node that is looked at by somebody.
func (r Reach) Add(n circuit.Node) { r.r.add(int32(n)) }

// ReadersOf is the reach of a change of these nodes of the sweep's circuit.
func (s *Sweep) ReadersOf(changed []circuit.Node) Reach {
	r := s.p.newReach()
	for _, n := range changed {
		for _, i := range s.p.readers[n] {
			r.add(i)
		}
	}
	return Reach{r}
}

// Follows says that a sweep works a node out, since something in a ledger hangs on it.
// A reach says nothing of the others.
func (s *Sweep) Follows(n circuit.Node) bool { return s.p.gates[n].needed }

// Ways are the nodes of the ways of failing that a failure of the sweep brings.
func (s *Sweep) Ways(failure int) (list []circuit.Node) {
	for _, w := range s.ways[failure] {
		list = append(list, s.p.ways[w])
	}
	return list
}

// Reaches is the reach of every failure that strikes alone in a phase, nobody acting.
func (s *Sweep) Reaches(ctx context.Context, phase int) ([]Reach, error) {
	if phase < 0 || phase >= len(s.phases) {
		return nil, fmt.Errorf("the flight has phases 0 to %d, not %d", len(s.phases)-1, phase)
	}
	w, err := s.newWork(ctx, s.phases[phase].At, nil)
	if err != nil {
		return nil, err
	}
	defer w.end()
	if err := w.employ(s.workers); err != nil {
		return nil, err
	}
	list := make([]reach, len(s.failures))
	w.all.Store(int64(len(list)))
	if err := w.do(job{n: len(list), set: func(i int) Set { return Set{i} }, of: make([]uint32, len(list)), reaches: list, untold: true}); err != nil {
		return nil, err
	}
	out := make([]Reach, len(list))
	for i, r := range list {
		out[i] = Reach{r}
	}
	return out, nil
}
