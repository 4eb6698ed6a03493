package ask_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/flight/geo"
	"knockon/internal/corvane"
	"knockon/ledger"
	"knockon/run"
	"knockon/scenario"
)

// TestLongEnough: a crew who find on the approach that the runway does not do go around
// to the one nearest to it that does, as one finds it who asks for each field in turn;
// from further out they turn there; and where it does they land.
func TestLongEnough(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	brakes := []string{"brake_channel_a", "brake_channel_b"}
	const short = "northern_link,surface=-10,runway=2"
	for _, x := range []struct {
		name   string
		fail   []string
		at     string
		flight string
		turns  []run.Manoeuvre
	}{
		{"on the approach", brakes, "approach", short, []run.Manoeuvre{run.GoAround, run.Land}},
		{"in the cruise", brakes, "cruise + 60 s", short, []run.Manoeuvre{run.Land}},
		{"another end of the same field", []string{"spoilers_inner", "spoilers_outer"}, "approach", short, []run.Manoeuvre{run.GoAround, run.Land}},
		{"a runway that does", brakes, "approach", "northern_link", nil},
		{"about to land", brakes, "final + 10 s", short, nil},
		// The speed that is added for the ice on the wing is in the distance that is flown.
		{"faster for ice", []string{"wing_heat_valve_left"}, "approach + 20 s", "short_hop,icing=0-9000,surface=0,runway=2", []run.Manoeuvre{run.GoAround, run.Land}},
	} {
		q := ask.Question{Crew: scenario.ByTheBook, Build: "second_series", Flight: x.flight, Fail: []scenario.Strike{{What: x.fail, At: x.at}}}
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		var turns []run.Manoeuvre
		for _, l := range a.Here.Turns {
			turns = append(turns, l.Leg.Do)
		}
		if !slices.Equal(turns, x.turns) {
			t.Errorf("%s: turns %v", x.name, turns)
		}
		if len(turns) > 0 && slices.Equal(turns, x.turns) {
			instead(t, desk, q, a.Here)
		}
	}
}

// instead asks for each field in the place of where a crew went, and holds the choice,
// and the sentence on it, against that.
func instead(t *testing.T, desk *ask.Desk, q ask.Question, r *run.Record) {
	t.Helper()
	leg := r.Turns[len(r.Turns)-1]
	if len(r.Turns) > 1 {
		q.Plan = []string{fmt.Sprintf("go_around @ %.6f s", r.Turns[0].At.Seconds())}
	}
	ident, runway := "QSVA", "17 of Vardholm"
	if strings.HasPrefix(q.Flight, "short_hop") {
		ident, runway = "QSLA", "10 of Little Ansa"
	}
	home, _ := islands(t).Find(ident)
	list := visits(t, desk, q, leg)
	from, nearest := home.Place, "the nearest to there"
	if len(r.Turns) > 1 { // it went around: near is what is near to the aircraft
		from, nearest = leg.Route.Track.From, "the nearest to where it turns"
	}
	for i, v := range list {
		f, _ := islands(t).Find(v.ident)
		if list[i].away = geo.Between(from, f.Place).Metres; f.Ident == home.Ident {
			list[i].away = 0
		}
	}
	if want := best(list); want.ident != leg.Route.Field || want.comes != leg.Route.Comes || want.comes != run.AsItShould {
		t.Errorf("to %s, which comes %d; asked in turn: %+v", leg.Route.Field, leg.Route.Comes, want)
	}
	if says := ledger.Turned(leg); !strings.Contains(says, "since runway "+runway+" does not suit it as it is") || !strings.Contains(says, nearest) {
		t.Error(says)
	}
	if f, ok := r.FuelAtTouchdown(); !ok || f.LeftKg < f.ReserveKg {
		t.Errorf("it lands with %+v", f)
	}
}
