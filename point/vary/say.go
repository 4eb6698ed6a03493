package vary

import (
	"context"
	"errors"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
)

// speaker says what other answers make of one.
type speaker struct{ *ask.Answer }

// line is that of an axis: the other answer that changes most, or that none does.
func (s speaker) line(axis string, all []*other) ledger.Varied {
	if axis == Set {
		return s.together(all)
	}
	list := slices.DeleteFunc(slices.Clone(all), func(o *other) bool { return o.Axis != axis })
	v := ledger.Varied{Axis: axis, Covers: []ledger.Ref{}}
	if bad := s.open(s.Answer); bad != "" {
		v.Open, v.Text = true, "What "+matters[axis]+" makes of it cannot be said: "+bad
		return v
	}
	open := s.unanswered(list)
	if o := s.ends(list); o != nil {
		v.Point, v.Change, v.Text = true, o.Change, o.Says+" "+s.ending(o)
	} else if o := s.most(axis, list); o != nil {
		c := compare(s.Ledger, o.got.Ledger)
		v.Point, v.Change, v.Text, v.Covers = true, o.Change, o.Says+" "+sentence(c), c.refs()
	} else if slices.ContainsFunc(list, s.answered) {
		v.Text = s.alike(axis, len(open) > 0)
	}
	if v.Text == "" && len(open) > 0 {
		v.Text = "What " + matters[axis] + " makes of it:"
	}
	if len(open) > 0 {
		v.Open, v.Text = true, strings.TrimSpace(v.Text+" "+strings.Join(open, " "))
	}
	return v
}

// alike says that no other answer differs: in what is lost, where the flights arrive;
// where they break off nobody has looked at that.
func (s speaker) alike(axis string, some bool) string {
	text := same[axis]
	if some {
		text += ", as far as that is answered,"
	}
	if !s.Here.Ending().Arrived() {
		return text + " the flight breaks off as well, for the same reason."
	}
	return text + " the same is lost when it is called for, and as much of it known."
}

// matters names what an axis varies.
var matters = map[string]string{
	Conduct: "the other conduct", Pace: "a slower crew", Guard: "one failure less", Deferral: "an aircraft with nothing inoperative", Build: "another build", Phase: "another phase",
}

// same begins what is said where no other answer differs.
var same = map[string]string{
	Conduct:  "With the other conduct",
	Pace:     "With a crew who take twice as long over everything",
	Guard:    "With one failure less",
	Deferral: "With all in order at dispatch",
	Build:    "On every other build",
	Phase:    "In every other phase",
}

// open says why an answer is none: the failure never comes, or nobody can say what the
// model comes to. A flight that breaks off since it cannot be flown on is an answer.
func (s speaker) open(a *ask.Answer) string {
	e, there := a.Here.Ending(), a.There.Ending()
	_, came := a.Here.FirstStrike()
	if !came || e.How == run.NeverSettles || e.Arrived() && !there.Arrived() {
		return a.Ledger.Unanswered()
	}
	return ""
}

// unanswered says of which others nothing is said, and why.
func (s speaker) unanswered(list []*other) (says []string) {
	late := 0
	for _, o := range list {
		switch {
		case o.got != nil && s.open(o.got) != "":
			says = append(says, o.Says+": not answered. "+s.open(o.got))
		case o.got == nil && (errors.Is(o.err, context.DeadlineExceeded) || errors.Is(o.err, context.Canceled)):
			late++
		case o.got == nil:
			says = append(says, o.Says+": cannot be asked.")
		}
	}
	if len(says) > 1 {
		says = []string{say.Capital(say.Counted(len(says), "other")) + " cannot be asked or " + say.Plural(len(says), "is", "are") + " not answered."}
	}
	if late > 0 {
		says = append(says, say.Capital(say.Counted(late, "other"))+" could not be flown in the time there is.")
	}
	return says
}

func (s speaker) answered(o *other) bool { return o.got != nil && s.open(o.got) == "" }

// ends is the first other flight that breaks off where this one arrives, or arrives where
// this one breaks off; where both break off, the first that does so elsewhere.
func (s speaker) ends(list []*other) *other {
	here := s.Here.Ending()
	for _, o := range list {
		if !s.answered(o) {
			continue
		}
		if e := o.got.Here.Ending(); e.Arrived() != here.Arrived() || !e.Arrived() && e.Why != here.Why {
			return o
		}
	}
	return nil
}

// ending says how another flight ends.
func (s speaker) ending(o *other) string {
	e := o.got.Here.Ending()
	if e.Arrived() {
		return "the flight arrives."
	}
	return "the flight breaks off at " + say.After(e.At-o.got.Ledger.Strike) + ": " + e.Why + "."
}

// most is the other answer that changes most, if any does: of phases that which makes it
// worst; of failures that could be less, that which leaves most of what people know of,
// and spares or makes known what nobody does: a guard, and not the failure itself.
func (s speaker) most(axis string, list []*other) (best *other) {
	top := 0.0
	for _, o := range list {
		if !s.answered(o) || !o.got.Here.Ending().Arrived() {
			continue
		}
		c := compare(s.Ledger, o.got.Ledger)
		w := c.weight()
		if w == 0 && len(c.refs()) == 0 {
			continue
		}
		switch axis {
		case Phase:
			w = c.worse()
		case Guard:
			w = s.still(o.got.Ledger)
			if !c.enlightens() {
				w -= 1e6 // behind all that do
			}
		}
		if best == nil || w > top {
			best, top = o, w
		}
	}
	return best
}

// still counts how much of what is known here is lost in another answer as well.
func (s speaker) still(l *ledger.Ledger) (n float64) {
	for _, x := range called(s.Ledger) {
		if known(x) && mattering(l, x.Function.ID) != nil {
			n++
		}
	}
	return n
}

// enlightens says that what nobody knew of is spared or known.
func (c changes) enlightens() bool {
	return len(c.clearer) > 0 || slices.ContainsFunc(c.less, func(s shift) bool { return s.here.Word().Unknown() })
}
