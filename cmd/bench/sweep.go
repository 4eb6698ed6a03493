package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"knockon/ask"
	"knockon/scenario"
	"knockon/sweep"
)

var triples = flag.Bool("triples", false, "also sweep every three failures together, in every phase of one build (minutes)")

// sweeps prints the second table: what a sweep costs, and how that compares
// with one run at a time and with a general-purpose expression engine.
func sweeps(desk *ask.Desk) error {
	fmt.Printf("\n| sweep of the demonstration book | goal | measured |\n| --- | --- | --- |\n")
	first, err := sweepOf(desk, desk.Book.Variants[0].ID, 0)
	if err != nil {
		return err
	}
	if err := whole(desk); err != nil {
		return err
	}
	if *triples {
		if err := allOf(first, 3, "all singles, pairs and triples in all phases, one build", time.Minute); err != nil {
			return err
		}
	}
	return ratios(desk)
}

func sweepOf(desk *ask.Desk, build string, workers int) (*sweep.Sweep, error) {
	course, err := desk.Course(build, "")
	if err != nil {
		return nil, err
	}
	return sweep.On(context.Background(), course, sweep.Setting{Workers: workers})
}

// whole sweeps singles and pairs on one build and on all.
func whole(desk *ask.Desk) error {
	var costs []time.Duration
	for range 3 {
		sum := time.Duration(0)
		for i, v := range desk.Book.Variants {
			s, err := sweepOf(desk, v.ID, 0)
			if err != nil {
				return err
			}
			cost := timed(func() { _, err = phases(s, 2) })
			if err != nil {
				return err
			}
			if sum += cost; i == 0 {
				costs = append(costs, cost)
			}
		}
		costs = append(costs, sum)
	}
	var one, all []time.Duration
	for i, c := range costs {
		if i%2 == 0 {
			one = append(one, c)
		} else {
			all = append(all, c)
		}
	}
	fmt.Printf("| all singles and pairs in all phases, one build | 500ms | %s |\n", round(middle(one)))
	fmt.Printf("| the same on all builds | 2s | %s |\n", round(middle(all)))
	return nil
}

func middle(list []time.Duration) time.Duration {
	slices.Sort(list)
	return list[len(list)/2]
}

// phases sweeps every phase, and counts the sets that come to more than their parts.
func phases(s *sweep.Sweep, order int) (met int, err error) {
	var all []int
	for i := range s.Phases() {
		all = append(all, i)
	}
	err = s.RunAll(context.Background(), all, order, nil, func(_ int, sheet *sweep.Sheet) error {
		met += len(sheet.Sets)
		return nil
	})
	return met, err
}

// sets is how many sets of up to order failures there are in all phases.
func sets(s *sweep.Sweep, order int) float64 {
	n, sum, k := float64(len(s.Failures())), 0.0, 1.0
	for i := range order {
		k *= (n - float64(i)) / float64(i+1)
		sum += k
	}
	return sum * float64(len(s.Phases()))
}

func allOf(s *sweep.Sweep, order int, what string, goal time.Duration) (err error) {
	met := 0
	cost := timed(func() { met, err = phases(s, order) })
	fmt.Printf("| %s (%.0f sets, %d of them more than their parts) | %s | %s |\n", what, sets(s, order), met, goal, cost.Round(time.Millisecond))
	return err
}

// ratios compares rates on one processor, in this one run.
func ratios(desk *ask.Desk) error {
	s, err := sweepOf(desk, desk.Book.Variants[0].ID, 1)
	if err != nil {
		return err
	}
	cost := timed(func() { _, err = phases(s, 2) })
	if err != nil {
		return err
	}
	swept := sets(s, 2) / cost.Seconds()
	worked, err := workedRate(s)
	if err != nil {
		return err
	}
	plain, err := plainRate(s)
	if err != nil {
		return err
	}
	engine, err := engineRate(desk, s)
	if err != nil {
		return err
	}
	fmt.Printf("| sets a second on one processor, singles and pairs | | %.0f |\n", swept)
	fmt.Printf("| the same if every pair is worked out, whether its members meet or not | | %.0f |\n", worked)
	fmt.Printf("| one run and its ledger at a time: %.1f a second; the sweep is so many times faster | 60 | %.0f |\n", plain, swept/plain)
	fmt.Printf("| a general expression engine, a program for each item: %.1f a second; the sweep is so many times faster | 15000 | %.0f |\n", engine, swept/engine)
	fmt.Printf("\nMost of the last two lines is that a sweep works out many sets to a machine word, and only those whose members meet (docs/meaning.md 10).\n")
	return nil
}

// workedRate is how many pairs a second come out if none is left out.
func workedRate(s *sweep.Sweep) (float64, error) {
	var pairs []sweep.Set
	for a := range s.Failures() {
		for b := a + 1; b < len(s.Failures()); b++ {
			pairs = append(pairs, sweep.Set{a, b})
		}
	}
	var err error
	middle := s.Phases()[len(s.Phases())/2].At
	cost := timed(func() { _, err = s.Outcomes(context.Background(), middle, pairs) })
	return float64(len(pairs)) / cost.Seconds(), err
}

// sample is some pairs, each in some phase, the same ones every time.
func sample(s *sweep.Sweep, n int, do func(phase int, set sweep.Set) error) error {
	chance := rand.New(rand.NewPCG(1, 2))
	for range n {
		set := sweep.Set{chance.IntN(len(s.Failures())), chance.IntN(len(s.Failures()))}
		slices.Sort(set)
		if err := do(chance.IntN(len(s.Phases())), slices.Compact(set)); err != nil {
			return err
		}
	}
	return nil
}

// plainRate is how many sets a second come out one run at a time.
func plainRate(s *sweep.Sweep) (float64, error) {
	const n = 100
	var err error
	cost := timed(func() {
		err = sample(s, n, func(phase int, set sweep.Set) error {
			_, err := s.Plain(context.Background(), phase, set)
			return err
		})
	})
	return n / cost.Seconds(), err
}

// engineRate is how many sets a second the expression engine works out.
func engineRate(desk *ask.Desk, s *sweep.Sweep) (float64, error) {
	course, err := desk.Course(s.Build().Variant, "")
	if err != nil {
		return 0, err
	}
	r, err := newRival(course.Circuit())
	if err != nil {
		return 0, err
	}
	const n = 20
	cost := time.Duration(0)
	err = sample(s, n, func(phase int, set sweep.Set) error {
		k := scenario.Strike{At: s.Phases()[phase].Moment.String()}
		for _, f := range set {
			k.What = append(k.What, s.Failures()[f].String())
		}
		q := scenario.Once(k)
		q.Crew = scenario.Nobody
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			return err
		}
		stills, wrong := r.stills(a.Here), 0
		cost += timed(func() { wrong, err = r.fly(stills) })
		if wrong > 0 {
			return fmt.Errorf("the expression engine differs in %d values", wrong)
		}
		return err
	})
	return n / cost.Seconds(), err
}
