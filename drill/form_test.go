package drill_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/drill"
	"knockon/internal/corvane/islands"
	"knockon/region"
	"knockon/run"
	"knockon/say"
)

// TestDebrief_OpensWithWhatWentWell and names at most two things to improve, each with
// its cost; what was not reached is said to be so.
func TestDebrief_Form(t *testing.T) {
	call := drill.Input{Do: drill.Call, ID: "water_list"}
	for name, c := range map[string]struct {
		fail    []string
		do      func(*trainee)
		to      float64
		well    string
		improve []string // happened | cost
	}{
		"done in time": {[]string{"a"}, func(p *trainee) {
			p.as(drill.Alone, 5, call)
			p.as(drill.Alone, 14, move("left", "off"))
		}, 60, "Left switch was moved to off at 1:57, as the list asks; without that there would have been: warning “WATER” sounding 4 times more.", nil},
		"done in time, to no effect yet": {[]string{"a"}, func(p *trainee) {
			p.as(drill.Alone, 5, call)
			p.as(drill.Alone, 14, move("left", "off"))
		}, 25, "1 of 1 step that a crew by the book do up to 2:08 was done in time and in order; nothing more would have been lost without.", nil},
		"in hand, and no more": {[]string{"a"}, func(p *trainee) { p.as(drill.Alone, 5, call) }, 16,
			"“WATER” was answered 5 s after it came, where a crew by the book begin with it after 3 s; nothing that was moved as the lists ask kept anything from being lost.", nil},
		"nobody does anything": {[]string{"a"}, func(p *trainee) {}, 90, "",
			[]string{"Of the list “Water low”, “Left switch: off” was left out.|Warning “WATER” sounding 7 times more."}},
		"a switch that nobody asks for": {[]string{"b"}, func(p *trainee) {
			p.as(drill.Alone, 20, move("left", "off"))
			p.as(drill.Alone, 50, move("left", "on"))
		}, 90, "", []string{"Left switch was moved to off at 2:03 and to on at 2:33; no line that a crew by the book do up to 3:13 asks for that.|Water lost from 2:03 to 2:33."}},
		"what nobody looks at": {[]string{"c"}, func(p *trainee) {}, 900, "",
			[]string{"Nobody looked at Light seen while Light was lost.|It went unknown for 15 min 00 s."}},
		"nothing happens": {nil, func(p *trainee) {}, 90, "", nil},
	} {
		t.Run(name, func(t *testing.T) {
			p := small(t, c.fail...)
			c.do(p)
			d := p.debrief(c.to)
			var got []string
			for _, x := range d.Improve {
				got = append(got, x.Happened+"|"+x.Cost)
				if x.Saw == "" || x.True == "" || !strings.HasSuffix(x.Ask, "?") || !strings.HasPrefix(x.Ask, "What") {
					t.Errorf("not in the form: %+v", x)
				}
			}
			if d.Well != c.well || !slices.Equal(got, c.improve) {
				t.Errorf("well: %s\nwant: %s\nimprove: %q\nwant: %q", d.Well, c.well, got, c.improve)
			}
		})
	}
}

// TestDebrief_NotReached: of what lies behind the end of the drill nothing is said but
// that it was not reached.
func TestDebrief_NotReached(t *testing.T) {
	p := smallWith(t, "", drill.Script{Fail: []drill.Strike{{What: []string{"a"}, At: "air + 60 s"}, {What: []string{"b"}, At: "air + 200 s"}}})
	d := p.debrief(10)
	want := []string{"Fan, which fails at 4:03.", "2 steps of a crew by the book: “Left switch: off” at 2:00 and “Spare switch: off” at 8:43.", "The flight from 1:53, in air, to its end."}
	if !slices.Equal(d.Beyond, want) {
		t.Errorf("not reached: %q", d.Beyond)
	}
	if d.Heading != "Pump failed at 1:43." || strings.Contains(fmt.Sprint(d.Events, d.Alerts, d.Steps, d.ThisRun, d.BestRun), "Fan") {
		t.Errorf("what lies beyond is told: %+v", d)
	}
	if end := p.debrief(1e6); len(end.Beyond) != 0 || end.Heading != "Pump failed at 1:43 and Fan failed at 4:03." {
		t.Errorf("at the end of the flight: %q %q", end.Heading, end.Beyond)
	}
}

// TestDebrief_ACostIsTrue: random drills of the demonstration; what a debrief says that
// something cost is held against plain flights with and without it, looked at every half
// second.
func TestDebrief_ACostIsTrue(t *testing.T) {
	d := deck(t, "northern_link")
	chance := rand.New(rand.NewPCG(4, 7))
	said := 0
	for _, unit := range []string{"gen_left", "tr_right", "dc_left", "gen_right", "duct_left", "ac_left"} {
		if _, ok := d.Build().Item(unit); !ok {
			t.Fatal(unit)
		}
		s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{unit}, At: "cruise + 60 s"}}})
		from, err := d.Course().Resolve(context.Background(), book.Moment{Phase: "cruise", Offset: 60 * book.Second})
		if err != nil {
			t.Fatal(err)
		}
		p := &trainee{t: t, s: s, build: d.Build(), from: from}
		for i := range 6 {
			c := d.Build().Controls[chance.IntN(len(d.Build().Controls))]
			p.at(float64(20+40*i), move(c.ID, c.Positions[chance.IntN(len(c.Positions))]))
		}
		v := p.debrief(900)
		for _, x := range v.Improve {
			said += p.costs(d.Course(), v, x)
		}
		if len(v.Improve) > 2 {
			t.Errorf("%d to improve", len(v.Improve))
		}
	}
	if said < 5 {
		t.Errorf("only %d losses were named: the test shows little", said)
	}
}

var (
	aMove = regexp.MustCompile(`to ([a-z0-9 ]+) at (\d+:\d\d)`)
)

// costs holds what a thing to improve is said to have cost against the plain flight
// without it, and gives how many losses that were.
func (p *trainee) costs(course *run.Course, v *drill.Debrief, x drill.Improve) (n int) {
	p.t.Helper()
	other := p.s.Flown()
	if strings.HasPrefix(x.Happened, "Nobody looked") {
		return 0
	}
	if other.Actions = p.without(v, x.Happened); strings.HasPrefix(x.Happened, "The flight went on") {
		other.Plan = p.turns()
	}
	if fmt.Sprint(other.Actions, other.Plan) == fmt.Sprint(p.s.Flown().Actions, p.s.Flown().Plan) {
		p.t.Errorf("%q names nothing that was moved, or left out", x.Happened)
	}
	drilled, otherwise := p.flown(course, p.s.Flown()), p.flown(course, other)
	for _, f := range p.build.Functions {
		m := regexp.MustCompile(`(?i)(?:^|[,;] | and )` + regexp.QuoteMeta(f.Title) + ` lost (?:from|when it was called for, at|for) (?:(\d+):(\d\d)(?: to (\d+):(\d\d))?|(?:(\d+) min )?(\d+) s longer)(?:[.,;]| and )`).FindStringSubmatch(x.Cost)
		if m == nil {
			continue
		}
		n++
		with, without := drilled.missed(f, p.s.Now()), otherwise.missed(f, p.s.Now())
		ok := len(with) > 0 && len(without) <= 4
		switch {
		case m[6] != "":
			ok = len(without) > 0 && near(book.Time(len(with)-len(without))*book.Second/2, "0"+m[5], m[6])
		case ok && m[3] != "":
			ok = near(with[0], m[1], m[2]) && near(with[len(with)-1], m[3], m[4])
		case ok:
			ok = near(with[0], m[1], m[2])
		}
		if !ok {
			p.t.Errorf("%q in %q: lost at %v in the drill, and at %v otherwise", m[0], x.Cost, with, without)
		}
	}
	return n
}

// near says that a moment is within a second of minutes and seconds.
func near(at book.Time, minutes, seconds string) bool {
	var m, s float64
	fmt.Sscan(minutes+" "+seconds, &m, &s)
	d := at.Seconds() - 60*m - s
	return d > -1.6 && d < 1.6
}

// without is what was moved without what a sentence blames, and with what it says was
// left out or late, at the moment of the crew by the book.
func (p *trainee) without(v *drill.Debrief, happened string) []run.Action {
	moves := slices.Clone(p.s.Flown().Actions)
	undo := func(control, to string, at string) {
		moves = slices.DeleteFunc(moves, func(a run.Action) bool {
			return a.Control == control && strings.ReplaceAll(a.Position, "_", " ") == to && say.Clock(a.At.Offset-1) == at
		})
	}
	for _, o := range v.Others {
		if strings.HasPrefix(happened, o.Title+" was moved ") {
			for _, m := range aMove.FindAllStringSubmatch(happened, -1) {
				undo(o.Control, m[1], m[2])
			}
		}
	}
	for _, x := range v.Steps {
		control, to, _ := strings.Cut(x.Moves, "=")
		if !strings.HasPrefix(happened, "Of the list “"+x.Procedure+"”") || x.At != nil && x.LateS < 10 || x.Already {
			continue
		}
		if x.At != nil {
			undo(control, strings.ReplaceAll(to, "_", " "), x.At.Clock)
		}
		moves = append(moves, run.Action{Control: control, Position: to, At: book.Moment{Offset: book.AtSeconds(x.Best.TimeS)}})
	}
	return moves
}

// turns is where a crew by the book turn the flight up to the end of the drill.
func (p *trainee) turns() (legs []run.Leg) {
	p.t.Helper()
	f, err := p.build.FlightNamed(p.s.Script().Flight)
	if err != nil {
		p.t.Fatal(err)
	}
	team, err := crew.NewTeam(p.build, f, crew.Setting{Run: run.Setting{Router: region.Router{Region: islands.Region(p.t)}}})
	if err != nil {
		p.t.Fatal(err)
	}
	asked := p.s.Flown()
	asked.Actions, asked.Plan = nil, nil
	plan, err := team.Fly(context.Background(), asked)
	if err != nil {
		p.t.Fatal(err)
	}
	for _, x := range plan.Record.Turns {
		if x.At <= p.s.Now() {
			legs = append(legs, x.Leg)
		}
	}
	return legs
}

// pair is a flight and the one that it is compared with.
type pair struct{ here, there *run.Record }

func (p *trainee) flown(course *run.Course, s run.Scenario) pair {
	p.t.Helper()
	here, err := course.Fly(context.Background(), s)
	if err != nil {
		p.t.Fatal(err)
	}
	there, err := course.Beside(context.Background(), here)
	if err != nil {
		p.t.Fatal(err)
	}
	return pair{here, there}
}

// missed lists the half seconds up to a moment at which a function is lost while it is
// called for.
func (r pair) missed(f *book.Function, end book.Time) (list []book.Time) {
	works, _ := r.here.Circuit().Node(circuit.Value{Item: f.ID})
	wanted, _ := r.here.Circuit().Node(circuit.Value{Item: f.ID, Aspect: circuit.Wanted})
	for at := book.Time(0); at < min(end, r.here.End, r.there.End); at += book.Second / 2 {
		if r.here.At(works, at) == 0 && r.there.At(works, at) != 0 && r.here.At(wanted, at) != 0 {
			list = append(list, at)
		}
	}
	return list
}
