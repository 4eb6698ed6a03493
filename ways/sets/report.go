package sets

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/say"
	"knockon/ways"
	"knockon/ways/logic"
)

// Report is the answer to a question about failure sets, in its JSON too. Its
// sentences are all that people are told beside the lists; every view of it
// shows all of them.
type Report struct {
	Words       string   `json:"condition"`
	Means       string   `json:"means,omitempty"`   // what "no alert tells of it" asks, and what it does not
	Always      bool     `json:"always"`            // it holds whatever fails
	Never       bool     `json:"never"`             // no failures bring it about
	Verdict     string   `json:"verdict,omitempty"` // that it is so always or never; "" if it is neither
	Complete    string   `json:"complete"`          // up to where nothing is missing
	Partial     bool     `json:"partial"`           // less than was asked for
	NotAnswered []string `json:"not_answered"`      // what could not be answered of it, and why
	Listed
	Flown   *Flown `json:"flown,omitempty"`   // nil: not a condition of a book
	Risk    *Risk  `json:"risk,omitempty"`    // nil: see NoRisk
	NoRisk  string `json:"no_risk,omitempty"` // why there is none; "" if none was asked for
	Caution string `json:"caution"`

	small [][]string // the sets of up to two failures
}

// Listed is the smallest sets by how many failures they have, as people read
// them, and for a machine by that number as a text. Those that are listed may be
// fewer than their count.
type Listed struct {
	Orders []Order             `json:"-"`
	Counts map[string]string   `json:"counts"`
	Sets   map[string][]string `json:"sets"`
}

func listed(orders []Order) Listed {
	all := Listed{orders, map[string]string{}, map[string][]string{}}
	for _, o := range orders {
		size := strconv.Itoa(o.Size)
		all.Counts[size] = o.Count.String()
		for _, s := range o.Sets {
			all.Sets[size] = append(all.Sets[size], s.String())
		}
	}
	return all
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

func (s Set) String() string { return strings.Join(s.Names, " + ") }

// Risk is how likely the condition is on one flight, the failures being
// independent, and what matters for it (docs/meaning.md, section 9).
type Risk struct {
	Says         string  `json:"says"`                   // what P is the probability of
	P            float64 `json:"probability_per_flight"` // exact
	*ways.Bounds         // nil where a failure can also prevent the condition
	Rows         []Row   `json:"failures"` // by criticality, the greatest first
}

// Row is one failure's part in a risk.
type Row struct {
	Name            string  `json:"failure"`
	P               float64 `json:"probability"`
	Birnbaum        float64 `json:"birnbaum"`
	Criticality     Ratio   `json:"criticality,omitzero"`
	Diagnostic      Ratio   `json:"diagnostic,omitzero"`
	RiskAchievement Ratio   `json:"risk_achievement,omitzero"`
	RiskReduction   Ratio   `json:"risk_reduction,omitzero"`
	FussellVesely   Ratio   `json:"fussell_vesely,omitzero"` // NaN where a failure can also prevent the condition
}

// Ratio is a number that may be none or without end, and then is left out for a
// machine.
type Ratio float64

// IsZero says that it is left out.
func (r Ratio) IsZero() bool { return math.IsNaN(float64(r)) || math.IsInf(float64(r), 0) }

func (r Ratio) String() string {
	switch {
	case math.IsNaN(float64(r)):
		return "-"
	case math.IsInf(float64(r), 0):
		return "without end"
	}
	return strconv.FormatFloat(float64(r), 'g', 3, 64)
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
	r := &Report{Words: words, Always: w.Always, Never: w.Never, Partial: w.Why != nil, Caution: book.Caution}
	var orders []Order
	for size := 1; size <= w.Highest(); size++ {
		if w.Count(size).Sign() > 0 {
			orders = append(orders, orderOf(l, w, size, a.Most))
		}
	}
	r.Listed = listed(orders)
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
	r := &Risk{P: found.P, Says: "On one flight, if failures are independent and all works as it begins (assess counts what waits unseen for its check)"}
	if b, err := w.Bounds(); err == nil && w.Complete == ways.AllOrders {
		r.Bounds = &b
	}
	slices.SortStableFunc(found.Events, func(a, b ways.Importance) int { return cmp.Compare(math.Abs(b.Criticality), math.Abs(a.Criticality)) })
	for _, e := range found.Events[:min(rows, len(found.Events))] {
		row := Row{l.Events()[e.Event].Name, e.P, e.Birnbaum, Ratio(e.Criticality), Ratio(e.Diagnostic), Ratio(e.RiskAchievement), Ratio(e.RiskReduction), Ratio(math.NaN())}
		if w.Complete == ways.AllOrders {
			if fv, err := w.FussellVesely(ctx, e.Event); err == nil {
				row.FussellVesely = Ratio(fv)
			}
		}
		r.Rows = append(r.Rows, row)
	}
	return r, nil
}
