package crew_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/crew/sight"
)

const gauges = `
unit "gauge" {
	fault "sticks" {}
}
indication "lies" {
	title = "Lies"
	shows = gauge.sticks ? true : a
	means = a
}
indication "good" {
	shows  = b
	means  = b
	lit_by = !held(!a, 40)
}
indication "dark" {
	shows  = c
	means  = b
	lit_by = a
}
indication "late" {
	shows = held(!a, 40) ? true : a
	means = a
}
indication "height" {
	title = "Height"
	shows = gauge.sticks ? 200000 : real.height_ft
	means = real.height_ft
}
`

// TestMisled_OnlyByWhatLies: a gauge is called a lie only where it shows wrong at that
// moment, and only where the choice would have been another with it right.
func TestMisled_OnlyByWhatLies(t *testing.T) {
	const lie = "Lies on, while off was true"
	for _, c := range []struct{ name, that, want string }{
		{"it is found out", "height > 100000\n compares = true", ""},
		{"it lies, and decides", "lies", lie},
		{"it lies, and another decides", "lies || good", ""},
		{"it lies, and a dark one does not help", "lies || dark", lie},
		{"two lie, and one is enough: the first is named if the other alone changes nothing", "lies || height > 100000 && !good", lie},
		{"it lies when nobody looks any more", "late", ""},
		{"it is dark when nobody looks any more", "good && height > 0", ""},
	} {
		tm := small(t, gauges+alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
			decide {
				that = `+c.that+`
				then {
					note { says = "one" }
				}
				unknown {
					note { says = "two" }
				}
			}
		}`)
		_, p := lines(t, tm, "air + 20 s", "a", "gauge.sticks")
		var got []string
		for _, n := range tm.Deceived(p) {
			if n.Kind == crew.Misled {
				got = append(got, n.Text)
			}
		}
		if (c.want == "") != (len(got) == 0) || len(got) > 0 && (!strings.Contains(got[0], c.want) || strings.Contains(got[0], "Height")) {
			t.Errorf("%s: %q", c.name, got)
		}
		judges(t, tm, p)
	}
}

// judges holds what a plan says that the crew saw wrong against the record: each gauge
// that is named is lit and shows something else than is true, and the answer would have
// been another with the truth of all of them, not with that of fewer. Where nothing is
// said the truth of what shows wrong would not have changed the way that was taken.
func judges(t *testing.T, tm *crew.Team, p *crew.Plan) {
	t.Helper()
	for _, l := range p.Lines {
		asks := (*book.Expr)(nil)
		if l.Kind == crew.StepLine && (l.Answer == crew.Yes || l.Answer == crew.No) {
			asks = crew.Question(l.Step)
		}
		if asks == nil || l.Step.Compares || strings.Contains(asks.String(), "called_by") {
			continue
		}
		eye := sight.Eye{Record: p.Record, At: l.To}
		i := slices.IndexFunc(p.Findings, func(f crew.Finding) bool { return f.Kind == crew.Misled && f.At == l.To && f.Step == l.Step })
		if i >= 0 {
			justly(t, eye, asks, p.Findings[i])
			continue
		}
		seen := eye.Answer(asks)
		eye.Told = eye.Wrong(asks)
		if right := eye.Answer(asks); right != seen && (seen == crew.Yes || right == crew.Yes || l.Step.Kind != "decide" || len(l.Step.Unknown) > 0) {
			t.Errorf("%s at %d: nothing is said of %v", asks, l.To, eye.Told)
		}
	}
}

// justly holds a finding against the record.
func justly(t *testing.T, eye sight.Eye, asks *book.Expr, f crew.Finding) {
	t.Helper()
	var named []*book.Indication
	for _, g := range f.Gauges {
		named = append(named, g.Of)
	}
	value := func(g *book.Indication, a circuit.Aspect) float64 {
		n, _ := eye.Record.Circuit().Node(circuit.Value{Item: g.ID, Aspect: a})
		return eye.Record.At(n, eye.At)
	}
	for _, g := range named {
		if value(g, circuit.Lit) == 0 || value(g, circuit.Main) == value(g, circuit.Means) {
			t.Errorf("%s at %d: %s is called wrong, and is not", asks, eye.At, g.ID)
		}
		eye.Told = slices.DeleteFunc(slices.Clone(named), func(o *book.Indication) bool { return o == g })
		if eye.Answer(asks) != f.Answer {
			t.Errorf("%s at %d: %s is named for nothing", asks, eye.At, g.ID)
		}
	}
	eye.Told = named
	if right := eye.Answer(asks); len(named) == 0 || right == f.Answer || right != f.Right {
		t.Errorf("%s at %d: the answer would have been %q all the same", asks, eye.At, right)
	}
}
