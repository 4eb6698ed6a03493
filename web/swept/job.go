package swept

import (
	"context"
	"errors"
	"sync"
	"time"

	"knockon/book"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// jobs are the sweeps of a site: one works at a time, the others wait.
type jobs struct {
	ctx   context.Context
	end   context.CancelFunc
	turn  chan struct{}
	group sync.WaitGroup

	mu    sync.Mutex
	all   map[jobKey]*job
	order []jobKey // the oldest first
}

type jobKey struct {
	build, flight string
	order         int
}

// mostJobs is how many sweeps are kept. Those of three failures take most of a
// gigabyte.
const mostJobs = 6

func newJobs() *jobs {
	ctx, end := context.WithCancel(context.Background())
	return &jobs{ctx: ctx, end: end, turn: make(chan struct{}, 1), all: map[jobKey]*job{}}
}

func (j *jobs) close() {
	j.end()
	j.group.Wait()
}

// job is one sweep, under way, stopped or done.
type job struct {
	build  *book.Build
	flight *book.Flight

	mu      sync.Mutex
	cancel  context.CancelFunc
	ended   chan struct{} // closed when it no longer works
	began   time.Time
	sets    int64 // done
	of      int64 // of so many
	stopped bool
	err     error
	done    bool
	phases  []sweep.Phase // all
	swept   findings.Swept
}

// state is a job at one moment.
type state struct {
	findings.Swept
	Flight    *book.Flight
	Phases    []sweep.Phase
	Sets, All int64
	Took      time.Duration
	Done      bool
	Stopped   bool
	Err       error
}

func (j *job) state() state {
	j.mu.Lock()
	defer j.mu.Unlock()
	s := state{Flight: j.flight, Phases: j.phases, Sets: j.sets, All: j.of, Took: time.Since(j.began), Done: j.done, Stopped: j.stopped, Err: j.err}
	s.Swept = j.swept
	s.Sheets = j.swept.Sheets[:len(j.swept.Sheets):len(j.swept.Sheets)]
	return s
}

// find gives the job of a key, and begins it if there is none.
func (j *jobs) find(key jobKey, b *book.Build, f *book.Flight) *job {
	j.mu.Lock()
	defer j.mu.Unlock()
	if had, ok := j.all[key]; ok {
		return had
	}
	if len(j.order) >= mostJobs {
		oldest := j.order[0]
		j.all[oldest].stop()
		delete(j.all, oldest)
		j.order = j.order[1:]
	}
	one := &job{build: b, flight: f}
	one.swept.Build = b
	j.all[key], j.order = one, append(j.order, key)
	j.start(one, key.order)
	return one
}

// start lets a job begin, or go on with the phases that are missing.
func (j *jobs) start(one *job, order int) {
	ctx, cancel := context.WithCancel(j.ctx)
	ended := make(chan struct{})
	one.mu.Lock()
	one.cancel, one.ended = cancel, ended
	one.began, one.stopped, one.err, one.sets, one.of = time.Now(), false, nil, 0, 0
	one.mu.Unlock()
	j.group.Add(1)
	go func() {
		defer j.group.Done()
		defer close(ended)
		defer cancel()
		select {
		case j.turn <- struct{}{}:
		case <-ctx.Done():
			one.end(ctx.Err())
			return
		}
		defer func() { <-j.turn }()
		one.end(one.work(ctx, order))
	}()
}

// goOn takes a stopped job up again.
func (j *jobs) goOn(one *job, order int) {
	j.mu.Lock()
	defer j.mu.Unlock()
	one.mu.Lock()
	idle := one.stopped
	one.mu.Unlock()
	if idle {
		<-one.over()
		j.start(one, order)
	}
}

func (j *job) stop() {
	j.mu.Lock()
	cancel := j.cancel
	j.mu.Unlock()
	cancel()
}

// over is closed once the job no longer works.
func (j *job) over() <-chan struct{} {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.ended
}

func (j *job) end(err error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	switch {
	case err == nil:
		j.done = true
	case errors.Is(err, context.Canceled):
		j.stopped = true
	default:
		j.err = err
	}
}

func (j *job) work(ctx context.Context, order int) error {
	s, err := sweep.Of(ctx, j.build, j.flight, sweep.Setting{})
	if err != nil {
		return err
	}
	var missing []int
	j.mu.Lock()
	j.phases, j.swept.Failures = s.Phases(), s.Failures()
	for i := len(j.swept.Sheets); i < len(j.phases); i++ {
		missing = append(missing, i)
	}
	j.mu.Unlock()
	return s.RunAll(ctx, missing, order, j.progress, func(_ int, sheet *sweep.Sheet) error {
		j.mu.Lock()
		defer j.mu.Unlock()
		j.swept.Sheets = append(j.swept.Sheets, sheet)
		return nil
	})
}

func (j *job) progress(done, all int64) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.sets, j.of = max(j.sets, done), all
}

// wait waits until a job has ended, but not long.
func (j *job) wait(ctx context.Context, most time.Duration) {
	select {
	case <-j.over():
	case <-ctx.Done():
	case <-time.After(most):
	}
}
