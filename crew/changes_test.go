package crew_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
)

// TestFindings: what goes round and round, what is tried too often, and what is
// not as a list expects are said.
func TestFindings(t *testing.T) {
	tm := small(t, alert("x", "caution", "!a && left == \"on\"", "x_list")+`
		unit "d" {
			reset_by    = left == "off"
			reset_tries = 1
		}
		signal "uses_d" { value = d }
		procedure "x_list" {
			do {
				set = left
				to  = "off"
			}
			check { that = left == "on" }
			do {
				set = left
				to  = "on"
			}
		}`)
	_, p := lines(t, tm, "air + 60 s", "a", "d")
	count := map[crew.FindingKind]int{}
	for _, f := range p.Findings {
		count[f.Kind]++
	}
	if count[crew.AgainAndAgain] != 1 || count[crew.TooManyTries] != 1 || count[crew.NotAsItShould] != 2 {
		t.Errorf("found %v", count)
	}
}

// TestChanges: a step that is left out, late, wrong or swapped, and a decision
// taken the other way, leave all other lines at their times.
func TestChanges(t *testing.T) {
	tm := small(t, alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		do {
			says = "off"
			set  = left
			to   = "off"
		}
		decide {
			that = reads_lamp
			then {
				note {
					says = "yes"
				}
			}
			else {
				note {
					says = "no"
				}
			}
		}
		note { says = "one two three" }
	}`)
	steps := tm.Build().Procedures[0].Steps
	for _, c := range []struct {
		change crew.Change
		want   string
	}{
		{crew.Change{Kind: crew.Omit, Step: steps[0]}, "14-17 PM x_list 1\n17-19 PM x_list 2 yes\n19-20 PM x_list 2.then.1\n20-23 PM x_list 3\n"},
		{crew.Change{Kind: crew.Omit, Step: steps[1]}, "14-17 PM x_list 1 left=off\n17-19 PM x_list 2\n19-22 PM x_list 3\n"},
		{crew.Change{Kind: crew.Otherwise, Step: steps[1]}, "14-17 PM x_list 1 left=off\n17-19 PM x_list 2 no\n19-20 PM x_list 2.then.1\n20-23 PM x_list 3\n"},
		{crew.Change{Kind: crew.Late, By: 30 * book.Second, Step: steps[0]}, "14-17 PM x_list 1\n17-19 PM x_list 2 yes\n19-20 PM x_list 2.then.1\n20-23 PM x_list 3\n44-47 PM x_list 1 left=off\n"},
		{crew.Change{Kind: crew.Wrong, Control: "right", Position: "off", Step: steps[0]}, "14-17 PM x_list 1 right=off\n17-19 PM x_list 2 no\n19-20 PM x_list 2.else.1\n20-23 PM x_list 3\n"},
		{crew.Change{Kind: crew.Swap, Step: steps[0]}, "14-16 PM x_list 2 yes\n16-17 PM x_list 2.then.1\n17-20 PM x_list 1 left=off\n20-23 PM x_list 3\n"},
	} {
		ctx, s := context.Background(), failing(t, tm.Build(), "air + 60 s", "a")
		p, err := tm.Fly(ctx, s, c.change)
		if err != nil {
			t.Fatal(err)
		}
		slow, err := tm.FlySlowly(ctx, s, c.change)
		if err != nil {
			t.Fatal(err)
		}
		same(t, string(c.change.Kind), p, slow)
		if got := rest(p); got != c.want {
			t.Errorf("%s of %s: got\n%swant\n%s", c.change.Kind, c.change.Step.Kind, got, c.want)
		}
	}
	for _, c := range []crew.Change{
		{Kind: crew.Omit, Step: &book.Step{}}, {Kind: crew.Late, Step: steps[0]}, {Kind: crew.Wrong, Step: steps[0], Control: "middle", Position: "off"},
		{Kind: crew.Wrong, Step: steps[0], Control: "left", Position: "half"}, {Kind: crew.Wrong, Step: steps[2], Control: "left", Position: "off"},
	} {
		if _, err := tm.Fly(context.Background(), failing(t, tm.Build(), "air + 60 s", "a"), c); err == nil {
			t.Errorf("%v: no error", c)
		}
	}
}

// rest is the lines behind the first, which finds the list.
func rest(p *crew.Plan) string {
	from, _ := p.Record.FirstStrike()
	var s strings.Builder
	for _, l := range p.Lines[1:] {
		moved := ""
		if l.Control != "" {
			moved = " " + l.Control + "=" + l.Position
		}
		if l.Answer != crew.None {
			moved += " " + string(l.Answer)
		}
		fmt.Fprintf(&s, "%g-%g %s %s %s%s\n", (l.From - from).Seconds(), (l.To - from).Seconds(), l.By, l.Procedure.ID, l.Number, moved)
	}
	return s.String()
}
