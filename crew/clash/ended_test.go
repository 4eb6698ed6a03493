package clash_test

import (
	"context"
	"strings"
	"testing"

	"knockon/crew/clash"
)

// lamps is an alert whose list moves what it reads to no avail, and one that only a
// failure of which nobody thinks calls for.
const lamps = `
unit "b" {}
alert "x" {
  level     = "caution"
  message   = "X"
  when      = !a && left != "gone"
  procedure = x_list
}
alert "y" {
  level     = "caution"
  message   = "Y"
  when      = held(!b, 1500) && !b
  procedure = y_list
}
procedure "x_list" {
  do {
    set = left
    to  = "off"
  }
}
procedure "y_list" {
  note { says = "y" }
}
`

// quarrel never settles, a little after one of the units has failed.
const quarrel = `
signal "quarrel" { value = held(!a || !b, 60) && !before(quarrel) }
`

func surveyed(t *testing.T, more string) (*clash.Report, string) {
	t.Helper()
	r, err := clash.Survey(context.Background(), small(t, strings.ReplaceAll(more, `left != "gone"`, `left != right`)), clash.Bounds{Phases: 1, More: 50})
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	if err := clash.WriteText(&text, r); err != nil {
		t.Fatal(err)
	}
	return r, text.String()
}

// TestSurvey_WhatBrokeOffReassuresNobody: that nothing calls for a list and that an
// alert stands to the end is said of flights that came to their end, and where some
// did not it is said how many and that the rest is not known.
func TestSurvey_WhatBrokeOffReassuresNobody(t *testing.T) {
	stands := strings.Replace(lamps, `left != "gone"`, `left != "x"`, 1)
	stands = strings.Replace(stands, `when      = !a && left != "x"`, "when      = !a && (left == \"on\" || left == \"off\")", 1)
	r, text := surveyed(t, stands)
	if r.Broken != 0 || strings.Contains(text, "break") || !strings.Contains(text, "stands to the end of the flight") || !strings.Contains(text, "calls for “y list”.") {
		t.Errorf("all arrive; %d broke off:\n%s", r.Broken, text)
	}
	r, text = surveyed(t, stands+quarrel)
	head, _, _ := strings.Cut(text, "\n")
	if r.Broken == 0 || r.View().Broken != r.Broken || !strings.Contains(head, "of the flights break off, and what would come after is not known.") {
		t.Errorf("%d broke off: %s", r.Broken, head)
	}
	if strings.Contains(text, "stands to the end of the flight") || !strings.Contains(text, "calls for “y list”, as far as they went: ") {
		t.Errorf("reassured by flights that broke off:\n%s", text)
	}
}

// TestSurvey_NoneIsNone: where nothing is at odds the report counts none, and where
// something is, it does not.
func TestSurvey_NoneIsNone(t *testing.T) {
	const quiet = "alert \"x\" {\n level = \"caution\"\n message = \"X\"\n when = !a && left == \"on\"\n procedure = x_list\n}\nprocedure \"x_list\" {\n do {\n set = left\n to = \"off\"\n }\n}\n"
	if r, text := surveyed(t, quiet); len(r.Conflicts) != 0 || !strings.Contains(text, ", 0 conflicts.\n") {
		t.Errorf("%s", text)
	}
	if r, text := surveyed(t, quiet+"procedure \"lost_list\" {\n note { says = \"x\" }\n}\n"); len(r.Conflicts) != 1 || strings.Contains(text, "0 conflicts") {
		t.Errorf("%s", text)
	}
}
