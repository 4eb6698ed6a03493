package assess

import (
	"cmp"
	"math"
	"slices"

	"knockon/sweep"
)

// Limits of 14 CFR 25.1309(b)(5), with the numbers of AC 25.1309-1B: of a
// catastrophic loss by two failures of which either is latent.
const (
	MostResidual = 1e-5       // per hour of flight, once the latent one has come
	MostLatent   = 1.0 / 1000 // the latent ones that wait for one other, together
)

// Latent is one failure of such sets, with all that goes with it.
type Latent struct {
	Part     int
	With     []int   // the other members, as numbers of failures, the likeliest first
	Residual float64 // if Part is latent: how likely the others are per hour of flight, once it has come
	Waiting  float64 // if Part is evident: the sum over the latent others of the rate times the interval
	Unrated  bool    // some member has no rate, and is not in these
}

// latents looks at the sets of two with a latent member.
func (a *Assessment) latents(x *exposure, cuts []Cut) (list []Latent) {
	of := map[int]*Latent{}
	var order []int
	for _, c := range cuts {
		if len(c.Set) != 2 || !a.hasLatent(c.Set) {
			continue
		}
		for i, n := range c.Set {
			if of[n] == nil {
				of[n], order = &Latent{Part: n}, append(order, n)
			}
			a.pair(x, of[n], c, c.Set[1-i])
		}
	}
	slices.Sort(order)
	for _, n := range order {
		slices.SortStableFunc(of[n].With, func(p, q int) int { return -cmp.Compare(a.Parts[p].Rate, a.Parts[q].Rate) })
		list = append(list, *of[n])
	}
	return list
}

func (a *Assessment) hasLatent(set sweep.Set) bool {
	return slices.ContainsFunc(set, func(n int) bool { return a.Parts[n].Latent })
}

// crewLatents looks at the pairs of a catastrophic loss that take it with the crew:
// those of a failure that the crew clear alone, and of the smallest hands off those
// that the crew do not clear.
func (a *Assessment) crewLatents(x *exposure, l *Loss) {
	if l.ByBook == nil || !l.Alone {
		return
	}
	pairs := slices.Clone(l.ByBook.Pairs)
	for _, c := range l.Sets {
		if len(c.Set) == 2 && c.counts(l) {
			pairs = append(pairs, c)
		}
	}
	l.ByBook.Latents = a.latents(x, pairs)
}

// pair adds to a failure the other one of a set.
func (a *Assessment) pair(x *exposure, l *Latent, c Cut, other int) {
	l.With = append(l.With, other)
	l.Unrated = l.Unrated || a.Parts[other].Rate == 0
	if a.Parts[l.Part].Latent {
		p := 0.0
		for _, phase := range c.Phases {
			p += -math.Expm1(-a.Parts[other].Rate * a.Hours.Phases[phase].hours())
		}
		l.Residual += p / a.per(c.Phases)
	}
	if !a.Parts[l.Part].Latent {
		l.Waiting += a.Parts[other].Rate * x.every[other]
	}
}

// Over says which of the two limits it is over.
func (l Latent) Over() (residual, waiting bool) {
	return l.Residual > MostResidual*(1+1e-9), l.Waiting > MostLatent*(1+1e-9)
}
