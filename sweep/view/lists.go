package view

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/findings"
)

func (v *viewer) together(most int) (rows []Row) {
	for _, t := range v.Together(most) {
		r := v.row(t.Excess, t.Set, t.Phase, slices.Concat(t.New, t.Worse))
		for _, set := range t.Also {
			r.Also = append(r.Also, v.names(set...))
		}
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) traps(most int) (rows []Row) {
	for _, t := range v.Traps(most) {
		r := v.row(t.Score, t.Set, t.Phase, v.Sheets[t.Phase].Outcome(t.Set).Lost)
		r.Where += fmt.Sprintf("; %d hidden or denied, %d far from the failure; worst %s; in %d of %s", t.Silent, t.Strange, t.Severity, t.In, say.Counted(len(v.Sheets), "phase"))
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) phases(most int) (rows []Row) {
	for _, t := range v.PhaseMatters(most) {
		r := v.row(t.Spread, sweep.Set{t.Failure}, t.Worst, t.Only)
		r.Where = fmt.Sprintf("worst in %s, least in %s", v.phase(t.Worst), v.phase(t.Best))
		if r.Open = r.Open || v.Sheets[t.Best].Open(sweep.Set{t.Failure}); r.Open {
			r.Where = BreaksOff + " " + r.Where
		}
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) guardians(most int) (rows []Row) {
	for _, g := range v.Guardians(most) {
		r := Row{Score: g.Weight, Names: Names{IDs: []string{g.ID}, Title: v.Build.Title(g.ID)}, Failures: v.names(g.Failures...).IDs, Functions: v.functions(g.Functions)}
		if g.Alert {
			r.Names = v.alerts(slices.IndexFunc(v.Build.Alerts, func(a *book.Alert) bool { return a.ID == g.ID }))
		}
		r.Where = fmt.Sprintf("%s and %s rest on it", say.Counted(len(g.Functions), "function"), say.Counted(len(g.Failures), "failure"))
		for _, t := range g.Takers {
			r.Also = append(r.Also, v.names(t.Failure))
		}
		rows = append(rows, r)
	}
	return rows
}

// alerts names alerts by their places.
func (v *viewer) alerts(places ...int) (n Names) {
	var messages []string
	for _, a := range places {
		n.IDs, messages = append(n.IDs, v.Build.Alerts[a].ID), append(messages, "alert “"+v.Build.Alerts[a].Message+"”")
	}
	n.Title = strings.Join(messages, ", ")
	return n
}

func (v *viewer) functions(places []int32) (ids []string) {
	for _, f := range places {
		ids = append(ids, v.Build.Functions[f].ID)
	}
	return ids
}

func (v *viewer) faces(most int) (rows []Row) {
	for _, f := range v.Faces(1, most) {
		r := v.row(f.Spread, f.Causes[0].Set, f.Phase, nil)
		r.Names = Names{IDs: []string{}, Title: "no alert"}
		if len(f.Alerts) > 0 {
			var places []int
			for _, a := range f.Alerts {
				places = append(places, int(a))
			}
			r.Names = v.alerts(places...)
		}
		for _, c := range f.Causes {
			n := v.names(c.Set...)
			n.Score, n.Lost = c.Score, v.functions(c.Lost)
			r.Also = append(r.Also, n)
		}
		rows = append(rows, r)
	}
	return rows
}

// Builds lists where builds that were swept differ; missing are phases that were
// not done on one of them.
func Builds(all []*findings.Swept, missing []string, most int) List {
	l := List{ListBuilds, "The build that matters", "the same failure, another outcome", "Every failure does the same on these builds.", []Row{}}
	var opens string
	for _, s := range all {
		opens += open(s)
	}
	if none := noneKnown(missing, opens); none != "" {
		l.None = none
	}
	for _, d := range findings.BuildMatters(all, most) {
		worst, least := all[d.Worst].Build, all[d.Best].Build
		r := Row{Score: d.Spread, Names: Names{IDs: []string{d.Failure}, Title: worst.FailureTitle(d.Failure)}}
		r.Where = fmt.Sprintf("%s: worst on %s, least on %s", worst.Title(d.Phase), worst.VariantTitle(), least.VariantTitle())
		for _, id := range d.Only {
			r.Losses = append(r.Losses, Loss{Function: id, Title: worst.Title(id), Mattered: true})
		}
		l.Rows = append(l.Rows, r)
	}
	return l
}
