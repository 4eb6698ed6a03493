package claim_test

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/claim"
)

// toy is a small book: a pump fails at 120 s, in the climb. The flight lasts
// 600 s and some.
const toy = `
aircraft "toy" {
  title    = "Toy"
  limit_kt = 30
}
phase "ground" {}
phase "climb" { begins = real.time_s >= 100 }
phase "cruise" { begins = real.time_s >= 200 }
phase "landing" { begins = real.time_s >= 300 }
phase "nowhere" { begins = real.time_s >= 100000 }
flight "hop" {
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 25
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
unit "pump" {
  fault "weak" {
    title = "is weak"
    stops = false
  }
}
unit "spare" {}
unit "lamp_power" { needs = pump }
function "brakes" { works = pump }
function "steering" { works = pump }
function "flaps" { works = pump }
function "doors" { works = pump }
function "slides" { works = pump }
function "pressure" { works = pump || spare }
alert "low" {
  level    = "warning"
  message  = "Pressure low"
  when     = !pump
  quiet_in = [climb]
  tells    = [flaps]
}
alert "door" {
  level     = "caution"
  message   = "Doors stay shut"
  when      = !pump
  tells     = [doors]
  repeats_s = 10
  until     = held(!pump, 35)
}
alert "wolf" {
  level     = "advisory"
  message   = "Wolf"
  when      = !pump
  true_when = false
}
alert "calm" {
  level   = "advisory"
  message = "Calm"
  when    = !spare
}
indication "steering_lamp" {
  shows = true
  means = steering
}
indication "gauge" {
  shows = pump
  means = pump
  tells = [slides]
}
indication "panel_lamp" {
  shows  = true
  lit_by = lamp_power
}
`

func load(t testing.TB, text string) *book.Book {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if b == nil {
		for _, d := range diags {
			t.Log(d)
		}
		t.Fatal("the book does not load")
	}
	return b
}

func check(t testing.TB, text string) *claim.Report {
	t.Helper()
	b := load(t, text)
	r, err := claim.Watch(context.Background(), b, nil, claim.All(b), nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// given writes a claim with one given block.
func given(id, given, expect string) string {
	return fmt.Sprintf("claim %q {\n says = \"It is so.\"\n source = \"A manual\"\n given {\n%s\n}\n expect = [%s]\n}\n", id, given, expect)
}

func TestCheck_EveryFunctionTrueAndFalse(t *testing.T) {
	cases := []struct {
		expect string
		holds  bool
		got    string // part of what was found
	}{
		{"lost(brakes)", true, "lost, not told: From +0:00 to the end."},
		{"lost(pressure)", false, "still works: Without pump; rests on spare."},
		{"kept(pressure)", true, "still works"},
		{"kept(brakes)", false, "lost, not told"},
		{"told(doors)", true, "Told by “Doors stay shut” (caution) at +0:00."},
		{"told(flaps)", false, "told late"},
		{"told(pressure)", false, "still works"},
		{"told_late(flaps)", true, "Told 80 s late by “Pressure low” (warning) at +1:20 (cruise), held back in climb."},
		{"told_late(doors)", false, "lost, told"},
		{"only_shown(slides)", true, "To be read on gauge."},
		{"only_shown(brakes)", false, "not told"},
		{"not_told(brakes)", true, "not told"},
		{"not_told(slides)", false, "only shown"},
		{"told_wrong(steering)", true, "Denied by steering lamp."},
		{"told_wrong(brakes)", false, "not told"},
		{"told_wrong(steering_lamp)", true, "Shows on, while the truth is off."},
		{"told_wrong(gauge)", false, "lit and right"},
		{"dark(panel_lamp)", true, "dark: From +0:00 to the end."},
		{"dark(gauge)", false, "lit and right"},
		{"given(low)", true, "given: From +1:20 to the end."},
		{"given(calm)", false, "not given"},
		{"never_given(calm)", true, "not given"},
		{"never_given(low)", false, "given: From +1:20"},
		{"held_back(low)", true, "Held back in climb; given at +1:20 (cruise)."},
		{"held_back(door)", false, "given"},
		{"false_alarm(wolf)", true, "false alarm"},
		{"false_alarm(door)", false, "given"},
		{"at(79, !low)", true, "yes at +1:19"},
		{"at(80, !low)", false, "no at +1:20"},
		{"at(0, pump)", false, "no at +0:00"},
		{"ever(low)", true, "yes at +1:20"},
		{"ever(calm)", false, "never yes"},
		{"ever(climb)", true, "yes at +0:00"},
		{"ever(ground)", false, "never yes"},
		{"ever(before(pump) && !pump)", true, "yes at +0:00"},
		{"always(!pump)", true, "yes throughout"},
		{"always(!low)", false, "no at +1:20"},
		{"always(!(before(cruise) != cruise))", false, "no at +1:20"},
		{"in_phase(climb, !low)", true, "yes from +0:00 to +1:20"},
		{"in_phase(cruise, low)", true, "yes from +1:20 to +3:00"},
		{"in_phase(cruise, !door)", true, "yes"},
		{"in_phase(climb, door)", false, "no at +0:35"},
		{"in_phase(ground, !pump)", false, "ground is over before the strike"},
		{"in_phase(nowhere, !pump)", false, "nowhere never comes"},
		{"in_phase(landing, !pump)", true, "yes from +3:00"},
		{"first(low) == 80", true, "first = 80 s"},
		{"first(low) < 80", false, "first = 80 s"},
		{"first(calm) == 1000000", true, "first = never"},
		{"last(door) == 35", true, "last = 35 s"},
		{"last(low) == 1000000", true, "last = still yes at the end"},
		{"last(calm) == -1", true, "last = never"},
		{"last(ground) == -1", true, "last = never"},
		{"last(climb) > 80", false, "last = 80 s"},
		{"times(door) == 4", true, "times = 4"},
		{"times(cruise) == 1", true, "times = 1"},
		{"times(!pump) == 1", true, "times = 1"},
		{"times(climb) == 1", false, "times = 0"},
		{"seconds(door) == 35", true, "seconds = 35 s"},
		{"seconds(climb) == 80", true, "seconds = 80 s"},
		{"seconds(calm) > 0", false, "seconds = 0 s"},
		{"lost(brakes) && told_late(flaps) || lost(pressure)", true, "lost, not told"},
		{"!lost(pressure) && kept(brakes)", false, "still works"},
		{"at_least(2, lost(brakes), lost(doors), lost(pressure))", true, "lost"},
		{"all(lost(brakes), lost(pressure))", false, "lost"},
		{"any(lost(brakes), lost(pressure))", true, "lost"},
		{"(lost(brakes) ? first(low) : last(low)) == 80", true, "first = 80 s"},
		{"most_of(first(low), first(door)) - least_of(first(low), first(door)) == 80", true, "first = 80 s; first = 0 s"},
		{"size(-first(low)) / 2 + 1 * 5 >= 45", true, "first = 80 s"},
		{"first(low) / seconds(calm) > 1000000000", true, "first = 80 s; seconds = 0 s"},
		{"first(low) != 80", false, "first = 80 s"},
		{"first(low) <= 79", false, "first = 80 s"},
	}
	var all []string
	for _, c := range cases {
		all = append(all, c.expect)
	}
	r := check(t, toy+given("everything", `fail = [pump]
  at = "120 s"`, strings.Join(all, ",\n")))
	o := r.Results[0].Givens[0]
	if o.Trouble != "" {
		t.Fatal(o.Trouble)
	}
	for i, c := range cases {
		f := o.Findings[i]
		if f.Holds != c.holds || !strings.Contains(f.Got, c.got) {
			t.Errorf("%s: holds %v, want %v; got %q, want %q", c.expect, f.Holds, c.holds, f.Got, c.got)
		}
		if f.Holds != (len(f.Why) == 0) {
			t.Errorf("%s: holds %v, why %q", c.expect, f.Holds, f.Why)
		}
	}
}

func TestWriteText(t *testing.T) {
	text := toy + given("good", "fail = [pump]\nat = \"120 s\"", "lost(brakes)") +
		given("bad", "fail = [pump]\nat = \"120 s\"", "lost(brakes), kept(doors), at(10, low)") +
		given("odd", "fail = [pump]\nat = \"nowhere\"", "lost(brakes)")
	r := check(t, text)
	var w strings.Builder
	if err := claim.WriteText(&w, r); err != nil {
		t.Fatal(err)
	}
	line := 1 + strings.Count(text[:strings.Index(text, `claim "bad"`)], "\n")
	want := fmt.Sprintf(`book.hcl:%d:1: claim bad fails
  It is so.
  Source: A manual
    expected  kept(doors)
    got       lost, told: From +0:00 to the end. Told by “Doors stay shut” (caution) at +0:00.
    why       doors is lost at +0:00, because pump has failed
    expected  at(10, low)
    got       no at +0:10
`, line)
	if !strings.HasPrefix(w.String(), want) {
		t.Errorf("got\n%s\nwant it to begin\n%s", w.String(), want)
	}
	for _, part := range []string{"cannot be judged: flight hop never reaches the phase nowhere", "1 of 3 claims holds; 2 fail.", book.Caution} {
		if !strings.Contains(w.String(), part) {
			t.Errorf("%q is missing in\n%s", part, w.String())
		}
	}
}

func TestMarshalJSON(t *testing.T) {
	r := check(t, toy+given("bad", "fail = [pump]\nat = \"120 s\"", "kept(doors)"))
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Count, Failing int
		Caution        string
		Claims         []struct {
			ID     string
			Holds  bool
			Line   int
			Givens []struct {
				Expected []struct {
					Expect, Got string
					Holds       bool
					Why         []string
				}
			}
		}
	}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	e := got.Claims[0].Givens[0].Expected[0]
	if got.Count != 1 || got.Failing != 1 || got.Caution != book.Caution || got.Claims[0].ID != "bad" || e.Expect != "kept(doors)" || e.Holds || e.Got == "" || len(e.Why) != 1 {
		t.Errorf("%s", text)
	}
}
