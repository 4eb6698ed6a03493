package sweep

import (
	"math/rand/v2"
	"testing"
)

// TestMeetings_AreThoseOfEveryTwo holds them to one look at every two.
func TestMeetings_AreThoseOfEveryTwo(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 0))
	list, met := make([]reach, 60), 0
	for a := range list {
		list[a] = make(reach, 9)
		for range r.IntN(12) {
			list[a].add(r.Int32N(9 * 64))
		}
	}
	meets := meetings(list)
	for a := range list {
		for b := range list {
			want := a != b && list[a].meets(list[b])
			if meets[a][b] != want {
				t.Errorf("%d and %d: %v, want %v", a, b, meets[a][b], want)
			}
			if want {
				met++
			}
		}
	}
	if met < 100 || met > 3000 {
		t.Errorf("%d of %d meet: no test", met, len(list)*len(list))
	}
}
