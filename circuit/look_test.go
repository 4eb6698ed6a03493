package circuit_test

import (
	"testing"

	"knockon/circuit"
)

// TestLasting_TotalsThatOnlyGrow: what is more than a number for good.
func TestLasting_TotalsThatOnlyGrow(t *testing.T) {
	c := compile(t, `
unit "u" {}
signal "long"    { value = total(u) > 60 }
signal "turned"  { value = 60 <= total(u) }
signal "often"   { value = count(u) >= 3 }
signal "short"   { value = total(u) < 60 }
signal "filled"  { value = total(u ? 1 : -1, 0, 0, 100) > 60 }
signal "drained" { value = total(u ? 1 : -1) > 60 }
signal "high"    { value = real.height_ft > 60 }
`)
	for id, want := range map[string]bool{"long": true, "turned": true, "often": true, "short": false, "filled": false, "drained": false, "high": false} {
		n, ok := c.Node(circuit.Value{Item: id})
		if !ok || c.Lasting(n) != want {
			t.Errorf("%s: %v, want %v", id, c.Lasting(n), want)
		}
	}
}
