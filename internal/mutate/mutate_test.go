package mutate

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/claim"
	"knockon/flight"
)

const toy = `
aircraft "toy" {
  title           = "Toy"
  alerts_given_by = computer
  reserve_min     = 5
}
phase "ground" {}
phase "climb" { begins = real.time_s >= 100 }
phase "cruise" { begins = real.time_s >= 200 }
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
unit "computer" {}
unit "pump" {}
unit "spare" { needs = power }
unit "power" {}
control "valve" {
  positions = ["open", "shut"]
  initial   = "open"
}
function "brakes" { works = pump }
function "pressure" { works = pump || spare }
function "slides" { works = pump }
function "steering" { works = pump }
alert "low" {
  level    = "caution"
  message  = "Low"
  when     = held(!pump, 5)
  quiet_in = [climb]
  tells    = [brakes]
}
alert "none" {
  level   = "caution"
  message = "None"
  when    = !pump && !spare
}
indication "lamp" {
  shows  = true
  means  = steering
  lit_by = power
}
indication "gauge" {
  shows = pump
  means = pump
  tells = [slides]
}
`

func given(id, given, expect string) string {
	return "claim \"" + id + "\" {\n says = \"So.\"\n source = \"Manual\"\n given {\n" + given + "\n}\n expect = [" + expect + "]\n}\n"
}

const pump = "fail = [pump]\nat = \"120 s\""

func verdicts(t *testing.T, text string) []Verdict {
	t.Helper()
	v, err := Claims(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestClaims_EveryKindOfExpectationCanBeKilled(t *testing.T) {
	for _, c := range []struct{ expect, killer string }{
		{"lost(brakes)", "function brakes: works: pump becomes true"},
		{"kept(pressure)", "function pressure: works: pump || spare becomes pump"},
		{"told_late(brakes)", "alert low: no quiet_in"},
		{"!told(brakes)", "alert low: no quiet_in"},
		{"not_told(slides) || only_shown(slides)", "works: pump becomes true"},
		{"only_shown(slides)", "indication gauge: no longer covers slides"},
		{"told_wrong(steering)", "indication lamp: shows = steering"},
		{"told_wrong(lamp)", "indication lamp: shows = steering"},
		{"held_back(low)", "alert low: no quiet_in"},
		{"given(low)", "alert low: "},
		{"never_given(none)", "alert none: "},
		{"first(low) == 80", "alert low: "},
		{"in_phase(climb, !low)", "alert low: "},
		{"at(10, spare)", "unit spare: needs: power becomes false"},
		{"always(power)", "unit power: needs = true && !failed(pump)"},
		{"at(10, valve == \"open\")", "control valve: initial = \"shut\""},
	} {
		v := verdicts(t, toy+given("it", pump, c.expect))[0]
		if !v.Holds || !strings.Contains(v.Killer, c.killer) || len(v.Weak()) != 0 {
			t.Errorf("%s: holds %v, killer %q, want %q", c.expect, v.Holds, v.Killer, c.killer)
		}
		if !strings.HasPrefix(v.Killer, "book.hcl:") {
			t.Errorf("%s: the killer has no place: %s", c.expect, v.Killer)
		}
	}
}

func TestClaims_FindsWhatCannotFail(t *testing.T) {
	v := verdicts(t, toy+
		given("empty", pump, "at(0, !pump)")+
		given("half_empty", pump, "at(0, !pump), lost(brakes)")+
		given("wrong", pump, "kept(brakes)"))
	if v[0].Killer != "" || len(v[0].Weak()) != 1 || v[0].Tried == 0 {
		t.Errorf("a claim that says nothing was killed by %q after %d tries", v[0].Killer, v[0].Tried)
	}
	if v[1].Killer == "" || len(v[1].Weak()) != 1 || v[1].Weak()[0].Expect.String() != "at(0, !pump)" {
		t.Errorf("%+v", v[1])
	}
	if v[2].Holds || v[2].Tried != 0 {
		t.Errorf("a claim that does not hold was worked on: %+v", v[2])
	}
}

func TestClaims_SameBookSameVerdicts(t *testing.T) {
	text := toy + given("one", pump, "lost(brakes), kept(pressure)") + given("two", pump, "told_late(brakes)") + given("three", pump, "given(low)")
	first := verdicts(t, text)
	for range 3 {
		for i, v := range verdicts(t, text) {
			if v.Claim.ID != first[i].Claim.ID || v.Killer != first[i].Killer || v.Tried != first[i].Tried {
				t.Fatalf("%+v\n%+v", v, first[i])
			}
		}
	}
}

// What was broken is mended: after all tries the book is what it was.
func TestBench_MendsTheBook(t *testing.T) {
	ctx := context.Background()
	text := toy + given("one", pump, "lost(brakes), at(0, !pump), kept(pressure), told_late(brakes), first(low) == 80")
	b, diags := book.Load(ctx, fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if b == nil {
		t.Fatal(diags)
	}
	build, _ := b.Build("")
	w := &bench{book: b, claims: claim.All(b), paths: map[string]flight.Path{}}
	before := everything(build)
	w.verdict(ctx, w.claims[0])
	if after := everything(build); after != before {
		t.Errorf("before\n%s\nafter\n%s", before, after)
	}
	n := 0
	for _, g := range w.claims[0].Given {
		for _, e := range g.Expect {
			for _, m := range candidates(build, g, e) {
				mend := m.apply()
				if everything(build) != before {
					n++
				}
				mend()
				if everything(build) != before {
					t.Fatalf("%s is not mended", m)
				}
			}
		}
	}
	if n < 50 {
		t.Errorf("only %d mutations change what the book says", n)
	}
}

// everything writes down all that mutations touch.
func everything(b *book.Build) string {
	var w strings.Builder
	for _, a := range b.Alerts {
		w.WriteString(strings.Join(a.Tells, " ") + "/" + strings.Join(a.QuietIn, " ") + "\n")
	}
	for _, i := range b.Indications {
		w.WriteString(strings.Join(i.Tells, " ") + "\n")
	}
	for _, c := range b.Controls {
		w.WriteString(c.Initial + "\n")
	}
	for _, list := range [][]book.Item{items(b.Units), items(b.Functions), items(b.Alerts), items(b.Indications), items(b.Phases)} {
		for _, item := range list {
			for _, l := range lines(item) {
				if *l.at != nil {
					w.WriteString(item.Named().ID + " " + l.word + " " + (*l.at).String() + "\n")
				}
			}
		}
	}
	return w.String()
}

func items[T book.Item](list []T) (all []book.Item) {
	for _, i := range list {
		all = append(all, i)
	}
	return all
}

func TestClaims_BookThatDoesNotLoad(t *testing.T) {
	if _, err := Claims(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte("unit {")}}, 1); err == nil {
		t.Error("no error")
	}
}
