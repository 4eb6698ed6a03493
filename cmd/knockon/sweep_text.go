package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"knockon/book"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// write prints the findings of the first build, and where builds differ.
func (c *sweepCommand) write(w io.Writer, all []*swept) error {
	s := all[0]
	fmt.Fprintf(w, "%s, %s; %s.\n", s.Build.Aircraft.Title, buildTitle(s.Build), s.flight.Title)
	for _, s := range all {
		if !s.late {
			fmt.Fprintf(w, "%s\n", s.extent(c.Order))
		}
	}
	for _, s := range all {
		if s.partial() {
			fmt.Fprintf(w, "PARTIAL: the time was over; of build %s these phases are missing: %s.\n", s.Build.Variant, strings.Join(s.missing(), ", "))
		}
	}
	c.writeTraps(w, s)
	if c.Order > 1 {
		c.writeTogether(w, s)
	}
	c.writePhases(w, s)
	c.writeBuilds(w, all)
	c.writeGuardians(w, s)
	c.writeFaces(w, s)
	_, err := fmt.Fprintf(w, "\nAny of them in full: knockon fail <failures> --at \"<phase> + 5 s\" --build %s. The formulas: docs/sweep.md.\n%s\n", s.Build.Variant, book.Caution)
	return err
}

func buildTitle(b *book.Build) string {
	for _, v := range b.Book.Variants {
		if v.ID == b.Variant {
			return "build " + v.Title
		}
	}
	return "build " + b.Variant
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

// names writes a set of failures.
func (s *swept) names(set sweep.Set) string {
	var ids []string
	for _, n := range set {
		ids = append(ids, s.Failures[n].String())
	}
	return strings.Join(ids, " + ")
}

func (s *swept) at(phase int) string { return s.Sheets[phase].Phase.Moment.String() }

func (c *sweepCommand) writeTraps(w io.Writer, s *swept) {
	traps := s.Traps(c.Most)
	heading(w, "TRAPS: single failures by severity, silence, lateness and surprise", len(traps))
	for _, t := range traps {
		fmt.Fprintf(w, "  %7.1f  %-32s %-28s %d silent, %d far from the failure; worst %s; in %d of %d phases\n",
			t.Score, s.names(t.Set), s.at(t.Phase), t.Silent, t.Strange, t.Severity, t.In, len(s.Sheets))
	}
}

func heading(w io.Writer, text string, n int) {
	fmt.Fprintf(w, "\n%s\n", text)
	if n == 0 {
		fmt.Fprintln(w, "  none")
	}
}

func (c *sweepCommand) writeTogether(w io.Writer, s *swept) {
	list := s.Together(c.Most)
	heading(w, "WORSE TOGETHER: what the parts of the set do not do", len(list))
	for _, t := range list {
		fmt.Fprintf(w, "  %7.1f  %-44s %-28s %s\n", t.Excess, s.names(t.Set), s.at(t.Phase), s.losses(slices.Concat(t.New, t.Worse)))
		if len(t.Also) > 0 {
			fmt.Fprintf(w, "           and %d more that do the same, such as %s\n", len(t.Also), s.names(t.Also[0]))
		}
	}
}

// losses writes the worst three of some losses, and how many more there are.
func (s *swept) losses(list []sweep.Lost) string {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b sweep.Lost) int {
		return cmp.Or(-cmp.Compare(s.Weight(a, nil), s.Weight(b, nil)), cmp.Compare(a.Function, b.Function))
	})
	var parts []string
	for i, l := range list {
		if i == 3 {
			parts = append(parts, fmt.Sprintf("and %d more", len(list)-3))
			break
		}
		parts = append(parts, s.Build.Functions[l.Function].ID+" "+l.String())
	}
	return strings.Join(parts, ", ")
}

func (c *sweepCommand) writePhases(w io.Writer, s *swept) {
	list := s.PhaseMatters(c.Most)
	heading(w, "THE PHASE THAT MATTERS: the same failure, another outcome", len(list))
	for _, t := range list {
		fmt.Fprintf(w, "  %7.1f  %-32s worst in %s, least in %s: %s\n", t.Spread, s.Failures[t.Failure], s.Sheets[t.Worst].Phase.ID, s.Sheets[t.Best].Phase.ID, s.losses(t.Only))
	}
}

func (c *sweepCommand) writeBuilds(w io.Writer, all []*swept) {
	if len(all) < 2 {
		return
	}
	list := findings.BuildMatters(plain(all), c.Most)
	heading(w, "THE BUILD THAT MATTERS: the same failure, another outcome", len(list))
	for _, d := range list {
		fmt.Fprintf(w, "  %7.1f  %-32s %s: worst on %s, least on %s: %s\n", d.Spread, d.Failure, d.Phase, all[d.Worst].Build.Variant, all[d.Best].Build.Variant, shortened(d.Only))
	}
}

func plain(all []*swept) (list []*findings.Swept) {
	for _, s := range all {
		list = append(list, &s.Swept)
	}
	return list
}

func shortened(ids []string) string {
	if len(ids) > 3 {
		return fmt.Sprintf("%s and %d more", strings.Join(ids[:3], ", "), len(ids)-3)
	}
	return strings.Join(ids, ", ")
}

func (c *sweepCommand) writeGuardians(w io.Writer, s *swept) {
	list := s.Guardians(c.Most)
	heading(w, "LONE GUARDIANS: what alone tells of a loss, and what takes it away", len(list))
	for _, g := range list {
		kind := "indication"
		if g.Alert {
			kind = "alert"
		}
		fmt.Fprintf(w, "  %7.1f  %-32s %s; %s, %s rest on it%s\n", g.Weight, g.ID, kind, say.Counted(len(g.Functions), "function"), say.Counted(len(g.Failures), "failure"), s.takers(g.Takers))
	}
}

func (s *swept) takers(list []findings.Taker) string {
	if len(list) == 0 {
		return ""
	}
	var ids []string
	for _, t := range list {
		ids = append(ids, s.Failures[t.Failure].String())
	}
	return "; taken away by " + shortened(ids)
}

func (c *sweepCommand) writeFaces(w io.Writer, s *swept) {
	list := s.Faces(1, c.Most)
	heading(w, "SAME FACE, DIFFERENT CAUSE: single failures that give the same alerts", len(list))
	for _, f := range list {
		var alerts, causes []string
		for _, a := range f.Alerts {
			alerts = append(alerts, s.Build.Alerts[a].ID)
		}
		if len(alerts) == 0 {
			alerts = []string{"no alert"}
		}
		for _, cause := range f.Causes {
			causes = append(causes, s.names(cause.Set))
		}
		fmt.Fprintf(w, "  %7.1f  %s (%s): %s\n", f.Spread, shortened(alerts), s.at(f.Phase), shortened(causes))
	}
}
