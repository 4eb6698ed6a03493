package vary

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/ledger"
	"knockon/point"
	"knockon/rescue"
	"knockon/run"
	"knockon/say"
)

// Rescue names the axis of a rescue.
const Rescue = "rescue"

// Grave is the gravest loss that is hidden or denied; nil if none is.
func Grave(l *ledger.Ledger) *ledger.Loss {
	var list []*ledger.Loss
	for _, x := range called(l) {
		if x.Word().Unknown() {
			list = append(list, x)
		}
	}
	if len(list) == 0 {
		return nil
	}
	return slices.MaxFunc(list, func(a, b *ledger.Loss) int { return cmp.Compare(point.Heft(a), point.Heft(b)) })
}

// Breaks says that the flight of an answer breaks off, and could arrive.
func Breaks(a *ask.Answer) bool {
	e := a.Here.Ending()
	return !e.Arrived() && e.How != run.NeverSettles
}

// Savable names what Saves looks for a rescue of: the flight where it breaks off, else the
// gravest loss that is hidden or denied; "" where there is none.
func Savable(a *ask.Answer) string {
	if Breaks(a) {
		return "the flight"
	}
	if x := Grave(a.Ledger); x != nil {
		return say.Lower(x.Function.Title)
	}
	return ""
}

// Saves says what saves the gravest loss that nobody knows of, or the flight where it
// breaks off: moves, one or two, that are found before the context is over. ok is false
// where there is nothing to save.
func Saves(ctx context.Context, a *ask.Answer, workers int) (v ledger.Varied, ok bool) {
	v = ledger.Varied{Axis: Rescue, Covers: []ledger.Ref{}}
	title := Savable(a)
	if title == "" {
		return v, false
	}
	q := rescue.Question{Scenario: a.Scenario, Order: 1, Workers: workers, Best: true}
	if !Breaks(a) {
		f := Grave(a.Ledger).Function
		q.Function = f.ID
		v.Covers = append(v.Covers, ledger.Ref{ID: f.ID, Title: f.Title, Rank: f.Severity})
	}
	found := look(ctx, a, q)
	if found == nil {
		v.Open, v.Text = true, "What saves "+title+" could not be looked for in the time there is."
		return v, true
	}
	v.Text = saved(found.View(), title)
	v.Point = len(found.Rescues) > 0 && found.Rescues[0].Counts
	return v, true
}

// look looks for single moves, then for sets of two, and gives what was finished last;
// nil: nothing.
func look(ctx context.Context, a *ask.Answer, q rescue.Question) (last *rescue.Answer) {
	for q.Order = 1; q.Order <= 2; q.Order++ {
		found, err := rescue.Of(ctx, a.Course, q, nil)
		if err == nil {
			err = found.WithCrew(ctx, a.Desk.TeamOf(a.Course, a.Question), a.Scenario, q.Workers)
		}
		if err != nil {
			return last
		}
		if last = found; len(found.Rescues) > 0 && found.Rescues[0].Counts {
			return last
		}
	}
	return last
}

// saved is what was found, in a few sentences: the first way, with its price.
func saved(v *rescue.View, title string) string {
	if len(v.Rescues) == 0 {
		return strings.Join(strings.Fields("What saves "+title+"? "+v.Verdict+" "+v.Crew+" "+looked(v.Order)), " ")
	}
	r := v.Rescues[0]
	return strings.Join(strings.Fields(r.Says+" "+r.Cost+" "+r.Crew), " ")
}

func looked(order int) string {
	if order > 1 {
		return "Up to two moves were tried."
	}
	return "There was time for single moves alone."
}
