package worth

import (
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/circuit"
)

// TestSpans_AgainstSets compares beyond and within with sets of whole moments.
func TestSpans_AgainstSets(t *testing.T) {
	chance := rand.New(rand.NewPCG(4, 4))
	for range 2000 {
		a, b := someSpans(chance), someSpans(chance)
		rest, both := inSet(beyond(a, b)), inSet(within(a, b))
		x, y := inSet(a), inSet(b)
		for m := range book.Time(40) {
			if rest[m] != (x[m] && !y[m]) || both[m] != (x[m] && y[m]) {
				t.Fatalf("at %d: %v and %v: beyond %v, within %v", m, a, b, beyond(a, b), within(a, b))
			}
		}
		if got := sum(beyond(a, b)) + sum(within(a, b)); got != sum(a) {
			t.Fatalf("%v and %v: %d of %d are accounted for", a, b, got, sum(a))
		}
	}
}

func someSpans(chance *rand.Rand) (list []circuit.Span) {
	for at := book.Time(chance.IntN(10)); at < 38; {
		to := at + 1 + book.Time(chance.IntN(6))
		list = append(list, circuit.Span{From: at, To: min(to, 39)})
		at = to + 1 + book.Time(chance.IntN(6))
	}
	return list
}

func inSet(list []circuit.Span) map[book.Time]bool {
	set := map[book.Time]bool{}
	for _, s := range list {
		for m := s.From; m < s.To; m++ {
			set[m] = true
		}
	}
	return set
}

func TestAlike(t *testing.T) {
	span := func(from, to book.Time) []circuit.Span {
		return []circuit.Span{{From: from * book.Second, To: to * book.Second}}
	}
	for _, c := range []struct {
		a, b []circuit.Span
		want bool
	}{
		{nil, nil, true},
		{span(10, 20), nil, false},
		{span(10, 100), span(40, 130), true},
		{span(10, 100), span(41, 100), false},
		{span(10, 100), span(10, 131), false},
	} {
		if got := alike(c.a, c.b); got != c.want {
			t.Errorf("%v and %v: %v", c.a, c.b, got)
		}
	}
}

func TestMirrored(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"gen_left_switch", "gen_right_switch", true},
		{"radio_alt_1", "radio_alt_2", true},
		{"fire_loop_left_a", "fire_loop_right_a", true},
		{"fire_loop_left_a", "fire_loop_right_b", false},
		{"gen_left_switch", "gen_left_switch", false},
		{"gen_left", "gen_left_switch", false},
		{"left_1", "right_2", true},
	} {
		if mirrored(c.a, c.b) != c.want {
			t.Errorf("%s and %s", c.a, c.b)
		}
	}
}
