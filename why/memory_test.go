package why_test

import (
	"strings"
	"testing"
)

// TestExplain_Memories has what was said wrongly before explanations held the
// two runs against each other.
func TestExplain_Memories(t *testing.T) {
	for _, c := range []struct {
		name, book, value string
		at                float64
		happens           []string
		want              string
	}{
		{"a latch that a failure kept from being set", `
unit "u1" {}
unit "p0" { needs = real.time_s < 40 }
signal "p1" { value = real.icing }
signal "extended" {
  set   = p1 && u1
  reset = false
}
function "works" { works = p0 || extended }
`, "works", 80, []string{"u1@10"}, `
works is lost [derived] 80 since 40
  extended no [derived] 80 stayed at 30
    u1 does not work [derived] 30 since 10
      u1 failed has failed [failure] 30 since 10
  while p0 does not work
`},
		{"a total that follows itself", `
unit "wall" {}
unit "u1" {}
signal "air" { value = 100 - total((wall ? 0 : 0.01) * air) }
signal "nudge" { value = pulse(real.time_s > 42, 1) || u1 }
function "works" { works = air > 80 }
`, "works", 80, []string{"wall@10"}, `
works is lost [derived] 80 since 32.314356
  air 49.6585 [derived] 80
    wall does not work [derived] 80 since 10
      wall failed has failed [failure] 80 since 10
`},
		{"a total that follows itself and another that does", `
unit "wall" {}
unit "u1" {}
signal "nudge" { value = pulse(real.time_s > 42, 1) || u1 }
signal "warm" { value = 30 - total(0.01 * (warm - 30)) }
signal "air" { value = 100 - total((wall ? 0 : 0.01) * air * warm / 30) }
function "works" { works = air > 80 }
`, "works", 80, []string{"wall@10"}, `
works is lost [derived] 80 since 32.314356
  air 49.6585 [derived] 80
    wall does not work [derived] 80 since 10
      wall failed has failed [failure] 80 since 10
`},
		{"a latch that takes away what set it", `
unit "u1" {}
signal "over" { value = !u1 && bus }
signal "bus" { value = !trip }
signal "trip" {
  set   = over
  reset = false
}
function "power" { works = bus }
`, "power", 80, []string{"u1@10"}, `
power is lost [derived] 80 since 10
  bus no [derived] 80 since 10
    trip yes [derived] 80 since 10
      over yes [derived] 10 fleeting
        u1 does not work [derived] 10
          u1 failed has failed [failure] 10
`},
		{"the same through a timer", `
unit "u1" {}
signal "over" { value = !u1 && bus }
signal "bus" { value = !trip }
signal "trip" {
  set   = held(over, 1)
  reset = false
}
function "power" { works = bus }
`, "power", 80, []string{"u1@10"}, `
power is lost [derived] 80 since 11
  bus no [derived] 80 since 11
    trip yes [derived] 80 since 11
      over yes [derived] 10
        u1 does not work [derived] 10
          u1 failed has failed [failure] 10
        while trip no
`},
		{"a failure behind a frozen", `
unit "u0" {}
unit "u3" {}
unit "u4" {}
signal "s2" { value = real.icing }
signal "two" { value = at_least(2, frozen(failed(u3), s2), u4, failed(u0)) }
`, "two", 80, []string{"u0@10"}, `
two yes [derived] 80 since 10
  u0 failed has failed [failure] 80 since 10
  while u4 works
`},
		{"what is the same in both runs", `
unit "u0" {}
unit "u3" {}
unit "u4" {}
signal "s2" { value = real.icing }
signal "two" { value = at_least(2, frozen(failed(u3), s2), u4, failed(u0)) }
`, "two", 80, []string{"u3@40-50"}, `
two no [derived] 80
  u0 failed has not failed [intact] 80
  u3 failed has not failed [intact] 80 since 50
  s2 no [flight] 80 since 60
`},
		{"a latch that is reset in one run only", `
unit "u1" {}
signal "armed" {
  initial = true
  set   = false
  reset = real.icing && u1
}
function "free" { works = !armed }
`, "free", 80, []string{"u1@10"}, `
free is lost [derived] 80
  armed yes [derived] 80 stayed at 30
    u1 does not work [derived] 30 since 10
      u1 failed has failed [failure] 30 since 10
`},
		{"a failure that has passed", `
unit "u1" {}
signal "hot" {
  set   = !u1
  reset = false
}
`, "hot", 80, []string{"u1@10-20"}, `
hot yes [derived] 80 since 10
  u1 does not work [derived] 10
    u1 failed has failed [failure] 10
`},
		{"a count", `
unit "u1" {}
signal "often" { value = count(!u1) >= 2 }
`, "often", 80, []string{"u1@10-20", "u1@30-40", "u1@50-60"}, `
often yes [derived] 80 since 30
  u1 does not work [derived] 50
    u1 failed has failed [failure] 50
  u1 does not work [derived] 30
    u1 failed has failed [failure] 30
`},
		{"a total", `
unit "u1" {}
signal "left_ft" { value = total(u1 ? 0 : -1, 30, 0, 30) }
function "store" { works = left_ft > 5 }
`, "store", 80, []string{"u1@10"}, `
store is lost [derived] 80 since 35
  left_ft 0 [derived] 80
    u1 does not work [derived] 10
      u1 failed has failed [failure] 10
`},
		{"a control moved by hand", `
unit "u1" {}
control "knob" {
  positions = ["off", "on"]
  initial   = "off"
}
function "quiet" { works = knob == "off" || u1 }
`, "quiet", 80, []string{"u1@10", "knob=on@20"}, `
quiet is lost [derived] 80 since 20
  knob on [action] 80 since 20
  u1 does not work [derived] 80 since 10
    u1 failed has failed [failure] 80 since 10
`},
		{"of two failures the one that is enough", `
unit "u1" {}
unit "u2" {}
signal "a" { value = u1 && u2 }
signal "b" { value = u2 }
function "both" { works = a || b }
`, "both", 80, []string{"u1@10", "u2@20"}, `
both is lost [derived] 80 since 20
  a no [derived] 80 since 10
    u2 does not work [derived] 80 since 20
      u2 failed has failed [failure] 80 since 20
  u2 does not work [derived] 80 since 20
    u2 failed has failed [failure] 80 since 20
`},
		{"what another failure makes up for", `
unit "x" {}
unit "y" {}
signal "b" { value = x || !y }
function "gone" { works = x || !b }
`, "gone", 80, []string{"x@10", "y@20"}, `
gone is lost [derived] 80 since 20
  x does not work [derived] 80 since 10
    x failed has failed [failure] 80 since 10
  b yes [derived] 80 since 20
    y does not work [derived] 80 since 20
      y failed has failed [failure] 80 since 20
`},
		{"an alert of no duration", `
unit "u1" {}
alert "blip" {
  level   = "caution"
  message = "Blip"
  when    = !u1 && !before(!u1)
}
`, "blip", 10, []string{"u1@10"}, `
blip is given [derived] 10 fleeting
  blip believed is due [derived] 10 fleeting
    u1 does not work [derived] 10
      u1 failed has failed [failure] 10
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := explained(t, c.book, c.value, c.at, c.happens...)
			if strings.TrimSpace(got) != strings.TrimSpace(c.want) {
				t.Errorf("got\n%swant%s", got, c.want)
			}
		})
	}
}
