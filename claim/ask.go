package claim

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
)

// ask answers one function of a claim (docs/meaning.md section 7) and notes
// what was found.
func (f *finder) ask(e *book.Expr) (float64, error) {
	fn, _ := book.ClaimFunctionNamed(e.Word)
	switch fn.Asks {
	case book.AsksTimes:
		return f.observe(e)
	case book.AsksEvent:
		ev, err := f.named(e)
		return f.soFar(yes(ev.came()), ev.came(), f.comes(ev)), err
	case book.AsksEnding:
		return f.ending(e), nil
	case book.AsksPrice:
		return f.price(e)
	case book.AsksRescue:
		return f.rescue(e)
	}
	id := e.Args[0].ID
	f.got = append(f.got, f.l.Say(id))
	if fn, _ := book.ClaimFunctionNamed(e.Word); fn.Asks == book.AsksKnown {
		return f.known(e.Word, id), nil
	}
	v := f.row(e.Word, id)
	if f.openRows && !f.stands(e.Word, id, v) {
		return undecided, nil
	}
	return yes(v), nil
}

// classes of a loss by the function that asks for it.
var classes = map[string]ledger.Class{
	"told": ledger.Told, "told_late": ledger.ToldLate, "only_shown": ledger.OnlyShown,
	"not_told": ledger.NotTold, "told_wrong": ledger.ToldWrong,
}

// row says whether the ledger has a row of a kind about an item.
func (f *finder) row(word, id string) bool {
	loss := f.l.Loss(id)
	announced := func(list []ledger.Announcement) bool {
		return slices.ContainsFunc(list, func(a ledger.Announcement) bool { return a.Alert.ID == id })
	}
	shown := func(list []ledger.Reading) bool {
		return slices.ContainsFunc(list, func(r ledger.Reading) bool { return r.Indication.ID == id })
	}
	switch word {
	case "lost":
		return loss != nil
	case "kept":
		return loss == nil
	case "dark":
		return shown(f.l.Dark)
	case "given":
		return announced(f.l.Alerts)
	case "never_given":
		return !announced(f.l.Alerts)
	case "held_back":
		return announced(f.l.Held)
	case "false_alarm":
		return announced(f.l.False)
	case "told_wrong":
		if loss == nil {
			return shown(f.l.Wrong)
		}
	}
	class, ok := classes[word]
	return ok && loss != nil && loss.Class == class
}

// observe answers a function that asks about what is observed, and about events.
func (f *finder) observe(e *book.Expr) (float64, error) {
	switch e.Word {
	case "in_order":
		return f.inOrder(e.Args)
	case "by":
		return f.by(e.Args[0].Num, e.Args[1])
	case "within":
		return f.within(e.Args[0].Num, e.Args[1], e.Args[2])
	case "about":
		return f.about(e.Args)
	case "first":
		ev, err := f.event(e.Args[0])
		return f.soFar(ev.first(f.strike), ev.came(), f.comes(ev)), err
	}
	x := e.Args[len(e.Args)-1]
	t, err := f.timesOf(x)
	if err != nil {
		return 0, err
	}
	switch e.Word {
	case "at":
		return f.at(t, e.Args[0].Num)
	case "in_phase":
		return f.inPhase(t, e.Args[0].ID)
	case "ever":
		return f.soFar(yes(len(t.from) > 0), len(t.from) > 0, t.firstTime()), nil
	case "always":
		always := t.throughout(f.strike, t.end)
		return f.soFar(yes(always), !always, t.firstNot()), nil
	case "times":
		return f.times(t, x)
	}
	return f.measure(t, e)
}

// timesOf is when an expression is yes.
func (f *finder) timesOf(x *book.Expr) (times, error) {
	n, ok := f.l.Here.Circuit().WatchOf(x)
	if !ok {
		return times{}, fmt.Errorf("%s: this was not observed", x.Range)
	}
	return newTimes(f.l.Here.Trace, n, f.strike), nil
}

func (f *finder) note(v float64, text string) float64 {
	f.got = append(f.got, text)
	return v
}

func (f *finder) at(t times, s float64) (float64, error) {
	at := f.strike + book.AtSeconds(s)
	if at > f.l.Here.End && f.open {
		return f.soFar(0, false, "the flight breaks off before "+f.clock(at)), nil
	}
	if at < 0 || at > f.l.Here.End {
		return 0, fmt.Errorf("%g s after the strike is outside the flight", s)
	}
	v := f.l.Here.At(t.node, at)
	return f.note(v, word(v)+" at "+f.clock(at)), nil
}

func word(v float64) string {
	if v != 0 {
		return "yes"
	}
	return "no"
}

func (f *finder) clock(t book.Time) string { return say.After(t - f.strike) }

func (f *finder) inPhase(t times, phase string) (float64, error) {
	for _, p := range f.l.Here.Phases() {
		if p.ID != phase {
			continue
		}
		to := p.To
		if to == t.end-1 {
			to = t.end
		}
		if to <= f.strike && p.From < f.strike {
			return f.note(0, phase+" is over before the strike"), nil
		}
		from := max(p.From, f.strike)
		held := t.throughout(from, to)
		return f.soFar(yes(held), !held || to < t.end, f.broken(t, from, to)), nil
	}
	return f.soFar(0, false, phase+" never comes"), nil
}

// broken says when in a stretch the value is first no.
func (f *finder) broken(t times, from, to book.Time) string {
	if t.throughout(from, to) {
		return "yes from " + f.clock(from) + " to " + f.clock(min(to, t.end-1))
	}
	return "no at " + f.clock(t.firstNo(from))
}

// times counts how often an expression became yes, or an alert sounded.
func (f *finder) times(t times, x *book.Expr) (float64, error) {
	n := t.rises()
	if item, ok := f.l.Here.Course.Build.Item(x.ID); ok && x.Op == book.OpRef {
		if a, ok := item.(*book.Alert); ok {
			n = 0
			for _, at := range f.l.Here.Sounds(a) {
				n += int(yes(at >= f.strike))
			}
		}
	}
	return f.soFar(float64(n), false, fmt.Sprintf("times = %d", n)), nil
}

func (f *finder) measure(t times, e *book.Expr) (float64, error) {
	v := 0.0
	switch e.Word {
	case "last":
		v = t.last()
	case "seconds":
		v = t.seconds()
	default:
		return 0, fmt.Errorf("%s: no function %s", e.Range, e.Word)
	}
	return f.soFar(v, false, fmt.Sprintf("%s = %s", e.Word, measured(e.Word, v))), nil
}

func measured(word string, v float64) string {
	switch {
	case word == "first" && v == never, word == "last" && v == -1:
		return fmt.Sprintf("never (%d)", int64(v))
	case word == "last" && v == never:
		return fmt.Sprintf("still yes at the end (%d)", never)
	}
	return fmt.Sprintf("%.10g s", v)
}
