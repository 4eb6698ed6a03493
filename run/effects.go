package run

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
)

// Effects is what the systems do to the flight of an aircraft at a moment of
// the run (docs/meaning.md 8).
func (r *Record) Effects(a *energy.Aircraft, at book.Time) energy.Config {
	c := r.Circuit()
	return a.Configure(func(name string) (number float64, word string, ok bool) {
		n, ok := c.Node(circuit.Value{Item: book.EffectID(name)})
		if !ok {
			return 0, "", false
		}
		v := r.At(n, at)
		return v, c.WordText(v), true
	})
}
