package book

import "slices"

// uses is what all builds together make of the items, for advice: something is
// worth a word only if it holds on every build.
type uses struct {
	read map[string]bool // read by an expression that is not a claim's
	told map[string]bool // functions that an alert or an indication tells of
}

// advise tells what is probably forgotten.
func (l *loader) advise(book *Book) {
	u := uses{read: map[string]bool{}, told: map[string]bool{}}
	for _, b := range book.builds {
		for _, d := range l.decls {
			if item := b.items[d.id]; item != nil && d.kind.word != "claim" && d.kind.word != deferralWord {
				u.note(item)
			}
		}
	}
	for _, d := range l.decls {
		if home := slices.Index(d.on, true); home >= 0 {
			l.adviseItem(book.builds[home], book.builds[home].items[d.id], u)
			l.adviseFlyable(book.builds[home], book.builds[home].items[d.id])
		}
	}
	for _, b := range book.builds {
		l.advisePerformance(b)
	}
	if !slices.ContainsFunc(book.builds, func(b *Build) bool { return len(b.Flights) > 0 }) {
		l.add(noFlight())
	}
	if !slices.ContainsFunc(book.builds, func(b *Build) bool { return len(b.Phases) > 0 }) {
		l.add(noPhase())
	}
}

func (u uses) note(item Item) {
	expressions(item, func(name string, e *Expr) {
		e.Walk(func(e *Expr) {
			switch e.Op {
			case OpRef, OpFailed, OpFault:
				u.read[e.ID] = true
			}
		})
	})
	switch x := item.(type) {
	case *Alert:
		u.tell(x.Tells)
	case *Indication:
		u.tell(x.Tells)
		x.Means.Walk(func(e *Expr) {
			if e.Op == OpRef {
				u.told[e.ID] = true
			}
		})
	}
}

func (u uses) tell(functions []string) {
	for _, id := range functions {
		u.told[id] = true
	}
}

func (l *loader) adviseItem(b *Build, item Item, u uses) {
	switch x := item.(type) {
	case *Unit:
		if !u.read[x.ID] {
			l.add(unusedUnit(x.Range, x.ID))
		}
	case *Control:
		if !u.read[x.ID] {
			l.add(unusedControl(x.Range, x.ID))
		}
	case *Function:
		if !u.told[x.ID] {
			l.add(untold(x.Range, x.ID))
		}
	case *Alert:
		if x.Procedure == "" && x.Level != "advisory" {
			l.add(noProcedure(x.Range, x.ID, x.Level))
		}
		if !changes(x.When) {
			l.add(constant(x.When.Range, "when"))
		}
	case *Indication:
		if x.Means == nil {
			l.add(noMeaning(x.Range, x.ID))
		}
	case *Procedure:
		l.adviseSteps(b, x.Steps)
		l.adviseCallers(b, x, x.ID)
	case *Bulletin:
		l.adviseSteps(b, x.Steps)
		l.adviseCallers(b, x, x.Procedure)
	case *Signal:
		if x.Type == Number && x.Unit == "" {
			l.add(noUnit(x.Range, x.ID))
		}
	case *Phase:
		if !changes(x.Begins) {
			l.add(constant(x.Begins.Range, "begins"))
		}
	}
}

// adviseFlyable looks for functions that the aircraft cannot be flown without and
// whose loss the book does not call catastrophic: what counts losses would not see
// it.
func (l *loader) adviseFlyable(b *Build, item Item) {
	a, ok := item.(*Aircraft)
	if !ok || a.Flyable == nil {
		return
	}
	named := 0
	a.Flyable.Walk(func(e *Expr) {
		if f, ok := b.items[e.ID].(*Function); ok && e.Op == OpRef {
			if named++; f.Severity != "catastrophic" {
				l.add(notCatastrophic(e.Range, f.ID))
			}
		}
	})
	if named == 0 {
		l.add(flownWithoutFunction(a.Flyable.Range))
	}
}

// adviseSteps looks for decisions that move something for one answer and say
// nothing for the other.
func (l *loader) adviseSteps(b *Build, steps []*Step) {
	for _, s := range steps {
		if s.Kind == "decide" {
			if len(s.Else) == 0 && moves(s.Then) {
				l.add(oneAnswer(s.Range, "no", "else"))
			}
			if len(s.Then) == 0 && moves(s.Else) {
				l.add(oneAnswer(s.Range, "yes", "then"))
			}
		}
		l.adviseSteps(b, s.Then)
		l.adviseSteps(b, s.Else)
		l.adviseSteps(b, s.Unknown)
	}
}

// moves tells whether some step sets a control.
func moves(steps []*Step) bool {
	return slices.ContainsFunc(steps, func(s *Step) bool { return s.Set != "" || moves(s.Then) || moves(s.Else) || moves(s.Unknown) })
}

// changes tells whether an expression reads anything that can change; nil does.
func changes(e *Expr) bool {
	found := e == nil
	e.Walk(func(e *Expr) {
		switch e.Op {
		case OpInvalid, OpRef, OpReal, OpFault, OpFailed, OpTotal, OpCount:
			found = true
		}
	})
	return found
}
