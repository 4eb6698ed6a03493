// Package first chooses the questions that a book opens with: half of them from what
// a sweep found gravest, half from the book's own claims.
//
// Invariant: the same book gives the same questions, chosen by a rule that is stated
// beside it and in docs/commands.md; no failure comes twice, and no chapter while
// there are others.
//
// Start reading at Of.
package first

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/scenario"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// Question is one to begin with.
type Question struct {
	Says   string         `json:"says"`
	From   string         `json:"from"` // FromSweep, FromClaim
	Asks   scenario.Typed `json:"question"`
	Weight float64        `json:"weight"`

	chapter int
}

// Where a question comes from.
const (
	FromSweep = "sweep"
	FromClaim = "claim"
)

// Of gives up to most questions about the first build and flight of a desk's book: the
// heaviest of its traps and of its claims in turn. What is said of a trap is counted in
// its answer, which flies where the failure takes it; a sweep does not.
func Of(ctx context.Context, d *ask.Desk, most int) ([]Question, error) {
	c, err := d.Course("", "")
	if err != nil {
		return nil, err
	}
	traps, err := Traps(ctx, c)
	if err != nil {
		return nil, err
	}
	list := choose(most, traps, Claims(c.Build))
	for i, q := range list {
		if q.From != FromSweep {
			continue
		}
		a, err := d.Answer(ctx, q.Asks)
		if err != nil {
			return nil, err
		}
		list[i].Says += ": " + counted(a.Ledger) + map[bool]string{true: ", as far as it is flown"}[a.Ledger.Unanswered() != ""] + "."
	}
	return list, nil
}

// counted says how much of what is lost when it is called for nobody can rightly know.
func counted(l *ledger.Ledger) string {
	words := map[ledger.Word]int{}
	for _, x := range l.Losses {
		if x.Mattered {
			words[x.Word()]++
		}
	}
	hidden, denied := words[ledger.Hidden], words[ledger.Denied]
	switch {
	case hidden+denied == 0 && l.Unanswered() != "":
		return "what it hides cannot be said"
	case hidden+denied == 0:
		return "nothing that matters is hidden or denied"
	case denied == 0:
		return say.Counted(hidden, "loss", "losses") + " hidden"
	case hidden == 0:
		return say.Counted(denied, "loss", "losses") + " denied by what is shown"
	}
	return fmt.Sprintf("%s hidden, %d denied by what is shown", say.Counted(hidden, "loss", "losses"), denied)
}

// choose takes from the lists in turn the first whose failures and whose chapter are
// new; where a list has no new chapter, the first whose failures are new.
func choose(most int, lists ...[]Question) (chosen []Question) {
	chapters, failures := map[int]bool{}, map[string]bool{}
	known := func(q Question) bool {
		return slices.ContainsFunc(q.Asks.Fail[0].What, func(f string) bool { return failures[f] })
	}
	for len(chosen) < most {
		before := len(chosen)
		for _, list := range lists {
			i := slices.IndexFunc(list, func(q Question) bool { return !known(q) && !chapters[q.chapter] })
			if i < 0 {
				i = slices.IndexFunc(list, func(q Question) bool { return !known(q) })
			}
			if i < 0 || len(chosen) == most {
				continue
			}
			chosen, chapters[list[i].chapter] = append(chosen, list[i]), true
			for _, f := range list[i].Asks.Fail[0].What {
				failures[f] = true
			}
		}
		if len(chosen) == before {
			break
		}
	}
	return chosen
}

// Traps are the single failures of a sweep, the heaviest first (findings.Weight), each
// in the phase in which it weighs most.
func Traps(ctx context.Context, c *run.Course) (list []Question, err error) {
	w, err := sweep.On(ctx, c, sweep.Setting{})
	if err != nil {
		return nil, err
	}
	s := findings.Swept{Build: c.Build, Failures: w.Failures()}
	var phases []int
	for i := range w.Phases() {
		phases = append(phases, i)
	}
	s.Sheets = make([]*sweep.Sheet, len(phases))
	err = w.RunAll(ctx, phases, 1, nil, func(phase int, h *sweep.Sheet) error { s.Sheets[phase] = h; return nil })
	if err != nil {
		return nil, err
	}
	for _, t := range s.Traps(0) {
		list = append(list, trap(&s, c, t))
	}
	return list, nil
}

func trap(s *findings.Swept, c *run.Course, t findings.Worst) Question {
	f, at := s.Failures[t.Set[0]], s.Sheets[t.Phase].Phase
	item, _ := c.Build.Item(f.Unit)
	return Question{
		Says: c.Build.FailureTitle(f.String()) + ", in the phase " + say.Quoted(c.Build.Title(at.ID)), From: FromSweep, Weight: t.Score, chapter: item.Named().Chapter,
		Asks: scenario.Typed{Crew: scenario.Nobody, Build: c.Build.Variant, Flight: c.Flight.ID, Fail: []scenario.Strike{{What: []string{f.String()}, At: at.Moment.String()}}},
	}
}

// Claims are those that an address can ask, the heaviest first: each function that one
// says to be hidden, denied, not told or told wrong has the weight of its severity (1,
// 2, 4, 8), and once more if anything was inoperative.
func Claims(b *book.Build) (list []Question) {
	for _, c := range b.Claims {
		if len(c.Given) == 0 {
			continue
		}
		t, ok := scenario.OfGiven(c.Given[0])
		if !ok || len(t.Fail) != 1 || len(t.Fail[0].What) == 0 || len(c.Given[0].Plan) > 0 || c.Given[0].Crew != "" {
			continue
		}
		t.Crew = scenario.Nobody
		ref, _ := book.ParseFailure(t.Fail[0].What[0], b)
		item, there := b.Item(ref.Unit)
		if weight := weightOf(b, c.Given[0]); there && weight > 0 {
			list = append(list, Question{Says: c.Says, From: FromClaim, Asks: t, Weight: weight, chapter: item.Named().Chapter})
		}
	}
	slices.SortStableFunc(list, func(a, b Question) int { return -cmp.Compare(a.Weight, b.Weight) })
	return list
}

// silent are the words of a claim for what people are not rightly told.
var silent = []string{"hidden", "denied", "not_told", "told_wrong"}

func weightOf(b *book.Build, g *book.Given) (sum float64) {
	seen := map[string]bool{}
	for _, e := range g.Expect {
		positive(e, func(x *book.Expr) {
			if x.Op != book.OpLedger || !slices.Contains(silent, x.Word) || len(x.Args) == 0 || seen[x.Args[0].ID] {
				return
			}
			if item, ok := b.Item(x.Args[0].ID); ok {
				if f, is := item.(*book.Function); is {
					seen[f.ID] = true
					sum += []float64{1, 1, 2, 4, 8}[1+slices.Index(book.Severities, f.Severity)]
				}
			}
		})
	}
	if len(g.Inoperative) > 0 {
		sum *= 2
	}
	return sum
}

// positive visits what an expectation says to be so: neither what stands under a "not"
// nor what is only one of several.
func positive(e *book.Expr, visit func(*book.Expr)) {
	switch e.Op {
	case book.OpAnd, book.OpAll:
		for _, a := range e.Args {
			positive(a, visit)
		}
	case book.OpLedger:
		visit(e)
	}
}
