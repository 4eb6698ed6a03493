package drill_test

import (
	"fmt"
	"testing"

	"knockon/drill"
)

// TestLines_ThatBelong: a line is there while it belongs, and stays when it is done;
// one that sends to another list takes that in hand when it is finished.
func TestLines_ThatBelong(t *testing.T) {
	p := smallWith(t, `
procedure "first_list" {
  note {
    says = "while it is on"
    if   = left == "on"
  }
  note {
    says = "while it is off"
    if   = left == "off"
  }
  note {
    says  = "go there"
    go_to = second_list
  }
  tell {
    whom = "cabin"
    says = "all is well"
  }
}
procedure "second_list" {
  note { says = "there" }
}
`, drill.Script{})
	rows := func() (s string) {
		for _, l := range p.s.Screen(drill.PilotFlying).Lists {
			s += l.ID
			for _, r := range l.Lines {
				s += fmt.Sprintf(" %s%s%s", r.Number, r.Whom, map[bool]string{true: "*"}[r.Done])
			}
			s += "; "
		}
		return s
	}
	p.as(drill.PilotMonitoring, 5, drill.Input{Do: drill.Call, ID: "first_list"})
	for i, c := range []struct {
		in   drill.Input
		want string
	}{
		{drill.Input{Do: drill.Tick, ID: "first_list", Step: "1"}, "first_list 1* 3 4cabin; "},
		{drill.Input{Do: drill.Move, ID: "left", To: "off"}, "first_list 1* 2 3 4cabin; "},
		{drill.Input{Do: drill.Tick, ID: "first_list", Step: "3"}, "first_list 1* 2 3* 4cabin; second_list 1; "},
		{drill.Input{Do: drill.Tick, ID: "first_list", Step: "3"}, "first_list 1* 2 3* 4cabin; second_list 1; "},
	} {
		p.as(drill.PilotMonitoring, 10+10*float64(i), c.in)
		p.to(16 + 10*float64(i))
		if got := rows(); got != c.want {
			t.Errorf("after %+v: %s, want %s", c.in, got, c.want)
		}
	}
}
