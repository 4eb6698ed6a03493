package sets

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/big"
	"slices"

	"knockon/say"
	"knockon/ways"
	"knockon/ways/logic"
)

// Report is the answer to a question about failure sets.
type Report struct {
	Words    string // the condition
	Always   bool   // it holds whatever fails
	Never    bool   // no failures bring it about
	Complete string // up to where nothing is missing
	Partial  bool   // less than was asked for
	Totals   []string
	Orders   []Order
	Risk     *Risk  // nil: see NoRisk
	NoRisk   string // why there is none; "" if none was asked for
}

// Order is the smallest sets of so many failures.
type Order struct {
	Size  int
	Count *big.Int
	Sets  []Set // the likeliest first, then by name of events as declared
	All   bool  // Sets holds all of them
}

// Set is a smallest failure set.
type Set struct {
	Names []string
	P     float64 // that all of them happen on one flight; NaN where a rate is missing
}

// Risk is how likely the condition is on one flight, the failures being
// independent, and what matters for it (docs/meaning.md, section 9).
type Risk struct {
	P      float64      // exact
	Bounds *ways.Bounds // nil where a failure can also prevent the condition
	Rows   []Row        // by criticality, the greatest first
}

// Row is one failure's part in a risk.
type Row struct {
	Name string
	ways.Importance
	FussellVesely float64 // NaN where a failure can also prevent the condition
}

// Ask is what a report holds.
type Ask struct {
	ways.Options
	Most int // sets listed of each order
	Rows int // failures that matter most; 0: no risk is worked out
}

// Make finds the smallest sets of a condition and puts them into a report. The
// error says that nothing at all could be found.
func Make(ctx context.Context, words string, l *logic.Logic, top logic.Term, a Ask) (*Report, error) {
	w, err := ways.Find(ctx, l, top, a.Options)
	if err != nil {
		return nil, err
	}
	r := &Report{Words: words, Always: w.Always, Never: w.Never, Partial: w.Why != nil, Complete: complete(w)}
	for size := 1; size <= w.Highest(); size++ {
		if w.Count(size).Sign() > 0 {
			r.Orders = append(r.Orders, orderOf(l, w, size, a.Most))
		}
	}
	if a.Rows > 0 {
		r.Risk, err = risk(ctx, l, w, a.Rows)
		if err != nil {
			r.NoRisk = err.Error()
		}
	}
	return r, nil
}

// mostSorted is how many sets of one order are looked at to list the likeliest.
const mostSorted = 50000

func orderOf(l *logic.Logic, w *ways.Ways, size, most int) Order {
	o := Order{Size: size, Count: w.Count(size)}
	sets, all := w.List(size, max(most, min(mostSorted, 100*most)))
	for _, s := range sets {
		o.Sets = append(o.Sets, Set{w.Names(s), chance(l, s)})
	}
	slices.SortStableFunc(o.Sets, func(a, b Set) int { return -cmp.Compare(a.P, b.P) })
	o.All = all && len(o.Sets) <= most
	o.Sets = o.Sets[:min(len(o.Sets), most)]
	return o
}

func chance(l *logic.Logic, s ways.Set) float64 {
	p := 1.0
	for _, e := range s {
		p *= l.Events()[e].P // NaN stays NaN
	}
	return p
}

func complete(w *ways.Ways) string {
	switch {
	case w.Why != nil && w.Complete < 1:
		return fmt.Sprintf("PARTIAL: nothing is sure to be complete (%v).", w.Why)
	case w.Why != nil:
		return fmt.Sprintf("PARTIAL: complete %s (%v).", upTo(w.Complete), w.Why)
	case w.Complete == ways.AllOrders:
		return "Complete: there are no other smallest sets."
	}
	return fmt.Sprintf("Complete %s; larger sets were not looked for.", upTo(w.Complete))
}

// upTo says up to which order sets were looked for.
func upTo(order int) string {
	switch order {
	case 0:
		return "for nothing failed"
	case 1:
		return "for single failures"
	}
	return fmt.Sprintf("up to %d failures together", order)
}

// Blind says how many functions a question about deferrals leaves out.
func Blind(n int) string {
	return say.Counted(n, "function hangs", "functions hang") + " on a number that cannot be followed there, and " + say.Plural(n, "is", "are") + " left out."
}

func risk(ctx context.Context, l *logic.Logic, w *ways.Ways, rows int) (*Risk, error) {
	found, err := w.Risk(ctx)
	if err != nil {
		return nil, err
	}
	r := &Risk{P: found.P}
	if b, err := w.Bounds(); err == nil && w.Complete == ways.AllOrders {
		r.Bounds = &b
	}
	slices.SortStableFunc(found.Events, func(a, b ways.Importance) int { return cmp.Compare(math.Abs(b.Criticality), math.Abs(a.Criticality)) })
	for _, e := range found.Events[:min(rows, len(found.Events))] {
		row := Row{Name: l.Events()[e.Event].Name, Importance: e, FussellVesely: math.NaN()}
		if w.Complete == ways.AllOrders {
			if fv, err := w.FussellVesely(ctx, e.Event); err == nil {
				row.FussellVesely = fv
			}
		}
		r.Rows = append(r.Rows, row)
	}
	return r, nil
}

// Of makes the report of a book's condition.
func (c Condition) Of(ctx context.Context, s Stander, a Ask) (*Report, error) {
	top, err := c.Term(s.Still)
	if err != nil {
		return nil, err
	}
	r, err := Make(ctx, c.Words()+", "+s.Moment, s.Still.Logic, top, a)
	if err != nil {
		return nil, err
	}
	r.Totals = c.Totals(s.Still)
	return r, nil
}
