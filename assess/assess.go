// Package assess turns the sheets of a sweep and the rates of a book into a
// safety assessment: every function against the objective of its severity, with
// the smallest sets of failures that take it away and how likely each is.
//
// Invariant: nothing is claimed of more failures together than were swept, and
// what has no rate, or broke off, is named and never counted as nothing. Every
// probability is one of arising on a flight, in the mean over all flights
// (docs/assess.md has the formulas).
//
// Start reading at Of; exposure.go has the formulas.
package assess

import (
	"cmp"
	"math"
	"slices"

	"knockon/book"
	"knockon/sweep"
)

// Swept is what an assessment is made of.
type Swept struct {
	Build    *book.Build
	Flight   *book.Flight
	Hours    Flight
	Failures []book.FailureRef
	Phases   []sweep.Phase  // of the flight, as Hours has them
	Sheets   []*sweep.Sheet // of the first phases; fewer than Phases where not all were swept
	Order    int            // failures together
}

// Assessment is every function of a build with a severity, held against its
// objective.
type Assessment struct {
	Swept
	Parts  []Part // by failure
	Losses []Loss // the gravest first, of these the worst verdict, then the likeliest
}

// Loss is a function that is lost while it is wanted.
type Loss struct {
	Function *book.Function
	Hidden   bool // graded for a loss that is hidden, or denied by an indication
	Objective
	PerH    float64 // how likely, per hour of flight, in the mean; at most so much
	Sum     float64 // the sum over its sets, of which some overlap: PerH or more
	Sets    []Cut   // the likeliest first, then those without a rate
	Verdict Verdict
	Latents []Latent // of a catastrophic loss: 25.1309(b)(5)
	ByBook  *ByBook  // with the crew; nil where no single failure is cleared by them, or none was looked for
}

// Cut is a smallest set that brings a loss about, in some of the phases.
type Cut struct {
	Set    sweep.Set
	Phases []int     // in which its last failure may come
	PerH   float64   // how likely, per hour of flight; NaN where a rate is not given
	Crewed *Crewed   // nil: not flown again
	in     []float64 // how likely on one flight, by phase of Phases
}

// Rated says that every member has a rate.
func (c Cut) Rated() bool { return !math.IsNaN(c.PerH) }

// OnFlight is how likely it is on one flight that the last member of a rated set
// fails in the i-th of its phases.
func (c Cut) OnFlight(i int) float64 { return c.in[i] }

// Of assesses what was swept.
func Of(s Swept) *Assessment {
	a := &Assessment{Swept: s, Parts: partsOf(s.Build, s.Failures, evident(len(s.Failures), s.Sheets))}
	all := losses(s.Build)
	cuts := a.smallest(all)
	x := newExposure(s.Hours, a.Parts)
	for i, l := range all {
		a.Losses = append(a.Losses, a.loss(x, l, cuts[i]))
	}
	rank := func(l Loss) (place, verdict int) {
		return slices.IndexFunc(Objectives, func(o Objective) bool { return o.Class == l.Class }), slices.Index(Verdicts, l.Verdict)
	}
	slices.SortStableFunc(a.Losses, func(p, q Loss) int {
		pClass, pVerdict := rank(p)
		qClass, qVerdict := rank(q)
		return cmp.Or(cmp.Compare(pClass, qClass), cmp.Compare(pVerdict, qVerdict), -cmp.Compare(p.PerH, q.PerH))
	})
	return a
}

// smallest finds the smallest sets of each loss, with their phases.
func (a *Assessment) smallest(all []loss) [][]Cut {
	cuts, place := make([][]Cut, len(all)), make([]map[uint64]int, len(all))
	for i := range place {
		place[i] = map[uint64]int{}
	}
	for phase, sheet := range a.Sheets {
		newFinder(sheet, all).each(func(l int, s sweep.Set) {
			at, had := place[l][s.Key()]
			if !had {
				at = len(cuts[l])
				place[l][s.Key()], cuts[l] = at, append(cuts[l], Cut{Set: s})
			}
			cuts[l][at].Phases = append(cuts[l][at].Phases, phase)
		})
	}
	return cuts
}

func (a *Assessment) loss(x *exposure, l loss, cuts []Cut) Loss {
	f := a.Build.Functions[l.function]
	severity := f.Severity
	if l.hidden {
		severity = f.SeverityIfHidden
	}
	all := Loss{Function: f, Hidden: l.hidden, Sets: cuts}
	all.Objective, _ = ObjectiveOf(severity)
	for i := range cuts {
		a.rate(x, &cuts[i])
	}
	all.PerH, all.Sum = a.likely(x, cuts)
	slices.SortStableFunc(cuts, func(p, q Cut) int {
		return cmp.Or(-cmp.Compare(p.PerH, q.PerH), cmp.Compare(len(p.Set), len(q.Set)), cmp.Compare(p.Set.Key(), q.Set.Key())) // NaN is last
	})
	if all.Alone {
		all.Latents = a.latents(x, cuts)
	}
	all.Verdict = all.judge(all.PerH, len(all.Singles()) > 0, a.whole(all))
	return all
}

// whole says that every phase was swept with three failures together, that every
// set has its rates, and that no run of one broke off.
func (a *Assessment) whole(l Loss) bool {
	return a.Order == 3 && len(a.Sheets) == len(a.Phases) &&
		!slices.ContainsFunc(l.Sets, func(c Cut) bool { return !c.Rated() }) &&
		!slices.ContainsFunc(a.Sheets, func(h *sweep.Sheet) bool { return len(h.Broken) > 0 })
}

// Singles are the sets of one failure.
func (l Loss) Singles() (list []Cut) {
	for _, c := range l.Sets {
		if len(c.Set) == 1 {
			list = append(list, c)
		}
	}
	return list
}

func (a *Assessment) rate(x *exposure, c *Cut) {
	for _, part := range c.Set {
		if a.Parts[part].Rate == 0 {
			c.PerH = math.NaN()
			return
		}
	}
	for _, phase := range c.Phases {
		p := x.arises(c.Set, phase)
		c.in = append(c.in, p)
		c.PerH += p
	}
	c.PerH /= a.per(c.Phases)
}

// per is the hours by which what happens on a flight is divided: the flight; or
// one, if that is less and the phases in which it can happen are less than half
// of the flight.
func (a *Assessment) per(phases []int) float64 {
	if a.Brief(phases) {
		return math.Min(a.Hours.Hours, 1)
	}
	return a.Hours.Hours
}

// Brief says that phases together are less than half of the flight.
func (a *Assessment) Brief(phases []int) bool {
	sum := 0.0
	for _, p := range phases {
		sum += a.Hours.Phases[p].hours()
	}
	return 2*sum < a.Hours.Hours
}

// likely is how likely a loss is per hour of flight, and the sum over its sets.
// The first is less where many sets have a member in common: no failure can be
// the last more often than it comes.
func (a *Assessment) likely(x *exposure, cuts []Cut) (perH, sum float64) {
	phases := make([]crowd, len(a.Sheets))
	for _, c := range cuts {
		if !c.Rated() {
			continue
		}
		sum += c.PerH
		for i, phase := range c.Phases {
			phases[phase].add(x, c, phase, c.in[i]/a.per(c.Phases), 1/a.per(c.Phases))
		}
	}
	for phase := range phases {
		perH += phases[phase].most(x, phase)
	}
	return perH, sum
}

// crowd is the sets of a loss in one phase.
type crowd struct {
	sum   float64         // of their probabilities
	per   float64         // the most of what these are multiplied by
	spare map[int]float64 // member -> the logarithm of how likely it is that no set waits for it alone
	order []int           // the members as they came
}

func (k *crowd) add(x *exposure, c Cut, phase int, p, per float64) {
	k.sum, k.per = k.sum+p, math.Max(k.per, per)
	if k.spare == nil {
		k.spare = map[int]float64{}
	}
	for i, last := range c.Set {
		if _, had := k.spare[last]; !had {
			k.order = append(k.order, last)
		}
		k.spare[last] += math.Log1p(-x.around(slices.Delete(slices.Clone(c.Set), i, i+1), phase))
	}
}

// most is the least of two bounds: the sum of the sets; and over the member that
// fails last, how likely that is, times how likely it is that some set waits for
// it alone. Sets are true together more often than not, so the product over them
// of not waiting is at most the chance that none waits.
func (k *crowd) most(x *exposure, phase int) float64 {
	sum := 0.0
	for _, last := range k.order {
		sum += x.arises([]int{last}, phase) * -math.Expm1(k.spare[last])
	}
	return math.Min(k.sum, sum*k.per)
}
