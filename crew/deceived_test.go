package crew_test

import (
	"context"
	"strings"
	"testing"

	"knockon/circuit"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestDeceived_ByAnAltimeter: static ports that close in the climb leave the left
// altimeter where it was. When a generator goes in the cruise, at 34,000 ft, the
// crew see that they are below 25,000 ft and start the APU, which does not light.
// With the altimeter right they wait, and start it when it shows 25,000 ft.
func TestDeceived_ByAnAltimeter(t *testing.T) {
	b := corvane.Build(t, "")
	tm := team(t, b, "northern_link", crew.Setting{})
	s := failing(t, b, "cruise + 60 s", "gen_left")
	right := flown(t, tm, s)
	lied := s
	lied.Strikes = append(failing(t, b, "climb + 60 s", "static_left.blocked").Strikes, s.Strikes...)
	wrong := flown(t, tm, lied)
	if got := tm.Deceived(right); len(got) > 0 {
		t.Errorf("with a right altimeter: %+v", got)
	}
	started := func(p *crew.Plan) (ft float64) {
		for _, l := range p.Lines {
			if l.Control == "apu_switch" && l.Position == "run" {
				n, _ := p.Record.Circuit().Node(circuit.Value{Item: "altitude_3_readout"})
				return p.Record.At(n, l.From)
			}
		}
		t.Error("the APU is not started")
		return 0
	}
	if ft := started(right); ft > 25000 || ft < 24000 {
		t.Errorf("with a right altimeter it is started at %.0f ft", ft)
	}
	if ft := started(wrong); ft < 33999 {
		t.Errorf("with a wrong one at %.0f ft", ft)
	}
	notes := tm.Deceived(wrong)
	const want = `ft, while 34,000 ft was true: they answered yes and went on with "APU switch: run", not with "Below 25,000 ft, not before"`
	if len(notes) == 0 || notes[0].Kind != crew.Misled || !strings.HasSuffix(notes[0].Text, want) || !strings.Contains(notes[0].Text, "Left altitude at ") {
		t.Errorf("%+v", notes)
	}
	if called(wrong, "apu_no_start") == 0 || called(right, "apu_no_start") != 0 {
		t.Errorf("APU did not start: %d and %d times", called(wrong, "apu_no_start"), called(right, "apu_no_start"))
	}
}

func flown(t *testing.T, tm *crew.Team, s run.Scenario) *crew.Plan {
	t.Helper()
	p, err := tm.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func called(p *crew.Plan, alert string) (n int) {
	for _, c := range p.Calls {
		if c.Alert.ID == alert {
			n++
		}
	}
	return n
}
