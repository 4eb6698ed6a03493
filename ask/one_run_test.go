package ask_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/crew"
	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/scenario"
)

// questions is how many random ones are asked; KNOCKON_QUESTIONS says another number.
func questions(t *testing.T) int {
	t.Helper()
	n, err := strconv.Atoi(os.Getenv("KNOCKON_QUESTIONS"))
	if err != nil {
		return 12
	}
	return n
}

// TestOneRun: of a question with a crew by the book the answer's record, that of the
// plan of what the crew do, and that of a drill in which somebody moves all that they
// move at its moment have the same values at all instants.
func TestOneRun(t *testing.T) {
	ctx, b := context.Background(), corvane.Book(t)
	desk, plain := ask.NewDesk(b), corvane.Build(t, "")
	deck, err := drill.NewDeck(b, "", "")
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(21, 5))
	moved, lived := 0, 0
	for i := range questions(t) {
		what := []string{plain.Units[rng.IntN(len(plain.Units))].ID}
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
			team, err := crew.NewTeam(a.Course.Build, a.Course.Flight, crew.Setting{})
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
		if len(a.Here.Turns) > 0 {
			continue // nobody turns a flight in a drill
		}
		s := live(t, deck, drill.Script{Fail: []drill.Strike{{What: what, At: at}}}, a.Here)
		r, err := deck.Course().Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		alike(t, fmt.Sprint(what, at, " as a drill"), a.Here, r)
		lived++
	}
	if t.Logf("%d moves by crews, %d drills", moved, lived); moved == 0 || lived == 0 {
		t.Error("nothing was compared")
	}
}

// live has somebody do in a drill what the crew of a record did.
func live(t *testing.T, d *drill.Deck, script drill.Script, r *run.Record) run.Scenario {
	t.Helper()
	s, err := d.Open(t.Context(), script)
	if err != nil {
		t.Fatal(err)
	}
	for i, x := range r.Scenario.Decided() {
		in := drill.Input{Client: "one", Number: i + 1, Who: drill.Alone, Do: drill.Move, ID: x.Control, To: x.Position, At: x.At.Offset - 1}
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
