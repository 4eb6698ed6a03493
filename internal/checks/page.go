package checks

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/say"
)

// Page is docs/checks.md: what counts, by area and by source, and apart from
// it what does not.
func Page() (string, error) {
	tables, sources, err := Tables()
	if err != nil {
		return "", err
	}
	var w strings.Builder
	opening(&w, tables)
	areas(&w, tables)
	cited(&w, tables, sources)
	w.WriteString("\n## Where they stand\n")
	for _, t := range tables {
		t.places(&w, func(m Mark) bool { return m == Read })
	}
	w.WriteString("\n## Not counted\n\nThese are checked in the same tests, but nobody read them in a source: they are from memory, common practice, or were worked out by ourselves.\n")
	for _, t := range tables {
		t.places(&w, func(m Mark) bool { return m != Read })
	}
	return w.String(), nil
}

func opening(w *strings.Builder, tables []Table) {
	here, elsewhere, of := 0, 0, map[*Source]bool{}
	for _, t := range tables {
		n := t.count(Read)
		here += n
		if t.Needs != "" {
			elsewhere += n
		}
		for _, v := range t.Values {
			if v.Mark == Read {
				of[v.Source] = true
			}
		}
	}
	fmt.Fprintf(w, "# Values from outside\n\n%s\n\n", book.Caution)
	fmt.Fprintf(w, "**%s from %s.** ", say.Counted(here, "value"), say.Counted(len(of), "source"))
	w.WriteString("A value counts if it was read in its source, at the address given, and if a test holds what the program computes against it, within the tolerance that stands beside it in `internal/checks/tables`.")
	if elsewhere > 0 {
		fmt.Fprintf(w, " %d of them can be checked only where what the area needs is at hand; elsewhere its test is skipped, and says so.", elsewhere)
	}
	w.WriteString(" Written by `go run ./cmd/checks`.\n")
}

func areas(w *strings.Builder, tables []Table) {
	w.WriteString("\n| Area | Checks | Read | From memory | Common practice | Computed by ourselves |\n|-|-|-|-|-|-|\n")
	for _, t := range tables {
		fmt.Fprintf(w, "| [%s](../internal/checks/tables/%s.tsv) | `%s` | %d | %d | %d | %d |\n", t.Title, t.Area, t.Package, t.count(Read), t.count(Memory), t.count(Practice), t.count(Computed))
	}
	for _, t := range tables {
		if t.Needs != "" {
			fmt.Fprintf(w, "\n%s: needs %s.\n", t.Title, t.Needs)
		}
	}
}

func (t *Table) count(m Mark) (n int) {
	for _, v := range t.Values {
		if v.Mark == m {
			n++
		}
	}
	return n
}

// cited lists the sources that values were read in.
func cited(w *strings.Builder, tables []Table, sources []*Source) {
	w.WriteString("\n## Sources\n\n| Source | Read at | Values |\n|-|-|-|\n")
	for _, s := range sources {
		n := 0
		for _, t := range tables {
			for _, v := range t.Values {
				if v.Source == s && v.Mark == Read {
					n++
				}
			}
		}
		if n > 0 {
			fmt.Fprintf(w, "| %s | %s | %d |\n", s.Title, s.Address, n)
		}
	}
}

// places lists where an area's values of some marks stand, in the order of the
// table.
func (t *Table) places(w *strings.Builder, listed func(Mark) bool) {
	type place struct {
		mark   Mark
		source *Source
		place  string
	}
	var order []place
	count := map[place]int{}
	for _, v := range t.Values {
		p := place{v.Mark, v.Source, v.Place}
		if listed(v.Mark) && count[p] == 0 {
			order = append(order, p)
		}
		count[p]++
	}
	if len(order) == 0 {
		return
	}
	fmt.Fprintf(w, "\n### %s\n\n", t.Title)
	for _, p := range order {
		fmt.Fprintf(w, "- %s, %s: %s%s\n", p.source.Title, p.place, say.Counted(count[p], "value"), unlessRead(p.mark))
	}
}

func unlessRead(m Mark) string {
	if m == Read {
		return ""
	}
	return ", " + string(m)
}
