package view

import (
	"fmt"
	"slices"

	"knockon/say"
	"knockon/sweep"
)

func (v *viewer) together(most int) (rows []Row) {
	for _, t := range v.Together(most) {
		r := Row{Score: t.Excess, Title: v.names(t.Set), Where: v.phase(t.Phase), Query: v.query(t.Set, t.Phase)}
		v.losses(&r, slices.Concat(t.New, t.Worse))
		for _, set := range t.Also {
			r.Also = append(r.Also, v.names(set))
		}
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) traps(most int) (rows []Row) {
	for _, t := range v.Traps(most) {
		r := Row{Score: t.Score, Title: v.names(t.Set), Query: v.query(t.Set, t.Phase)}
		r.Where = fmt.Sprintf("%s; in %d of %d phases", v.phase(t.Phase), t.In, len(v.Sheets))
		v.losses(&r, v.Sheets[t.Phase].Outcome(t.Set).Lost)
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) phases(most int) (rows []Row) {
	for _, t := range v.PhaseMatters(most) {
		set := sweep.Set{t.Failure}
		r := Row{Score: t.Spread, Title: v.names(set), Query: v.query(set, t.Worst)}
		r.Where = fmt.Sprintf("worst in %s, least in %s", v.phase(t.Worst), v.phase(t.Best))
		v.losses(&r, t.Only)
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) guardians(most int) (rows []Row) {
	for _, g := range v.Guardians(most) {
		r := Row{Score: g.Weight, Title: v.guardian(g.ID, g.Alert)}
		r.Where = fmt.Sprintf("%s and %s rest on it", say.Counted(len(g.Functions), "function"), say.Counted(len(g.Failures), "failure"))
		for _, t := range g.Takers {
			r.Also = append(r.Also, v.failure(t.Failure))
		}
		rows = append(rows, r)
	}
	return rows
}

func (v *viewer) guardian(id string, alert bool) string {
	if !alert {
		return v.title(id)
	}
	for _, a := range v.Build.Alerts {
		if a.ID == id {
			return "alert “" + a.Message + "”"
		}
	}
	return id
}

func (v *viewer) faces(most int) (rows []Row) {
	for _, f := range v.Faces(1, most) {
		r := Row{Score: f.Spread, Title: "no alert", Query: v.query(f.Causes[0].Set, f.Phase), Where: v.phase(f.Phase)}
		for i, a := range f.Alerts {
			if i == 0 {
				r.Title = ""
			} else {
				r.Title += ", "
			}
			r.Title += v.guardian(v.Build.Alerts[a].ID, true)
		}
		for _, c := range f.Causes {
			r.Also = append(r.Also, v.names(c.Set))
		}
		rows = append(rows, r)
	}
	return rows
}
