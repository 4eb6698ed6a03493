package follow

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
)

// What single lines of a list show by themselves, whatever it is hands off: each with
// where the line stands in the book.

// unheard lists the lines that tell somebody who cannot hear it, where the list gives
// no other way.
func unheard(plan *crew.Plan) (list []Finding) {
	for _, f := range plan.Findings {
		if f.Kind == crew.NotHeard && f.Step != nil && len(f.Step.Else) == 0 {
			list = append(list, Finding{Kind: Unheard, List: f.Procedure, Step: f.Step, At: f.At})
		}
	}
	return list
}

// over lists what was left for later, without an if, and is begun when nothing that
// called for its list is so any more.
func over(plan *crew.Plan, steps func(*book.Procedure) []*book.Step) (list []Finding) {
	for _, l := range plan.Lines {
		if l.Kind != crew.StepLine || !l.Deferred {
			continue
		}
		of := leaves(steps(l.Procedure), l.Step)
		again := slices.ContainsFunc(list, func(f Finding) bool { return f.Step == of })
		if of == nil || of.If != nil || l.Step.If != nil || again || standing(plan, l) {
			continue
		}
		list = append(list, Finding{Kind: Over, List: l.Procedure, Step: of, At: l.From})
	}
	return list
}

// leaves is the later among steps that has left a step.
func leaves(steps []*book.Step, left *book.Step) (of *book.Step) {
	crew.Walk(steps, func(s *book.Step, _ string) {
		if s.Kind == "later" && slices.Contains(s.Then, left) {
			of = s
		}
	})
	return of
}

// standing says that something that called for the list of a line is still so when the
// line begins, whether the alert may be given then or not.
func standing(plan *crew.Plan, l crew.Line) bool {
	return slices.ContainsFunc(plan.Calls, func(c crew.Call) bool {
		n, _ := plan.Record.Circuit().Node(circuit.Value{Item: c.Alert.ID, Aspect: circuit.Believed})
		return c.Procedure == l.Procedure && plan.Record.At(n, l.From) != 0
	})
}

// undone lists the lists of warnings and cautions of which something is read in the
// air, and which are not done at the touchdown after it. What is only done from memory,
// and read when the aircraft is down, is left for then on purpose.
func undone(plan *crew.Plan) (list []Finding) {
	ground := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "on_ground" })
	down := func(at book.Time) bool { return plan.Record.Path().Value(ground, at) != 0 }
	for _, c := range plan.Calls {
		if c.Procedure == nil || c.Joined || c.Past != nil || c.Begun == book.Never || c.Alert.Level == "advisory" || down(c.Begun) {
			continue
		}
		i := slices.IndexFunc(plan.Record.Instants(), func(at book.Time) bool { return at > c.Begun && down(at) })
		if i < 0 {
			continue
		}
		if at := plan.Record.Instants()[i]; c.Done > at && readBefore(plan, c, at) {
			list = append(list, Finding{Kind: Undone, List: c.Procedure, At: c.Begun, Took: at - c.Begun})
		}
	}
	return list
}

// readBefore says that a line of the list of a call is read before a moment.
func readBefore(plan *crew.Plan, c crew.Call, at book.Time) bool {
	return slices.ContainsFunc(plan.Lines, func(l crew.Line) bool {
		return l.Procedure == c.Procedure && l.Kind == crew.StepLine && !l.Step.FromMemory && !l.Deferred && c.Begun <= l.From && l.From < at
	})
}
