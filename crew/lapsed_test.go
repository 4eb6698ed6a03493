package crew_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/circuit"
	"knockon/crew"
)

// TestLapsed: what was left for later is asked again when its first line would be
// begun, before its briefing: where it is no longer so it is dropped, and the plan
// says so; what goes dark remains; a part that has begun is not asked again.
func TestLapsed(t *testing.T) {
	left := func(condition, steps string) string {
		return alert("x", "caution", "!a", "x_list") + `
		indication "hand" {
			shows  = left
			means  = left
			lit_by = b
		}
		procedure "x_list" {
			later {
				in = down
				if = ` + condition + `
				` + steps + `
			}
			do {
				set = left
				to  = "off"
			}
		}
		`
	}
	const one = `note { says = "one" }`
	head := "4-14 PM x_list list\n14-15 PM x_list 1\n15-19 PM x_list 2 left=off\n"
	for _, c := range []struct {
		name, book, want string
		fail             []string
		lapsed           bool
	}{
		{"no longer so", left(`hand == "on"`, one), head, []string{"a"}, true},
		{"still so", left(`right == "on"`, one), head + "60-90 both x_list brief\n90-91 PM x_list 1.later.1\n", []string{"a"}, false},
		{"begun, and then no longer so", left(`right == "on"`, `do {
			set = right
			to  = "off"
		}
		`+one), head + "60-90 both x_list brief\n90-94 PM x_list 1.later.1 right=off\n94-95 PM x_list 1.later.2\n", []string{"a"}, false},
	} {
		got, p := lines(t, small(t, c.book), "down - 60 s", c.fail...)
		if got != c.want || c.lapsed != (len(p.Findings) == 1 && p.Findings[0].Kind == crew.NoLonger) {
			t.Errorf("%s: %v, got\n%s", c.name, p.Findings, got)
		}
	}
	dark := strings.Replace(left(`hand == "on"`, one), "lit_by = b", `lit_by = left == "on"`, 1)
	if got, p := lines(t, small(t, dark), "down - 60 s", "a"); !strings.Contains(got, "1.later.1") || len(p.Findings) > 0 {
		t.Errorf("dark: %v, got\n%s", p.Findings, got)
	}
	tm := small(t, left(`hand == "on"`, one))
	_, p := lines(t, tm, "down - 60 s", "a")
	v, err := tm.View(t.Context(), p)
	if want := `x list: "down" was left for later, and is no longer so: it is not done`; err != nil || len(v.Findings) != 1 || v.Findings[0].Text != want || v.Findings[0].Number != "1" {
		t.Errorf("%v: %+v", err, v.Findings)
	}
}

// lapses holds what a plan says to be no longer so against the record: the condition
// is not yes then, and nothing of that part is begun at that moment.
func lapses(t *testing.T, tm *crew.Team, p *crew.Plan) {
	t.Helper()
	for _, f := range p.Findings {
		if f.Kind != crew.NoLonger {
			continue
		}
		if sided := strings.Contains(f.Step.If.String(), "called_by"); !sided && tm.Belongs(f.Step, func(n circuit.Node) float64 { return p.Record.At(n, f.At) }) {
			t.Errorf("%s at %d is called no longer so, and is", f.Step.If, f.At)
		}
		if slices.ContainsFunc(p.Lines, func(l crew.Line) bool {
			return l.From == f.At && slices.Contains(f.Step.Then, l.Step) && l.Kind == crew.StepLine && !l.Omitted
		}) {
			t.Errorf("%s at %d is called no longer so, and is begun", f.Step.Range, f.At)
		}
	}
}
