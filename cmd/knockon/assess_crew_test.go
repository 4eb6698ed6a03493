package main

import (
	"bytes"
	"net/url"
	"os"
	"slices"
	"testing"

	"knockon/ask"
	"knockon/assess"
	"knockon/ledger"
	"knockon/sweep"
)

// TestAssess_SaysOfTheCrewWhatFailSays: of the sets that assess has flown with the crew
// by the book, the same question put to fail has the same functions lost. It takes the
// sets of one phase, of every fourth grave loss; with KNOCKON_DOUBLE=1 of all.
func TestAssess_SaysOfTheCrewWhatFailSays(t *testing.T) {
	var stdout, stderr bytes.Buffer
	o := &out{Context: t.Context(), stdout: &stdout, stderr: &stderr}
	a := flownWithCrew(t, o, "climb")
	answers, asked, saved := map[string]*ask.Answer{}, 0, 0
	for i, l := range a.View(mostSets).Losses {
		for _, s := range l.Sets {
			if s.Crew == "" {
				continue
			}
			if answers[s.QueryBy] == nil {
				answers[s.QueryBy] = failed(t, o, s.QueryBy)
			}
			if lost := takes(answers[s.QueryBy].Ledger, &a.Losses[i]); lost != s.CrewLost {
				t.Errorf("%s, %v: by assess lost with the crew: %v; by fail: %v", l.Function, s.Failures, s.CrewLost, lost)
			}
			if asked++; !s.CrewLost {
				saved++
			}
		}
	}
	if asked < 20 || saved == 0 || saved == asked {
		t.Errorf("%d sets were asked for again, of which the crew save %d: that shows nothing", asked, saved)
	}
	t.Logf("%d losses by %d sets", asked, len(answers))
}

// flownWithCrew assesses the demonstration in one phase, two failures together, and
// flies what the command flies with the crew.
func flownWithCrew(t *testing.T, o *out, phase string) *assess.Assessment {
	t.Helper()
	c := assessCommand{}
	desk, err := c.desk(o)
	if err != nil {
		t.Fatal(err)
	}
	course, err := desk.Course("", "")
	if err != nil {
		t.Fatal(err)
	}
	w, err := sweep.On(t.Context(), course, sweep.Setting{Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	n := slices.IndexFunc(w.Phases(), func(p sweep.Phase) bool { return p.ID == phase })
	sheet, err := w.Run(t.Context(), n, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	hours := assess.HoursOf(w.Spans())
	hours.Phases = hours.Phases[n : n+1]
	a := assess.Of(assess.Swept{
		Build: course.Build, Flight: course.Flight, Hours: hours, Failures: w.Failures(), Phases: w.Phases()[n : n+1], Sheets: []*sweep.Sheet{sheet}, Order: 2,
	})
	if os.Getenv("KNOCKON_DOUBLE") == "" {
		a.Losses = sample(a.Losses)
	}
	if err := a.Fly(t.Context(), desk, course, mostCrew, 2, nil); err != nil {
		t.Fatal(err)
	}
	return a
}

// sample keeps every fourth loss, and two that a diversion saves.
func sample(all []assess.Loss) (some []assess.Loss) {
	for i, l := range all {
		if i%4 == 0 || l.Function.ID == "any_attitude" || l.Function.ID == "clean_wing" {
			some = append(some, l)
		}
	}
	return some
}

// failed puts a question of an address to the command fail.
func failed(t *testing.T, o *out, query string) *ask.Answer {
	t.Helper()
	q, err := url.ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	f := worldFlags{Crew: q.Get("crew")}
	f.At, f.Build, f.Flight = q.Get("at"), q.Get("build"), q.Get("flight")
	a, err := f.answer(o, bookFlag{}, q["fail"])
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// takes says that the ledger has the function lost while it was wanted; of a loss that
// misleads, that nothing tells it in time and nobody notices it at once.
func takes(l *ledger.Ledger, loss *assess.Loss) bool {
	for _, row := range l.Losses {
		if row.Function.ID != loss.Function.ID || !row.Mattered {
			continue
		}
		n := loss.Function.Noticed
		unseen := row.Class == ledger.NotTold && (n == nil || !n.AtOnce) || row.Class == ledger.ToldWrong
		return unseen || !loss.Hidden
	}
	return false
}
