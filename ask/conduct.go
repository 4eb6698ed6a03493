package ask

import (
	"context"
	"sync"

	"knockon/book"
	"knockon/crew"
	"knockon/ledger"
	"knockon/region"
	"knockon/run"
)

// crews are the crews of the builds of a desk, prepared when a build is compiled.
type crews struct {
	mu     sync.Mutex
	briefs map[*book.Build]*crew.Brief
	teams  map[*run.Course]*crew.Team
}

func (k *crews) brief(b *book.Build) *crew.Brief {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.briefs == nil {
		k.briefs, k.teams = map[*book.Build]*crew.Brief{}, map[*run.Course]*crew.Team{}
	}
	if k.briefs[b] == nil {
		k.briefs[b], _ = crew.NewBrief(b, nil, "") // neither pace nor day can be wrong
	}
	return k.briefs[b]
}

// watch is what the crew of a build look at.
func (k *crews) watch(b *book.Build, _ *book.Flight) []*book.Expr { return k.brief(b).Watches() }

// mostTeams bounds how many crews are kept.
const mostTeams = 64

// Team is the crew by the book on one of the desk's courses.
func (d *Desk) Team(c *run.Course) *crew.Team {
	x := d.crews.brief(c.Build)
	d.crews.mu.Lock()
	defer d.crews.mu.Unlock()
	if d.crews.teams[c] == nil {
		if len(d.crews.teams) >= mostTeams { // of flights that were supposed and let go
			clear(d.crews.teams)
		}
		d.crews.teams[c] = x.On(c)
	}
	return d.crews.teams[c]
}

// crewed is Run with a crew by the book.
func crewed(ctx context.Context, team *crew.Team, q Question, s run.Scenario) (*Answer, error) {
	course := team.Course()
	if _, err := course.Healthy(ctx, s); err != nil {
		return nil, blame("out", ctx, err)
	}
	plan, err := team.Fly(ctx, s)
	if err != nil {
		return nil, blame("at", ctx, err)
	}
	there, err := course.Beside(ctx, plan.Record)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	return &Answer{Question: q, Course: course, Scenario: s, Crew: plan, Here: plan.Record, There: there, Ledger: ledger.Of(plan.Record, there), team: team}, nil
}

// Deceived says where what the crew saw led them astray, or was dark when they
// looked for it: a sentence each, in the order of time. Nobody who does nothing is
// deceived.
func (a *Answer) Deceived() (list []string) {
	if a.Crew == nil || a.team == nil {
		return nil
	}
	return sentences(a.team.Deceived(a.Crew))
}

// Unheard says whom the crew told something and did not reach: a sentence each.
func (a *Answer) Unheard() []string {
	if a.Crew == nil || a.team == nil {
		return nil
	}
	return sentences(a.team.Unheard(a.Crew))
}

func sentences(notes []crew.Note) (list []string) {
	for _, n := range notes {
		list = append(list, n.At.Clock+", "+n.Text+".")
	}
	return list
}

// canPlan refuses a plan to where nothing is known of.
func (d *Desk) canPlan(plan []run.Leg) error {
	for _, l := range plan {
		switch {
		case !l.OverGround():
		case d.ground == nil:
			return trouble("plan", "the airfields are not known, so a flight can go nowhere else: give the folder that has them (--airfields DIR)")
		case l.Do == run.Divert:
			if _, _, err := (region.Router{Region: d.ground}).Named(l.To); err != nil {
				return trouble("plan", "%v", err)
			}
		}
	}
	return nil
}
