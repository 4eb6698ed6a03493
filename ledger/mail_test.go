package ledger

import (
	"strings"
	"testing"
)

// TestMail_ReassuresOfNothingThatIsOpen: that nothing needs saving, and that no other run
// makes a difference, is said only where that was answered.
func TestMail_ReassuresOfNothingThatIsOpen(t *testing.T) {
	none := Varied{Axis: "build", Text: "On every other build the same is lost."}
	late := Varied{Axis: "phase", Open: true, Text: "3 others could not be flown in the time there is."}
	for what, x := range map[string]struct {
		unanswered string
		others     []Varied
		do, hangs  string
	}{
		"all answered":   {"", []Varied{none}, "so that no rescue was looked for", "no other run makes a difference"},
		"some not":       {"", []Varied{none, late}, "so that no rescue was looked for", "was not answered"},
		"no full answer": {"The failure never comes.", []Varied{late}, "cannot be said", "was not answered"},
		"a rescue":       {"", []Varied{{Axis: "rescue", Text: "Bleed off saves it."}}, "Bleed off saves it.", "no other run makes a difference"},
	} {
		v := View{Unanswered: x.unanswered, Worth: &Worth{Others: x.others}}
		m := v.Mail()
		if !strings.Contains(m[3], x.do) || !strings.Contains(m[4], x.hangs) {
			t.Errorf("%s: %q, %q", what, m[3], m[4])
		}
		if open := x.unanswered != "" || len(x.others) > 1; open && strings.Contains(m[4], "no other run makes") {
			t.Errorf("%s: reassures: %q", what, m[4])
		}
	}
}
