package drilling

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/drill"
	"knockon/say"
)

// inventory is what a screen offers to look at, to move, to take in hand and, to
// the instructor, to let fail; each thing under a heading, so that it can be found.
type inventory struct {
	Indications []thing `json:"indications"`
	Controls    []thing `json:"controls"`
	Lists       []thing `json:"lists"`
	Failures    []thing `json:"failures,omitempty"`
}

type thing struct {
	ID        string   `json:"id"`
	Title     string   `json:"title"`
	Group     string   `json:"group"`
	Positions []string `json:"positions,omitempty"`
}

func inventoryFor(d *drill.Deck, who drill.Role) (v inventory) {
	b := d.Build()
	places := map[string]int{}
	for _, i := range b.Indications {
		places["look "+i.Place]++
	}
	for _, c := range b.Controls {
		places["move "+c.Place]++
	}
	for _, i := range b.Indications {
		v.Indications = append(v.Indications, thing{ID: i.ID, Title: i.Title, Group: where(i.Place, i.Chapter, places["look "+i.Place])})
	}
	for _, c := range b.Controls {
		v.Controls = append(v.Controls, thing{ID: c.ID, Title: c.Title, Group: where(c.Place, c.Chapter, places["move "+c.Place]), Positions: c.Positions})
	}
	for _, p := range b.Procedures {
		v.Lists = append(v.Lists, thing{ID: p.ID, Title: p.Title, Group: chapter(p.Chapter)})
	}
	byGroup := func(a, b thing) int { return strings.Compare(a.Group, b.Group) }
	slices.SortStableFunc(v.Indications, byGroup)
	slices.SortStableFunc(v.Controls, byGroup)
	if who == drill.Instructor {
		v.Failures = failures(b)
	}
	return v
}

// crowded is how many things one heading may hold before it is divided.
const crowded = 12

// where is the heading of a thing: its place, and in a crowded place what it is for.
func where(place string, ch, things int) string {
	if place == "" {
		place = "elsewhere"
	}
	head := say.Capital(place)
	if things > crowded {
		head += ": " + strings.ToLower(chapter(ch))
	}
	return head
}

// failures lists what the instructor may let fail.
func failures(b *book.Build) (list []thing) {
	for _, e := range b.Events {
		list = append(list, thing{ID: e.ID, Title: e.Title, Group: "Events"})
	}
	for _, u := range b.Units {
		list = append(list, thing{ID: u.ID, Title: u.Title, Group: chapter(u.Chapter)})
		for _, f := range u.Faults {
			list = append(list, thing{ID: u.ID + "." + f.ID, Title: u.Title + ": " + f.Title, Group: chapter(u.Chapter)})
		}
	}
	return list
}

// chapters are the usual titles of the chapters of ATA Specification 100; FAA
// "Joint Aircraft System/Component Code Table and Definitions" (2008) has the
// same list. From memory.
var chapters = map[int]string{
	21: "Air conditioning", 22: "Auto flight", 23: "Communications", 24: "Electrical power", 25: "Equipment and furnishings",
	26: "Fire protection", 27: "Flight controls", 28: "Fuel", 29: "Hydraulic power", 30: "Ice and rain protection",
	31: "Indicating and recording", 32: "Landing gear", 33: "Lights", 34: "Navigation", 35: "Oxygen", 36: "Pneumatic",
	38: "Water and waste", 45: "Central maintenance", 49: "Auxiliary power", 52: "Doors", 71: "Power plant", 72: "Engine",
	73: "Engine fuel and control", 74: "Ignition", 76: "Engine controls", 77: "Engine indicating", 78: "Reverse", 79: "Engine oil", 80: "Starting",
}

func chapter(n int) string {
	if title, ok := chapters[n]; ok {
		return title
	}
	if n > 0 {
		return fmt.Sprintf("Chapter %d", n)
	}
	return "Other"
}
