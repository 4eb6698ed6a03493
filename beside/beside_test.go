package beside_test

import (
	"bytes"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/beside"
	"knockon/internal/corvane/answers"
	"knockon/ledger"
	"knockon/scenario"
)

var headline = answers.Headline()

func other(t *testing.T, q scenario.Typed, changes ...string) scenario.Typed {
	t.Helper()
	o, err := beside.Other(q, changes)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// TestOf_AgainstTheLedgers: for another phase, build, conduct, without the deferral,
// and with one failure more, what is said to be lost only once or known otherwise is
// what the two ledgers have, gone through function by function.
func TestOf_AgainstTheLedgers(t *testing.T) {
	for _, change := range []string{"at=cruise", "at=10,000 ft in the descent", "build=second_series", "crew=none", "out=none", "and=gen_left", "fail=tr_vital"} {
		a, b := answers.Of(t, headline), answers.Of(t, other(t, headline, change))
		v := beside.Of(a, b)
		got := map[string][]string{}
		for _, s := range v.Sections {
			for _, r := range s.Rows {
				if r.Kind == "function" {
					got[s.ID] = append(got[s.ID], r.ID)
				}
			}
		}
		want, alike := map[string][]string{}, map[string]int{}
		for _, f := range a.Course.Build.Functions {
			x, y := a.Ledger.Loss(f.ID), b.Ledger.Loss(f.ID)
			called := [2]bool{x != nil && x.Mattered, y != nil && y.Mattered}
			switch {
			case called == [2]bool{true, true}:
				from := func(l *ledger.Loss, in *ask.Answer) float64 {
					at, _ := in.Here.FirstStrike()
					return (l.Spans[0].From - at).Seconds()
				}
				if d := from(x, a) - from(y, b); x.Word() != y.Word() || max(d, -d) > 60 {
					want["lost-otherwise"] = append(want["lost-otherwise"], f.ID)
				} else {
					alike["lost"]++
				}
			case called[0]:
				want["lost-first"] = append(want["lost-first"], f.ID)
			case called[1]:
				want["lost-second"] = append(want["lost-second"], f.ID)
			case x != nil && y == nil:
				want["idle-first"] = append(want["idle-first"], f.ID)
			case x == nil && y != nil:
				want["idle-second"] = append(want["idle-second"], f.ID)
			case x != nil:
				alike["idle"]++
			}
		}
		for id, list := range want {
			slices.Sort(list)
			had := slices.Sorted(slices.Values(got[id]))
			if !slices.Equal(list, had) {
				t.Errorf("%s, %s: %v\nwant %v", change, id, had, list)
			}
		}
		for id := range got {
			if want[id] == nil && (strings.HasPrefix(id, "lost") || strings.HasPrefix(id, "idle")) {
				t.Errorf("%s: %s is %v; the ledgers have none", change, id, got[id])
			}
		}
		for _, c := range v.Alike {
			if (c.ID == "lost" || c.ID == "idle") && c.Count != alike[c.ID] {
				t.Errorf("%s: %d %s; want %d", change, c.Count, c.Title, alike[c.ID])
			}
		}
	}
}

// TestOf_TheSameTwice: nothing differs, whoever asks.
func TestOf_TheSameTwice(t *testing.T) {
	a := answers.Of(t, headline)
	v := beside.Of(a, a)
	if len(v.Sections) > 0 || !strings.HasSuffix(v.Says, "nothing else differs.") || v.First.Label == v.Second.Label {
		t.Errorf("%q, %d sections, %q and %q", v.Says, len(v.Sections), v.First.Label, v.Second.Label)
	}
	turned := beside.Of(answers.Of(t, other(t, headline, "out=none")), a)
	back := beside.Of(a, answers.Of(t, other(t, headline, "out=none")))
	count := func(v *beside.View, id string) (n int) {
		for _, s := range v.Sections {
			if s.ID == id {
				n = len(s.Rows)
			}
		}
		return n
	}
	for one, two := range map[string]string{"lost-first": "lost-second", "lost-second": "lost-first", "lost-otherwise": "lost-otherwise", "dark-first": "dark-second"} {
		if count(turned, one) != count(back, two) {
			t.Errorf("%s turned round: %d and %d", one, count(turned, one), count(back, two))
		}
	}
	if count(back, "lost-first") == 0 || !strings.Contains(back.Says, "lost only with left DC source (transformer rectifier 1) inoperative") {
		t.Errorf("%q", back.Says)
	}
}

// TestOf_WhatIsNotAnswered is not laid beside anything.
func TestOf_WhatIsNotAnswered(t *testing.T) {
	never := scenario.Once(scenario.Strike{What: []string{"tr_right"}, When: "real.height_ft > 90000"})
	v := beside.Of(answers.Of(t, headline), answers.Of(t, never))
	if !strings.HasPrefix(v.Says, "The two are not laid side by side, since one is not answered.") || len(v.Sections)+len(v.Alike) > 0 {
		t.Errorf("%q, %d sections", v.Says, len(v.Sections))
	}
}

// TestWrite holds every title and every figure of the view.
func TestWrite(t *testing.T) {
	v := beside.Of(answers.Of(t, headline), answers.Of(t, other(t, headline, "crew=none")))
	var b bytes.Buffer
	if err := v.Write(&b, 400); err != nil {
		t.Fatal(err)
	}
	for _, s := range v.Sections {
		for _, r := range s.Rows {
			if !strings.Contains(b.String(), r.Title) || r.First != "yes" && !strings.Contains(b.String(), r.First) {
				t.Errorf("%s: %q is missing", s.ID, r.Title)
			}
		}
	}
	if !strings.HasPrefix(b.String(), v.Says) || !strings.Contains(b.String(), v.Caution) {
		t.Error("it does not say its point first, or has no caution")
	}
}

func TestOther(t *testing.T) {
	q := scenario.Typed{Fail: []scenario.Strike{{What: []string{"a", "b"}, At: "climb", ForS: 3}}, Out: []string{"c"}}
	for changes, want := range map[string]scenario.Typed{
		"at=cruise":              {Fail: []scenario.Strike{{What: []string{"a", "b"}, At: "cruise", ForS: 3}}, Out: []string{"c"}},
		"out=none":               {Fail: []scenario.Strike{{What: []string{"a", "b"}, At: "climb", ForS: 3}}},
		"and=d, e;and=a":         {Fail: []scenario.Strike{{What: []string{"a", "b", "d", "e"}, At: "climb", ForS: 3}}, Out: []string{"c"}},
		"without=a;build=x":      {Fail: []scenario.Strike{{What: []string{"b"}, At: "climb", ForS: 3}}, Out: []string{"c"}, Build: "x"},
		"fail=z;crew=none":       {Fail: []scenario.Strike{{What: []string{"z"}, At: "climb", ForS: 3}}, Out: []string{"c"}, Crew: "none"},
		"plan=return@climb;out=": {Fail: []scenario.Strike{{What: []string{"a", "b"}, At: "climb", ForS: 3}}, Plan: []string{"return@climb"}},
	} {
		got, err := beside.Other(q, strings.Split(changes, ";"))
		if len(got.Out) == 0 {
			got.Out = nil
		}
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, %v", changes, got, err)
		}
	}
	if !slices.Equal(q.Fail[0].What, []string{"a", "b"}) {
		t.Error("the question itself was changed")
	}
	for changes, want := range map[string]string{"cruise": "write part=value", "when=x": "no part", "without=a;without=b": "nothing fails then", "": "part=value"} {
		_, err := beside.Other(q, strings.Split(changes, ";"))
		var trouble *scenario.Trouble
		if !errors.As(err, &trouble) || !strings.Contains(trouble.Text, want) {
			t.Errorf("%q: %v", changes, err)
		}
	}
	if _, err := beside.Other(q, nil); err == nil {
		t.Error("nothing is otherwise, and it is no error")
	}
}

// TestOf_TwoThatBreakOff: of flights that never arrive it is not said that nothing
// differs, and that they are flown no farther is.
func TestOf_TwoThatBreakOff(t *testing.T) {
	q := scenario.Typed{Fail: []scenario.Strike{{What: []string{"engine_left", "engine_right"}, At: "lift_off"}}, Crew: scenario.Nobody}
	a, b := answers.Of(t, q), answers.Of(t, other(t, q, "at=climb + 20 s"))
	if a.Here.Ending().Arrived() || b.Here.Ending().Arrived() {
		t.Fatal("one arrives: the test shows nothing")
	}
	for _, v := range []*beside.View{beside.Of(a, b), beside.Of(a, a)} {
		if !strings.HasSuffix(v.Says, "one of them has no full answer.") {
			t.Error(v.Says)
		}
	}
}
