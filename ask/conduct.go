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
	briefs map[briefed]*crew.Brief
	teams  map[teamed]*crew.Team
}

// briefed and teamed are what a brief and a team are for.
type (
	briefed struct {
		build  *book.Build
		slowly bool
	}
	teamed struct {
		course *run.Course
		slowly bool
	}
)

// slower is how many times as long everything takes a crew who act slowly: an assumption,
// far enough from the usual pace to show what hangs on that.
const slower = 2

func (k *crews) brief(b *book.Build, slowly bool) *crew.Brief {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.briefs == nil {
		k.briefs, k.teams = map[briefed]*crew.Brief{}, map[teamed]*crew.Team{}
	}
	if of := (briefed{b, false}); k.briefs[of] == nil {
		x, _ := crew.NewBrief(b, nil, "") // neither pace nor day can be wrong
		k.briefs[of], k.briefs[briefed{b, true}] = x, x.Slower(slower)
	}
	return k.briefs[briefed{b, slowly}]
}

// watch is what the crew of a build look at.
func (k *crews) watch(b *book.Build, _ *book.Flight) []*book.Expr { return k.brief(b, false).Watches() }

// mostTeams bounds how many crews are kept.
const mostTeams = 64

// Team is the crew by the book on one of the desk's courses.
func (d *Desk) Team(c *run.Course) *crew.Team { return d.team(c, false) }

// TeamOf is the crew by the book who act as a question says, where it has one who do.
func (d *Desk) TeamOf(c *run.Course, q Question) *crew.Team { return d.team(c, q.Slowly()) }

func (d *Desk) team(c *run.Course, slowly bool) *crew.Team {
	x, of := d.crews.brief(c.Build, slowly), teamed{c, slowly}
	d.crews.mu.Lock()
	defer d.crews.mu.Unlock()
	if d.crews.teams[of] == nil {
		if len(d.crews.teams) >= mostTeams { // of flights that were supposed and let go
			clear(d.crews.teams)
		}
		d.crews.teams[of] = x.On(c)
	}
	return d.crews.teams[of]
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
	l := ledger.Of(plan.Record, there)
	if q.Slowly() {
		l.Pace = "at half the usual pace"
	}
	return &Answer{Question: q, Course: course, Scenario: s, Crew: plan, Here: plan.Record, There: there, Ledger: l, team: team}, nil
}

// Profiled is the crew of an answer, or one at its pace, on the same flight kept to its
// profile: there what a step changes is one of the systems (docs/worth.md). A plan that
// goes elsewhere has no profile: a *Trouble.
func (a *Answer) Profiled() (*crew.Team, error) {
	if len(a.Question.Plan) > 0 {
		return nil, trouble("plan", "a flight that is planned to go elsewhere does not keep to its profile")
	}
	pace := crew.DefaultPace()
	if a.Question.Slowly() {
		pace = pace.Slower(slower)
	}
	team, err := crew.NewTeam(a.Course.Build, a.Course.Flight, crew.Setting{Pace: &pace, Run: run.Setting{Prescribed: true, Router: a.Desk.Courses.Router}})
	if err != nil {
		return nil, trouble("flight", "%v", err)
	}
	return team, nil
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
