package still

import (
	"knockon/book"
	"knockon/circuit"
)

// Of is At with everything worked out at once, the slow and obvious way.
func Of(t *circuit.Trace, at book.Time) (*Still, error) {
	s, err := At(t, at)
	if err != nil {
		return nil, err
	}
	all := make([]circuit.Node, s.c.Size())
	for i := range all {
		all[i] = circuit.Node(i)
	}
	return s, s.look(all...)
}
