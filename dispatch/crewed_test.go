package dispatch_test

import (
	"strings"
	"testing"

	"knockon/ask"
	"knockon/dispatch"
)

// spare is a pump that goes out of order and another whose loss is then catastrophic; a
// third is started by hand, which a list asks for.
const spare = `
unit "a" { title = "Pump A" }
unit "b" { title = "Pump B" }
unit "c" { title = "Pump C" }
control "start" {
  title     = "Start"
  positions = ["off", "on"]
  initial   = "off"
}
function "flow" {
  title            = "Flow"
  works            = a || b || (c && start == "on")
  severity         = "catastrophic"
  over_on_purpose  = "it is a toy."
}
alert "dry" {
  message   = "Dry"
  level     = "warning"
  when      = !a && !b
  tells     = [flow]
  procedure = list
}
procedure "list" {
  title = "No flow"
  do {
    set = start
    to  = "on"
  }
}
deferral "one" {
  title    = "A pump"
  items    = [a]
  category = "B"
}
`

// TestOf_WithACrew: what one failure takes away hands off, the crew give back by their
// list, and that is said; where the list is empty-handed, or nobody is flown, it is not.
func TestOf_WithACrew(t *testing.T) {
	dead := strings.Replace(spare, `to  = "on"`, `to  = "off"`, 1)
	over := strings.Replace(dead, "severity         =", "wanted           = cruise\n  severity         =", 1) // and is not called for any more
	for _, x := range []struct {
		text, crew string
		nobody     bool
	}{
		{spare, "With a crew by the book: lost for a while with Pump B.", false},
		{dead, "With a crew by the book: lost all the same with Pump B.", false},
		{over, "With a crew by the book: lost all the same with Pump B.", false},
		{spare, "", true},
	} {
		desk := ask.NewDesk(bookOf(t, x.text))
		q := dispatch.Question{Items: []string{"a"}, In: "cruise + 60 s", Acts: desk.Acting}
		if x.nobody {
			q.Acts = nil
		}
		a, err := dispatch.Of(t.Context(), desk.Courses, q)
		if err != nil {
			t.Fatal(err)
		}
		v := a.View()
		if len(v.Breaks) == 0 || len(v.Away) == 0 {
			t.Fatalf("%+v", v)
		}
		if v.Breaks[0].Crew != x.crew || v.Away[0].Crew != x.crew {
			t.Errorf("breaks: %q, away: %q; want %q", v.Breaks[0].Crew, v.Away[0].Crew, x.crew)
		}
		if !strings.Contains(v.Breaks[0].Says, "The book states that its loss is likelier than its severity allows: it is a toy.") {
			t.Error(v.Breaks[0].Says)
		}
		var b strings.Builder
		if err := dispatch.WriteText(&b, v); err != nil || strings.Count(b.String(), "With a crew by the book") != 2*len(strings.SplitN(x.crew, " with ", 2)[1:]) {
			t.Errorf("%v\n%s", err, &b)
		}
	}
}
