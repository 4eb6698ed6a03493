package ledger

import (
	"slices"

	"knockon/book"
	"knockon/say"
)

// flown are the quantities that people fly by and that a flight here has of itself.
var flown = []string{"airspeed_kt", "altitude_ft"}

// followed is for how long at least a readout must show wrong without a break for people
// to fly by it: a needle that jumps and comes back leads nobody anywhere.
const followed = 10 * book.Second

// unfollowed says of a flight that lands whose speed or height is shown wrong before
// that what its path leaves out: it keeps to the true ones, as if nobody were misled. ""
// where none of them shows wrong.
func (s speaker) unfollowed(down book.Time) string {
	var titles []string
	for _, r := range s.l.Wrong {
		long := func(p ReadingSpan) bool { return min(p.To, down)-p.From > followed }
		if r.flown() && slices.ContainsFunc(r.Spans, long) {
			titles = append(titles, say.Lower(r.Indication.Title))
		}
	}
	if len(titles) == 0 {
		return ""
	}
	return " Not worked out: what following " + say.And(titles) + ", which " + say.Plural(len(titles), "shows", "show") + " wrong, would do."
}

// flown tells whether a reading stands for a quantity that people fly by.
func (r Reading) flown() bool {
	m := r.Indication.Means
	return m != nil && m.Op == book.OpReal && slices.Contains(flown, m.ID)
}
