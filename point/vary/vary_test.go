package vary

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/beside"
	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/internal/corvane/answers"
	"knockon/ledger"
	"knockon/scenario"
)

func failing(at string, what ...string) ask.Question {
	return ask.Question{Fail: []scenario.Strike{{What: what, At: at}}}
}

// many is how many random questions are tried; KNOCKON_VARY says another number.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("KNOCKON_VARY")); err == nil {
		return n
	}
	return 2
}

// questions are random: a common cause or two units, every second with something
// inoperative, every third hands off.
func questions(b *book.Build) (list []ask.Question) {
	rng := rand.New(rand.NewPCG(5, 12))
	unit := func() string { return b.Units[rng.IntN(len(b.Units))].ID }
	for i := range many() {
		q := failing(b.Phases[rng.IntN(len(b.Phases))].ID, unit(), unit())
		if i%2 == 0 {
			q = failing(b.Phases[rng.IntN(len(b.Phases))].ID, b.Events[rng.IntN(len(b.Events))].ID)
			q.Out = []string{unit()}
		}
		if i%3 == 0 {
			q.Crew = scenario.Nobody
		}
		list = append(list, q)
	}
	return list
}

// TestOf_IsTrueOfTheOtherRun: what a line covers is what differs between the answer and
// that to the question which it names, gone through function by function and moment by
// moment on the records of both.
func TestOf_IsTrueOfTheOtherRun(t *testing.T) {
	points := 0
	for _, q := range append(questions(corvane.Build(t, "")), failing("cruise + 60 s", "duct_burst")) {
		a := answers.Of(t, q)
		for _, v := range Of(t.Context(), a, 2) {
			if !v.Point || v.Change == "" || strings.Contains(v.Text, "flight ") {
				continue
			}
			points++
			asks, err := beside.Other(a.Question, []string{v.Change})
			if err != nil {
				t.Fatal(err)
			}
			b, covers := answers.Of(t, asks), map[string]bool{}
			for _, r := range v.Covers {
				covers[r.ID] = true
			}
			for _, f := range a.Course.Build.Functions {
				here, ok := slowly(a, f.ID)
				there, too := slowly(b, f.ID)
				if !ok || !too {
					continue // a flicker, or not a function of both
				}
				x, y := a.Ledger.Loss(f.ID), b.Ledger.Loss(f.ID)
				dawns := here && there && known(x) != known(y)
				if (here != there || dawns) != covers[f.ID] {
					t.Errorf("%v, %s: %s lost here %v, there %v, and the point covers it: %v", q, v.Change, f.ID, here, there, covers[f.ID])
				}
			}
		}
	}
	if points < 5 {
		t.Errorf("only %d points: the test shows little", points)
	}
}

// slowly says that a function is lost when it is called for, from the values of both
// records every quarter of a second; ok is false where that is too short to tell.
func slowly(a *ask.Answer, id string) (lost, ok bool) {
	here, there := a.Here, a.There
	n, ok := here.Circuit().Node(circuit.Value{Item: id})
	m, too := there.Circuit().Node(circuit.Value{Item: id})
	w, wants := here.Circuit().Node(circuit.Value{Item: id, Aspect: circuit.Wanted})
	if !ok || !too {
		return false, false
	}
	longest, now := 0, 0
	for at := a.Ledger.Strike; at < min(here.End, there.End); at += book.Second / 4 {
		now++
		if here.At(n, at) != 0 || there.At(m, at) == 0 || wants && here.At(w, at) == 0 {
			now = 0
		}
		longest = max(longest, now)
	}
	return longest > 0, longest == 0 || longest > 24
}

// TestOf_TheBurstDuct: the guard is the wire that burns with the duct and not the duct;
// where the wire is alive, nothing of the kind is said.
func TestOf_TheBurstDuct(t *testing.T) {
	said := says(Of(t.Context(), answers.Of(t, failing("cruise + 60 s", "duct_burst")), 2))
	for axis, want := range map[string]string{
		Guard: "With left bleed leak detector in order this is not lost when it is called for: wing structure free of overheating (catastrophic, hidden) and bleed leak detected and shut off, left (hidden).",
		Set:   "It takes left bleed duct and left bleed leak detector together for this: wing structure free of overheating (catastrophic, hidden).",
		Build: "On “Second series” people know of this: bleed leak detected and shut off, left (told, here hidden).",
	} {
		if said[axis] != want {
			t.Errorf("%s says %q, not %q", axis, said[axis], want)
		}
	}
	alive := says(Of(t.Context(), answers.Of(t, failing("cruise + 60 s", "duct_left.bursts")), 2))
	if alive[Guard]+alive[Set] != "" {
		t.Errorf("of the duct alone: %v", alive)
	}
	if alive[Build] != "On every other build the same is lost when it is called for, and as much of it known." {
		t.Errorf("of the duct alone: %v", alive[Build])
	}
}

func says(list []ledger.Varied) map[string]string {
	m := map[string]string{}
	for _, v := range list {
		m[v.Axis] = v.Text
	}
	return m
}

// TestOf_AFlightThatBreaksOff: of another flight that breaks off it is said that it does,
// and nothing of what is lost on it; of a question that never comes nothing at all.
func TestOf_AFlightThatBreaksOff(t *testing.T) {
	q := failing("climb", "feed_line_left.leaks")
	q.Acts = []string{"crossfeed_switch=open"}
	for _, v := range Of(t.Context(), answers.Of(t, q), 2) {
		if v.Axis == Conduct && (len(v.Covers) > 0 || !strings.HasPrefix(v.Text, "Hands off the flight breaks off at +60:04: the fuel is used up")) {
			t.Errorf("%q covers %v", v.Text, v.Covers)
		}
	}
	q.Crew = scenario.Nobody
	broken := answers.Of(t, q)
	if broken.Here.Ending().Arrived() {
		t.Fatal("the flight arrives")
	}
	for _, v := range Of(t.Context(), broken, 2) {
		if strings.Contains(v.Text, "the same is lost") || v.Axis == Build && v.Text != "On every other build the flight breaks off as well, for the same reason." {
			t.Errorf("of a flight that breaks off: %q", v.Text)
		}
	}
	never := failing("", "gen_left")
	never.Fail[0].When = "real.height_ft > 60000"
	for _, v := range Of(t.Context(), answers.Of(t, never), 2) {
		if v.Point || !strings.Contains(v.Text, "cannot be said") {
			t.Errorf("of a failure that never comes: %q", v.Text)
		}
	}
}

// TestOf_WithoutTime: what there is no time for is said to be so, and nothing else.
func TestOf_WithoutTime(t *testing.T) {
	a := answers.Of(t, failing("cruise + 60 s", "duct_burst"))
	ctx, stop := context.WithCancel(t.Context())
	stop()
	lines := Of(ctx, a, 2)
	if len(lines) != len(Axes(a)) {
		t.Errorf("%d lines for %d axes", len(lines), len(Axes(a)))
	}
	for _, v := range lines {
		if v.Point || len(v.Covers) > 0 || !strings.Contains(v.Text, "not") {
			t.Errorf("%s says %q", v.Axis, v.Text)
		}
	}
	if v, ok := Saves(ctx, a, 2); !ok || v.Point || v.Text != "What saves wing structure free of overheating could not be looked for in the time there is." {
		t.Errorf("%v %q", ok, v.Text)
	}
}

// TestSaves: the moves that are said to save the gravest, made as a person would make
// them, do; where nothing is hidden or denied nothing is looked for.
func TestSaves(t *testing.T) {
	a := answers.Of(t, failing("cruise + 60 s", "duct_burst"))
	v, ok := Saves(t.Context(), a, 2)
	want := "Set left bleed switch to “off” and Cross-bleed valve switch to “shut” until +9:59: “Wing structure free of overheating” is kept. Nothing else is lost for it while it is wanted."
	if !ok || !v.Point || v.Text != want || !slices.ContainsFunc(v.Covers, func(r ledger.Ref) bool { return r.ID == "sound_wing" }) {
		t.Errorf("%v %+v", ok, v)
	}
	for at, kept := range map[string]bool{"cruise + 658 s": true, "cruise + 662 s": false} {
		q := failing("cruise + 60 s", "duct_burst")
		q.Acts = []string{"bleed_left_switch=off@" + at, "cross_bleed_selector=shut@" + at}
		q.Crew = scenario.Nobody
		if lost := mattering(answers.Of(t, q).Ledger, "sound_wing") != nil; lost == kept {
			t.Errorf("moved at %s it is lost: %v", at, lost)
		}
	}
	if v, ok := Saves(t.Context(), answers.Of(t, failing("climb", "gen_left")), 2); ok {
		t.Errorf("%q, where nothing is hidden or denied", v.Text)
	}
}
