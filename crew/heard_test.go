package crew_test

import (
	"strings"
	"testing"

	"knockon/crew"
)

// TestHeard: what is told over a dead system is not heard, and the crew go the other
// way where the list gives one; the call after a warning is not heard either. What is
// told over one that works is, and what the book says nothing of.
func TestHeard(t *testing.T) {
	book := strings.Replace(frame, `aircraft "small" { title = "Small" }`, `aircraft "small" {
		title         = "Small"
		cabin_hears   = b || works_too
		control_hears = f2
	}
	function "works_too" {
		title = "Hand phone"
		works = c
	}
	function "f2" { works = b }
	`, 1) + alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
		tell {
			whom = "cabin"
			says = "prepare"
			else {
				note { says = "knock" }
			}
		}
		tell {
			whom = "company"
			says = "we return"
		}
	}
	`
	tm := smallOf(t, book)
	v := func(p *crew.Plan) *crew.View {
		v, err := tm.View(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	got, p := lines(t, tm, "air + 20 s", "a", "b")
	if want := "2-12 PM x_list list\n12-32 PM x_list 1 no\n32-33 PM x_list 1.else.1\n33-53 PM x_list 2\n53-73 PM x_list radio no\n"; got != want {
		t.Errorf("got\n%s", got)
	}
	notes := tm.Unheard(p)
	if len(notes) != 2 || notes[0].Text != `x list: "prepare" is not heard by the cabin, since “b” and “Hand phone” do not work: they went on with "knock"` ||
		notes[1].Text != `x list: the radio call after it is not heard by air traffic control, since “f2” does not work` {
		t.Errorf("%+v", notes)
	}
	if l := v(p).Lines; l[1].Found != "not heard" || l[4].Found != "not heard" || l[3].Found != "" {
		t.Errorf("%+v", l)
	}
	got, p = lines(t, tm, "air + 20 s", "a")
	if want := "2-12 PM x_list list\n12-32 PM x_list 1 yes\n32-52 PM x_list 2\n52-72 PM x_list radio yes\n"; got != want || len(tm.Unheard(p)) > 0 {
		t.Errorf("got\n%s", got)
	}
}
