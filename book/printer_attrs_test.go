package book

import "strings"

// attribute is one line of a block as printed.
type attribute struct{ name, text string }

// attributes are the lines of a block; what has its default is left out.
type attributes []attribute

func (a *attributes) add(name, text string) { *a = append(*a, attribute{name, text}) }

func (a *attributes) text(name, value string) {
	if value != "" {
		a.add(name, quote(value))
	}
}

func (a *attributes) expr(name string, e *Expr) {
	if e != nil {
		a.add(name, e.String())
	}
}

func (a *attributes) number(name string, n float64) {
	if n != 0 {
		a.add(name, formatNumber(n))
	}
}

func (a *attributes) truth(name string, yes bool) {
	if yes {
		a.add(name, "true")
	}
}

func (a *attributes) id(name, id string) {
	if id != "" {
		a.add(name, id)
	}
}

func (a *attributes) list(name string, entries []string) {
	if len(entries) > 0 {
		a.add(name, "["+strings.Join(entries, ", ")+"]")
	}
}

func (a *attributes) words(name string, words []string) {
	var list []string
	for _, w := range words {
		list = append(list, quote(w))
	}
	a.list(name, list)
}

func (a *attributes) failures(name string, refs []FailureRef) {
	var list []string
	for _, f := range refs {
		list = append(list, f.String())
	}
	a.list(name, list)
}

func (a *attributes) numbers(list []Named) {
	for _, n := range list {
		a.add(n.Name, formatNumber(n.Value))
	}
}

func (a *attributes) head(h *Head) {
	if h.Title != spaced(h.ID) || h.Kind == "aircraft" || h.Kind == "variant" {
		a.text("title", h.Title)
	}
	a.number("chapter", float64(h.Chapter))
	a.text("note", h.Note)
	a.text("source", h.Source)
	a.text("not_modelled", h.NotModelled)
	a.words("also_called", h.AlsoCalled)
}

// attributesOf gives the attributes of an item in the order of docs/language.md.
func attributesOf(item Item) attributes {
	var a attributes
	a.head(item.Named())
	switch x := item.(type) {
	case *Aircraft:
		a.expr("alerts_given_by", x.AlertsGivenBy)
		for _, whom := range Told {
			a.expr(whom+"_hears", x.Hears[whom])
		}
		a.expr("flyable", x.Flyable)
		a.expr("crew_able", x.CrewAble)
		a.numbers(x.Numbers)
	case *Unit:
		a.expr("needs", x.Needs)
		a.number("rate_per_hour", x.RatePerHour)
		a.number("checked_every_h", x.CheckedH)
		a.text("place", x.Place)
		a.expr("reset_by", x.ResetBy)
		a.number("reset_tries", float64(x.ResetTries))
	case *Event:
		a.failures("fails", x.Fails)
		a.number("rate_per_hour", x.RatePerHour)
	case *Signal:
		a.expr("value", x.Value)
		a.expr("set", x.Set)
		a.expr("reset", x.Reset)
		a.truth("initial", x.Initial)
	case *Control:
		a.words("positions", x.Positions)
		a.text("initial", x.Initial)
		a.text("place", x.Place)
	case *Function:
		a.expr("works", x.Works)
		a.expr("wanted", x.Wanted)
		a.text("severity", x.Severity)
		a.text("severity_if_hidden", x.SeverityIfHidden)
		a.number("survivable_s", x.SurvivableS)
		a.text("over_on_purpose", x.OverOnPurpose)
		if n := x.Noticed; n != nil {
			a.truth("noticed_at_once", n.AtOnce)
			a.expr("noticed_when", n.When)
			a.text("noticed_by", n.By)
			a.text("noticed_source", n.Source)
		}
	case *Alert:
		a.alert(x)
	case *Indication:
		a.expr("shows", x.Shows)
		a.expr("means", x.Means)
		a.number("within", x.Within)
		a.expr("lit_by", x.LitBy)
		a.text("place", x.Place)
		a.list("tells", x.Tells)
	case *Phase:
		a.expr("begins", x.Begins)
		a.words("after_leg", x.After)
		a.truth("no_go", x.NoGo)
	case *Procedure:
		if x.Priority != DefaultPriority {
			a.number("priority", float64(x.Priority))
		}
		a.truth("last", x.Last)
	case *Bulletin:
		a.bulletin(x)
	case *Limit:
		a.expr("quantity", x.Quantity)
		a.expr("most", x.Most)
		a.expr("least", x.Least)
		a.expr("applies", x.Applies)
	case *Effect:
		a.expr("value", x.Value)
	case *Deferral:
		a.deferral(x)
	case *Performance:
		if x.Combine != Combines[0] {
			a.text("combine", x.Combine)
		}
	case *Flight:
		a.text("from", x.From)
		a.text("to", x.To)
		a.numbers(x.Numbers)
	case *Claim:
		a.text("says", x.Says)
	}
	return a
}

func (a *attributes) alert(x *Alert) {
	a.text("level", x.Level)
	a.text("message", x.Message)
	a.expr("when", x.When)
	a.expr("true_when", x.TrueWhen)
	a.expr("given_by", x.GivenBy)
	a.list("quiet_in", x.QuietIn)
	a.number("repeats_s", x.RepeatsS)
	a.expr("until", x.Until)
	a.expr("quiet_when", x.QuietWhen)
	a.telling(x.Telling)
	a.list("tells", x.Tells)
	a.failures("claims_down", x.ClaimsDown)
	a.id("procedure", x.Procedure)
}

func (a *attributes) telling(t Telling) {
	for i, e := range t.Each() {
		a.expr(Ways[i], e)
	}
}

func (a *attributes) bulletin(x *Bulletin) {
	a.id("procedure", x.Procedure)
	a.text("from", x.From)
	a.text("until", x.Until)
	a.number("replaces", float64(x.Replaces))
	if x.After >= 0 {
		a.add("after", formatNumber(float64(x.After)))
	}
}

func (a *attributes) deferral(x *Deferral) {
	a.failures("items", x.Items)
	a.text("category", x.Category)
	a.number("days", float64(x.DaysGiven))
	a.text("words_crew", x.Crew)
	a.text("words_maintenance", x.Maintenance)
	a.expr("only_if", x.OnlyIf)
	a.number("most_altitude_ft", x.MostAltitudeFt)
	a.truth("no_icing", x.NoIcing)
	a.list("not_with", x.NotWith)
}

func stepAttributes(s *Step) attributes {
	var a attributes
	a.id("in", s.In)
	a.expr("when", s.When)
	a.id("set", s.Set)
	a.text("to", s.To)
	a.expr("that", s.That)
	a.truth("compares", s.Compares)
	a.text("leg", s.Leg)
	a.number("leg_ft", s.LegFt)
	a.id("go_to", s.GoTo)
	a.truth("leave", s.Leave)
	a.text("whom", s.Whom)
	a.text("says", s.Says)
	a.text("by", s.By)
	a.truth("from_memory", s.FromMemory)
	a.truth("sensed", s.Sensed)
	a.number("wait_s", s.WaitS)
	a.expr("wait_for", s.WaitFor)
	a.expr("if", s.If)
	a.text("because", s.Because)
	return a
}

func strikeAttributes(s *Strike) attributes {
	var a attributes
	a.failures("fail", s.Fail)
	a.text("at", s.At)
	a.expr("when", s.When)
	a.number("for_s", s.ForS)
	a.truth("resettable", s.Resettable)
	return a
}

func actAttributes(x *Act) attributes {
	var a attributes
	a.id("set", x.Set)
	a.text("to", x.To)
	a.text("at", x.At)
	a.expr("when", x.When)
	return a
}

func settingAttributes(s *Setting) attributes {
	var a attributes
	a.add("zero_lift_drag_ratio", formatNumber(s.ZeroLiftDrag))
	a.add("induced_drag_ratio", formatNumber(s.InducedDrag))
	a.add("most_lift_ratio", formatNumber(s.MostLift))
	a.number("ground_lift_ratio", s.GroundLift)
	return a
}

func tableAttributes(t *Table) attributes {
	var a attributes
	a.words("columns", t.Columns)
	var rows []string
	for _, r := range t.Rows {
		var cells []string
		for _, v := range r.Values {
			cells = append(cells, formatNumber(v))
		}
		rows = append(rows, "["+strings.Join(cells, ", ")+"]")
	}
	a.list("rows", rows)
	return a
}

func factorAttributes(f *Factor) attributes {
	var a attributes
	if f.Title != spaced(f.ID) {
		a.text("title", f.Title)
	}
	a.expr("when", f.When)
	a.words("covers", f.Covers)
	a.add("landing_ratio", formatNumber(f.LandingRatio))
	a.add("fuel_ratio", formatNumber(f.FuelRatio))
	a.number("adds_m", f.AddsM)
	return a
}
