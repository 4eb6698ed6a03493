package ledger

import (
	"slices"

	"knockon/book"
	"knockon/say"
)

// flown are the quantities that people fly by and that a flight here has of itself.
var flown = []string{"airspeed_kt", "altitude_ft"}

// unfollowed says of a flight that lands whose speed or height is shown wrong before
// that what its path leaves out: it keeps to the true ones, as if nobody were misled. ""
// where none of them shows wrong.
func (s speaker) unfollowed(down book.Time) string {
	var titles []string
	for _, r := range s.l.Wrong {
		if r.flown() && r.Spans[0].From < down {
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
