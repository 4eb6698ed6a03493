package dispatch_test

import (
	"testing"

	"knockon/book"
	"knockon/dispatch"
)

// TestForbids: each sentence, where it is so and where it is not.
func TestForbids(t *testing.T) {
	const deferrals = pair + `
deferral "one" {
  title    = "A pump"
  items    = [a, b]
  category = "C"
  only_if  = !all(failed(a), failed(b))
}
deferral "low" {
  title            = "C"
  items            = [c]
  category         = "C"
  most_altitude_ft = 5000
  no_icing         = true
}
event "storm" {
  title = "Storm"
  fails = [a]
}
`
	const goes, all = "By the book's deferrals this flight does not go with what is inoperative", deferrals
	for _, x := range []struct {
		text       string
		out, early []string
		want       string
	}{
		{pair, []string{"a"}, nil, ""},
		{all, nil, []string{"valve"}, ""},
		{all, []string{"a"}, nil, ""},
		{all, []string{"a"}, []string{"a"}, ""},
		{all, []string{"a"}, []string{"storm"}, ""},
		{all, []string{"a"}, []string{"b"}, goes + " and what fails before the take-off. “A pump” does not allow all of it."},
		{all, []string{"a", "b"}, nil, goes + ". “A pump” does not allow all of it."},
		{all, []string{"valve"}, nil, goes + ". No deferral covers valve."},
		{all, []string{"a"}, []string{"valve", "b.leaks"}, goes + " and what fails before the take-off. No deferral covers valve or pump B: leaks."},
		{all, []string{"c"}, nil, "By the book's deferrals this flight, as planned, does not go with what is inoperative: no higher than 5,000 ft and no icing is asked for."},
	} {
		b := bookOf(t, x.text)
		build, _ := b.Build("")
		if got := dispatch.Forbids(build, build.Flights[0], refs(t, build, x.out), refs(t, build, x.early)); got != x.want {
			t.Errorf("%v, %v: %q, want %q", x.out, x.early, got, x.want)
		}
	}
}

func refs(t *testing.T, b *book.Build, texts []string) (list []book.FailureRef) {
	t.Helper()
	for _, x := range texts {
		f, err := book.ParseFailure(x, b)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, f)
	}
	return list
}
