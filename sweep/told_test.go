package sweep

import (
	"context"
	"reflect"
	"testing"

	"knockon/internal/corvane"
)

// TestRun_ToldRunsFlownAgainAreTheSame: how many told runs a worker keeps makes no
// difference to what is found; one that was let go of is flown again.
func TestRun_ToldRunsFlownAgainAreTheSame(t *testing.T) {
	defer func(n int) { mostTold = n }(mostTold)
	var first *Sheet
	for _, most := range []int{mostTold, 0} {
		mostTold = most
		s, err := Of(context.Background(), corvane.Build(t, ""), nil, Setting{Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		h, err := s.Run(context.Background(), 10, 2, nil)
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = h
		}
		if !reflect.DeepEqual(first, h) {
			t.Errorf("with %d told runs kept the sheet is another one", most)
		}
	}
}
