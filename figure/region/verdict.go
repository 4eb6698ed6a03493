package region

import (
	"fmt"
	"slices"
	"strings"

	"knockon/say"
)

// fate is what the failure makes of an airfield, the most telling first.
type fate uint8

const (
	lost fate = iota
	gained
	stays
	never
	unknown
)

func (a Airfield) fate() fate {
	switch {
	case a.Healthy == Can && a.Failed == CanNot:
		return lost
	case a.Healthy == CanNot && a.Failed == Can:
		return gained
	case a.Failed == Can:
		return stays
	case a.Failed == CanNot:
		return never
	}
	return unknown
}

// fates names them, for the legend.
var fates = [...]string{
	lost:    "lost with the failure",
	gained:  "only with the failure",
	stays:   "can be landed on, also with the failure",
	never:   "cannot be landed on",
	unknown: "not asked",
}

// field is an airfield on the plane.
type field struct {
	Airfield
	spot spot
	fate fate
}

// miles is the distance in words: the caller's, or the map's own.
func (f field) miles() string {
	nm := f.spot.miles()
	if f.NM > 0 && f.NM < farthestNM {
		nm = f.NM
	}
	return say.Whole(nm) + " NM"
}

// says is all about an airfield in one line.
func (f field) says() string {
	text := strings.TrimSpace(f.Ident)
	if f.Name != "" && f.Name != f.Ident {
		text += " " + f.Name
	}
	text += ", " + f.miles()
	if f.Reason != "" && f.fate != stays {
		text += ", " + f.Reason
	}
	return text
}

// fields are the airfields that are on the globe, the most telling first and
// the nearest first among them.
func (m Map) fields() (fields []field) {
	for _, a := range m.Airfields {
		if a.At.sound() {
			fields = append(fields, field{a, onPlane(m.Here, a.At), a.fate()})
		}
	}
	slices.SortStableFunc(fields, func(a, b field) int {
		if a.fate != b.fate {
			return int(a.fate) - int(b.fate)
		}
		switch d := a.spot.miles() - b.spot.miles(); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	return fields
}

// Caption is the title of the picture: its own, or one made from the rest.
func (m Map) Caption() string {
	if m.Title != "" {
		return m.Title
	}
	return "What can be reached and landed on, healthy and failed"
}

// Words says the picture to whoever does not see it.
func (m Map) Words() string {
	if !m.Here.sound() {
		return "There is no map, because the present position is not known."
	}
	return "A map around the present position, north up. " + m.sums() + " " + m.lostOnes(mostLost)
}

// sums counts the airfields that can be landed on.
func (m Map) sums() string {
	if len(m.Airfields) == 0 {
		return "There are no airfields."
	}
	healthy, failed := 0, 0
	for _, a := range m.Airfields {
		if a.Healthy == Can {
			healthy++
		}
		if a.Failed == Can {
			failed++
		}
	}
	return fmt.Sprintf("Of %s %d can be landed on healthy and %d with the failure.", say.Counted(len(m.Airfields), "airfield"), healthy, failed)
}

// How many lost airfields are named in words, and on a narrow sheet.
const (
	mostLost     = 24
	mostLostSlim = 10
)

// lostOnes names the airfields that the failure takes away, and why: at most
// so many, the nearest.
func (m Map) lostOnes(most int) string {
	var names []string
	left := 0
	for _, f := range m.fields() {
		switch {
		case f.fate == lost && len(names) < most:
			names = append(names, f.says())
		case f.fate == lost:
			left++
		}
	}
	if len(names) == 0 {
		return "The failure takes none of them away."
	}
	text := "Lost with the failure: " + strings.Join(names, "; ")
	if left > 0 {
		text += fmt.Sprintf("; and %d more", left)
	}
	return text + "."
}
