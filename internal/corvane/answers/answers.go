// Package answers turns questions into answers of the demonstration, without its
// airfields, for tests: one desk for all tests of a package. Start reading at Of.
package answers

import (
	"sync"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/scenario"
)

var desk = sync.OnceValues(func() (*ask.Desk, error) {
	b, err := corvane.Load()
	if err != nil {
		return nil, err
	}
	return ask.NewDesk(b), nil
})

// Headline is the question that the demonstration opens with.
func Headline() ask.Question {
	return ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}}
}

// Of answers a question; one that cannot be answered ends the test.
func Of(t testing.TB, q ask.Question) *ask.Answer {
	t.Helper()
	d, err := desk()
	if err != nil {
		t.Fatal(err)
	}
	a, err := d.Answer(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
