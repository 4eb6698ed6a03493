package worth

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// Not every alert is for a failure: some are for a control that is not where it
// belongs, and some for a failure of what is not in use until a control is moved.

// These bound the slips that are tried: so many of the controls nearest to the
// alerts; after a slip so many of the nearest failures, that much later; and so
// many of the moves that the flight's ordinary handling makes with a control,
// each undone so long after. All of them are our own choice, to keep a study short.
const (
	nearestControls = 6
	nearestFailures = 8
	warmUp          = 120 * book.Second
	usualMoves      = 4
	undone          = 10 * book.Second
)

// slips lists scenarios in which a control on which the alerts of a procedure
// hang is put into each of its positions, by hand: at the start of the flight,
// in the middle of the longest phases, and back again after the flight's own
// handling; then, of the first two, the same with the nearest failures some time
// after.
func (c *Caller) slips(p *book.Procedure, ways []book.FailureRef) (list []run.Scenario) {
	near := c.controls(p)
	near = near[:min(len(near), nearestControls)]
	list = append(list, slipsAt(near, append([]book.Moment{{}}, c.moments[:min(len(c.moments), phases)]...))...)
	for _, k := range near {
		list = append(list, c.forgotten(k)...)
	}
	for _, at := range []book.Moment{{}, c.moments[0]} {
		later := at
		later.Offset += warmUp
		for _, slip := range slipsAt(near, []book.Moment{at}) {
			for _, f := range ways[:min(len(ways), nearestFailures)] {
				s := Failing(later, f)
				s.Actions = slip.Actions
				list = append(list, s)
			}
		}
	}
	return list
}

// slipsAt moves each control into each of its positions at each moment.
func slipsAt(controls []*book.Control, moments []book.Moment) (list []run.Scenario) {
	for _, at := range moments {
		for _, k := range controls {
			for _, to := range k.Positions {
				list = append(list, slip(k, to, at))
			}
		}
	}
	return list
}

func slip(k *book.Control, to string, at book.Moment) run.Scenario {
	return run.Scenario{Actions: []run.Action{{Control: k.ID, Position: to, At: at}}}
}

// forgotten undoes what the flight's ordinary handling does with a control, some
// time after, where the flight with nothing failed comes to it.
func (c *Caller) forgotten(k *book.Control) (list []run.Scenario) {
	n, ok := c.healthy.Circuit().Node(circuit.Value{Item: k.ID})
	if !ok {
		return nil
	}
	for _, a := range c.team.Course().Flight.Acts {
		if a.Set != k.ID || a.When == nil || len(list) == usualMoves {
			continue
		}
		for _, ch := range c.healthy.History(n) {
			if was := c.healthy.Circuit().WordText(c.healthy.Before(n, ch.At)); c.healthy.Circuit().WordText(ch.To) == a.To && was != a.To {
				list = append(list, undo(a, was))
				break
			}
		}
	}
	return list
}

func undo(a *book.Act, was string) run.Scenario {
	when := &book.Expr{Op: book.OpHeld, Type: book.YesNo, Num: undone.Seconds(), Args: []*book.Expr{a.When}, Range: a.When.Range}
	return run.Scenario{Actions: []run.Action{{Control: a.Set, Position: was, When: when}}}
}

// controls lists the controls on which the alerts of a procedure hang, the
// nearest first.
func (c *Caller) controls(p *book.Procedure) (list []*book.Control) {
	k := c.team.Course().Circuit()
	byNumber := map[int]*book.Control{}
	for _, x := range c.team.Build().Controls {
		if n, _, ok := k.Control(x.ID, x.Initial); ok {
			byNumber[n] = x
		}
	}
	under(k, c.alerts(p), func(g circuit.Gate) {
		if x := byNumber[int(g.Num)]; g.Kind == circuit.GateSwitch && !slices.Contains(list, x) {
			list = append(list, x)
		}
	})
	return list
}
