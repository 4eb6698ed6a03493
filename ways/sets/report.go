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

// Report is the answer to a question about failure sets. Its sentences are all
// that people are told beside the lists; every view of it shows all of them.
type Report struct {
	Words       string   // the condition
	Always      bool     // it holds whatever fails
	Never       bool     // no failures bring it about
	Verdict     string   // that it is so always or never; "" if it is neither
	Complete    string   // up to where nothing is missing
	Partial     bool     // less than was asked for
	NotAnswered []string // what could not be answered of it, and why
	Orders      []Order
	Risk        *Risk  // nil: see NoRisk
	NoRisk      string // why there is none; "" if none was asked for
	Flown       *Flown // nil: not a condition of a book

	small [][]string // the sets of up to two failures
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
	Says   string       // what P is the probability of
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
	r, w, err := find(ctx, words, l, top, a)
	if err != nil {
		return nil, err
	}
	r.Complete = complete(w)
	switch {
	case w.Always:
		r.Verdict = "It is so whatever fails, and if nothing does."
	case w.Never:
		r.Verdict = "No set of failures brings it about."
	}
	return r, nil
}

// find makes a report without the sentences about how much of it is known.
func find(ctx context.Context, words string, l *logic.Logic, top logic.Term, a Ask) (*Report, *ways.Ways, error) {
	w, err := ways.Find(ctx, l, top, a.Options)
	if err != nil {
		return nil, nil, err
	}
	r := &Report{Words: words, Always: w.Always, Never: w.Never, Partial: w.Why != nil}
	for size := 1; size <= w.Highest(); size++ {
		if w.Count(size).Sign() > 0 {
			r.Orders = append(r.Orders, orderOf(l, w, size, a.Most))
		}
	}
	if a.Rows > 0 {
		if r.Risk, err = risk(ctx, l, w, a.Rows); err != nil {
			r.NoRisk = err.Error()
		}
	}
	return r, w, nil
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
		return fmt.Sprintf("PARTIAL: complete up to %s (%v).", together(w.Complete), w.Why)
	case w.Complete == ways.AllOrders:
		return "Complete: there are no other smallest sets."
	}
	return fmt.Sprintf("Complete up to %s; larger sets were not looked for.", together(w.Complete))
}

// together says how many failures: "1 failure", "3 failures together".
func together(n int) string {
	return say.Counted(n, "failure", "failures together")
}

func risk(ctx context.Context, l *logic.Logic, w *ways.Ways, rows int) (*Risk, error) {
	found, err := w.Risk(ctx)
	if err != nil {
		return nil, err
	}
	r := &Risk{P: found.P, Says: "On one flight, if failures are independent"}
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
