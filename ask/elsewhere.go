package ask

import (
	"math"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// placeApart is by how much two flights differ in a quantity that are not in the same
// place: less is nothing that anybody would call another flight.
var placeApart = map[string]float64{"altitude_ft": 100, "airspeed_kt": 5, "distance_nm": 1, "on_ground": 0.5}

// elsewhere says that two runs are not in the same place, or not as fast, at a moment.
func elsewhere(a, b *run.Record, at book.Time) bool {
	if at > b.End {
		return true
	}
	for i, q := range book.Quantities {
		if most, ok := placeApart[q.Name]; ok && math.Abs(a.Path().Value(i, at)-b.Path().Value(i, at)) > most {
			return true
		}
	}
	return false
}

// Turned is the first effect on the flight that is not what it is without the
// failures, by a moment; ok is false where the failures turn no flight.
func (a *Answer) Turned(by book.Time) (effect circuit.Value, at book.Time, ok bool) {
	for _, e := range book.Effects {
		v := circuit.Value{Item: book.EffectID(e.Name)}
		n, found := a.Here.Circuit().Node(v)
		if !found {
			continue
		}
		if t, differs := a.FirstDifference(n); differs && t <= by && (!ok || t < at) {
			effect, at, ok = v, t, true
		}
	}
	return effect, at, ok
}
