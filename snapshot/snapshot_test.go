package snapshot_test

import (
	"bytes"
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/internal/corvane/answers"
	"knockon/ledger"
	"knockon/scenario"
	"knockon/snapshot"
)

func at(t *testing.T, text string) book.Time {
	t.Helper()
	when, err := snapshot.When(t.Context(), answers.Of(t, answers.Headline()), text)
	if err != nil {
		t.Fatal(err)
	}
	return when
}

// TestOf_IsWhatTheRecordsSay: through the whole flight, what is lost is what does not
// work here and works without the failure; what is told is what is given; each figure
// is the record's; each wrong indication is wrong.
func TestOf_IsWhatTheRecordsSay(t *testing.T) {
	a := answers.Of(t, answers.Headline())
	value := func(r *circuit.Trace, id string, aspect circuit.Aspect, when book.Time) bool {
		n, ok := r.Circuit().Node(circuit.Value{Item: id, Aspect: aspect})
		return ok && r.At(n, when) != 0
	}
	end := min(a.Here.End, a.There.End)
	lostEver := 0
	for when := book.Time(0); when <= end; when += 61*book.Second + 7 {
		v := snapshot.Of(a, when)
		var lost, told, wrong []string
		for _, f := range a.Course.Build.Functions {
			if !value(a.Here.Trace, f.ID, circuit.Main, when) && value(a.There.Trace, f.ID, circuit.Main, when) {
				lost = append(lost, f.ID)
			}
		}
		for _, x := range a.Course.Build.Alerts {
			if value(a.Here.Trace, x.ID, circuit.Main, when) {
				told = append(told, x.ID)
			}
		}
		for _, i := range a.Course.Build.Indications {
			if value(a.Here.Trace, i.ID, circuit.Wrong, when) && value(a.Here.Trace, i.ID, circuit.Lit, when) && !value(a.There.Trace, i.ID, circuit.Wrong, when) {
				wrong = append(wrong, i.ID)
			}
		}
		same(t, when, "lost", lost, v.Lost, func(x snapshot.Lost) string { return x.ID })
		same(t, when, "told", told, v.Told, func(x snapshot.Told) string { return x.ID })
		same(t, when, "wrong", wrong, v.Wrong, func(x snapshot.Shown) string { return x.ID })
		lostEver += len(lost)
		for _, x := range v.Lost {
			if wanted, ok := a.Here.Circuit().Node(circuit.Value{Item: x.ID, Aspect: circuit.Wanted}); ok && x.CalledFor != (a.Here.At(wanted, when) != 0) {
				t.Errorf("%v: %s is called for: %v", when, x.ID, x.CalledFor)
			}
		}
	}
	if lostEver < 100 {
		t.Errorf("only %d losses were looked at", lostEver)
	}
}

func same[T any](t *testing.T, when book.Time, what string, want []string, got []T, id func(T) string) {
	t.Helper()
	var ids []string
	for _, g := range got {
		ids = append(ids, id(g))
	}
	slices.Sort(ids)
	slices.Sort(want)
	if !slices.Equal(ids, want) {
		t.Errorf("%v: %s is %v\nwant %v", when, what, ids, want)
	}
}

// TestOf_KnownByNow: nothing has failed before the failure; what is denied is not known
// while the lie stands; what is told later is not known yet.
func TestOf_KnownByNow(t *testing.T) {
	if v := snapshot.Of(answers.Of(t, answers.Headline()), at(t, "climb")); len(v.Lost) > 0 || !strings.Contains(v.Says, "nothing has failed yet") || len(v.Failed) != 1 {
		t.Errorf("before: %q, %v", v.Says, v.Failed)
	}
	v := snapshot.Of(answers.Of(t, answers.Headline()), at(t, "+11:00"))
	known := map[string]snapshot.Lost{}
	for _, x := range v.Lost {
		known[x.ID] = x
	}
	if x := known["bay_cooling"]; x.ByNow || x.Known != ledger.Denied || x.Text != "denied by “Bay fan lamp”" {
		t.Errorf("%+v", x)
	}
	if len(v.Failed) != 2 || v.At.After != "+11:00" {
		t.Errorf("%v, %+v", v.Failed, v.At)
	}
	unknown := 0
	for _, x := range v.Lost {
		if x.CalledFor && !x.ByNow {
			unknown++
		}
	}
	count := map[bool]string{true: "one", false: strconv.Itoa(unknown)}[unknown == 1]
	if want := "and of " + count + " of them nobody can know so far"; unknown == 0 || !strings.Contains(v.Says, want) {
		t.Errorf("%q; want %q", v.Says, want)
	}
	ways := v.Ways()
	rows := 0
	for i, w := range ways {
		rows += len(w.Titles)
		if i > 0 && !w.ByNow && ways[i-1].ByNow {
			t.Error("what nobody can know does not come first")
		}
	}
	if rows != len(v.Lost) {
		t.Errorf("%d of %d losses have a way", rows, len(v.Lost))
	}
}

func TestWhen(t *testing.T) {
	strike := answers.Of(t, answers.Headline()).Ledger.Strike
	for text, want := range map[string]book.Time{"+10:00": strike + 600*book.Second, "+ 90 s": strike + 90*book.Second, "12:00": 720 * book.Second, "climb + 120 s": strike} {
		if got := at(t, text); got != want {
			t.Errorf("%q is %v, not %v", text, got, want)
		}
	}
	for text, want := range map[string]string{"+climb": "behind the plus", "+99:00:00": "ends", "nowhere": "no phase called", "9:00:00": "outside flight"} {
		_, err := snapshot.When(t.Context(), answers.Of(t, answers.Headline()), text)
		var trouble *ask.Trouble
		if !errors.As(err, &trouble) || trouble.Part != "moment" || !strings.Contains(trouble.Text, want) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// TestWrite holds all that the view has.
func TestWrite(t *testing.T) {
	v := snapshot.Of(answers.Of(t, answers.Headline()), at(t, "+11:00"))
	var b bytes.Buffer
	if err := v.Write(&b, 2000); err != nil {
		t.Fatal(err)
	}
	texts := append(append([]string{v.Says, v.Caution}, v.Failed...), v.Dark...)
	for _, list := range [][]snapshot.Figure{v.Flight, v.Weather, v.Set} {
		for _, f := range list {
			texts = append(texts, f.Title+": "+f.Text)
		}
	}
	for _, x := range v.Lost {
		texts = append(texts, x.Name())
	}
	for _, x := range v.Told {
		texts = append(texts, x.Text())
	}
	for _, text := range texts {
		if !strings.Contains(b.String(), text) {
			t.Errorf("%q is missing", text)
		}
	}
}

// TestOf_WhereTheFlightBreaksOff says so, and why, before what is lost or is not.
func TestOf_WhereTheFlightBreaksOff(t *testing.T) {
	b, err := corvane.Load()
	if err != nil {
		t.Fatal(err)
	}
	q := scenario.Typed{Fail: []scenario.Strike{{What: []string{"engine_left", "engine_right"}, At: "lift_off"}}, Crew: scenario.Nobody}
	a, err := ask.NewDesk(b).Answer(t.Context(), q)
	if err != nil || a.Here.Ending().Arrived() {
		t.Fatal("it arrives: the test shows nothing", err)
	}
	if says := snapshot.Of(a, a.Here.End).Says; !strings.Contains(says, "where the flight breaks off: "+a.Here.Ending().Why) {
		t.Error(says)
	}
	if says := snapshot.Of(a, a.Here.End-book.Second).Says; strings.Contains(says, "breaks off") {
		t.Error(says)
	}
}
