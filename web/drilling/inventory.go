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
	var events []thing
	for _, f := range b.Failures() {
		item, _ := b.Item(f.Unit)
		x := thing{ID: f.String(), Title: b.FailureTitle(f.String()), Group: chapter(item.Named().Chapter)}
		if _, event := item.(*book.Event); event {
			x.Group = "Events"
			events = append(events, x)
			continue
		}
		list = append(list, x)
	}
	return append(events, list...)
}

func chapter(n int) string {
	title := book.ChapterTitle(n)
	switch {
	case n == 0:
		return "Other"
	case title == "":
		return fmt.Sprintf("Chapter %d", n)
	}
	return title
}
