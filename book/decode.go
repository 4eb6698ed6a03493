package book

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// decode makes the item of a declaration and puts it into the build.
func (b *builder) decode(d *declaration) {
	n, build := b.node(d), b.build
	n.mustHave(b.where())
	var it Item
	switch d.kind.word {
	case "aircraft":
		it = b.aircraft(n, d)
	case "unit":
		it = keep(&build.Units, n.unit(d))
	case "event":
		it = keep(&build.Events, n.event(d))
	case "signal":
		it = keep(&build.Signals, n.signal(d))
	case "control":
		it = keep(&build.Controls, n.control(d))
	case "function":
		it = keep(&build.Functions, n.function(d))
	case "alert":
		it = keep(&build.Alerts, n.alert(d))
	case "indication":
		it = keep(&build.Indications, n.indication(d))
	case "phase":
		it = keep(&build.Phases, n.phase(d))
	case "procedure":
		it = keep(&build.Procedures, n.procedure(d))
	case "bulletin":
		it = keep(&build.Bulletins, n.bulletin(d))
	case "limit":
		it = keep(&build.Limits, n.limit(d))
	case effectWord:
		it = keep(&build.Effects, n.effect(d))
	case deferralWord:
		it = keep(&build.Deferrals, n.deferral(d))
	case "performance":
		it = n.performance(d)
	case "flight":
		it = keep(&build.Flights, n.flight(d))
	}
	build.items[d.id] = it
}

func keep[T any](list *[]T, item T) T {
	*list = append(*list, item)
	return item
}

func (b *builder) variantIndex(id string) int {
	for i, v := range b.book.Variants {
		if v.ID == id {
			return i
		}
	}
	return 0
}

func (b *builder) aircraft(n node, d *declaration) *Aircraft {
	a := &Aircraft{Head: n.head(d.id), AlertsGivenBy: n.yesNo("alerts_given_by"), Flyable: n.yesNo("flyable"), CrewAble: n.yesNo("crew_able"), Hears: map[string]*Expr{}, ToldWithinS: 10, WrongAfterS: 2}
	for _, whom := range Told {
		if e := n.yesNo(whom + "_hears"); e != nil {
			a.Hears[whom] = e
		}
	}
	if n.attr("told_within_s") != nil {
		a.ToldWithinS = n.seconds("told_within_s")
	}
	if n.attr("wrong_after_s") != nil {
		a.WrongAfterS = n.seconds("wrong_after_s")
	}
	if a.FlyableAgainS = a.WrongAfterS; n.attr("flyable_again_s") != nil {
		a.FlyableAgainS = n.seconds("flyable_again_s")
	}
	for _, attr := range n.all() {
		if UnitOf(attr.Name) != "" {
			value := n.number(attr.Name, -mostNumber, mostNumber)
			a.Numbers = append(a.Numbers, Named{attr.Name, value, rangeOf(attr.SrcRange)})
		}
	}
	a.Settings, a.Telling = n.settings(d), n.tellings(d)
	if first := b.build.Aircraft; first != nil {
		b.add(secondAircraft(n.at, first.Range))
		return a
	}
	b.build.Aircraft = a
	return a
}

// all gives the attributes of a block on this build: its own in their order,
// replaced ones in place, then those that only the variant has.
func (n node) all() []*hclsyntax.Attribute {
	list := byPosition(n.body.Attributes)
	for i, a := range list {
		list[i] = n.attr(a.Name)
	}
	for _, a := range byPosition(n.over) {
		if n.body.Attributes[a.Name] == nil {
			list = append(list, a)
		}
	}
	return list
}

func (n node) unit(d *declaration) *Unit {
	u := &Unit{
		Head: n.head(d.id), Needs: n.yesNo("needs"), RatePerHour: n.rate(), CheckedH: n.checked(), ResetBy: n.yesNo("reset_by"), Place: n.text("place"),
		ResetTries: int(n.whole("reset_tries", 1, 99)),
	}
	if tries := n.attr("reset_tries"); tries != nil && u.ResetBy == nil {
		n.l.add(triesWithoutReset(rangeOf(tries.SrcRange), d.id))
	}
	for _, block := range d.block.Body.Blocks {
		if block.Type != "fault" || len(block.Labels) == 0 || !validID(block.Labels[0]) {
			continue
		}
		for _, f := range u.Faults {
			if f.ID == block.Labels[0] {
				n.l.add(duplicateFault(labelRange(block), d.id, f.ID, f.Range))
			}
		}
		u.Faults = append(u.Faults, n.sub(block).fault(block.Labels[0]))
	}
	return u
}

func (n node) fault(id string) *Fault {
	return &Fault{ID: id, Title: n.title(id), AlsoCalled: n.words("also_called"), Stops: n.truth("stops"), RatePerHour: n.rate(), CheckedH: n.checked(), Range: n.at}
}

func (n node) event(d *declaration) *Event {
	return &Event{Head: n.head(d.id), Fails: n.failures("fails", "unit"), RatePerHour: n.rate()}
}

func (n node) signal(d *declaration) *Signal {
	sym := n.b.symbols[d.n]
	s := &Signal{
		Head: n.head(d.id), Value: n.value("value"), Set: n.yesNo("set"), Reset: n.yesNo("reset"),
		Initial: n.truth("initial"), Type: sym.typ, Unit: sym.unit, Words: sym.words,
	}
	n.signalForm(s)
	if s.Value != nil && s.Type == Number {
		n.unitFits(s.Value, s.ID, s.Unit)
	}
	return s
}

// signalForm checks that a signal is either a value or a latch.
func (n node) signalForm(s *Signal) {
	value, set, reset, initial := n.attr("value"), n.attr("set"), n.attr("reset"), n.attr("initial")
	switch {
	case value != nil && (set != nil || reset != nil || initial != nil):
		n.l.add(valueAndLatch(n.at, s.ID))
	case value == nil && set == nil && reset == nil:
		n.l.add(missingAttribute(n.at, "value", "signal", n.b.where()))
	case value == nil && (set == nil || reset == nil):
		n.l.add(halfLatch(n.at, s.ID))
	}
	if value != nil && s.Value.Type == Unknown && s.Value.Op != OpInvalid && n.b.complete(value.Expr) {
		n.l.add(typeNotKnown(rangeOf(value.Expr.Range()), s.ID))
	}
}

// unitFits checks the unit of a value against the one in a name.
func (n node) unitFits(e *Expr, name, unit string) {
	if unit != "" && e.Unit != "" && e.Unit != unit {
		n.l.add(nameSaysOther(e.Range, name, unit, e.Unit))
	}
}

func (n node) control(d *declaration) *Control {
	c := &Control{Head: n.head(d.id), Positions: n.words("positions"), Place: n.text("place")}
	if a := n.attr("positions"); a != nil && len(elements(a.Expr)) < 2 {
		n.l.add(tooFewPositions(rangeOf(a.Expr.Range()), d.id))
	}
	if len(c.Positions) > 0 {
		c.Initial = n.oneOf("initial", c.Positions)
	}
	return c
}

func (n node) function(d *declaration) *Function {
	if over := n.attr("over_on_purpose"); over != nil && n.attr("severity") == nil {
		n.l.add(overWithoutSeverity(rangeOf(over.SrcRange), d.id))
	}
	return &Function{
		Head: n.head(d.id), Works: n.yesNo("works"), Wanted: n.yesNo("wanted"), Severity: n.oneOf("severity", Severities),
		SeverityIfHidden: n.oneOf("severity_if_hidden", Severities), OverOnPurpose: n.text("over_on_purpose"), SurvivableS: n.seconds("survivable_s"), Noticed: n.noticed(d.id),
	}
}

// noticed reads how a loss is noticed. Who writes that it is must say by which
// sense, and where that is from.
func (n node) noticed(id string) *Noticed {
	given := slices.ContainsFunc([]string{"noticed_at_once", "noticed_when", "noticed_by", "noticed_source"}, func(a string) bool { return n.attr(a) != nil })
	if !given {
		return nil
	}
	s := &Noticed{AtOnce: n.truth("noticed_at_once"), When: n.look("noticed_when"), By: n.oneOf("noticed_by", Senses), Source: n.text("noticed_source")}
	s.When.Walk(func(e *Expr) {
		if e.Op == OpCalledBy {
			n.l.add(onlyInSteps(e.Range, "called_by"))
		}
	})
	switch {
	case s.AtOnce == (n.attr("noticed_when") != nil):
		n.l.add(noticedHow(n.at, id))
	case s.By == "" || s.Source == "":
		n.l.add(noticedBare(n.at, id))
	}
	return s
}

func (n node) alert(d *declaration) *Alert {
	return &Alert{
		Head: n.head(d.id), Level: n.oneOf("level", Levels), Message: n.text("message"),
		When: n.yesNo("when"), TrueWhen: n.yesNo("true_when"), GivenBy: n.yesNo("given_by"),
		QuietIn: n.ids("quiet_in", "phase"), RepeatsS: n.seconds("repeats_s"), Until: n.yesNo("until"),
		Tells: n.ids("tells", "function"), Procedure: n.id("procedure", "procedure"),
		ClaimsDown: n.claimsDown(), QuietWhen: n.yesNo("quiet_when"), Telling: n.telling(),
	}
}

// tellings reads how the alerts of each level reach the crew.
func (n node) tellings(d *declaration) (list []*Telling) {
	for _, block := range d.block.Body.Blocks {
		if block.Type != "telling" || len(block.Labels) == 0 || block.Labels[0] == "" {
			continue
		}
		t, level := n.sub(block).telling(), block.Labels[0]
		t.Level, t.Range = level, labelRange(block)
		first := slices.IndexFunc(list, func(o *Telling) bool { return o.Level == level })
		switch {
		case !slices.Contains(Levels, level):
			n.l.add(notOneOf(t.Range, "telling", level, Levels))
		case first >= 0:
			n.l.add(duplicateTelling(t.Range, level, list[first].Range))
		case !t.Any():
			n.l.add(noTelling(t.Range, level))
		default:
			list = append(list, &t)
		}
	}
	return list
}

func (n node) telling() Telling {
	return Telling{Text: n.yesNo("text"), Light: n.yesNo("light"), Sound: n.yesNo("sound")}
}

// claimsDown reads what an alert takes for down. Only what is yes or no can be.
func (n node) claimsDown() []FailureRef {
	list := n.failures("claims_down", "unit", "function", "signal")
	for _, r := range list {
		if s := n.b.symbol(r.Unit); s != nil && (s.typ == Number || s.typ == Word) {
			n.l.add(claimsNumber(r.Range, r.Unit))
		}
	}
	return list
}

func (n node) indication(d *declaration) *Indication {
	i := &Indication{
		Head: n.head(d.id), Shows: n.value("shows"), Means: n.value("means"), Within: n.number("within", 0, mostNumber),
		LitBy: n.yesNo("lit_by"), Place: n.text("place"), Tells: n.ids("tells", "function"),
	}
	n.meaning(i)
	return i
}

// meaning checks that what an indication shows can be compared with what it means.
func (n node) meaning(i *Indication) {
	within := n.attr("within")
	if i.Shows == nil || i.Shows.Type == Unknown {
		return
	}
	if within != nil && (i.Shows.Type != Number || i.Means == nil) {
		n.l.add(withinNothing(rangeOf(within.NameRange)))
	}
	if i.Means == nil || i.Means.Type == Unknown {
		return
	}
	if i.Means.Type != i.Shows.Type {
		n.l.add(typesDiffer(i.Means.Range, i.Shows, i.Means))
		return
	}
	c := checker{scope: n.b, report: n.l.add}
	c.meets(i.Means, i.Shows, i.Means)
}

func (n node) phase(d *declaration) *Phase {
	p := &Phase{Head: n.head(d.id), Begins: n.yesNo("begins"), After: n.someOf("after_leg", Legs), NoGo: n.truth("no_go")}
	first := len(n.b.build.Phases) == 0
	switch {
	case first && p.Begins != nil:
		n.l.add(firstPhaseBegins(p.Begins.Range, d.id))
	case !first && p.Begins == nil && n.attr("begins") == nil:
		n.l.add(missingAttribute(n.at, "begins", "phase", n.b.where()))
	}
	return p
}

func (n node) limit(d *declaration) *Limit {
	l := &Limit{
		Head: n.head(d.id), Quantity: n.quantity("quantity"), Most: n.quantity("most"), Least: n.quantity("least"), Applies: n.yesNo("applies"),
	}
	if n.attr("most") == nil && n.attr("least") == nil {
		n.l.add(limitWithoutBound(n.at, d.id))
	}
	c := checker{scope: n.b, report: n.l.add}
	for _, bound := range []*Expr{l.Most, l.Least} {
		if bound != nil && l.Quantity != nil && bound.Type == Number && l.Quantity.Type == Number {
			c.meets(bound, l.Quantity, bound)
		}
	}
	return l
}
