package book

import (
	"strings"
	"testing"
)

const bulletins = `
aircraft "a" { title = "A" }
procedure "list" {
  note {
    says = "1"
  }
  note {
    says = "2"
  }
  note {
    says = "3"
  }
}
bulletin "first" {
  procedure = list
  from      = "2026-03-01"
  until     = "2026-03-31"
  after     = 0
  note {
    says = "first"
  }
}
bulletin "second" {
  procedure = list
  from      = "2026-03-15"
  replaces  = 2
  note {
    says = "second"
  }
  note {
    says = "and more"
  }
}
bulletin "last" {
  procedure = list
  from      = "2026-01-01"
  after     = 3
  note {
    says = "last"
  }
}
bulletin "whole" {
  procedure = list
  until     = "2025-12-31"
  note {
    says = "whole"
  }
}
`

func TestStepsOn(t *testing.T) {
	b, _ := bookOf(t, bulletins).Build("")
	for day, want := range map[string]string{
		"":           "1 2 3",
		"2025-12-31": "whole",
		"2026-01-01": "1 2 3 last",
		"2026-03-01": "first 1 2 3 last",
		"2026-03-31": "first 1 second and more 3 last",
		"2026-04-01": "1 second and more 3 last",
	} {
		var says []string
		for _, s := range b.StepsOn(b.Procedures[0], day) {
			says = append(says, s.Says)
		}
		if got := strings.Join(says, " "); got != want {
			t.Errorf("on %q: %s, want %s", day, got, want)
		}
	}
}

func TestValidDay(t *testing.T) {
	for text, want := range map[string]bool{
		"2026-11-25": true, "2024-02-29": true, "2000-02-29": true, "2026-02-29": false, "1900-02-29": false, "2026-13-01": false,
		"2026-00-10": false, "2026-04-31": false, "2026-4-3": false, "25-11-2026": false, "2026/11/25": false, "2026-11-2x": false, "": false,
	} {
		if ValidDay(text) != want {
			t.Errorf("%q: want %v", text, want)
		}
	}
}
