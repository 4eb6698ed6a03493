package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"knockon/book"
	"knockon/say"
	"knockon/sweep/view"
)

// write prints the findings of the first build, and where builds differ.
func (c *sweepCommand) write(w io.Writer, all []*swept) error {
	v, s := c.view(all), all[0]
	fmt.Fprintf(w, "%s.\n", v.Builds[0].Setting)
	for _, s := range all {
		if !s.late {
			fmt.Fprintf(w, "%s\n", s.extent(c.Order))
		}
	}
	for _, p := range v.Builds {
		if p.Open != "" {
			fmt.Fprintf(w, "Build %s: %s\n", p.Build, p.Open)
		}
		if len(p.Missing) > 0 {
			fmt.Fprintf(w, "PARTIAL: the time was over; of build %s these phases are missing: %s.\n", p.Build, strings.Join(p.Missing, ", "))
		}
	}
	lists := v.Builds[0].Lists
	if v.Differ != nil {
		lists = append(lists, *v.Differ)
	}
	for _, l := range lists {
		writeFindings(w, l)
	}
	_, err := fmt.Fprintf(w, "\nAny of them in full: knockon fail <failures> --at \"<phase> + 5 s\" --build %s. The formulas: docs/sweep.md.\n%s\n", s.Build.Variant, book.Caution)
	return err
}

// writeFindings prints one list. Failures stand in it as one writes them.
func writeFindings(w io.Writer, l view.List) {
	fmt.Fprintf(w, "\n%s: %s\n", strings.ToUpper(l.Title), l.How)
	if len(l.Rows) == 0 {
		fmt.Fprintf(w, "  %s\n", l.None)
	}
	for _, r := range l.Rows {
		name := r.Refs()
		if name == "" {
			name = r.Title
		}
		fmt.Fprintf(w, "  %7.1f  %-32s %s%s\n", r.Score, name, r.Where, say.Ahead(": ", r.Worst()))
		if also := r.Others(false); also != "" {
			fmt.Fprintf(w, "           %s: %s\n", say.Lower(l.What()), also)
		}
	}
}

// extent says how much was swept.
func (s *swept) extent(order int) string {
	n := int64(len(s.Failures))
	sets, together := n, n
	for k := int64(2); k <= int64(order); k++ {
		together = together * (n - k + 1) / k
		sets += together
	}
	met := 0
	for _, sheet := range s.Sheets {
		met += len(sheet.Sets)
	}
	phases := int64(len(s.Sheets))
	return fmt.Sprintf("%s: %s, %s; %s of up to %d, %s of them more than their parts (%.2f s).",
		s.Build.Variant, say.Counted(n, "failure"), say.Counted(phases, "phase"), say.Counted(sets*phases, "set"), order, say.Whole(float64(met)), s.took.Round(10*time.Millisecond).Seconds())
}

func (s *swept) missing() (ids []string) {
	if s.late {
		return []string{"all of them"}
	}
	for _, p := range s.phases[len(s.Sheets):] {
		ids = append(ids, p.ID)
	}
	return ids
}
