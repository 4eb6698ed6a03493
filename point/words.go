package point

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/say"
)

// untrue says that an alert is false, and what the crew do by it.
func (s speaker) untrue(p Point) string {
	n := len(p.False.Spans)
	text := fmt.Sprintf("%s is false%s from %s%s", say.Quoted(p.False.Alert.Message), inStretches(n), s.clock(p.At), s.until(p.At, p.False.Spans[n-1].To))
	if n := len(p.False.Sounds); n > 1 {
		text += ", and sounds " + say.Counted(n, "time")
	}
	if p.List == nil {
		return text + ": what it says is not so."
	}
	var moves []string
	for _, m := range p.List.Moves {
		moves = append(moves, fmt.Sprintf("%s to %s (%s)", say.Lower(m.Control.Title), say.Quoted(strings.ReplaceAll(m.Position, "_", " ")), s.clock(m.At)))
	}
	text += fmt.Sprintf(", and the crew do its list, %s: %s.", say.Quoted(p.List.Title), some(moves))
	if len(p.Covers) == 0 {
		return text
	}
	return text + " Lost by that: " + s.named(p.Covers) + "."
}

// inStretches says that something is so now and then.
func inStretches(n int) string {
	if n < 2 {
		return ""
	}
	return " in " + fmt.Sprint(n) + " stretches"
}

// until is when what began at a moment ends; nothing where it lasts as long as the flight.
func (s speaker) until(from, to book.Time) string {
	if to >= s.l.Here.End || to <= from {
		return ""
	}
	return " to " + s.clock(to)
}

// differ says what the readouts of a quantity show, and which of them is right.
func (s speaker) differ(p Point) string {
	var wrong, right, dark []string
	for _, x := range p.Shown {
		switch {
		case x.Dark:
			dark = append(dark, say.Quoted(x.Indication.Title))
		case x.Wrong:
			wrong = append(wrong, say.Quoted(x.Indication.Title)+" shows "+say.Quantity(x.Value, x.Indication.Shows.Unit))
		default:
			right = append(right, say.Quoted(x.Indication.Title))
		}
	}
	so := say.Quantity(p.Means, p.Readings[0].Indication.Shows.Unit)
	text := fmt.Sprintf("At %s %s, where %s is so", s.clock(p.At), say.And(wrong), so)
	if len(dark) > 0 {
		text += "; " + say.And(dark) + " " + say.Plural(len(dark), "is", "are") + " dark"
	}
	text += ". " + believe(right, len(wrong), s.agree(p)) + s.behind(p)
	if len(p.Covers) > 0 {
		text += " Denied by this: " + s.named(p.Covers) + "."
	}
	return text
}

// believe says which of several readouts is right.
func believe(right []string, wrong int, agree bool) string {
	switch {
	case len(right) == 0 && agree:
		return "They agree, and none is to be believed."
	case len(right) == 0:
		return "None is to be believed."
	case agree:
		return "Believe " + say.And(right) + ": the " + fmt.Sprint(wrong) + " that agree are wrong."
	}
	return "Believe " + say.And(right) + "."
}

// agree says that two or more readouts are wrong alike: no farther from each other than
// each may be from the truth.
func (s speaker) agree(p Point) bool {
	n, low, high, within := 0, 0.0, 0.0, 0.0
	for _, x := range p.Shown {
		if x.Dark || !x.Wrong {
			continue
		}
		if n == 0 {
			low, high = x.Value, x.Value
		}
		n, low, high, within = n+1, min(low, x.Value), max(high, x.Value), x.Indication.Within
	}
	return n > 1 && high-low <= within
}

// behind names the failure that stands behind every readout that is wrong: where two may,
// nothing here says which of them does, and none is named.
func (s speaker) behind(p Point) string {
	var list []book.FailureRef
	for _, x := range p.Shown {
		for _, r := range s.seen.of(x.Indication.ID) {
			if (x.Wrong || x.Dark) && !contains(list, r) {
				list = append(list, r)
			}
		}
	}
	if len(list) != 1 {
		return ""
	}
	return " Behind it: " + some(s.failures(list)) + "."
}

// failures names ways of failing.
func (s speaker) failures(list []book.FailureRef) (titles []string) {
	b := s.l.Here.Course.Build
	for _, r := range list {
		text := say.Lower(b.Title(r.Unit))
		if fault := b.FaultTitle(r); fault != "" {
			text += " (" + fault + ")"
		}
		titles = append(titles, text)
	}
	return titles
}

// wrong says that readouts are wrong that deny no loss.
func (s speaker) wrong(p Point) string {
	var titles []string
	for _, x := range p.Readings {
		titles = append(titles, say.Quoted(x.Indication.Title))
	}
	at := p.Readings[0].Spans[0]
	text := fmt.Sprintf("%s %s wrong%s from %s%s", some(titles), say.Plural(len(titles), "shows", "show"), stretches(p.Readings), s.clock(p.At), s.until(p.At, lastOf(p.Readings)))
	if at.Shows != "" && at.Means != "" {
		text += fmt.Sprintf(": %s, where %s is so", at.Shows, at.Means)
		if len(titles) > 1 {
			text += " (" + titles[0] + " at " + s.clock(at.At) + ")"
		} else {
			text += " at " + s.clock(at.At)
		}
	}
	return text + "."
}

// stretches says it of one readout that is wrong now and then.
func stretches(list []*ledger.Reading) string {
	if len(list) > 1 {
		return ""
	}
	return inStretches(len(list[0].Spans))
}

// lastOf is when the last of some readouts is right again.
func lastOf(list []*ledger.Reading) (to book.Time) {
	for _, r := range list {
		to = max(to, r.Spans[len(r.Spans)-1].To)
	}
	return to
}

// unseen says of failures that nothing shows them, and what finds them.
func (s speaker) unseen(p Point) string {
	text := fmt.Sprintf("%s: failed, and nothing on this flight shows it: no alert, no readout, no loss that is called for.", say.Capital(some(s.failures(p.Failed))))
	if idle := s.idle(p.Failed); len(idle) > 0 {
		text += " Lost with it, and not called for: " + s.named(idle) + "."
	}
	text += " It waits for the next failure, and for the next flight; "
	checks := s.checks(p.Failed)
	if checks == "" {
		return text + "the book has no check that finds it."
	}
	return text + checks + "."
}

// idle are losses that are not called for and behind which only some failures can stand.
func (s speaker) idle(failed []book.FailureRef) (list []*ledger.Loss) {
	for i := range s.l.Losses {
		x := &s.l.Losses[i]
		if x.Mattered {
			continue
		}
		other := func(r book.FailureRef) bool { return !contains(failed, r) }
		if of := s.seen.of(x.Function.ID); len(of) > 0 && !slices.ContainsFunc(of, other) {
			list = append(list, x)
		}
	}
	return list
}

// checks says how often a check would find failures; "" if none would find one.
func (s speaker) checks(failed []book.FailureRef) string {
	var parts []string
	for _, r := range failed {
		if h := s.hours(r); h > 0 {
			parts = append(parts, "every "+say.Quantity(h, "h")+" of flight ("+s.failures([]book.FailureRef{r})[0]+")")
		}
	}
	switch {
	case len(parts) == 0:
		return ""
	case len(failed) == 1:
		every, _, _ := strings.Cut(parts[0], " (")
		return "the check that finds it comes " + every
	}
	return "checks come " + some(parts)
}

// hours is between checks that find a failure; 0: none is known.
func (s speaker) hours(r book.FailureRef) float64 {
	item, _ := s.l.Here.Course.Build.Item(r.Unit)
	u, ok := item.(*book.Unit)
	if !ok {
		return 0
	}
	for _, f := range u.Faults {
		if f.ID == r.Fault {
			return f.CheckedH
		}
	}
	return u.CheckedH
}

// untold says of a hidden loss that nothing tells; or, where something that has the same
// failure behind it comes, goes dark or shows wrong meanwhile, what people have to go by.
func (s speaker) untold(x *ledger.Loss, p ledger.LossSpan) string {
	var come []string
	for _, a := range s.l.Alerts {
		if during(a.Spans, p) && s.seen.related(x.Function.ID, a.Alert.ID) {
			come = append(come, say.Quoted(a.Alert.Message))
		}
	}
	var signs []string
	add := func(list []string, one, many string) {
		if len(list) > 0 {
			signs = append(signs, some(list)+" "+say.Plural(len(list), one, many))
		}
	}
	add(come, "comes", "come")
	add(s.readings(s.l.Dark, x, p), "goes dark", "go dark")
	add(s.readings(s.l.Wrong, x, p), "shows wrong", "show wrong")
	if len(signs) == 0 {
		return ", and nothing tells"
	}
	return ", and nothing names it, though " + say.And(signs)
}

// readings are those of some readouts that last in a part of a loss and have the same
// failure behind them.
func (s speaker) readings(list []ledger.Reading, x *ledger.Loss, p ledger.LossSpan) (titles []string) {
	for _, r := range list {
		if lasting(r.Spans, p) && s.seen.related(x.Function.ID, r.Indication.ID) {
			titles = append(titles, say.Quoted(r.Indication.Title))
		}
	}
	return titles
}

// during says that one of some stretches lies in a part of a loss.
func during(list []circuit.Span, p ledger.LossSpan) bool {
	return slices.ContainsFunc(list, func(s circuit.Span) bool { return s.From < p.To && p.From < s.To })
}

func lasting(list []ledger.ReadingSpan, p ledger.LossSpan) bool {
	return slices.ContainsFunc(list, func(s ledger.ReadingSpan) bool { return min(s.To, p.To)-max(s.From, p.From) > momentary })
}
