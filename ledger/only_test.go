package ledger_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/ledger"
)

// only reads wishes as one types them, with semicolons between.
func only(text string) (o ledger.Only) {
	for _, p := range strings.Split(text, "; ") {
		part, value, _ := strings.Cut(p, "=")
		o = append(o, ledger.Wish{Part: part, Value: value})
	}
	return o
}

// names lists the rows of a view, each with its group.
func names(v *ledger.View) (list []string) {
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			list = append(list, g.ID+" "+r.ID)
		}
	}
	return list
}

func TestView_Only(t *testing.T) {
	v := answer(t, course(t, everything), failing(t, "burst@120 /light")).View()
	all := names(v)
	for wish, want := range map[string]string{
		"severity=major":                 "denied steering",
		"severity=major; severity=minor": "denied steering; late flaps",
		"severity=warning":               "held_back low; announced low",
		"group=dark":                     "dark panel_lamp; dark second_lamp",
		"group=dark; has=second":         "dark second_lamp",
		"has=STEERING lamp; has=Wrong":   "shows_wrong steering_lamp",
		"has=nowhere":                    "",
		"group=dark; severity=major":     "",
		"group=held_back; phase=climb":   "held_back low",
		"group=held_back; phase=cruise":  "",
		"group=kept; phase=landing":      "kept pressure",
		"group=kept; phase=ground":       "",
	} {
		less := v.Only(only(wish))
		if got := strings.Join(names(less), "; "); got != want {
			t.Errorf("%s:\n got %s\nwant %s", wish, got, want)
		}
		if s := less.Shown; s.Rows != len(names(less)) || s.Of != len(all) || (s.None() == "") != (want != "") {
			t.Errorf("%s: says %+v", wish, s)
		}
	}
	if !slices.Equal(names(v), all) || v.Shown != nil || v.Only(nil) != v {
		t.Error("a choice of rows changed the answer itself")
	}
}

// TestView_OnlySaysWhich: in words, and where none fits what leaves some.
func TestView_OnlySaysWhich(t *testing.T) {
	v := answer(t, course(t, everything), failing(t, "burst@120 /light")).View()
	s := v.Only(only("phase=climb; phase=landing; group=dark; has=second")).Shown
	if got, want := s.Text(), "1 of 15 rows shown: phase: Climb or Landing; what it is: “Dark”; words: “second”."; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	s = v.Only(only("severity=major; has=panel")).Shown
	if got, want := s.None(), "No row fits all of this. Without the severity: 1 row; without the words: 1 row."; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

// TestView_OnlyNothingFits: a part alone that fits nothing leaves no way but all rows.
func TestView_OnlyNothingFits(t *testing.T) {
	v := answer(t, course(t, everything), failing(t, "burst@120 /light")).View()
	for wish, want := range map[string]string{
		"has=nowhere; phase=climb":           "No row fits all of this. Without the words: 14 rows.",
		"has=nowhere; group=dark; chapter=1": "No row fits all of this, nor with one part of it less.",
		"has=panel":                          "",
	} {
		if got := v.Only(only(wish)).Shown.None(); got != want {
			t.Errorf("%s: %s", wish, got)
		}
	}
}

// TestView_FacetsCount: beside each choice stands how many rows it leaves with what is
// chosen of the other parts, and every row can be come by.
func TestView_FacetsCount(t *testing.T) {
	v := answer(t, demoCourse(t), failing(t, "dc_left@1500 dc_right@2000")).View()
	values := 0
	for _, text := range []string{"", "phase=cruise", "severity=major; group=told; group=dark", "chapter=24; has=lamp", "has=lamp; phase=approach"} {
		o := only(text)
		if text == "" {
			o = nil
		}
		for _, f := range v.Facets(o) {
			reached := map[string]bool{}
			for _, x := range f.Values {
				values++
				if got := len(names(v.Only(append(o.Beside(f.Part), x.Wish)))); got != x.Rows || x.Title == "" || x.Chosen != slices.Contains(o, x.Wish) {
					t.Errorf("%q, %s=%s: %d rows, says %+v", text, f.Part, x.Value, got, x)
				}
				for _, n := range names(v.Only(ledger.Only{x.Wish})) {
					reached[n] = true
				}
			}
			if missed := len(names(v)) - len(reached); missed != 0 && f.Part != ledger.BySeverity {
				t.Errorf("%d rows have no %s", missed, f.Part)
			}
		}
	}
	if values < 150 {
		t.Errorf("only %d choices looked at", values)
	}
}

// TestView_OnlyInAPhase: beside the record, second by second.
func TestView_OnlyInAPhase(t *testing.T) {
	l := answer(t, demoCourse(t), failing(t, "dc_left@1500 dc_right@2000"))
	so := 0
	for _, g := range l.View().Groups {
		for _, r := range g.Rows {
			in := map[string]bool{}
			for _, s := range r.Spans {
				for at := s.From.Time; at < s.Until.Time; at += book.Second {
					in[l.Here.PhaseAt(at)] = true
				}
			}
			for phase := range in {
				so++
				if !slices.Contains(r.Phases, phase) {
					t.Errorf("%s %s is so in %s", g.ID, r.ID, phase)
				}
			}
			if g.ID != ledger.GroupKept && len(r.Phases) > len(in)+2 { // what is shorter than a second at an edge
				t.Errorf("%s %s: %v, seen in %v", g.ID, r.ID, r.Phases, in)
			}
		}
	}
	if so < 300 {
		t.Errorf("only %d seen", so)
	}
}

func TestOnly_RefusesWhatMeansNothing(t *testing.T) {
	b := course(t, everything).Build
	for wish, want := range map[string]string{
		"phase=climb; chapter=24; severity=caution; group=hidden; has=anything": "",
		"phse=climb":        `there is no part "phse"; did you mean "phase"?`,
		"phase=climbs":      `there is no phase "climbs"; did you mean "climb"?`,
		"chapter=power":     `there is no chapter "power": give its number, such as 24`,
		"severity=majr":     `there is no severity "majr"; did you mean "major"?`,
		"group=hiden":       `there is no group "hiden"; did you mean "hidden"?`,
		"has=a; chapter=-1": `there is no chapter "-1": give its number, such as 24`,
	} {
		err := only(wish).Check(b)
		if (err == nil) != (want == "") || err != nil && err.Error() != want {
			t.Errorf("%s: %v, want %s", wish, err, want)
		}
	}
	var ids []string
	for _, g := range answer(t, course(t, everything), failing(t, "burst@120")).View().Groups {
		ids = append(ids, g.ID)
	}
	if !slices.Equal(ids, ledger.Groups) {
		t.Errorf("the groups are %v", ids)
	}
}
