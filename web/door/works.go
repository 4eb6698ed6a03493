package door

import (
	"context"
	"errors"
	"sync"
	"time"
)

// Works are works behind a door that go on after their request.
type Works struct {
	*Door
	ctx   context.Context
	end   context.CancelFunc
	group sync.WaitGroup
}

// NewWorks returns a door with no work behind it.
func NewWorks(set Setting) *Works {
	w := &Works{Door: New(set)}
	w.ctx, w.end = context.WithCancel(context.Background())
	return w
}

// Close ends the works under way and waits for them.
func (w *Works) Close() {
	w.end()
	w.group.Wait()
}

// Closed says that nobody will look at what comes yet.
func (w *Works) Closed() bool { return w.ctx.Err() != nil }

// Work is one of them.
type Work struct {
	Began  time.Time
	cancel context.CancelFunc
	ended  chan struct{}
	err    error
}

// Begin lets a work begin when the turn of its place comes, and gives the place
// back behind it. A limit of 0 is none. failed is told of an error that neither
// Stop, Close nor the limit brought.
func (w *Works) Begin(p *Place, limit time.Duration, work func(context.Context) error, failed func(error)) *Work {
	ctx, cancel := within(w.ctx, limit)
	one := &Work{Began: time.Now(), cancel: cancel, ended: make(chan struct{})}
	w.group.Go(func() {
		defer close(one.ended)
		defer cancel()
		defer p.Leave()
		if one.err = p.Turn(ctx); one.err == nil {
			one.err = caught(ctx, work)
		}
		if one.err != nil && ctx.Err() == nil {
			failed(one.err)
		}
	})
	return one
}

func caught(ctx context.Context, work func(context.Context) error) (err error) {
	defer Slip(&err)
	return work(ctx)
}

// Stop ends a work.
func (w *Work) Stop() { w.cancel() }

// Wait waits until a work is over, but not long, and says whether it is.
func (w *Work) Wait(ctx context.Context, most time.Duration) bool {
	select {
	case <-w.ended:
		return true
	case <-ctx.Done():
	case <-time.After(most):
	}
	return w.Over()
}

// Over says that a work neither works nor waits.
func (w *Work) Over() bool {
	select {
	case <-w.ended:
		return true
	default:
		return false
	}
}

// errUnderWay is how a work ended that has not.
var errUnderWay = errors.New("under way")

// Err is how a work ended: nil if it was done.
func (w *Work) Err() error {
	if !w.Over() {
		return errUnderWay
	}
	return w.err
}
