package drill_test

import (
	"context"
	"fmt"
	"testing"

	"knockon/drill"
)

const tankList = `
unit "sender" {
  title = "Sender"
  fault "sticks" { title = "Sender sticks" }
}
indication "tank" {
  title  = "Tank"
  shows  = sender.sticks ? 9 : (a ? 9 : 2)
  means  = a ? 9 : 2
  within = 1
  lit_by = c
}
procedure "tank_list" {
  title = "Tank"
  check {
    that   = tank > 5
    sensed = true
  }
  decide {
    says = "Full"
    that = tank > 5
    then {
      note { says = "keep" }
    }
    else {
      note { says = "leave" }
    }
    unknown {
      note { says = "ask" }
    }
  }
  decide {
    says = "By hand"
    that = left == "on"
    then {
      note { says = "on" }
    }
    else {
      note { says = "off" }
    }
  }
  later {
    when = tank < 5
    note { says = "low" }
  }
}
`

// TestAnswers_ByWhatIsShown: a line that is sensed, the lines of an answer, and what
// a debrief says of it, go by what the gauge shows.
func TestAnswers_ByWhatIsShown(t *testing.T) {
	for _, c := range []struct {
		fail       []string
		answer     string
		rows, want string
	}{
		{[]string{"a"}, "no", "1 \"tank > 5\" false; 2 \"Full\" true; 2.else.1 \"leave\" false; 3 \"By hand\" false; 4 \"tank < 5\" false; 4.later.1 \"low\" false; ", "no no false answered no, as it was shown"},
		{[]string{"a", "sender.sticks"}, "yes", "1 \"tank > 5\" true; 2 \"Full\" true; 2.then.1 \"keep\" false; 3 \"By hand\" false; 4 \"tank < 5\" false; 4.later.1 \"low\" false; ",
			"yes yes true answered yes, as it was shown; what was shown was wrong: Tank at 9, while 2 was true"},
		{[]string{"a", "c"}, "unseen", "1 \"tank > 5\" false; 2 \"Full\" true; 2.unknown.1 \"ask\" false; 3 \"By hand\" false; 4 \"tank < 5\" false; 4.later.1 \"low\" false; ",
			"unseen unseen false answered that it cannot be seen, as it was shown"},
		{[]string{"c"}, "yes", "1 \"tank > 5\" false; 2 \"Full\" true; 2.then.1 \"keep\" false; 3 \"By hand\" false; 4 \"tank < 5\" false; 4.later.1 \"low\" false; ",
			"yes unseen false answered yes; it could not be seen, since Tank is dark"},
		{[]string{"b"}, "no", "1 \"tank > 5\" true; 2 \"Full\" true; 2.else.1 \"leave\" false; 3 \"By hand\" false; 4 \"tank < 5\" false; 4.later.1 \"low\" false; ",
			"no yes false answered no; it is yes by what was shown"},
	} {
		p := smallWith(t, tankList, drill.Script{Fail: []drill.Strike{{What: c.fail, At: "air + 60 s"}}})
		p.as(drill.PilotMonitoring, 5, drill.Input{Do: drill.Call, ID: "tank_list"})
		p.as(drill.PilotMonitoring, 6, drill.Input{Do: drill.Tick, ID: "tank_list", Step: "2", To: c.answer})
		p.to(8)
		rows := ""
		for _, r := range p.s.Screen(drill.PilotFlying).Lists[0].Lines {
			rows += fmt.Sprintf("%s %q %v; ", r.Number, r.Says, r.Done)
		}
		if rows != c.rows {
			t.Errorf("%v: rows\n%s\nwant\n%s", c.fail, rows, c.rows)
		}
		d, err := p.s.Debrief(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Answers) != 1 {
			t.Fatalf("%v: %d answers", c.fail, len(d.Answers))
		}
		a := d.Answers[0]
		if got := fmt.Sprintf("%s %s %v %s", a.Given, a.Shown, a.Misled, a.Text); got != c.want || a.Procedure != "Tank" || a.Number != "2" {
			t.Errorf("%v: %s\nwant %s", c.fail, got, c.want)
		}
	}
}

// TestAnswers_CannotBeSeen: where nothing is said for that, the lines of no come.
func TestAnswers_CannotBeSeen(t *testing.T) {
	p := smallWith(t, tankList, drill.Script{})
	p.as(drill.PilotMonitoring, 5, drill.Input{Do: drill.Call, ID: "tank_list"})
	p.as(drill.PilotMonitoring, 6, drill.Input{Do: drill.Tick, ID: "tank_list", Step: "3", To: "unseen"})
	p.to(8)
	found := false
	for _, r := range p.s.Screen(drill.PilotFlying).Lists[0].Lines {
		found = found || r.Number == "3.else.1"
	}
	if !found {
		t.Errorf("%+v", p.s.Screen(drill.PilotFlying).Lists[0].Lines)
	}
}
