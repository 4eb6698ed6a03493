package ask_test

import (
	"cmp"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/crew"
	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
)

// questions is how many random ones are asked; KNOCKON_QUESTIONS says another number.
func questions(t *testing.T) int {
	t.Helper()
	n, err := strconv.Atoi(os.Getenv("KNOCKON_QUESTIONS"))
	if err != nil {
		return 30
	}
	return n
}

// TestOneRun: of a question with a crew by the book the answer's record, that of the
// plan of what the crew do, and that of a drill in which somebody moves all that they
// move at its moment have the same values at all instants.
func TestOneRun(t *testing.T) {
	ctx, b := context.Background(), corvane.Book(t)
	ground := islands(t)
	desk, plain := ask.NewDesk(b).Over(ground), corvane.Build(t, "")
	deck, err := drill.NewDeck(b, "", "", region.Router{Region: ground})
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(21, 5))
	moved, lived, turned := 0, 0, 0
	for i := range questions(t) {
		what := []string{plain.Units[rng.IntN(len(plain.Units))].ID}
		if i%3 == 1 { // a common cause turns the flight more often
			what = []string{plain.Events[rng.IntN(len(plain.Events))].ID}
		}
		if rng.IntN(2) == 0 {
			what = append(what, plain.Units[rng.IntN(len(plain.Units))].ID)
		}
		at := fmt.Sprintf("climb + %d s", rng.IntN(4000))
		q := ask.Question{Crew: scenario.ByTheBook, Fail: []scenario.Strike{{What: what, At: at}}}
		a, err := desk.Answer(ctx, q)
		if err != nil {
			t.Fatal(err)
		}
		if i%20 == 0 { // a team of its own is laid out anew, which takes long
			team, err := crew.NewTeam(a.Course.Build, a.Course.Flight, crew.Setting{Run: run.Setting{Router: region.Router{Region: ground}}})
			if err != nil {
				t.Fatal(err)
			}
			p, err := team.Fly(ctx, a.Scenario)
			if err != nil {
				t.Fatal(err)
			}
			alike(t, fmt.Sprint(what, at), a.Here, p.Record)
		}
		moved += len(a.Here.Scenario.Decided())
		s := live(t, deck, drill.Script{Fail: []drill.Strike{{What: what, At: at}}}, a.Here)
		r, err := deck.Course().Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		alike(t, fmt.Sprint(what, at, " as a drill"), a.Here, r)
		lived++
		if slices.ContainsFunc(a.Here.Turns, func(x run.Turned) bool { return x.Why == "" }) {
			turned++
		}
	}
	if t.Logf("%d moves by crews, %d drills, of which %d turn the flight", moved, lived, turned); moved == 0 || lived == 0 || turned == 0 {
		t.Error("nothing was compared")
	}
}

// live has somebody do in a drill what the crew of a record did: each control moved and
// each turn of the flight, at its moment.
func live(t *testing.T, d *drill.Deck, script drill.Script, r *run.Record) run.Scenario {
	t.Helper()
	s, err := d.Open(t.Context(), script)
	if err != nil {
		t.Fatal(err)
	}
	var list []drill.Input
	for _, x := range r.Scenario.Decided() {
		list = append(list, drill.Input{Do: drill.Move, ID: x.Control, To: x.Position, At: x.At.Offset - 1})
	}
	for _, x := range r.Turns {
		if x.Why == "" {
			list = append(list, drill.Input{Do: drill.TurnTo, To: x.Leg.String(), At: x.At - 1})
		}
	}
	slices.SortStableFunc(list, func(a, b drill.Input) int { return cmp.Compare(a.At, b.At) })
	for i, in := range list {
		in.Client, in.Number, in.Who = "one", i+1, drill.Alone
		if _, err := s.Accept(t.Context(), in); err != nil {
			t.Fatal(in, err)
		}
	}
	return s.Flown()
}

// alike holds two records to the same values at all their instants.
func alike(t *testing.T, what string, a, b *run.Record) {
	t.Helper()
	if a.End != b.End || a.Ending().How != b.Ending().How {
		t.Errorf("%s: ends %v at %v, and %v at %v", what, a.Ending().How, a.End, b.Ending().How, b.End)
		return
	}
	for _, v := range a.Circuit().Values() {
		n, ok := b.Circuit().Node(v.Value)
		if !ok {
			t.Errorf("%s: %v is in one of them only", what, v.Value)
			continue
		}
		for _, at := range append([]book.Time{0}, a.Instants()...) {
			if x, y := a.At(v.Node, at), b.At(n, at); x != y {
				t.Errorf("%s: %v at %v is %v and %v", what, v.Value, at, x, y)
				return
			}
		}
	}
}
