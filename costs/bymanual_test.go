package costs

import (
	"bytes"
	"context"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/demo"
	"knockon/flight/roll"
	"knockon/run"
)

// changed is the first build of the demonstration with something else in one of its
// files, and with a further file.
func changed(t *testing.T, file, old, new, more string) *run.Course {
	t.Helper()
	files := fstest.MapFS{"99-more.hcl": {Data: []byte(more)}}
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(name, "claims/") {
			return err
		}
		text, err := fs.ReadFile(demo.Book(), name)
		if name == file {
			if !bytes.Contains(text, []byte(old)) {
				t.Fatalf("%s does not have %q", file, old)
			}
			text = bytes.Replace(text, []byte(old), []byte(new), 1)
		}
		files[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	b, problems := book.Load(context.Background(), files)
	if b == nil {
		t.Fatal(problems)
	}
	build, _ := b.Build("")
	c, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// withRows is a manual whose landing distance is so many metres at 20 t and as many
// again at 40 t, on code 6, in the setting in which the demonstration lands.
const withRows = `
performance "manual" {
  source = "invented"
  landing "full" {
    columns = ["code", "altitude_ft", "mass_kg", "headwind_kt", "distance_m"]
    rows = [
      [6, -2000, 20000, -60, 550], [6, -2000, 20000, 90, 550], [6, -2000, 40000, -60, 1100], [6, -2000, 40000, 90, 1100],
      [6, 9000, 20000, -60, 550], [6, 9000, 20000, 90, 550], [6, 9000, 40000, -60, 1100], [6, 9000, 40000, 90, 1100],
    ]
  }
  factor "no_reverse" {
    when          = !reverse_left
    landing_ratio = 1.5
    adds_m        = 100
  }
}
`

func TestCosts_TheLargerDistanceDecides(t *testing.T) {
	c := changed(t, "", "", "", withRows)
	s := failing("cruise", 60, "engine_left")
	got := price(t, c, islands(t), s, 0)
	rows, forces, silent := 0, 0, 0
	for _, p := range got.Places {
		for _, side := range []*Side{&p.Failed, &p.Healthy} {
			for i := range side.Landings {
				l := &side.Landings[i]
				down, _, _ := side.Path().Touchdown()
				ratio, metres := 1.0, 0.0
				if effect(side.record, "reverse_left", down) == 0 {
					ratio, metres = 1.5, 100
				}
				if manual := effect(side.record, ratioEffect, down); manual != 0 {
					ratio *= manual
				}
				if l.Code != 6 || setting(side.record, down) != "full" {
					if silent++; l.ManualM != 0 || l.Code != noLanding && l.Unsaid == nil {
						t.Errorf("%s %s: without rows the manual says %g m, %v", p.Airfield.Ident, l.End, l.ManualM, l.Unsaid)
					}
					continue
				}
				if rows++; math.Abs(l.ManualM-1.15*(side.MassKg/20000*550*ratio+metres)) > 1e-6 {
					t.Errorf("%s %s: the manual says %g m for %g kg and %g", p.Airfield.Ident, l.End, l.ManualM, side.MassKg, ratio)
				}
				if l.RequiredM > l.ManualM {
					forces++
				}
				if l.NeedsM() != max(l.RequiredM, l.ManualM) || l.MarginM() != l.AvailableM-l.NeedsM() {
					t.Errorf("%s %s: %g m of %g and %g", p.Airfield.Ident, l.End, l.NeedsM(), l.RequiredM, l.ManualM)
				}
				short := false
				for _, r := range l.reasons() {
					short = short || r.Kind == Length
				}
				if short != (!l.Stops || l.NeedsM() > l.AvailableM) {
					t.Errorf("%s %s: needs %g of %g m: %v", p.Airfield.Ident, l.End, l.NeedsM(), l.AvailableM, l.reasons())
				}
			}
		}
	}
	if rows < 20 || silent < 2 || forces == 0 || forces == rows {
		t.Errorf("%d landings by rows, %d longer by forces, %d without rows", rows, forces, silent)
	}
}

// The factor of the demonstration's effect decides where it is the larger.
func TestCosts_TheFactorOfTheManualDecides(t *testing.T) {
	c := changed(t, "07-effects.hcl", `value = (flaps_move`, `value = true ? 9 : (flaps_move`, "")
	p := placeNamed(t, price(t, c, islands(t), failing("cruise", 60, "tr_right"), 0), "QSKE")
	l, h := &p.Failed.Landings[0], &p.Healthy.Landings[0]
	if want := roll.AtArrival(9 * h.DistanceM); l.End == h.End && l.ManualM != want {
		t.Errorf("by the manual %g m, want %g", l.ManualM, want)
	}
	if !has(&p.Failed, Length) || !strings.Contains(p.Failed.Reasons[len(p.Failed.Reasons)-1].Text+p.Failed.Reasons[0].Text, "by the manual") {
		t.Errorf("a factor of 9 decides nothing: %v", p.Failed.Reasons)
	}
	v := l.view()
	if v.Decides != "manual" || v.RequiredM != round(l.RequiredM, 0) || v.ManualM != round(l.ManualM, 0) {
		t.Errorf("both are not shown: %+v", v)
	}
}

// TestCosts_TheEndIsChosenWithTheManual: by forces the long runway of QSTO leaves
// most, by a factor of 1.945 it is too short and the short one, into the wind, is
// not. So the field is good, on that; and until when says of every moment what the
// price of that moment says.
func TestCosts_TheEndIsChosenWithTheManual(t *testing.T) {
	c, g := changed(t, "07-effects.hcl", `value = (flaps_move`, `value = !brake_left ? 1.945 : (flaps_move`, ""), islands(t)
	s := failing("cruise", 900, "brake_left")
	got := price(t, c, g, s, 0)
	p := placeNamed(t, got, "QSTO")
	if l := p.Failed.Landings[0]; l.End != "32" || !p.Failed.Good() || l.ManualM <= l.RequiredM {
		t.Errorf("runway %s, needs %g m, by the manual %g: %v", l.End, l.RequiredM, l.ManualM, p.Failed.Reasons)
	}
	byManual := 0
	for _, p := range got.Places {
		for _, s := range []*Side{&p.Failed, &p.Healthy} {
			for i := range s.Landings {
				if s.Landings[i].better(&s.Landings[0]) {
					t.Errorf("%s: %s is better than %s", p.Airfield.Ident, s.Landings[i].End, s.Landings[0].End)
				}
			}
		}
		w := &watch{c: &Costs{desk: got.desk}, region: g, q: Question{Scenario: s, Rule: got.Rule, Whole: got.desk.whole}, at: map[book.Time]*Costs{}}
		side, err := w.side(context.Background(), p.Airfield.Ident, got.At)
		if err != nil || !slices.Equal(side.Reasons, p.Failed.Reasons) {
			t.Errorf("%s: %v, until when %v, %v", p.Airfield.Ident, p.Failed.Reasons, side.Reasons, err)
		}
		if !p.Failed.Good() && strings.HasSuffix(p.Failed.Reasons[0].Text, " m") && strings.Contains(p.Failed.Reasons[0].Text, "by the manual") {
			byManual++
		}
	}
	if byManual == 0 {
		t.Error("no field is lost by the manual alone: the test shows nothing")
	}
}

// manualRatio is all that the demonstration says of its manual's own factor.
const manualRatio = `value = (flaps_move || flaps_at == "full") && brakes_normal && antiskid && ground_spoilers && reverse_left && reverse_right ? 0 : (flaps_move || flaps_at == "full" ? 1 : flaps_at == "middle" ? 1.2 : flaps_at == "slight" ? 1.4 : 1.7) * (
  !brakes_normal ? 1.95 : !antiskid ? 1.7 : !ground_spoilers ? 1.3 : reverse_left && reverse_right ? 1 : 1.15)`

// TestCosts_TheManualIsNotShorterThanTheStop: whatever two things fail that stop the
// aircraft or slow its approach, its manual asks for no less than the stop takes without
// any margin, on a runway of code 5 or 6 with 10 kt from behind at most: it is what such
// a table is made for (common practice), and what makes an approach faster multiplies
// what brakes less.
func TestCosts_TheManualIsNotShorterThanTheStop(t *testing.T) {
	c, g := courseOf(t, ""), islands(t)
	what := []string{"flap_computer_1", "brake_channel_a", "brake_channel_b", "spoilers_inner", "reservoir_right", "reservoir_left", "dc_left", "dc_right"}
	said, two := 0, 0
	for i, a := range what {
		for _, b := range what[i+1:] {
			for _, p := range price(t, c, g, failing("descent", 200, a, b), 0).Places {
				down, _, _ := p.Failed.Path().Touchdown()
				if len(p.Failed.Landings) == 0 {
					continue
				}
				l := p.Failed.Landings[0]
				if l.ManualM == 0 || !l.Stops || l.Code < 5 || l.Input.Runway.HeadwindKt < -10 {
					continue
				}
				if said++; effect(p.Failed.record, ratioEffect, down) > 2 {
					two++
				}
				if l.ManualM < l.DistanceM {
					t.Errorf("%s, %s: %s %s takes %g m, by the manual %g", a, b, p.Airfield.Ident, l.End, l.DistanceM, l.ManualM)
				}
			}
		}
	}
	if said < 100 || two == 0 {
		t.Errorf("%d landings by the manual, %d by two factors: the test shows nothing", said, two)
	}
}

// TestCosts_MetresAlone: a factor that adds metres counts once, on the distance with
// nothing failed, and only for the aircraft that failed; a failure that no factor
// speaks of leaves the manual silent.
func TestCosts_MetresAlone(t *testing.T) {
	const adds = `performance "manual" {
  source = "invented"
  factor "slow" {
    when   = !brake_left
    adds_m = 100
  }
}
`
	c := changed(t, "07-effects.hcl", manualRatio, "value = 0", adds)
	both := failing("cruise", 60, "engine_left")
	both.Inoperative = []book.FailureRef{{Unit: "brake_left"}}
	for name, x := range map[string]struct {
		s       run.Scenario
		manuals bool
	}{"a brake": {failing("cruise", 60, "brake_left"), true}, "an engine": {failing("cruise", 60, "engine_left"), false}, "an engine, a brake out before": {both, true}} {
		for _, p := range price(t, c, islands(t), x.s, 2).Places {
			for _, l := range p.Failed.Landings {
				for _, h := range p.Healthy.Landings {
					if h.ManualM != 0 {
						t.Errorf("%s: %s %s: with nothing failed %g m by the manual", name, p.Airfield.Ident, h.End, h.ManualM)
					}
					if want := roll.AtArrival(h.DistanceM + 100); h.End == l.End && (!x.manuals && l.ManualM != 0 || x.manuals && math.Abs(l.ManualM-want) > 1e-6) {
						t.Errorf("%s: %s %s: %g m by the manual, want %g", name, p.Airfield.Ident, l.End, l.ManualM, want)
					}
				}
			}
		}
	}
}

// TestManual_WithoutALandingToCountFrom says nothing.
func TestManual_WithoutALandingToCountFrom(t *testing.T) {
	c := courseOf(t, "")
	r, err := c.Fly(context.Background(), failing("cruise", 60, "brake_left"))
	if err != nil {
		t.Fatal(err)
	}
	down := r.End
	if effect(r, ratioEffect, down) != 1.95 {
		t.Fatal("the factor does not stand")
	}
	failed, healthy, d := &Side{record: r}, good(), &desk{course: c}
	for _, x := range []struct {
		stops bool
		end   string
		want  float64
	}{{true, "17", 1300}, {false, "17", 0}, {true, "35", 0}} {
		healthy.Landings[0].Stops = x.stops
		if m, err := d.manualM(failed, &healthy, &Landing{End: x.end}, down); err != nil || m != x.want {
			t.Errorf("stops %v, end %s: %g m, %v; want %g", x.stops, x.end, m, err, x.want)
		}
	}
}

// Without the number for its drag a gear that stays down is not free: the place is
// not worked out, and the line of the effect is named. With the number it is
// worked out.
func TestCosts_ALackingNumberIsNamed(t *testing.T) {
	const effect = "what gear_out does: the aircraft block does not give gear_drag_ratio (07-effects.hcl:"
	s := failing("lift_off", 0, "gear_valve")
	for _, lacks := range []bool{true, false} {
		c := courseOf(t, "")
		if lacks {
			c = changed(t, "00-aircraft.hcl", "  gear_drag_ratio           = 0.04\n", "", "")
		}
		at, err := c.Resolve(context.Background(), book.Moment{Phase: "cruise"})
		if err != nil {
			t.Fatal(err)
		}
		got := priceAt(t, c, islands(t), s, at, 0)
		judged, missing := 0, 0
		for _, p := range got.Places {
			named := len(p.Failed.Lacking) == 1 && strings.HasPrefix(p.Failed.Lacking[0], effect)
			if named != lacks || lacks && p.Failed.Good() || len(p.Healthy.Lacking) > 0 {
				t.Errorf("lacks %v: %s: %v, %v", lacks, p.Airfield.Ident, p.Failed.Lacking, p.Failed.Reasons)
			}
			if p.Failed.Good() {
				judged++
			}
			if p.Failed.Reasons != nil && p.Failed.Reasons[0].Kind == Lacking {
				missing++
			}
		}
		var text strings.Builder
		if err := WriteText(&text, got.View("")); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(text.String(), "not worked out: "+effect) != lacks || strings.Contains(text.String(), "not worked out for want of a number") != lacks {
			t.Errorf("lacks %v:\n%s", lacks, text.String())
		}
		if lacks == (missing == 0) || lacks == (judged > 0) {
			t.Errorf("lacks %v: %d are judged good, %d lack a number", lacks, judged, missing)
		}
	}
}

func filesOf(text string) fs.FS { return fstest.MapFS{"book.hcl": {Data: []byte(text)}} }
