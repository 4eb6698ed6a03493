package point_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/point"
	"knockon/run"
)

// many is how many random scenarios are tried; KNOCKON_POINTS says another number.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("KNOCKON_POINTS")); err == nil {
		return n
	}
	return 60
}

// ledgers gives judged ledgers of random pairs of failures, every third with a unit
// inoperative, every second with a common cause.
func ledgers(t *testing.T) func(func(*ledger.Ledger) bool) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	unit := func(rng *rand.Rand) book.FailureRef {
		u := b.Units[rng.IntN(len(b.Units))]
		if len(u.Faults) > 0 && rng.IntN(2) == 0 {
			return book.FailureRef{Unit: u.ID, Fault: u.Faults[rng.IntN(len(u.Faults))].ID}
		}
		return book.FailureRef{Unit: u.ID}
	}
	rng := rand.New(rand.NewPCG(3, 12))
	return func(yield func(*ledger.Ledger) bool) {
		for i := range many() {
			refs := []book.FailureRef{unit(rng), unit(rng)}
			if i%2 == 0 {
				refs = append(refs[:1], b.Events[rng.IntN(len(b.Events))].Fails...)
			}
			s := run.Scenario{Strikes: []run.Strike{{Fail: refs, At: book.Moment{Offset: book.AtSeconds(float64(60 + rng.IntN(4000)))}}}}
			if i%3 == 0 {
				s.Inoperative = []book.FailureRef{{Unit: b.Units[rng.IntN(len(b.Units))].ID}}
			}
			l, err := ledger.Answer(t.Context(), c, s)
			if err == nil {
				err = known.Judge(t.Context(), l)
			}
			if err != nil {
				t.Fatal(err)
			}
			if !yield(l) {
				return
			}
		}
	}
}

// value is that of an aspect of an item, in a record, at a moment.
func value(r *run.Record, id string, as circuit.Aspect, at book.Time) float64 {
	n, _ := r.Circuit().Node(circuit.Value{Item: id, Aspect: as})
	return r.At(n, at)
}

// TestOf_EachPointIsTrue holds what a point says to the two records.
func TestOf_EachPointIsTrue(t *testing.T) {
	kinds := map[point.Kind]int{}
	for l := range ledgers(t) {
		for _, p := range point.Of(l).List {
			kinds[p.Kind]++
			if why := untrue(l, p); why != "" {
				t.Errorf("%v: %s of %v at %v: %s", l.Here.Scenario.Strikes, p.Kind, p.By, p.At.Seconds(), why)
			}
		}
	}
	t.Log(kinds)
	for _, k := range []point.Kind{point.Wave, point.Denial, point.Single, point.False, point.Differ, point.Wrong, point.Unseen} {
		if kinds[k] == 0 {
			t.Errorf("no point is a %s: the test shows little", k)
		}
	}
}

// untrue says what is not so of a point; "" if all is.
func untrue(l *ledger.Ledger, p point.Point) string {
	if stands(p.Kind) {
		return fancied(l, p)
	}
	for _, x := range p.Covers {
		id := x.Function.ID
		lost := func(at book.Time) bool {
			return value(l.Here, id, circuit.Main, at) == 0 && value(l.There, id, circuit.Main, at) != 0
		}
		if !x.Mattered {
			return id + " was not called for"
		}
		if at := x.Spans[0].From; !lost(at) {
			return id + " is not lost"
		}
		if p.By == nil {
			continue
		}
		if why := accused(l, p, id, lost); why != "" {
			return id + ": " + why
		}
	}
	return ""
}

// fancied says what is not so of a point that stands whatever its losses weigh.
func fancied(l *ledger.Ledger, p point.Point) string {
	wrong := func(id string, at book.Time) bool { return value(l.Here, id, circuit.Wrong, at) != 0 }
	switch p.Kind {
	case point.False:
		if id := p.By.Named().ID; value(l.Here, id, circuit.False, p.At) == 0 || value(l.There, id, circuit.False, p.At) != 0 {
			return "it is not false, or is so without the failures"
		}
	case point.Wrong:
		for _, r := range p.Readings {
			if !wrong(r.Indication.ID, r.Spans[0].From) {
				return r.Indication.ID + " is right"
			}
		}
	case point.Differ:
		for _, x := range p.Shown {
			off := math.Abs(value(l.Here, x.Indication.ID, circuit.Main, p.At) - p.Means)
			if !x.Dark && x.Wrong != (off > x.Indication.Within) {
				return fmt.Sprintf("%s is %v off, and may be %v", x.Indication.ID, off, x.Indication.Within)
			}
		}
	case point.Unseen:
		return shown(l, p)
	}
	return ""
}

// shown flies what failed of a point, alone, and says what shows it; what shows nothing
// with all the rest must show nothing alone, but for what the rest keeps from showing.
func shown(l *ledger.Ledger, p point.Point) string {
	s := l.Here.Scenario
	s.Strikes = slices.Clone(s.Strikes)
	for i := range s.Strikes {
		k := &s.Strikes[i]
		k.Fail = slices.DeleteFunc(slices.Clone(k.Fail), func(r book.FailureRef) bool {
			return slices.ContainsFunc(p.Failed, func(o book.FailureRef) bool { return o.Unit == r.Unit && o.Fault == r.Fault })
		})
	}
	s.Strikes = slices.DeleteFunc(s.Strikes, func(k run.Strike) bool { return len(k.Fail) == 0 })
	less, err := ledger.Answer(context.Background(), l.Here.Course, s)
	if err != nil {
		return err.Error()
	}
	if a, b := signs(l), signs(less); a != b {
		return "without it other things show:\n" + a + "\nnot\n" + b
	}
	return ""
}

// signs are what alerts, readouts and losses that are called for show of a ledger.
func signs(l *ledger.Ledger) string {
	var list []string
	for _, a := range l.Alerts {
		list = append(list, fmt.Sprint(a.Alert.ID, a.Spans))
	}
	for _, r := range slices.Concat(l.Wrong, l.Dark) {
		list = append(list, fmt.Sprint(r.Indication.ID, r.Spans))
	}
	for _, x := range l.Losses {
		if x.Mattered {
			list = append(list, x.Function.ID)
		}
	}
	slices.Sort(list)
	return strings.Join(list, "\n")
}

func accused(l *ledger.Ledger, p point.Point, id string, lost func(book.Time) bool) string {
	by := p.By.Named().ID
	given := value(l.Here, by, circuit.Main, p.At) != 0
	switch p.Kind {
	case point.Denial:
		if value(l.Here, by, circuit.Lit, p.At) == 0 || value(l.Here, by, circuit.Wrong, p.At) == 0 {
			return "it is dark, or right"
		}
	case point.Silent:
		if given || value(l.Here, by, circuit.Believed, p.At) == 0 {
			return "it is given, or not due"
		}
		if !everSilent(l, by, id) {
			return "it is given in every stretch of the loss, or due in none"
		}
	case point.TooSoon:
		if given || value(l.Here, by, circuit.Believed, p.At) == 0 || value(l.Here, by, circuit.Main, p.At-1) == 0 || !lost(p.At) {
			return "it does not go out, or there is nothing to tell any more"
		}
	case point.Standing:
		if !given || value(l.There, by, circuit.Main, p.At) == 0 {
			return "it does not stand in both runs"
		}
	case point.Late:
		if !given || value(l.There, by, circuit.Main, p.At) != 0 {
			return "it does not come"
		}
	}
	if a, ok := p.By.(*book.Alert); ok && !slices.Contains(a.Tells, id) {
		return "the alert does not name it"
	}
	return ""
}

// everSilent says that in some stretch in which a function is lost an alert is due at
// a second and given at none.
func everSilent(l *ledger.Ledger, by, id string) bool {
	for _, s := range l.Loss(id).Spans {
		due, given := false, false
		for at := s.From; at < s.To; at += book.Second / 2 {
			due = due || value(l.Here, by, circuit.Believed, at) != 0
			given = given || value(l.Here, by, circuit.Main, at) != 0
		}
		if due && !given {
			return true
		}
	}
	return false
}

// TestOf_TheShareIsWhatIsCovered works the share out by itself, and sees that each
// point adds to it.
func TestOf_TheShareIsWhatIsCovered(t *testing.T) {
	chosen := 0
	for l := range ledgers(t) {
		p := point.Of(l)
		covered, last := map[string]float64{}, 0.0
		for _, x := range p.List {
			chosen++
			for _, o := range x.Covers {
				part := 1.0
				if x.Kind == point.Wave {
					part = 0.75
				}
				covered[o.Function.ID] = max(covered[o.Function.ID], part)
			}
			now := share(l, covered)
			if now <= last && !stands(x.Kind) {
				t.Errorf("%v: %s at %v adds nothing", l.Here.Scenario.Strikes, x.Kind, x.At)
			}
			last = now
		}
		if len(p.List) > 0 && fmt.Sprintf("%.9f", last) != fmt.Sprintf("%.9f", p.Share) {
			t.Errorf("%v: a share of %v, counted %v", l.Here.Scenario.Strikes, p.Share, last)
		}
		if len(p.List) > 7 {
			t.Errorf("%v: %d points are too many", l.Here.Scenario.Strikes, len(p.List))
		}
	}
	if chosen < 30 {
		t.Errorf("only %d points", chosen)
	}
}

// stands says that points of a kind stand whatever their losses weigh.
func stands(k point.Kind) bool {
	return slices.Contains([]point.Kind{point.False, point.Differ, point.Wrong, point.Unseen}, k)
}

// share is the weight that is covered as the page of meanings has it.
func share(l *ledger.Ledger, covered map[string]float64) float64 {
	all, part := 0.0, 0.0
	for _, x := range l.Losses {
		if !x.Mattered {
			continue
		}
		w := weight(l, x)
		all += w
		part += w * covered[x.Function.ID]
	}
	if all == 0 {
		return 1
	}
	return part / all
}

func weight(l *ledger.Ledger, x ledger.Loss) float64 {
	w := map[string]float64{"": 1, "minor": 1, "major": 2, "hazardous": 4, "catastrophic": 8}[x.Severity()]
	heaviest := 0.0
	for _, s := range x.Spans {
		if s.Mattered {
			heaviest = max(heaviest, known.Weight(s.Known))
		}
	}
	w *= heaviest
	refs := slices.Clone(l.Here.Scenario.Inoperative)
	for _, k := range l.Here.Scenario.Strikes {
		refs = append(refs, k.Fail...)
	}
	other := x.Function.Chapter != 0
	for _, r := range refs {
		item, _ := l.Here.Course.Build.Item(r.Unit)
		other = other && item.Named().Chapter != x.Function.Chapter
	}
	if other {
		w *= 2
	}
	return w
}

// TestOf_OpensWithTheGravest: the first point covers a loss of the gravest class, from
// hazardous on, that lasts or that nobody knows of; and what nobody knows of is covered,
// however much else weighs more.
func TestOf_OpensWithTheGravest(t *testing.T) {
	grave, unknown := 0, 0
	for l := range ledgers(t) {
		list, worst := point.Of(l).List, 0
		classes := map[string]int{"hazardous": 1, "catastrophic": 2}
		covers := func(p point.Point, class int) bool {
			return slices.ContainsFunc(p.Covers, func(x *ledger.Loss) bool { return classes[x.Severity()] == class })
		}
		for i := range l.Losses {
			x := &l.Losses[i]
			lasts := slices.ContainsFunc(x.Spans, func(s ledger.LossSpan) bool { return s.Mattered && s.Length() > 60*book.Second })
			if x.Mattered && (lasts || x.Word().Unknown()) {
				worst = max(worst, classes[x.Severity()])
			}
			if x.Mattered && x.Word().Unknown() && classes[x.Severity()] > 0 && len(list) < 7 {
				unknown++
				if !slices.ContainsFunc(list, func(p point.Point) bool { return slices.Contains(p.Covers, x) }) {
					t.Errorf("%v: no point covers %s", l.Here.Scenario.Strikes, x.Function.ID)
				}
			}
		}
		if worst > 0 && len(list) > 0 {
			grave++
			if !covers(list[0], worst) {
				t.Errorf("%v: it opens with %s of %v", l.Here.Scenario.Strikes, list[0].Kind, list[0].At)
			}
		}
	}
	if grave < 10 || unknown < 5 {
		t.Errorf("%d answers with something grave, %d losses that nobody knows of: the test shows little", grave, unknown)
	}
}
