package scenario_test

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"sync"
	"testing"

	"knockon/book"
	"knockon/demo"
	"knockon/run"
	"knockon/scenario"
)

func load(t *testing.T) *book.Book {
	t.Helper()
	b, diags := book.Load(t.Context(), demo.Book())
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	return b
}

// kept are first lines of logs as they were always written.
var kept = map[string]scenario.Typed{
	`{}`: {},
	`{"title":"T","flight":"short_hop","fail":[{"what":["gen_left","pump_left"],"at":"climb + 20 s","for_s":40,"resettable":true},{"what":["dc_left"]}],"out":["tr_left"]}`: {
		Title: "T", Flight: "short_hop", Out: []string{"tr_left"},
		Fail: []scenario.Strike{{What: []string{"gen_left", "pump_left"}, At: "climb + 20 s", ForS: 40, Resettable: true}, {What: []string{"dc_left"}}},
	},
}

func TestTyped_IsWrittenAsItAlwaysWas(t *testing.T) {
	for line, want := range kept {
		text, err := json.Marshal(want)
		if err != nil || string(text) != line {
			t.Errorf("%s, %v; want %s", text, err, line)
		}
		var got scenario.Typed
		if err := json.Unmarshal([]byte(line), &got); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s is read as %+v, %v", line, got, err)
		}
	}
}

func TestRead_TakesAllParts(t *testing.T) {
	b, _ := load(t).Build("")
	s, err := scenario.Typed{
		Fail: []scenario.Strike{{What: []string{" tr_right "}, At: "climb + 2 min", ForS: 30, Resettable: true}, {When: "real.height_ft > 500", What: []string{"gen_left"}}, {At: "cruise"}},
		Out:  []string{"tr_left"}, Sets: []string{"gear_lever = down @ approach"},
	}.Read(b)
	if err != nil {
		t.Fatal(err)
	}
	first := run.Strike{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb", Offset: 120 * book.Second}, Lasts: 30 * book.Second, Resettable: true}
	down := run.Action{Control: "gear_lever", Position: "down", At: book.Moment{Phase: "approach"}}
	if len(s.Strikes) != 2 || !reflect.DeepEqual(s.Strikes[0], first) || s.Strikes[1].When == nil || !reflect.DeepEqual(s.SetUp, []run.Action{down}) || s.Inoperative[0].Unit != "tr_left" {
		t.Errorf("%+v", s)
	}
}

func TestRead_NamesThePart(t *testing.T) {
	b, _ := load(t).Build("")
	bad := func(k scenario.Strike) scenario.Typed { k.What = append(k.What, "tr_right"); return scenario.Once(k) }
	for part, typed := range map[string][]scenario.Typed{
		"fail": {bad(scenario.Strike{What: []string{"tr_rigt"}})},
		"out":  {{Out: []string{"climb"}}},
		"at":   {bad(scenario.Strike{At: "clim"}), bad(scenario.Strike{At: "12"})},
		"when": {bad(scenario.Strike{When: "real.height_ft"}), bad(scenario.Strike{When: "("})},
		"for":  {bad(scenario.Strike{ForS: -1}), bad(scenario.Strike{ForS: math.NaN()}), bad(scenario.Strike{ForS: 1e7})},
		"set":  {{Sets: []string{"gear_lever"}}, {Sets: []string{"gear_lever=sideways"}}},
		"act":  {{Acts: []string{"gear_levr=down"}}, {Acts: []string{"gear_lever=down@clim"}}},
	} {
		for _, x := range typed {
			var trouble *scenario.Trouble
			if _, err := x.Read(b); !errors.As(err, &trouble) || trouble.Part != part || trouble.Text == "" {
				t.Errorf("%+v: %v, want trouble with %s", x, err, part)
			}
		}
	}
}

// TestCourses_AreCompiledOnce: whoever asks first or by another name, in whatever
// order, is given the same course.
func TestCourses_AreCompiledOnce(t *testing.T) {
	b := load(t)
	c := scenario.NewCourses(b)
	first, _ := b.Build("")
	names := [][2]string{{"", "short_hop"}, {first.Variant, "short_hop"}}
	got := make([]*run.Course, 6)
	var wait sync.WaitGroup
	for i := range got {
		wait.Go(func() { got[i], _ = c.Of(names[i%2][0], names[i%2][1]) })
	}
	wait.Wait()
	for _, x := range got {
		if x == nil || x != got[0] {
			t.Fatal("there are two courses of one flight")
		}
	}
	for part, name := range map[string][2]string{"build": {"nowhere", ""}, "flight": {"", "nowhere"}} {
		var trouble *scenario.Trouble
		if _, err := c.Of(name[0], name[1]); !errors.As(err, &trouble) || trouble.Part != part {
			t.Errorf("%v: %v", name, err)
		}
	}
}
