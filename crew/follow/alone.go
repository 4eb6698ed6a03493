package follow

import (
	"slices"

	"knockon/book"
	"knockon/crew"
	"knockon/ledger"
	"knockon/run"
)

// late lists the warnings whose list is not done long after they are given: read to
// its end, but for what it leaves for later.
func late(plan *crew.Plan) (list []Finding) {
	for _, c := range plan.Calls {
		took := min(c.Done, plan.Record.End) - c.Given
		if c.Alert.Level == "warning" && !c.Joined && c.Past == nil && c.Begun != book.Never && took > lateS {
			list = append(list, Finding{Kind: Late, List: c.Procedure, At: c.Given, Took: took})
		}
	}
	return list
}

// goesOn lists the hazardous and catastrophic functions that are wanted and lost for
// long in one piece, on a flight on which no line of a list says where to land.
func goesOn(plan *crew.Plan, with *ledger.Ledger) (list []Finding) {
	if slices.ContainsFunc(plan.Lines, saysWhere) {
		return nil
	}
	for i := range with.Losses {
		l := &with.Losses[i]
		if grave(l.Function) < slices.Index(book.Severities, "hazardous") {
			continue
		}
		for _, s := range l.Spans {
			if took := s.To - s.From; s.Mattered && took > longS {
				list = append(list, Finding{Kind: GoOn, Function: l.Function, At: s.From, Took: took})
				break
			}
		}
	}
	return list
}

// saysWhere says that a line sends the flight to a field.
func saysWhere(l crew.Line) bool {
	return l.Step != nil && !l.Omitted && l.Step.Leg != "" && run.Leg{Do: run.Manoeuvre(l.Step.Leg)}.OverGround()
}
