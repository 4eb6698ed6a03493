package crew_test

import (
	"strings"
	"testing"

	"knockon/crew"
)

// After a last list is begun nothing else is, and nothing of what was left is done.
func TestLast_NothingAfterIt(t *testing.T) {
	text := alert("x", "caution", "!a", "x_list") + alert("y", "warning", "held(!a, 20)", "y_list") + alert("z", "caution", "held(!a, 40)", "z_list") + note("z_list") + `
	procedure "x_list" {
		later {
			in = down
			note { says = "land" }
		}
		note { says = "one two three four five six seven eight nine ten" }
		note { says = "two" }
	}
	procedure "y_list" {
		last = true
		note { says = "out" }
		note { says = "and away" }
		later {
			in = down
			note { says = "its own" }
		}
	}
	`
	got, p := lines(t, small(t, text), "air + 20 s", "a")
	if strings.Contains(got, "z_list") || strings.Contains(got, "x_list 1.later") || strings.Contains(got, "x_list 3") || !strings.Contains(got, "y_list 3") {
		t.Errorf("got\n%s", got)
	}
	if closes(t, p) == 0 || p.Calls[0].Past == nil || p.Calls[2].Past == nil || p.Calls[1].Past != nil {
		t.Errorf("the calls do not say so: %+v", p.Calls)
	}
	got, p = lines(t, small(t, strings.Replace(text, "last = true", "", 1)), "air + 20 s", "a")
	if closes(t, p) != 0 || !strings.Contains(got, "z_list") || !strings.Contains(got, "x_list 3") {
		t.Errorf("without last: got\n%s", got)
	}
}

// closes holds every line of a plan against the rule, and says for how many calls it
// made a difference.
func closes(t *testing.T, p *crew.Plan) (n int) {
	t.Helper()
	for i, l := range p.Lines {
		if l.Procedure.Last && l.Kind != crew.BriefLine {
			for _, after := range p.Lines[i+1:] {
				if after.Procedure != l.Procedure && p.Calls[after.Call].From != l.Procedure {
					t.Errorf("%s is read after the last list", after.Procedure.ID)
				}
			}
			break
		}
	}
	for _, c := range p.Calls {
		if c.Past != nil {
			n++
		}
	}
	return n
}
