package drilling

import (
	"context"
	"crypto/rand"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"knockon/book"
	"knockon/drill"
	"knockon/scenario"
)

// exercise is a scenario that the book brings along: what one of its claims is given,
// where the crew do nothing of their own.
type exercise struct {
	ID, Title string
	Theme     string // the chapter of what fails first
	Minutes   int    // to the end of the flight, if nobody turns it; 0: not known
	Script    drill.Script
}

// lengths are the bounds, in minutes, by which exercises are chosen.
var lengths = []int{15, 30, 60, 90}

// prepare lists them in the order of the book. Failures that come on a condition
// are left out: a drill has them come at a time.
func prepare(b *book.Book) (list []exercise) {
	build, ok := b.Build("")
	if !ok {
		return nil
	}
	for _, c := range build.Claims {
		for i, g := range c.Given {
			s, ok := scenario.OfGiven(g)
			s.Fail = slices.DeleteFunc(s.Fail, func(k drill.Strike) bool { return len(k.What) == 0 })
			if ok && len(s.Fail) > 0 {
				x := exercise{ID: fmt.Sprintf("%s.%d", c.ID, i+1), Title: c.Says, Theme: themeOf(build, s), Script: s}
				if g.Title != "" {
					x.Title += " (" + g.Title + ")"
				}
				list = append(list, x)
			}
		}
	}
	return list
}

// themeOf is the chapter of what fails first in a script.
func themeOf(b *book.Build, s drill.Script) string {
	unit, _, _ := strings.Cut(s.Fail[0].What[0], ".")
	item, ok := b.Item(unit)
	if !ok {
		return chapter(0)
	}
	return chapter(item.Named().Chapter)
}

// themes are those of a list, in the order of the alphabet.
func themes(list []exercise) (names []string) {
	for _, x := range list {
		names = append(names, x.Theme)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// exercises lists what is prepared, by theme, each with how long it lasts at most.
func (h *Hall) exercises(ctx context.Context) []exercise {
	h.timed.Do(func() {
		ctx := context.WithoutCancel(ctx) // they are worked out once, for all who ask
		for i := range h.prepared {
			h.prepared[i].Minutes = h.lasts(ctx, h.prepared[i].Script)
		}
		slices.SortStableFunc(h.prepared, func(a, b exercise) int { return strings.Compare(a.Theme, b.Theme) })
	})
	return h.prepared
}

// lasts is how many minutes pass from where a drill of a script begins to the end of its
// flight, if nobody turns it.
func (h *Hall) lasts(ctx context.Context, s drill.Script) int {
	d, err := h.deck(s.Build, s.Flight)
	if err != nil {
		return 0
	}
	phases, err := d.Course().Clock(ctx)
	first, ok := firstStrike(ctx, d, s)
	if err != nil || !ok || len(phases) == 0 {
		return 0
	}
	return int((phases[len(phases)-1].To - max(0, first-leadIn) + 30*book.Second) / (60 * book.Second))
}

// surprise draws one of a theme ("": any) that lasts no longer than so many minutes (0:
// as long as it likes).
func surprise(list []exercise, theme string, most int) (s drill.Script, err error) {
	var among []exercise
	for _, x := range list {
		if (theme == "" || x.Theme == theme) && (most <= 0 || x.Minutes <= most) {
			among = append(among, x)
		}
	}
	if len(among) == 0 {
		return s, &drill.Refusal{Why: drill.Garbage, Text: "nothing that is prepared fits that theme and that length: choose another"}
	}
	n, err := rand.Int(rand.Reader, big.NewInt(int64(len(among))))
	if err != nil {
		return s, err
	}
	return among[n.Int64()].Script, nil
}
