package book

import (
	"slices"
	"strings"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// What a crew can know (docs/meaning.md, section 12). In that of a check or a
// decide, and in when of a later, a bare indication is what it shows, and some
// things are seen without an instrument. What is true and no more than that cannot
// be asked for.

// Sight is something that pilots see without an instrument.
type Sight struct {
	Name  string
	Title string
	Real  string // the real.* yes/no that it follows
	Not   bool   // it is yes while that is no
}

// Sights lists every seen.* yes/no.
var Sights = []Sight{
	{"on_ground", "the aircraft stands or rolls", "on_ground", false},
	{"icing", "ice, or cloud and rain cold enough for it", "icing", false},
	{"outside_visible", "the ground or the horizon can be seen: the aircraft is not in the icing layer, the one cloud that a flight has", "icing", true},
}

// SightNamed looks a seen.* yes/no up.
func SightNamed(name string) (s Sight, ok bool) {
	for _, s := range Sights {
		if s.Name == name {
			return s, true
		}
	}
	return Sight{}, false
}

func sightNames() (names []string) {
	for _, s := range Sights {
		names = append(names, s.Name)
	}
	return names
}

// look reads what a crew look at, a yes/no; nil if it is not there.
func (n node) look(name string) *Expr {
	a := n.attr(name)
	if a == nil {
		return nil
	}
	c := checker{scope: n.b, report: n.l.add, looks: true}
	e := c.check(a.Expr)
	if e.Type != Unknown && e.Type != YesNo {
		n.l.add(wrongType(e, YesNo, name))
	}
	return e
}

// waitsForOne checks that a later waits for a phase or for a condition.
func (n node) waitsForOne() {
	if (n.attr("in") == nil) == (n.attr("when") == nil) {
		n.l.add(waitsForWhat(n.at, n.attr("in") == nil))
	}
}

func (c *checker) sight(at Range, names []string) *Expr {
	name := ""
	if len(names) == 2 {
		name = names[1]
	}
	_, known := SightNamed(name)
	switch {
	case !known:
		c.report(unknownSight(at, name, say.Nearest(name, sightNames())))
	case !c.looks:
		c.report(onlyInSteps(at, "seen."+name))
	default:
		return &Expr{Op: OpSeen, ID: name, Type: YesNo, Range: at}
	}
	return &Expr{Range: at}
}

// planned is a number of the flight, which the crew know before they take off.
func (c *checker) planned(at Range, names []string) *Expr {
	name := ""
	if len(names) == 2 {
		name = names[1]
	}
	var all []string
	for _, n := range FlightNumbers {
		if n.Name != name {
			all = append(all, n.Name)
			continue
		}
		if !c.looks {
			c.report(onlyInSteps(at, "flight."+name))
		}
		return &Expr{Op: OpPlan, ID: name, Type: Number, Unit: n.Unit, Range: at}
	}
	c.report(unknownPlan(at, name, say.Nearest(name, all)))
	return &Expr{Range: at}
}

func (c *checker) calledBy(n *hclsyntax.FunctionCallExpr) *Expr {
	if !c.args(n, 1, 1) {
		return broken(n.Range())
	}
	e := &Expr{Op: OpCalledBy, Type: YesNo, Range: rangeOf(n.Range())}
	e.ID, _ = c.named(n.Args[0], "alert")
	if !c.looks {
		c.report(onlyInSteps(e.Range, "called_by"))
	}
	return e
}

// inferShown finds the type of what every indication shows.
func (b *builder) inferShown() {
	for _, d := range b.decls {
		if d.kind.word != "indication" || !d.on[b.n] {
			continue
		}
		if a := b.node(d).attr("shows"); a != nil {
			next := *b.symbols[d.n]
			next.shown(b.expr(a.Expr, func(Diagnostic) {}))
			b.symbols[d.n] = &next
		}
	}
}

// shown takes the type of what an indication shows.
func (s *symbol) shown(e *Expr) {
	if e != nil {
		s.typ, s.unit, s.words, s.unnamed = e.Type, e.Unit, e.Words, e.fits
	}
}

// Truths lists the parts of what a crew are asked to look at that they cannot
// know, in the order of the text.
func (b *Build) Truths(e *Expr) (list []*Expr) {
	e.Walk(func(e *Expr) {
		switch e.Op {
		case OpReal, OpFault, OpFailed:
			list = append(list, e)
		case OpRef:
			switch b.items[e.ID].(type) {
			case *Unit, *Function, *Signal:
				list = append(list, e)
			}
		}
	})
	return list
}

// checkSeen looks through all lists, each on the first build that has it.
func (l *loader) checkSeen(book *Book) {
	for _, d := range l.decls {
		home := slices.Index(d.on, true)
		if home < 0 {
			continue
		}
		b := book.builds[home]
		switch x := b.items[d.id].(type) {
		case *Procedure:
			l.onlySeen(b, x.Steps)
		case *Bulletin:
			l.onlySeen(b, x.Steps)
		}
	}
}

// onlySeen refuses lines that ask a crew for what they cannot know.
func (l *loader) onlySeen(b *Build, steps []*Step) {
	for _, s := range steps {
		l.noTruth(b, "that", s.That)
		l.noTruth(b, "when", s.When)
		l.noTruth(b, "if", s.If)
		l.noTruth(b, "wait_for", s.WaitFor)
		l.onlySeen(b, s.Then)
		l.onlySeen(b, s.Else)
		l.onlySeen(b, s.Unknown)
	}
}

func (l *loader) noTruth(b *Build, name string, e *Expr) {
	var parts []string
	seen := map[string]bool{}
	for _, t := range b.Truths(e) {
		text := t.String()
		if seen[text] {
			continue
		}
		if seen[text] = true; len(parts) < mostTruths {
			parts = append(parts, text+b.shownBy(t))
		}
	}
	if len(parts) > 0 {
		l.add(cannotKnow(e.Range, name, strings.Join(parts, "; ")))
	}
}

// mostTruths is how many parts of one condition a complaint names.
const mostTruths = 4

// shownBy names the first indications that stand for a truth, or show it.
func (b *Build) shownBy(t *Expr) string {
	var ids []string
	for _, i := range b.Indications {
		if names(i.Means, t) || i.Means == nil && names(i.Shows, t) || t.Op == OpRef && slices.Contains(i.Tells, t.ID) {
			if ids = append(ids, i.ID); len(ids) == 2 {
				break
			}
		}
	}
	if len(ids) == 0 {
		return ", which no indication stands for"
	}
	return ", shown by " + strings.Join(ids, " and ")
}

// names says that an expression reads what another names.
func names(e, what *Expr) (found bool) {
	e.Walk(func(e *Expr) { found = found || e.Op == what.Op && e.ID == what.ID && e.Word == what.Word })
	return found
}

// adviseCallers advises where steps ask for an alert that does not call for their
// list.
func (l *loader) adviseCallers(b *Build, item Item, list string) {
	expressions(item, func(_ string, e *Expr) {
		e.Walk(func(e *Expr) {
			if a, ok := b.items[e.ID].(*Alert); ok && e.Op == OpCalledBy && a.Procedure != list {
				l.add(neverCalled(e.Range, a, list))
			}
		})
	})
}
