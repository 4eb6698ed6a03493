package costs

import (
	"context"
	"fmt"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// Of a way to an airfield no more is read than what the flight feels, what a landing
// needs, the grave functions and why they are lost. Most of a book has no part in
// that, so ways are flown on a course without it.

// pair is the flight held at the turn, with the failures and without.
type pair struct{ here, there *run.Held }

// hold flies up to the turn, with the failures and then along that way without.
func (q Question) hold(ctx context.Context, c *run.Course) (p *pair, err error) {
	p = &pair{}
	if q.Hand == nil {
		p.here, err = c.Hold(ctx, q.Scenario, q.At)
	} else {
		p.here, err = c.HoldWith(ctx, q.Scenario, q.At, q.hand(c))
	}
	if err != nil || !p.here.Path().InAir(q.At) {
		return p, err
	}
	p.there, err = c.HoldBeside(ctx, p.here, q.Scenario.Healthy())
	return p, err
}

// narrowed is what a course without the rest is kept by: what those who act see.
type narrowed struct{ sees string }

// narrow is the course that ways are flown on.
func (q Question) narrow(c *run.Course) *run.Course {
	unknown := q.Hand != nil && q.Sees == nil
	if unknown || q.entirely || q.Scenario.Waits() || !c.Feels() {
		return c
	}
	return c.Once(narrowed{fmt.Sprint(q.Sees)}, func() any {
		k := c.Circuit()
		return c.Narrowed(k.Behind(append(read(c.Build, k), q.Sees...)...))
	}).(*run.Course)
}

// read lists what is read of a way, with all that could break it off.
func read(b *book.Build, k *circuit.Circuit) []circuit.Node {
	list := k.Restless()
	add := func(id string, a circuit.Aspect) {
		if n, ok := k.Node(circuit.Value{Item: id, Aspect: a}); ok {
			list = append(list, n)
		}
	}
	add(b.Aircraft.ID, circuit.Flyable)
	for _, e := range b.Effects {
		add(e.ID, circuit.Main)
	}
	for _, f := range b.Functions {
		if grave(f) {
			add(f.ID, circuit.Main)
			add(f.ID, circuit.Wanted)
		}
	}
	if b.Performance != nil {
		for _, f := range b.Performance.Factors {
			add(book.FactorID(f.ID), circuit.Main)
		}
	}
	return list
}
