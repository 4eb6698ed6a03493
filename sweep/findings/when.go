package findings

import (
	"cmp"

	"knockon/sweep"
)

// Turning is a failure whose outcome depends on the phase in which it strikes.
type Turning struct {
	Failure     int
	Worst, Best int          // phases; indices into Sheets
	Spread      float64      // score in the worst less score in the best
	Only        []sweep.Lost // of the worst: functions that are not lost in the best, or told better there
}

// PhaseMatters ranks single failures by the spread of their score over the
// phases. Of equal phases the first is meant.
func (s *Swept) PhaseMatters(most int) []Turning {
	var list []Turning
	for n := range s.Failures {
		set := sweep.Set{n}
		chapters := s.chapters(set)
		t := Turning{Failure: n}
		var high, low float64
		for p, sheet := range s.Sheets {
			score := s.Score(sheet.Outcome(set), chapters)
			if p == 0 || score > high {
				high, t.Worst = score, p
			}
			if p == 0 || score < low {
				low, t.Best = score, p
			}
		}
		if t.Spread = high - low; t.Spread > 0 {
			t.Only = s.heavier(s.Sheets[t.Worst].Outcome(set), s.Sheets[t.Best].Outcome(set), chapters)
			list = append(list, t)
		}
	}
	return first(list, most, func(a, b Turning) int { return -cmp.Compare(a.Spread, b.Spread) })
}

// heavier lists the losses of a that weigh more than in b.
func (s *Swept) heavier(a, b sweep.Outcome, chapters []int) (list []sweep.Lost) {
	for _, l := range a.Lost {
		had, _ := b.Loss(l.Function)
		if s.Weight(l, chapters) > s.Weight(had, chapters) {
			list = append(list, l)
		}
	}
	return list
}

// Differing is a failure whose outcome depends on the build.
type Differing struct {
	Failure     string // as written in a book
	Phase       string
	Worst, Best int // builds; indices into the list given
	Spread      float64
	Only        []string // functions that are not lost on the best build, or told better there
}

// BuildMatters ranks single failures by the spread of their score over builds
// that have the failure, in the phase in which it is largest.
func BuildMatters(builds []*Swept, most int) []Differing {
	var list []Differing
	if len(builds) < 2 {
		return nil
	}
	c := newComparison(builds)
	for _, name := range c.names {
		if d, ok := c.differing(name); ok {
			list = append(list, d)
		}
	}
	return first(list, most, func(a, b Differing) int { return -cmp.Compare(a.Spread, b.Spread) })
}

// comparison finds failures by their names on several builds.
type comparison struct {
	builds []*Swept
	names  []string         // of all builds, each once, in order
	number []map[string]int // by build: name -> failure
}

func newComparison(builds []*Swept) *comparison {
	c := &comparison{builds: builds}
	seen := map[string]bool{}
	for _, s := range builds {
		number := map[string]int{}
		for n, f := range s.Failures {
			id := f.String()
			number[id] = n
			if !seen[id] {
				seen[id] = true
				c.names = append(c.names, id)
			}
		}
		c.number = append(c.number, number)
	}
	return c
}

func (c *comparison) differing(name string) (d Differing, found bool) {
	for _, sheet := range c.builds[0].Sheets {
		worst, best := -1, -1
		var high, low float64
		for i := range c.builds {
			score, ok := c.score(i, name, sheet.Phase.ID)
			if !ok {
				continue
			}
			if worst < 0 || score > high {
				high, worst = score, i
			}
			if best < 0 || score < low {
				low, best = score, i
			}
		}
		if high-low > d.Spread {
			d, found = Differing{Failure: name, Phase: sheet.Phase.ID, Worst: worst, Best: best, Spread: high - low}, true
		}
	}
	if found {
		d.Only = c.onlyOn(d)
	}
	return d, found
}

// outcome finds what a failure does in a phase on a build.
func (c *comparison) outcome(build int, name, phase string) (o sweep.Outcome, chapters []int, ok bool) {
	s := c.builds[build]
	n, ok := c.number[build][name]
	if !ok {
		return o, nil, false
	}
	for _, sheet := range s.Sheets {
		if sheet.Phase.ID == phase {
			return sheet.Outcome(sweep.Set{n}), s.chapters(sweep.Set{n}), true
		}
	}
	return o, nil, false
}

func (c *comparison) score(build int, name, phase string) (score float64, ok bool) {
	o, chapters, ok := c.outcome(build, name, phase)
	return c.builds[build].Score(o, chapters), ok
}

// onlyOn lists the functions that weigh more on the worst build than on the best.
func (c *comparison) onlyOn(d Differing) (ids []string) {
	worst, best := c.builds[d.Worst], c.builds[d.Best]
	a, chapters, _ := c.outcome(d.Worst, d.Failure, d.Phase)
	b, others, _ := c.outcome(d.Best, d.Failure, d.Phase)
	there := map[string]float64{}
	for _, l := range b.Lost {
		there[best.Build.Functions[l.Function].ID] = best.Weight(l, others)
	}
	for _, l := range a.Lost {
		if id := worst.Build.Functions[l.Function].ID; worst.Weight(l, chapters) > there[id] {
			ids = append(ids, id)
		}
	}
	return ids
}
