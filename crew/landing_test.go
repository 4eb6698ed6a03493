package crew_test

import (
	"math"
	"slices"
	"testing"

	"knockon/book"
	"knockon/crew"
)

// TestAboutToLand: coming down below begin_above_ft nothing is begun that can wait
// for the ground: a caution's list comes after the landing, a warning's and one that
// goes around at once, and what was left for a phase is done without its briefing.
func TestAboutToLand(t *testing.T) {
	const low = "!a && real.height_ft < 1200"
	memory := `procedure "x_list" {
		do {
			set         = left
			to          = "off"
			from_memory = true
		}
		note { says = "one" }
	}
	`
	around := `procedure "x_list" {
		note {
			says = "one"
			leg  = "go_around"
		}
	}
	`
	left := `phase "short" { begins = down && real.height_ft < 1200 }
	procedure "x_list" {
		later {
			in = short
			note { says = "one" }
		}
	}
	`
	ground := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "on_ground" })
	for _, c := range []struct {
		name, book string
		kinds      []crew.LineKind
		ground     []bool // line by line
	}{
		{"a caution", alert("x", "caution", low, "x_list") + note("x_list"), []crew.LineKind{"list", "step"}, []bool{true, true}},
		{"a warning", alert("x", "warning", low, "x_list") + note("x_list"), []crew.LineKind{"list", "step", "radio"}, []bool{false, false, false}},
		{"memory items of a caution", alert("x", "caution", low, "x_list") + memory, []crew.LineKind{"step", "list", "step"}, []bool{false, true, true}},
		{"to go around", alert("x", "caution", low, "x_list") + around, []crew.LineKind{"list", "step"}, []bool{false, false}},
		{"left for a phase that begins too low", alert("x", "caution", "!a", "x_list") + left, []crew.LineKind{"list", "step", "step"}, []bool{false, false, false}},
		{"a caution that goes", alert("x", "caution", low+" && real.height_ft > 600", "x_list") + note("x_list"), nil, nil},
	} {
		pace := round()
		pace.BeginAboveFt = 1750
		tm := paced(t, frame+c.book, pace)
		_, p := lines(t, tm, "down + 20 s", "a")
		var kinds []crew.LineKind
		var down []bool
		for _, l := range p.Lines {
			kinds, down = append(kinds, l.Kind), append(down, p.Record.Path().Value(ground, l.From) != 0)
		}
		if !slices.Equal(kinds, c.kinds) || !slices.Equal(down, c.ground) {
			t.Errorf("%s: %v, on the ground %v", c.name, kinds, down)
		}
	}
}

// TestDefaultPace_AboutToLand: 3 degrees at 140 kt are 743 ft/min. From 1,750 ft a
// briefing of a minute is over above 1,000 ft, by which height an approach is to be
// stable (common practice), and touchdown is more than two minutes away.
func TestDefaultPace_AboutToLand(t *testing.T) {
	p := crew.DefaultPace()
	sink := 140 * 6076.12 / 60 * math.Tan(3*math.Pi/180) // ft/min
	if over := p.BeginAboveFt - sink*p.BriefS/60; over < 1000 || over > 1050 {
		t.Errorf("a briefing is over at %.0f ft", over)
	}
	if left := p.BeginAboveFt / sink * 60; left < 120 || left > 150 {
		t.Errorf("%.0f s are left", left)
	}
}
