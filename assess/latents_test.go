package assess_test

import (
	"context"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/assess"
	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/say"
	"knockon/sweep"
)

// waits is a book whose list saves the brakes of a dead pump, unless the valve that it
// opens has stuck, which nobody is told. No pair is a smallest set hands off.
var waits = strings.NewReplacer(
	`spare == "on"
  wanted   = real.braking
  severity = "hazardous"`, `(spare == "on" && valve)
  wanted   = real.braking
  severity = "catastrophic"`,
	"function \"brakes\"", "unit \"valve\" {\n  rate_per_hour   = 3e-6\n  checked_every_h = 600\n}\nfunction \"brakes\"",
	"rate_per_hour = 1e-5", "rate_per_hour = 1e-6",
).Replace(saved)

// TestFlyPairs_LatentOnesThatWaitForWhatTheCrewClear: by hand, the valve waits with
// 3e-6 × 600 = 1.8e-3, and once it has stuck the pump alone takes the brakes, 1e-6 or
// 2e-5 per hour of flight.
func TestFlyPairs_LatentOnesThatWaitForWhatTheCrewClear(t *testing.T) {
	const (
		waiting  = "With the crew by the book the latent failures that wait for pump come to 1.8e-3: over the limit of 1e-3."
		residual = "With the crew by the book once valve has come, unseen, one more failure takes it, and that has 2e-5 per hour of flight: over the limit of 1e-5."
		within   = "With the crew by the book every pair that was looked at and takes it with a latent member is within the limits: 1e-5 per hour of flight once the latent one has come, and 1e-3 for the latent ones that wait for one other."
		none     = "With the crew by the book no pair that was looked at and takes it has a latent member."
		left     = "Not looked at for latent failures with the crew: 1 pair with a latent member that meets the crew's means and was not flown."
		unrated  = "Not looked at for latent failures with the crew: 1 failure without a rate."
		seen     = "alert \"stuck\" {\n  level   = \"caution\"\n  message = \"STUCK\"\n  when    = !valve\n}\nalert"
	)
	for _, c := range []struct {
		name    string
		changes []string // from, to
		most    int
		want    []string
	}{
		{"over", nil, 30, []string{waiting}},
		{"checked more often", []string{"= 600", "= 300"}, 30, []string{within}},
		{"a worse pump", []string{"= 600", "= 300", "rate_per_hour = 1e-6", "rate_per_hour = 2e-5"}, 30, []string{residual}},
		{"both", []string{"rate_per_hour = 1e-6", "rate_per_hour = 2e-5"}, 30, []string{waiting, residual}},
		{"the valve is watched", []string{"alert", seen}, 30, []string{none}},
		{"not flown", nil, 0, []string{left, none}},
		{"no rate", []string{"  rate_per_hour   = 3e-6\n", ""}, 30, []string{unrated, none}},
		{"a loss that is not catastrophic", []string{`"catastrophic"`, `"hazardous"`}, 30, []string{}},
	} {
		book := waits
		for i := 0; i < len(c.changes); i += 2 {
			if book = strings.Replace(book, c.changes[i], c.changes[i+1], 1); !strings.Contains(book, c.changes[i+1]) {
				t.Fatalf("%s: no %q", c.name, c.changes[i])
			}
		}
		l := flownPairs(t, book, c.most)
		if got := l.ByBook.Latent; !slices.Equal(sorted(got), sorted(c.want)) || len(l.Latent) != 0 {
			t.Errorf("%s: %q\nwant %q; hands off %q", c.name, got, c.want, l.Latent)
		}
		if got := l.LatentSome(); !slices.Equal(got, l.ByBook.Latent) {
			t.Errorf("%s: shown %q", c.name, got)
		}
	}
}

func sorted(list []string) []string { return slices.Sorted(slices.Values(list)) }

// flownPairs is what is said of the brakes, with so many pairs flown.
func flownPairs(t *testing.T, text string, most int) assess.LossView {
	t.Helper()
	ctx := context.Background()
	a, desk, course := assessed(t, text)
	if err := a.Fly(ctx, desk, course, 3, 2, nil); err != nil {
		t.Fatal(err)
	}
	if err := a.FlyPairs(ctx, desk, course, most, 2, nil); err != nil {
		t.Fatal(err)
	}
	for _, l := range a.View(5).Losses {
		if l.Function != "brakes" {
			continue
		}
		if l.ByBook == nil {
			t.Fatal("the crew clear nothing")
		}
		byHand(t, a, a.Losses[slices.IndexFunc(a.Losses, func(x assess.Loss) bool { return x.Function.ID == "brakes" })])
		return l
	}
	t.Fatal("no brakes")
	return assess.LossView{}
}

// byHand holds the sums of the pump and the valve against rate times interval, which
// is the time between checks, up to one flight more.
func byHand(t *testing.T, a *assess.Assessment, l assess.Loss) {
	t.Helper()
	rate := map[string]assess.Part{}
	for n, ref := range a.Failures {
		rate[ref.String()] = a.Parts[n]
	}
	for _, x := range l.ByBook.Latents {
		switch name := a.Failures[x.Part].String(); name {
		case "pump":
			least := rate["valve"].Rate * rate["valve"].CheckedH
			if x.Waiting < least*(1-1e-9) || x.Waiting > least+rate["valve"].Rate*a.Hours.Hours*(1+1e-9) || x.Residual != 0 {
				t.Errorf("%g waits for the pump, by hand %g; residual %g", x.Waiting, least, x.Residual)
			}
		case "valve":
			if want := rate["pump"].Rate; math.Abs(x.Residual-want) > 1e-4*want || x.Waiting != 0 {
				t.Errorf("once the valve has stuck %g, by hand %g; waiting %g", x.Residual, want, x.Waiting)
			}
		default:
			t.Errorf("%s is among them", name)
		}
	}
}

// TestFly_SaysForHowLong: the brakes are lost until the list has moved the spare, the
// steering until it would not work with nothing failed either, which regains nothing.
func TestFly_SaysForHowLong(t *testing.T) {
	ctx := context.Background()
	text := strings.NewReplacer("  wanted   = real.braking\n", "", "  works    = pump\n  wanted   = real.on_ground\n", "  works    = pump && early\n").Replace(saved)
	a, desk, course := assessed(t, text)
	if err := a.Fly(ctx, desk, course, 3, 2, nil); err != nil {
		t.Fatal(err)
	}
	said := map[string]string{}
	for _, l := range a.View(5).Losses {
		if said[l.Function] = l.Sets[0].Crew; l.Function != "lights" && !l.Sets[0].CrewLost {
			t.Errorf("%s counts as not lost", l.Function)
		}
	}
	for i, l := range a.Losses {
		if l.Function.ID != "brakes" {
			continue
		}
		k := run.Strike{Fail: refs(a, l.Sets[0].Set), At: a.Phases[l.Sets[0].Crewed.Phase].Moment}
		answer, err := desk.Fly(ctx, course, ask.Question{}, run.Scenario{Strikes: []run.Strike{k}})
		if err != nil {
			t.Fatal(err)
		}
		n, _ := answer.Here.Circuit().Node(circuit.Value{Item: "brakes"})
		works := answer.Here.Spans(n) // up to the strike, and from the list on
		if len(works) != 2 {
			t.Fatalf("%d: the brakes work in %v", i, works)
		}
		want := "with the crew by the book: lost for " + say.Lasts(works[1].From-works[0].To) + ", then regained"
		if said["brakes"] != want {
			t.Errorf("%q, want %q", said["brakes"], want)
		}
	}
	if want := "with the crew by the book: lost all the same"; said["steering"] != want {
		t.Errorf("steering: %q, want %q", said["steering"], want)
	}
}

func refs(a *assess.Assessment, set sweep.Set) (list []book.FailureRef) {
	for _, n := range set {
		list = append(list, a.Failures[n])
	}
	return list
}

// TestB5_SaysThatCrewPairsWereNotLookedFor where a crew may save the pump's loss, and
// not where they were seen not to.
func TestB5_SaysThatCrewPairsWereNotLookedFor(t *testing.T) {
	const says = "Latent failures that take it only where a crew would save it of the other alone were not looked for."
	a, desk, course := assessed(t, waits)
	said := func() map[string]bool {
		so := map[string]bool{}
		for _, l := range a.View(5).Losses {
			so[l.Function] = slices.Contains(l.Latent, says)
		}
		return so
	}
	for i, want := range []map[string]bool{
		{"brakes": true, "steering": true, "lights": false},
		{"brakes": true, "steering": false, "lights": false},
		{"brakes": false, "steering": false, "lights": false},
	} {
		var err error
		switch i {
		case 1:
			err = a.Fly(context.Background(), desk, course, 3, 2, nil)
		case 2:
			err = a.FlyPairs(context.Background(), desk, course, 3, 2, nil)
		}
		if got := said(); err != nil || !maps.Equal(got, want) {
			t.Errorf("%d: said %v, want %v (%v)", i, got, want, err)
		}
	}
	const hands = "pairs that take it hands off."
	for order, want := range map[int]bool{1: true, 2: false} {
		a.Order = order
		l := a.View(5).Losses
		i := slices.IndexFunc(l, func(l assess.LossView) bool { return l.Function == "brakes" })
		if strings.Contains(strings.Join(l[i].ByBook.Latent, " "), hands) != want {
			t.Errorf("%d together: %q", order, l[i].ByBook.Latent)
		}
	}
}
