// Package vary turns an answer into the points that need other runs: what its losses
// owe to what the crew do, to a guard that is dead with the rest, to what is inoperative,
// to the build and to the phase, and what saves the gravest of which nobody knows
// (docs/meaning.md, section 6b).
//
// Invariant: each line is true of the answer and of the usual answer to the question that
// it names; where that has none in the time there is, the line says so and claims nothing.
//
// Start reading at Of; the questions are in others.go, what differs in compare.go, the
// words in say.go, the rescue in saves.go, the strip of all phases in phases.go.
package vary

import (
	"context"
	"sync"

	"knockon/ask"
	"knockon/ledger"
)

// Axes along which an answer is varied, in their order.
const (
	Conduct  = "conduct"
	Pace     = "pace"
	Guard    = "guard"
	Set      = "set"
	Deferral = "deferral"
	Build    = "build"
	Phase    = "phase"
)

// Axes lists those on which an answer can be varied: each has one line.
func Axes(a *ask.Answer) (list []string) {
	has := map[string]bool{}
	for _, o := range others(a) {
		has[o.Axis] = true
	}
	has[Set] = parts(a) > 1
	for _, x := range []string{Conduct, Pace, Guard, Set, Deferral, Build, Phase} {
		if has[x] {
			list = append(list, x)
		}
	}
	return list
}

// other is a question beside that of the answer, and what came of it.
type other struct {
	Axis     string
	Less     string       // what of all that is broken is left out, and nothing else is otherwise
	Change   string       // as package beside takes it
	Says     string       // what is otherwise: "Hands off"
	Question ask.Question // the whole of it

	got *ask.Answer // nil: there is none
	err error       // why
}

// Of flies what is to be flown beside an answer, on so many processors, and gives a line
// for each axis. What the context leaves no time for is not answered, and its line says so.
func Of(ctx context.Context, a *ask.Answer, workers int) []ledger.Varied {
	list := others(a)
	fly(ctx, a.Desk, list, workers)
	s := speaker{a}
	lines := []ledger.Varied{}
	for _, x := range Axes(a) {
		lines = append(lines, s.line(x, list))
	}
	return lines
}

// fly answers the questions in their order.
func fly(ctx context.Context, d *ask.Desk, list []*other, workers int) {
	next := make(chan *other)
	var wait sync.WaitGroup
	for range max(1, workers) {
		wait.Go(func() {
			for o := range next {
				if o.err = ctx.Err(); o.err == nil {
					o.got, o.err = d.Answer(ctx, o.Question)
				}
			}
		})
	}
	for _, o := range list {
		next <- o
	}
	close(next)
	wait.Wait()
}
