package rescue

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// Spared is what moves made together spare, and until when.
type Spared struct {
	*Answer
	Set   Set
	Steps []Step // the one with the earliest deadline first
	Never []*book.Function
	Costs []Cost // of the moves made at the first moment
	Lost  int    // functions that bite without them

	Undone []Undone // moves that an act of the flight undoes, made at the first moment

	Falls, Tried int // moments at which the flight with them does not arrive, of so many
}

// Step is a function that the moves rescue.
type Step struct {
	Function *book.Function
	Kind     Kind // at the first moment of its first window
	Windows  []Window
}

// Spare works out, for moves that are made together, which losses they prevent
// or end, and until when.
func Spare(ctx context.Context, c *run.Course, s run.Scenario, set Set) (*Spared, error) {
	b, err := newBase(ctx, c, s, c.Build.Functions[0].ID)
	if err != nil {
		return nil, err
	}
	g, err := newGrove(ctx, b)
	if err != nil {
		return nil, err
	}
	x := &sparing{Search: &Search{grove: g}, set: set, known: map[book.Time]*outcome{}}
	p := &Spared{Answer: &Answer{Course: c, Strike: b.strike, base: b, Moments: []book.Time{b.strike + soonest}}, Set: set}
	if o, err := x.at(ctx, p.Moments[0]); err != nil || o == nil {
		return p, stands(err, set)
	} else {
		p.Costs = o.costs
	}
	if p.Undone, err = b.undone(ctx, p.Moments[0], set); err != nil {
		return nil, err
	}
	for i, f := range b.functions {
		if err := x.function(ctx, p, i, f); err != nil {
			return nil, err
		}
	}
	for _, o := range x.known {
		if p.Tried++; o != nil && !o.arrives {
			p.Falls++
		}
	}
	slices.SortStableFunc(p.Steps, func(a, b Step) int { return cmp.Compare(a.last(), b.last()) })
	return p, nil
}

func stands(err error, set Set) error {
	if err != nil {
		return err
	}
	return fmt.Errorf("%s: a control stands so already ten seconds after the failure", set.words())
}

func (s Step) last() book.Time { return s.Windows[len(s.Windows)-1].To }

// sparing flies one set at many moments, each once for all functions.
type sparing struct {
	*Search
	set   Set
	known map[book.Time]*outcome
}

func (x *sparing) at(ctx context.Context, t book.Time) (*outcome, error) {
	if o, ok := x.known[t]; ok {
		return o, nil
	}
	o, err := x.made(ctx, x.whole, t, x.set, true)
	if err == nil {
		x.known[t] = o
	}
	return o, err
}

func (x *sparing) function(ctx context.Context, p *Spared, i int, f *book.Function) error {
	times, _ := x.moments(x.bites[i])
	if len(times) == 0 {
		return nil
	}
	p.Lost++
	kind := func(t book.Time) (Kind, error) {
		o, err := x.at(ctx, t)
		if err != nil || o == nil || !o.arrives {
			return Fails, err
		}
		return o.traces[i].judge(t, last(x.bites[i])), nil
	}
	list, err := windows(times, func(t book.Time) (bool, error) { k, err := kind(t); return k != Fails, err })
	if err != nil {
		return err
	}
	if len(list) == 0 {
		p.Never = append(p.Never, f)
		return nil
	}
	k, err := kind(list[0].From)
	p.Steps = append(p.Steps, Step{f, k, list})
	return err
}

// SpareView is that in words.
type SpareView struct {
	Moves   []Moved       `json:"moves"`
	Lead    string        `json:"lead"`
	Steps   []SpareSpoken `json:"steps"`
	Never   string        `json:"never,omitempty"`
	Falls   string        `json:"falls,omitempty"`  // where the flight with them does not arrive
	Undone  string        `json:"undone,omitempty"` // which moves the flight's own acts undo, and when
	Cost    string        `json:"cost"`
	Caution string        `json:"caution"`
}

// SpareSpoken is one step of it.
type SpareSpoken struct {
	Function string `json:"function"`
	Title    string `json:"title"`
	Severity string `json:"severity,omitempty"`
	Does     string `json:"does"` // prevents or ends
	Says     string `json:"says"`
	Windows  []Stay `json:"windows"`
}

// View puts it into words.
func (p *Spared) View() *SpareView {
	v := &SpareView{Caution: book.Caution, Steps: []SpareSpoken{}, Moves: []Moved{}, Cost: "Made at " + p.clock(p.Moments[0]) + ": " + say.Lower(p.cost(p.Costs))}
	for _, m := range p.Set {
		v.Moves = append(v.Moves, Moved{m.Control.ID, m.Position, m.Back, m.Held, m.After.Seconds()})
	}
	spared := "none"
	if n := len(p.Steps); n > 0 {
		spared = fmt.Sprint(n)
	}
	v.Lead = fmt.Sprintf("%s: of %s lost while wanted, from ten seconds after the failure on, this spares %s.",
		say.Capital(p.Set.words()), say.Counted(p.Lost, "function"), spared)
	if p.Falls > 0 {
		v.Falls = fmt.Sprintf("Made at %d of the %s tried, the flight does not arrive, and nothing counts as spared.", p.Falls, say.Counted(p.Tried, "moment"))
	}
	v.Undone = p.undoneWords()
	for _, s := range p.Steps {
		v.Steps = append(v.Steps, p.step(s))
	}
	if len(p.Never) > 0 && len(p.Steps) > 0 {
		var names []string
		for _, f := range p.Never {
			names = append(names, say.Quoted(f.Title))
		}
		v.Never = "At none of the moments tried does it spare " + say.And(names) + "."
	}
	return v
}

func (p *Spared) step(s Step) SpareSpoken {
	x := SpareSpoken{Function: s.Function.ID, Title: s.Function.Title, Severity: s.Function.Severity, Does: "prevents", Windows: []Stay{}}
	does := " is kept"
	if s.Kind == Ends {
		x.Does, does = "ends", " is lost until then and comes back for good"
	}
	for _, w := range s.Windows {
		x.Windows = append(x.Windows, Stay{p.moment(w.From), p.moment(w.To), w.Open})
	}
	x.Says = say.Sentence(say.Quoted(s.Function.Title) + does + ", made" + p.when(s.Windows))
	return x
}
