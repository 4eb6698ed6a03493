package circuit_test

import (
	"reflect"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
)

// TestFork_SharesNothingThatIsWritten: two runs from one moment go on at once, so
// whatever one of them writes must be its own.
func TestFork_SharesNothingThatIsWritten(t *testing.T) {
	c := compile(t, `
unit "u" {}
signal "stood" { value = held(u, 5) }
signal "kept"  { value = frozen(real.height_ft, u) }
signal "drawn" { value = total(u ? 1 : -1, 0, 0, 100) }
signal "low"   { value = real.height_ft + drawn < 60 }
signal "often" { value = count(u) >= 3 }
signal "was"   { value = before(stood) || u }
signal "grows" { value = total(100 - grows) }
`)
	fall := air{"height_ft": func(s float64) float64 { return 1000 - s }}
	m := circuit.NewMachine(circuit.NewCourse(c, fall, []book.Time{0, 2000 * book.Second}, 0), []circuit.Failure{{Ways: []int{0}, When: circuit.None}}, nil)
	for _, at := range []float64{0, 20, 26} {
		if _, _, err := m.Instant(book.AtSeconds(at), strikeAt(at, 20)); err != nil {
			t.Fatal(err)
		}
		m.NextCrossing(2000 * book.Second)
	}
	before, after := reflect.ValueOf(*m), reflect.ValueOf(*m.Fork())
	fixed, lists := []string{"failures", "acts", "slot"}, 0
	for i := range before.NumField() {
		name := before.Type().Field(i).Name
		if f := before.Field(i); f.Kind() == reflect.Slice && f.Cap() > 0 && !slices.Contains(fixed, name) {
			if lists++; f.Pointer() == after.Field(i).Pointer() {
				t.Errorf("%s is one list in both", name)
			}
		}
	}
	if lists < 20 {
		t.Errorf("%d lists: the machine has hardly been used", lists)
	}
}

func strikeAt(at, when float64) (list []circuit.Input) {
	if at == when {
		list = append(list, circuit.Input{Strike: 0, End: -1, Control: -1})
	}
	return list
}
