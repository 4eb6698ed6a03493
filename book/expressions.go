package book

// expressions calls visit for every expression of an item with the name of its
// attribute, in the order of the fields; those of its steps, acts and givens too.
func expressions(item Item, visit func(name string, e *Expr)) {
	see := func(name string, e *Expr) {
		if e != nil {
			visit(name, e)
		}
	}
	switch x := item.(type) {
	case *Aircraft:
		see("alerts_given_by", x.AlertsGivenBy)
		for _, whom := range Told {
			see(whom+"_hears", x.Hears[whom])
		}
		see("flyable", x.Flyable)
		see("crew_able", x.CrewAble)
		for _, t := range x.Telling {
			tellingExpressions(*t, see)
		}
	case *Unit:
		see("needs", x.Needs)
		see("reset_by", x.ResetBy)
	case *Signal:
		see("value", x.Value)
		see("set", x.Set)
		see("reset", x.Reset)
	case *Function:
		see("works", x.Works)
		see("wanted", x.Wanted)
		if x.Noticed != nil {
			see("noticed_when", x.Noticed.When)
		}
	case *Alert:
		see("when", x.When)
		see("true_when", x.TrueWhen)
		see("given_by", x.GivenBy)
		see("until", x.Until)
		see("quiet_when", x.QuietWhen)
		tellingExpressions(x.Telling, see)
	case *Indication:
		see("shows", x.Shows)
		see("means", x.Means)
		see("lit_by", x.LitBy)
	case *Phase:
		see("begins", x.Begins)
	case *Procedure:
		stepExpressions(x.Steps, see)
	case *Bulletin:
		stepExpressions(x.Steps, see)
	case *Limit:
		see("quantity", x.Quantity)
		see("most", x.Most)
		see("least", x.Least)
		see("applies", x.Applies)
	case *Effect:
		see("value", x.Value)
	case *Deferral:
		see("only_if", x.OnlyIf)
	case *Performance:
		for _, f := range x.Factors {
			see("when", f.When)
		}
	case *Flight:
		actExpressions(x.Acts, see)
	case *Claim:
		for _, g := range x.Given {
			givenExpressions(g, see)
		}
	}
}

func tellingExpressions(t Telling, see func(string, *Expr)) {
	for i, e := range t.Each() {
		see(Ways[i], e)
	}
}

func stepExpressions(steps []*Step, see func(string, *Expr)) {
	for _, s := range steps {
		see("if", s.If)
		see("wait_for", s.WaitFor)
		see("that", s.That)
		see("when", s.When)
		stepExpressions(s.Then, see)
		stepExpressions(s.Else, see)
		stepExpressions(s.Unknown, see)
	}
}

func actExpressions(acts []*Act, see func(string, *Expr)) {
	for _, a := range acts {
		see("when", a.When)
	}
}

func givenExpressions(g *Given, see func(string, *Expr)) {
	for _, s := range g.Strikes {
		see("when", s.When)
	}
	actExpressions(g.SetUps, see)
	actExpressions(g.Acts, see)
	for _, l := range g.Plan {
		see("plan", l.When)
	}
	for _, e := range g.Expect {
		see("expect", e)
	}
}
