package landing

import (
	"fmt"
	"math"
	"slices"

	"knockon/figure/sheet"
	"knockon/say"
)

// Bounds of what a picture of a landing shows; what lies outside is senseless
// and left out.
const (
	mostMetres = 1e5
	mostKt     = 1000
	mostEvents = 24
)

func soundPoint(p Point) bool {
	return sheet.Sound(p.Metres, mostMetres) && sheet.Sound(p.Kt, mostKt) && p.Kt >= 0
}

// sound gives the landing without what is senseless in it.
func (s Stop) sound(margin float64) Stop {
	s.Track = slices.DeleteFunc(slices.Clone(s.Track), func(p Point) bool { return !soundPoint(p) })
	s.Events = slices.DeleteFunc(slices.Clone(s.Events), func(e Event) bool { return !soundPoint(Point{e.Metres, e.Kt}) })
	slices.SortStableFunc(s.Events, func(a, b Event) int { return compare(a.Metres, b.Metres) })
	s.Events = s.Events[:min(len(s.Events), mostEvents)]
	if !(s.Metres > 0 && s.Metres < mostMetres) {
		s.Metres = 0
	}
	if !(s.Factored > 0 && s.Factored < 10*mostMetres) {
		s.Factored = s.Metres * (1 + margin)
	}
	if !(s.Manual > 0 && s.Manual < 10*mostMetres) {
		s.Manual = 0
	}
	if s.NeverStops {
		s.Metres, s.Factored = 0, 0
	}
	return s
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// sound gives the picture without what is senseless in it.
func (r Roll) sound() Roll {
	if !(r.Margin > 0 && r.Margin <= 10) {
		r.Margin = 0
	}
	if !(r.Available > 0 && r.Available < mostMetres) {
		r.Available = 0
	}
	r.Healthy, r.Failed = r.Healthy.sound(r.Margin), r.Failed.sound(r.Margin)
	return r
}

// dropped counts the points and events that sound left out.
func (r Roll) dropped() int {
	s := r.sound()
	return len(r.Healthy.Track) + len(r.Failed.Track) + len(r.Healthy.Events) + len(r.Failed.Events) -
		len(s.Healthy.Track) - len(s.Failed.Track) - len(s.Healthy.Events) - len(s.Failed.Events)
}

// ktAt is the speed where a track passes a distance; false when it does not.
func (s Stop) ktAt(metres float64) (float64, bool) {
	for i := 1; i < len(s.Track); i++ {
		a, b := s.Track[i-1], s.Track[i]
		if a.Metres <= metres && metres <= b.Metres && b.Metres > a.Metres {
			return a.Kt + (b.Kt-a.Kt)*(metres-a.Metres)/(b.Metres-a.Metres), true
		}
	}
	return 0, false
}

// tale says a landing in one sentence, with its numbers.
func (r Roll) tale(who string, s Stop) string {
	if s.NeverStops || s.Metres == 0 {
		return r.taleWithoutStop(who, s)
	}
	text := fmt.Sprintf("%s: stops at %s m", who, say.Whole(s.Metres))
	if s.Factored > s.Metres {
		text += fmt.Sprintf(", with the %s margin %s m", r.marginText(), say.Whole(s.Factored))
	}
	if r.Available == 0 {
		return text + "; the distance available is not known."
	}
	return text + fmt.Sprintf(", of %s m available: %s.", say.Whole(r.Available), r.verdict(s))
}

func (r Roll) taleWithoutStop(who string, s Stop) string {
	text := who + ": the distance is not known."
	if s.NeverStops {
		text = who + ": does not stop."
	}
	if kt, ok := s.ktAt(r.Available); ok && r.Available > 0 {
		text += fmt.Sprintf(" At the end of the %s m available it is still at %s kt.", say.Whole(r.Available), say.Whole(kt))
	}
	return text
}

// manual says what the book's own manual makes of it; "" when it says nothing.
func (r Roll) manual(s Stop) string {
	if s.Manual == 0 {
		return ""
	}
	text := fmt.Sprintf("By the book's manual (open triangle): %s m", say.Whole(s.Manual))
	if r.Available > 0 {
		over := math.Round(s.Manual) - math.Round(r.Available)
		text += ", " + spare(over)
	}
	if s.Manual > s.Factored && s.Factored > 0 {
		text += "; the larger decides"
	}
	return text + "."
}

// spare says how far a distance is over what is available, or under it.
func spare(over float64) string {
	if over > 0 {
		return say.Whole(over) + " m short"
	}
	return say.Whole(-over) + " m to spare"
}

// verdict says how a landing's distance compares with what there is.
func (r Roll) verdict(s Stop) string {
	over := math.Round(s.Factored) - math.Round(r.Available)
	if over > 0 && s.Metres <= r.Available {
		return spare(over) + ", though it stops before the end"
	}
	return spare(over)
}

func (r Roll) marginText() string { return say.Whole(r.Margin*100) + " %" }

// Caption is the title of the picture: its own, or one made from the numbers.
func (r Roll) Caption() string {
	if r.Title != "" {
		return r.Title
	}
	if r.Runway == "" {
		return "The landing roll, healthy and failed"
	}
	return "The landing roll on " + r.Runway + ", healthy and failed"
}

// Words says the picture to whoever does not see it.
func (r Roll) Words() string {
	r = r.sound()
	if len(r.landings()) == 0 {
		return noLanding
	}
	text := "Speed over the ground against distance from the threshold."
	for _, l := range r.landings() {
		text += " " + r.tale(l.who, l.Stop)
		if manual := r.manual(l.Stop); manual != "" {
			text += " " + manual
		}
		for i, e := range l.Events {
			if i == 0 {
				text += " On the way:"
			} else {
				text += ";"
			}
			text += " " + e.text()
		}
		if len(l.Events) > 0 {
			text += "."
		}
	}
	return text
}

func (e Event) text() string {
	return fmt.Sprintf("%s %s m, %s kt", e.What, say.Whole(e.Metres), say.Whole(e.Kt))
}

const noLanding = "There is no landing that could be shown."

// landing is one of the two, with its name.
type landing struct {
	Stop
	who string
}

// landings are the ones that have something to show.
func (r Roll) landings() (list []landing) {
	for _, l := range []landing{{r.Healthy, "Healthy"}, {r.Failed, "Failed"}} {
		if len(l.Track) > 0 || len(l.Events) > 0 || l.Metres > 0 || l.NeverStops {
			list = append(list, l)
		}
	}
	return list
}
