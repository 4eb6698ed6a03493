package book

import "testing"

const mirrored = `
aircraft "two_sided" { title = "Two sided" }
unit "engine_left" { mirror = true }
unit "pump_left" {
  mirror        = true
  title         = "Left pump, on the left engine"
  needs         = engine_left && left_switch == "left"
  fault "leaks" { title = "leaks to the LEFT, upright" }
}
control "left_switch" {
  mirror    = true
  positions = ["left", "right"]
  initial   = "left"
}
signal "leftover_min" { value = pump_left.leaks || pump_right.leaks }
`

const byHand = `
aircraft "two_sided" { title = "Two sided" }
unit "engine_left" {}
unit "engine_right" {}
unit "pump_left" {
  title         = "Left pump, on the left engine"
  needs         = engine_left && left_switch == "left"
  fault "leaks" { title = "leaks to the LEFT, upright" }
}
unit "pump_right" {
  title         = "Right pump, on the right engine"
  needs         = engine_right && right_switch == "right"
  fault "leaks" { title = "leaks to the RIGHT, upright" }
}
control "left_switch" {
  positions = ["left", "right"]
  initial   = "left"
}
control "right_switch" {
  positions = ["right", "left"]
  initial   = "right"
}
signal "leftover_min" { value = pump_left.leaks || pump_right.leaks }
`

// TestMirror: a mirrored block is the same as one written by hand for each side, and
// the other side has the line of its block.
func TestMirror(t *testing.T) {
	a, b := bookOf(t, mirrored), bookOf(t, byHand)
	if d := difference(a, b); d != "" {
		t.Errorf("mirrored and written by hand differ: %s", d)
	}
	build, _ := a.Build("")
	left, _ := build.Item("pump_left")
	right, _ := build.Item("pump_right")
	if l, r := left.Named().Range.Line, right.Named().Range.Line; l != 4 || r != 4 {
		t.Errorf("the pumps stand in lines %d and %d, want 4 for both", l, r)
	}
}
