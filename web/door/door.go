// Package door turns requests away that a server has no room for, with a
// sentence that says so, and lets the others work a few at a time. It also
// keeps a handler's slip, or an address that is none, from being answered with
// nothing.
//
// Invariant: never more than AtWork works are done at one time and never more
// than Waiting wait; whoever is turned away learns it at once, or after
// Patience at the latest, and a work is told to end when Limit is over. So
// every request is answered within Patience + Limit.
//
// Start reading at Door.Do; Place is for works that go on after their request.
package door

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// Setting of a door.
type Setting struct {
	AtWork   int           // works done at one time; at least 1
	Waiting  int           // works that wait for their turn
	Patience time.Duration // how long Do lets one wait; 0: as long as its context
	Limit    time.Duration // how long a work of Do may take; 0: as long as its context
}

// Door lets works in. It may be used from many goroutines.
type Door struct {
	set    Setting
	inside chan struct{} // at work or waiting
	turn   chan struct{} // at work
}

// New returns a door with nobody inside.
func New(set Setting) *Door {
	set.AtWork = max(set.AtWork, 1)
	return &Door{set: set, inside: make(chan struct{}, set.AtWork+max(set.Waiting, 0)), turn: make(chan struct{}, set.AtWork)}
}

// Refusal says why a work was not done though nothing is wrong with it, and
// after how long it makes sense to ask again.
type Refusal struct {
	Text  string
	After time.Duration
}

func (r *Refusal) Error() string { return r.Text }

// again is after how long to ask again where nothing better is known.
const again = 10 * time.Second

// Place is a work's place behind the door: first in the queue, then at work.
type Place struct {
	d      *Door
	atWork bool
}

// Enter takes a place in the queue. The error is a *Refusal where there is none
// left.
func (d *Door) Enter() (*Place, error) {
	select {
	case d.inside <- struct{}{}:
		return &Place{d: d}, nil
	default:
		return nil, d.full()
	}
}

// Turn waits until it is this place's turn to work. The error is the context's.
func (p *Place) Turn(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	select {
	case p.d.turn <- struct{}{}:
		p.atWork = true
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// Leave gives the place back, once. It must be called whether or not the turn
// came.
func (p *Place) Leave() {
	if p.atWork {
		<-p.d.turn
	}
	<-p.d.inside
}

// Do waits for a turn and works. The error is a *Refusal where there is no room
// or the turn did not come; a *Slow where the work ended because its time was
// over; the context's where whoever asked has left; or the work's own.
func (d *Door) Do(ctx context.Context, work func(context.Context) error) error {
	p, err := d.Enter()
	if err != nil {
		return err
	}
	defer p.Leave()
	if err := p.patiently(ctx); err != nil {
		return err
	}
	limited, done := within(ctx, d.set.Limit)
	defer done()
	err = work(limited)
	if err != nil && ctx.Err() == nil && errors.Is(limited.Err(), context.DeadlineExceeded) {
		return &Slow{d.set.Limit}
	}
	return err
}

// patiently waits for the turn, but not for ever.
func (p *Place) patiently(ctx context.Context) error {
	patient, done := within(ctx, p.d.set.Patience)
	defer done()
	err := p.Turn(patient)
	if err != nil && ctx.Err() == nil {
		return &Refusal{fmt.Sprintf("The server has much to work out just now, and this question did not come to its turn within %s. Nothing is wrong with the question: ask again in a while.", seconds(p.d.set.Patience)), again}
	}
	return err
}

func within(ctx context.Context, limit time.Duration) (context.Context, context.CancelFunc) {
	if limit <= 0 {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, limit)
}

// full is the refusal of one who finds no place.
func (d *Door) full() *Refusal {
	return &Refusal{fmt.Sprintf("The server works out %s at one time and lets %d wait, and all of these places are taken. Nothing is wrong with the question: ask again in a while.", questions(d.set.AtWork), cap(d.inside)-d.set.AtWork), again}
}

func questions(n int) string {
	if n == 1 {
		return "one such question"
	}
	return fmt.Sprintf("%d such questions", n)
}

func seconds(d time.Duration) string {
	if d < 2*time.Second {
		return d.String()
	}
	return fmt.Sprintf("%.0f seconds", d.Seconds())
}

// Slow says that a work was given up because its time was over.
type Slow struct{ Limit time.Duration }

func (s *Slow) Error() string {
	return fmt.Sprintf("This was not worked out in the %s that one page may take, and was given up.", seconds(s.Limit))
}

// Status is the reply to an error of a door: what to answer, and after how many
// seconds to ask again (0: nothing is known of that). ok is false for any other
// error.
func Status(err error) (text string, after int, ok bool) {
	var full *Refusal
	var slow *Slow
	switch {
	case errors.As(err, &full):
		return full.Text, int(full.After.Seconds()), true
	case errors.As(err, &slow):
		return slow.Error(), 0, true
	case errors.Is(err, context.Canceled):
		return "The question was taken back.", 0, true
	}
	return "", 0, false
}
