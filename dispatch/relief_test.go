package dispatch_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/dispatch"
	"knockon/run"
	"knockon/say"
	"knockon/scenario"
)

const pair = `
unit "a" { title = "Pump A" }
unit "b" {
  title = "Pump B"
  fault "leaks" { title = "leaks" }
}
unit "c" {}
unit "valve" {}
control "lever" {
  title     = "Lever"
  positions = ["on", "off"]
  initial   = "on"
}
signal "flow" {
  value = (a || b || c) && lever == "on" && !b.leaks && valve
}
`

// TestDecide: each sentence, where it is true and where it is not.
func TestDecide(t *testing.T) {
	const one = `
deferral "one" {
  title    = "A pump"
  items    = [a, b, b.leaks]
  category = "C"
  only_if  = !all(failed(a), failed(b)) && flight.fuel_kg > 2500
}
`
	const other = `
deferral "other" {
  title            = "C"
  items            = [c]
  category         = "A"
  days             = 2
  not_with         = [one]
  most_altitude_ft = 5000
}
`
	set := func(id, item, to string) string {
		return fmt.Sprintf("deferral %q {\n title = \"Set %s\"\n items = [%s]\n category = \"D\"\n set_up \"S\" {\n set = lever\n to = %q\n }\n}\n", id, to, item, to)
	}
	for name, x := range map[string]struct {
		text  string
		items []string
		uses  string
		why   string // "" it goes
	}{
		"covered":                 {one, []string{"a"}, "one", ""},
		"a fault covered":         {one, []string{"b.leaks"}, "one", ""},
		"two items by one":        {one, []string{"a", "b.leaks"}, "one", ""},
		"not covered":             {one, []string{"c"}, "", "The book has no deferral for c (c): it does not go"},
		"not covered, nearly":     {one + other, []string{"valve"}, "", "The book has no deferral for valve (valve): it does not go"},
		"only one of the pair":    {one, []string{"a", "b"}, "", `Pump A: deferral “A pump” asks for !all(failed(a), failed(b)) (Pump A is inoperative, Pump B is inoperative), and that is not so.`},
		"a number too small":      {strings.Replace(one, "2500", "3000", 1), []string{"a"}, "", "asks for flight.fuel_kg > 3000 (flight.fuel_kg is 3,000), and that is not so"},
		"excluded":                {one + other, []string{"a", "c"}, "", "Deferrals “A pump” and “C” are not used together: the book says so."},
		"excluded, the other way": {one + other, []string{"c", "a"}, "", "not used together"},
		"alone":                   {one + other, []string{"c"}, "other", ""},
		"set two ways":            {set("x", "a", "on") + set("y", "b", "off"), []string{"a", "b"}, "", "set lever to different positions"},
		"set one way":             {set("x", "a", "off") + set("y", "b", "off"), []string{"a", "b"}, "x y", ""},
		"the second will do":      {set("x", "a", "on") + set("z", "a", "off") + set("y", "b", "off"), []string{"a", "b"}, "z y", ""},
	} {
		t.Run(name, func(t *testing.T) {
			b, _ := bookOf(t, pair+x.text).Build("")
			var items []book.FailureRef
			for _, i := range x.items {
				f, err := book.ParseFailure(i, b)
				if err != nil {
					t.Fatal(err)
				}
				items = append(items, f)
			}
			r := dispatch.Decide(b, b.Flights[0], items)
			if got := strings.Join(book.IDs(r.Uses), " "); got != x.uses || r.Goes() != (x.why == "") || !strings.Contains(strings.Join(r.Refusals, "\n"), x.why) {
				t.Errorf("by %q, %q; want by %q, %q", got, r.Refusals, x.uses, x.why)
			}
		})
	}
}

// TestDecide_NamesTheNearest of what can be deferred.
func TestDecide_NamesTheNearest(t *testing.T) {
	b, _ := bookOf(t, `
unit "pump_1" {}
unit "pump_2" {}
signal "flow" { value = pump_1 && pump_2 }
deferral "one" {
  items    = [pump_1]
  category = "C"
}
`).Build("")
	r := dispatch.Decide(b, b.Flights[0], []book.FailureRef{{Unit: "pump_2"}})
	if len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0], "it does not go") || !strings.Contains(r.Refusals[0], `"pump_1"`) {
		t.Error(r.Refusals)
	}
}

// TestDecide_IsWhatTryingAllGives: random books of deferrals against every way of
// choosing one for each item.
func TestDecide_IsWhatTryingAllGives(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	goes, stays := 0, 0
	for range 40 {
		var s strings.Builder
		for i := range 7 {
			items := []string{"a", "b", "c", "valve", "b.leaks"}
			r.Shuffle(len(items), func(i, j int) { items[i], items[j] = items[j], items[i] })
			fmt.Fprintf(&s, "deferral \"d%d\" {\n items = [%s]\n category = \"B\"\n only_if = %s\n", i, strings.Join(items[:1+r.IntN(3)], ", "), condition(r, 2))
			if j := r.IntN(7); j != i {
				fmt.Fprintf(&s, " not_with = [d%d]\n", j)
			}
			if r.IntN(2) == 0 {
				fmt.Fprintf(&s, " set_up \"S\" {\n set = lever\n to = %q\n }\n", []string{"on", "off"}[r.IntN(2)])
			}
			s.WriteString("}\n")
		}
		b, _ := bookOf(t, pair+s.String()).Build("")
		for range 6 {
			refs := b.Failures()
			r.Shuffle(len(refs), func(i, j int) { refs[i], refs[j] = refs[j], refs[i] })
			refs = refs[:1+r.IntN(3)]
			got := dispatch.Decide(b, b.Flights[0], refs)
			want := all(t, b, refs)
			if got.Goes() != (want != nil) || got.Goes() && !slices.Equal(book.IDs(got.Uses), want) {
				t.Fatalf("%v: by %v (%q); trying all gives %v\n%s", say.Texts(refs), book.IDs(got.Uses), got.Refusals, want, s.String())
			}
			if got.Goes() {
				goes++
			} else {
				stays++
			}
		}
	}
	if t.Logf("%d go, %d do not", goes, stays); goes < 30 || stays < 30 {
		t.Error("hardly any of one kind")
	}
}

// all tries every way of choosing a deferral for each item, in the order of the book.
func all(t *testing.T, b *book.Build, items []book.FailureRef) []string {
	n := len(b.Deferrals)
	ways := 1
	for range items {
		ways *= n
	}
	for w := range ways {
		var uses []*book.Deferral
		for k, rest := len(items)-1, w; k >= 0; k-- {
			uses, rest = append([]*book.Deferral{b.Deferrals[rest%n]}, uses...), rest/n
		}
		if fits(t, b, items, uses) {
			return once(book.IDs(uses))
		}
	}
	return nil
}

func once(ids []string) (list []string) {
	for _, id := range ids {
		if !slices.Contains(list, id) {
			list = append(list, id)
		}
	}
	return list
}

func fits(t *testing.T, b *book.Build, items []book.FailureRef, uses []*book.Deferral) bool {
	for i, x := range uses {
		if !slices.Contains(say.Texts(x.Items), items[i].String()) || !flown(t, b, items, x.OnlyIf) {
			return false
		}
		for _, y := range uses {
			if x != y && (slices.Contains(x.NotWith, y.ID) || slices.Contains(y.NotWith, x.ID) || len(x.SetUps)+len(y.SetUps) == 2 && x.SetUps[0].To != y.SetUps[0].To) {
				return false
			}
		}
	}
	return true
}

// flown has a circuit work a condition out, with the items failed at dispatch.
func flown(t *testing.T, b *book.Build, items []book.FailureRef, e *book.Expr) bool {
	t.Helper()
	c, err := run.NewCourse(b, b.Flights[0], run.Setting{Watch: []*book.Expr{e}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := c.Healthy(t.Context(), run.Scenario{Inoperative: items})
	if err != nil {
		t.Fatal(err)
	}
	n, ok := r.Circuit().WatchOf(e)
	if !ok {
		t.Fatal("nobody watches")
	}
	return r.At(n, 0) != 0
}

// condition is a random one of what is known before a flight.
func condition(r *rand.Rand, depth int) string {
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	if depth == 0 {
		return pick("failed(a)", "!failed(b)", "b.leaks", "!failed(c)", "failed(valve)", "true", "flight.fuel_kg > 2900", "flight.decision_kt < 125", "aircraft.wing_area_m2 * 2 >= 150 + size(-10)",
			"least_of(flight.distance_nm, 40 - 20) <= 30", "flight.taxi_in_min == 0", "most_of(3, 4) != 4 / 1", "(failed(a) ? 1 : 2) < 2", "1 / flight.taxi_in_min > 5", "flight.taxi_in_min / flight.taxi_in_min == 0")
	}
	x, y := condition(r, depth-1), condition(r, depth-1)
	return pick("("+x+" && "+y+")", "("+x+" || "+y+")", "!("+x+")", "any("+x+", "+y+")", "all("+x+", "+y+")", "at_least(2, "+x+", "+y+", failed(b))", "(("+x+") ? ("+y+") : failed(c))", "(("+x+") == ("+y+"))", x)
}

func TestConditions_Flown(t *testing.T) {
	for name, x := range map[string]struct {
		attrs, flight, want string
	}{
		"nothing asked":          {"", "hop", "hop"},
		"low enough":             {"most_altitude_ft = 10000", "hop", "hop"},
		"too high":               {"most_altitude_ft = 9000", "hop", "hop,cruise=9000"},
		"icing":                  {"no_icing = true", "hop", "hop,icing=none"},
		"both, and supposed":     {"no_icing = true\n most_altitude_ft = 9000", "hop,fuel=2800", "hop,fuel=2800,icing=none,cruise=9000"},
		"supposed higher":        {"most_altitude_ft = 9000", "hop,cruise=12000", "hop,cruise=9000"},
		"supposed low already":   {"most_altitude_ft = 9000", "hop,cruise=8000", "hop,cruise=8000"},
		"supposed without icing": {"no_icing = true", "hop,icing=none", "hop,icing=none"},
	} {
		b, _ := bookOf(t, pair+"deferral \"d\" {\n items = [a]\n category = \"C\"\n "+x.attrs+"\n}\n").Build("")
		f, err := b.FlightNamed(x.flight)
		if err != nil {
			t.Fatal(err)
		}
		r := dispatch.Decide(b, f, []book.FailureRef{{Unit: "a"}})
		got := r.Conditions().Flown(f)
		again, err := b.FlightNamed(got)
		if got != x.want || err != nil || again.ID != got {
			t.Errorf("%s: %s, want %s (%v)", name, got, x.want, err)
		}
	}
}

func TestOf_SaysWhatIsWrong(t *testing.T) {
	courses := scenario.NewCourses(bookOf(t, pair+`
event "burst" { fails = [a, b] }
deferral "d" {
  items    = [a]
  category = "C"
}
`))
	for want, q := range map[string]dispatch.Question{
		"item: say what is inoperative, such as a":       {},
		`item: nothing that can fail is called "pump_a"`: {Items: []string{"pump_a"}},
		`item: "burst" is an event: name the units`:      {Items: []string{"burst"}},
		"item: a is named twice":                         {Items: []string{"a", "a"}},
		`no fault called "leeks"; did you mean "leaks"?`: {Items: []string{"b.leeks"}},
		`found: "yesterday" is not a day`:                {Items: []string{"a"}, Found: "yesterday"},
		"flight: ":                                       {Items: []string{"a"}, Flight: "hopp"},
		"build: ":                                        {Items: []string{"a"}, Build: "late"},
		"in: ":                                           {Items: []string{"a"}, In: "clim"},
	} {
		if _, err := dispatch.Of(t.Context(), courses, q); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", q, err, want)
		}
	}
}
