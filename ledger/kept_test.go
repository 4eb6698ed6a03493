package ledger_test

import "testing"

func TestOf_Kept(t *testing.T) {
	two := `
unit "left" {}
unit "right" {}
function "pressure" { works = left || right }
`
	check(t, []rule{
		{"one of two", two, "left@120", `
			kept pressure: without left by right at 120`},
		{"one of three is less than half", `
			unit "left" {}
			unit "right" {}
			unit "hand" {}
			function "pressure" { works = left || right || hand }`, "left@120", ``},
		{"two of three, when the second goes", `
			unit "left" {}
			unit "right" {}
			unit "hand" {}
			function "pressure" { works = left || right || hand }`, "left@120 right@150", `
			kept pressure: without left right by hand at 150`},
		{"not at one time", `
			unit "left" {}
			unit "right" {}
			unit "hand" {}
			function "pressure" { works = left || right || hand }`, "left@120+10 right@150", ``},
		{"inoperative counts, if something fails beside", `
			unit "left" {}
			unit "right" {}
			unit "hand" {}
			function "pressure" { works = left || right || hand }`, "left@120 /right", `
			kept pressure: without left right by hand at 120`},
		{"inoperative alone does not", `
			unit "left" {}
			unit "right" {}
			unit "other" {}
			function "pressure" { works = left || right }`, "other@120 /right", ``},
		{"through signals and functions, the reason down to what units need", `
			unit "source" {}
			unit "reserve" {}
			unit "left" { needs = source }
			unit "right" { needs = source || reserve }
			signal "any_pump" { value = left || right }
			function "pressure" { works = any_pump }
			function "flow" { works = pressure }`, "source@120", `
			kept pressure: without left by reserve at 120
			kept flow: without left by reserve at 120`},
		{"not through what units need", `
			unit "left" {}
			unit "right" {}
			unit "valve" { needs = left || right }
			function "pressure" { works = valve }`, "left@120", ``},
		{"while it works", `
			unit "left" {}
			unit "right" {}
			function "pressure" { works = (left || right) && cruise }`, "left@120", `
			kept pressure: without left by right cruise at 200`},
		{"a memory keeps it", `
			unit "left" {}
			unit "right" {}
			signal "armed" {
			  set   = left
			  reset = false
			}
			function "pressure" { works = armed || right }`, "left@120 right@120", `
			kept pressure: without left right by armed at 120`},
		{"a control keeps it", `
			unit "left" {}
			control "valve" {
			  positions = ["open", "shut"]
			  initial   = "open"
			}
			function "pressure" { works = left || valve == "open" }`, "left@120", `
			kept pressure: without left by valve at 120`},
		{"the shortest reason", `
			unit "left" {}
			unit "right" {}
			unit "hand" {}
			unit "foot" {}
			function "pressure" { works = left || hand && foot || right }`, "left@120 hand@130", `
			kept pressure: without left hand by right at 130`},
	})
}
