package book

import "slices"

// Deferral is leave to go with something broken: what may be inoperative, for how
// long, and under which conditions. What comes of it is package dispatch's.
type Deferral struct {
	Head
	Items          []FailureRef // units and faults; each alone, unless OnlyIf lets several go
	Category       string       // one of Categories
	DaysGiven      int          // of category A; 0 of the others
	Crew           string       // what the crew do and bear in mind; "" nothing
	Maintenance    string       // what is done before the flight; "" nothing
	OnlyIf         *Expr        // yes/no of what is known before the flight; nil: always
	MostAltitudeFt float64      // 0: no lower than the aircraft's own
	NoIcing        bool         // not into icing
	SetUps         []*Act       // controls that stand so from the start, and stay
	NotWith        []string     // ids of deferrals that it excludes
}

const deferralWord = "deferral"

// Categories of a deferral, the shortest first where the book gives no days. Days
// are consecutive, and that of the discovery is not counted.
var Categories = []string{"A", "B", "C", "D"}

var categoryDays = map[string]int{"B": 3, "C": 10, "D": 120}

// Days is for how many days the item may stay as it is, the day of discovery not
// counted.
func (x *Deferral) Days() int {
	if x.Category == Categories[0] {
		return x.DaysGiven
	}
	return categoryDays[x.Category]
}

// Covers says that a deferral is about an item.
func (x *Deferral) Covers(f FailureRef) bool {
	return slices.ContainsFunc(x.Items, func(i FailureRef) bool { return i.Unit == f.Unit && i.Fault == f.Fault })
}

// Excludes says that two deferrals may not be used together: one of them says so.
func (x *Deferral) Excludes(y *Deferral) bool {
	return slices.Contains(x.NotWith, y.ID) || slices.Contains(y.NotWith, x.ID)
}

func (n node) deferral(d *declaration) *Deferral {
	x := &Deferral{
		Head: n.head(d.id), Items: n.failures("items", "unit"), Category: n.oneOf("category", Categories),
		DaysGiven: int(n.whole("days", 1, mostDays)), Crew: n.text("words_crew"), Maintenance: n.text("words_maintenance"),
		OnlyIf: n.beforehand("only_if"), MostAltitudeFt: n.number("most_altitude_ft", 1000, mostFt), NoIcing: n.truth("no_icing"),
		SetUps: n.acts("set_up"), NotWith: n.ids("not_with", deferralWord),
	}
	n.deferralDays(x)
	for i, s := range x.SetUps {
		switch {
		case s.When != nil || s.At != "":
			n.l.add(setUpLater(s.Range))
		case slices.ContainsFunc(x.SetUps[:i], func(o *Act) bool { return o.Set == s.Set }):
			n.l.add(setUpTwice(s.Range, s.Set))
		}
	}
	return x
}

// mostDays is the longest that anything can be deferred.
const mostDays = 366

// deferralDays checks that days are given where the category has none of its own,
// and only there.
func (n node) deferralDays(x *Deferral) {
	switch days := n.attr("days"); {
	case x.Category == Categories[0] && days == nil:
		n.l.add(daysMissing(n.at, x.ID))
	case x.Category != "" && x.Category != Categories[0] && days != nil:
		n.l.add(daysOfItsOwn(rangeOf(days.NameRange), x.Category, categoryDays[x.Category]))
	}
}

// beforehand reads a yes/no of what is known before the flight: numbers of the
// aircraft and of the flight, and what is inoperative.
func (n node) beforehand(name string) *Expr {
	e := n.look(name)
	e.Walk(func(e *Expr) {
		switch e.Op {
		case OpRef, OpReal, OpSeen, OpCalledBy, OpHeld, OpPulse, OpBefore, OpFrozen, OpTotal, OpCount:
			n.l.add(notBeforehand(e))
		}
	})
	return e
}

// checkDeferrals checks what needs them all.
func (b *builder) checkDeferrals() {
	for _, x := range b.build.Deferrals {
		if slices.Contains(x.NotWith, x.ID) {
			b.add(excludesItself(x.Range, x.ID))
		}
	}
}
