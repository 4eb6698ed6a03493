package ledger

import (
	"slices"

	"knockon/book"
	"knockon/say"
)

// flown are the quantities that people fly by and that a flight here has of itself.
var flown = []string{"airspeed_kt", "altitude_ft"}

// unfollowed says of a flight that lands whose speed or height is shown wrong before
// that: it is worked out by the true ones, as if nobody flew by what is shown. "" where
// none of them shows wrong.
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
	return " That is a flight at its true speeds and heights: nobody in it flies by what " + say.And(titles) + " wrongly " + say.Plural(len(titles), "shows", "show") + "."
}

// flown tells whether a reading stands for a quantity that people fly by.
func (r Reading) flown() bool {
	m := r.Indication.Means
	return m != nil && m.Op == book.OpReal && slices.Contains(flown, m.ID)
}
