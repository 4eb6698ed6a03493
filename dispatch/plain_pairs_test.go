package dispatch_test

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/dispatch"
	"knockon/ledger"
	"knockon/run"
)

// lists is the other half of step 5: what is dark has to be looked at, or only what
// is inoperative answers, in a list that a warning of something grave calls for.
func (p *plain) lists() (list []string) {
	dark := map[string]bool{}
	for _, d := range p.still().Dark {
		dark[d.Indication.ID] = true
	}
	for n, id := range []string{"list0", "list1"} {
		grave := false
		for _, a := range p.a.Build.Alerts {
			for _, f := range p.a.Build.Functions {
				grave = grave || a.Procedure == id && slices.Contains(a.Tells, f.ID) && (f.Severity != "minor" && f.Severity != "major" || f.SeverityIfHidden != "")
			}
		}
		switch {
		case !grave:
		case n == 0 && p.lever():
			list = append(list, fmt.Sprintf("A list for an emergency needs it: nothing answers to lever = off in “%s”.", id))
		case n == 1:
			for _, i := range []string{"i0", "i1"} {
				if dark[i] {
					list = append(list, fmt.Sprintf("A list for an emergency needs it: “%s” is dark and has to be looked at in “%s”.", i, id))
				}
			}
		}
	}
	return list
}

// lever says that the lever moves inoperative units only, and some.
func (p *plain) lever() bool {
	var readers []string
	for _, u := range p.a.Build.Units {
		if u.Needs != nil && strings.Contains(u.Needs.String(), "lever") {
			readers = append(readers, u.ID)
		}
	}
	for _, f := range p.a.Build.Functions {
		if strings.Contains(f.Works.String(), "lever") {
			return false
		}
	}
	return len(readers) == 1 && readers[0] == p.a.Relief.Items[0].Unit
}

// pairs is steps 4 and 6.
func (p *plain) pairs(step int) []string {
	if step == 6 {
		return p.together()
	}
	found := map[string][]int{}
	all := p.a.Build.Failures()
	for m := range p.a.Moments {
		for i, f := range all {
			for _, g := range all[i+1:] {
				if f.Unit == g.Unit || p.out(f) || p.out(g) || p.fatalAlone(m, f) || p.fatalAlone(m, g) {
					continue
				}
				id := p.fatalOnlySo(p.after, p.before, m, f, g)
				switch {
				case id == "":
				case p.latent(m, f):
					key := fmt.Sprint(id, " ", []book.FailureRef{f, g})
					found[key] = append(found[key], m)
				case p.latent(m, g):
					key := fmt.Sprint(id, " ", []book.FailureRef{g, f})
					found[key] = append(found[key], m)
				}
			}
		}
	}
	return timed(found)
}

func timed(found map[string][]int) (list []string) {
	for key, in := range found {
		list = append(list, fmt.Sprint(key, " catastrophic ", in))
	}
	return list
}

func (p *plain) out(f book.FailureRef) bool {
	return slices.ContainsFunc(p.a.Relief.Items, func(o book.FailureRef) bool { return o.String() == f.String() })
}

func (p *plain) fatalAlone(m int, f book.FailureRef) bool {
	return len(fatal(p.fly(p.after, m, f)))+len(fatal(p.fly(p.before, m, f))) > 0
}

func fatal(l *ledger.Ledger) (ids []string) {
	for _, x := range l.Losses {
		if x.Mattered && x.Function.Severity == "catastrophic" {
			ids = append(ids, x.Function.ID)
		}
	}
	return ids
}

// fatalOnlySo is the first catastrophic function that failures take away on one
// aircraft and not on the other.
func (p *plain) fatalOnlySo(is, not run.Scenario, m int, fail ...book.FailureRef) string {
	was := fatal(p.fly(not, m, fail...))
	for _, id := range fatal(p.fly(is, m, fail...)) {
		if !slices.Contains(was, id) {
			return id
		}
	}
	return ""
}

// latent says that nothing tells of a failure, and nothing that it takes away is known.
func (p *plain) latent(m int, f book.FailureRef) bool {
	l := p.fly(p.after, m, f)
	return l.Silent() && !slices.ContainsFunc(l.Losses, func(x ledger.Loss) bool { return x.Known != ledger.Hidden })
}

// together is step 6, where the conditions of the other item leave the flight as it
// is.
func (p *plain) together() []string {
	found := map[string][]int{}
	for _, d := range p.a.Build.Deferrals {
		item := d.Items[0]
		r := dispatch.Decide(p.a.Build, p.a.Planned, append(slices.Clone(p.a.Relief.Items), item))
		if p.out(item) || !r.Goes() {
			continue
		}
		q, both := *p, goes(r)
		if id := r.Conditions().Flown(p.a.Planned); id != p.a.Flown.ID {
			f, err := p.a.Build.FlightNamed(id)
			if err == nil {
				q.course, err = run.NewCourse(p.a.Build, f, run.Setting{})
			}
			if err != nil {
				p.t.Fatal(err)
			}
			q.kept = map[string]*ledger.Ledger{}
		}
		alone := run.Scenario{Inoperative: []book.FailureRef{item}, SetUp: both.SetUp}
		for m := range p.a.Moments {
			for _, f := range p.a.Build.Failures() {
				if f.Unit == item.Unit || len(fatal(p.fly(p.after, m, f))) > 0 {
					continue
				}
				was := append(fatal(q.fly(alone, m, f)), fatal(q.fly(p.after, m, f))...)
				for _, id := range fatal(q.fly(both, m, f)) {
					if !slices.Contains(was, id) {
						key := fmt.Sprint(id, " ", []book.FailureRef{item, f})
						found[key] = append(found[key], m)
						break
					}
				}
			}
		}
	}
	return timed(found)
}
