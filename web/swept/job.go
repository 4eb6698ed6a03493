package swept

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"knockon/ask"
	"knockon/assess"
	"knockon/book"
	"knockon/run"
	"knockon/sweep"
	"knockon/sweep/findings"
	"knockon/sweep/view"
	"knockon/web/door"
)

// jobs are the sweeps of a site: one works at a time, a few wait, and of those
// that are done the last are kept.
type jobs struct {
	*door.Works
	desk  *ask.Desk
	log   *slog.Logger
	mu    sync.Mutex
	all   map[jobKey]*job
	order []jobKey // the oldest first
}

type jobKey struct {
	build, flight string
	order         int
}

// Limits of the sweeps (docs/limits.md).
const (
	mostJobs    = 6 // kept; more than can work and wait, so that one of them rests
	mostWaiting = 3
	mostWorkers = 4 // each holds a phase in memory while it works
	heavy       = 3 // of so many failures together one sweep is kept
)

func newJobs(desk *ask.Desk, log *slog.Logger) *jobs {
	return &jobs{desk: desk, Works: door.NewWorks(door.Setting{AtWork: 1, Waiting: mostWaiting}), log: log, all: map[jobKey]*job{}}
}

// job is one sweep, under way, stopped or done.
type job struct {
	build  *book.Build
	flight *book.Flight
	key    jobKey

	mu     sync.Mutex
	run    *door.Work
	sets   int64         // done
	of     int64         // of so many
	phases []sweep.Phase // all
	swept  findings.Swept
	found  *view.Page  // of the sheets that there were when it last ended
	maps   []*view.Map // by phase
	spans  []run.PhaseSpan
	judged *assess.View
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
	Found     *view.Page
	Maps      []*view.Map
	Judged    *assess.View
}

func (j *job) state() state {
	j.mu.Lock()
	defer j.mu.Unlock()
	s := state{Flight: j.flight, Phases: j.phases, Sets: j.sets, All: j.of, Took: time.Since(j.run.Began), Found: j.found, Maps: j.maps, Judged: j.judged}
	switch err := j.run.Err(); {
	case !j.run.Over():
	case errors.Is(err, context.Canceled):
		s.Stopped = true
	default:
		s.Done, s.Err = err == nil, err
	}
	s.Swept = j.swept
	s.Sheets = j.swept.Sheets[:len(j.swept.Sheets):len(j.swept.Sheets)]
	return s
}

// look gives the job of a key; nil if it has not been begun.
func (j *jobs) look(key jobKey) *job {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.all[key]
}

// heavy gives the sweep of three together that is in memory; nil if there is none.
func (j *jobs) heavy() *job {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.heavyOne()
}

func (j *jobs) heavyOne() *job {
	for key, one := range j.all {
		if key.order == heavy {
			return one
		}
	}
	return nil
}

// begin begins a job, or takes it up again if it was stopped; one that works or
// is done is left alone. instead lets a sweep of three together that rests give
// way to this one. The error is a *door.Refusal where there is no room.
func (j *jobs) begin(key jobKey, b *book.Build, f *book.Flight, instead bool) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	one := j.all[key]
	if one != nil && (!one.rests() || one.work().Err() == nil) {
		return nil
	}
	place, err := j.Enter()
	if err != nil {
		return err
	}
	if one == nil {
		if err := j.room(key, instead); err != nil {
			place.Leave()
			return err
		}
		one = &job{build: b, flight: f, key: key}
		one.swept.Build = b
		j.all[key], j.order = one, append(j.order, key)
	}
	j.start(one, place)
	return nil
}

// room lets go of what is in the way of a new job, if that rests.
func (j *jobs) room(key jobKey, instead bool) error {
	if had := j.heavyOne(); key.order == heavy && had != nil {
		if !had.rests() || !instead {
			return &door.Refusal{Text: inMemory(had) + " " + whatNow(had), After: time.Minute}
		}
		j.letGo(slices.IndexFunc(j.order, func(k jobKey) bool { return k.order == heavy }))
		debug.FreeOSMemory() // before the next one fills it again
	}
	if i := slices.IndexFunc(j.order, func(k jobKey) bool { return j.all[k].rests() }); i >= 0 && len(j.order) >= mostJobs {
		j.letGo(i)
	}
	return nil
}

func (j *jobs) letGo(i int) {
	delete(j.all, j.order[i])
	j.order = slices.Delete(j.order, i, i+1)
}

// inMemory says which sweep of three together is there.
func inMemory(one *job) string {
	return fmt.Sprintf("Only one sweep of three failures together fits into the memory. There now: %s; %s.", one.build.VariantTitle(), one.flight.Title)
}

// whatNow says what can be done about it.
func whatNow(one *job) string {
	if one.rests() {
		return "It can be let go of for this one."
	}
	return "It is still at work: wait for its end, or stop it on its page."
}

// start lets a job work when its turn comes.
func (j *jobs) start(one *job, place *door.Place) {
	one.mu.Lock()
	defer one.mu.Unlock()
	one.sets, one.of = 0, 0
	one.run = j.Begin(place, 0, func(ctx context.Context) error {
		err := one.sweep(ctx)
		if !j.Closed() { // somebody will look
			err = errors.Join(err, one.view(), one.judge(ctx, j.desk))
		}
		return err
	}, func(err error) {
		j.log.Error("sweep", "build", one.key.build, "flight", one.key.flight, "order", one.key.order, "error", err)
	})
}

// work is the last run of a job.
func (j *job) work() *door.Work {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.run
}

// rests says that a job neither works nor waits.
func (j *job) rests() bool { return j.work().Over() }

func (j *job) sweep(ctx context.Context) error {
	s, err := sweep.Of(ctx, j.build, j.flight, sweep.Setting{Workers: min(runtime.NumCPU(), mostWorkers)})
	if err != nil {
		return err
	}
	var missing []int
	j.mu.Lock()
	j.phases, j.swept.Failures, j.spans = s.Phases(), s.Failures(), s.Spans()
	for i := len(j.swept.Sheets); i < len(j.phases); i++ {
		missing = append(missing, i)
	}
	j.mu.Unlock()
	return s.RunAll(ctx, missing, j.key.order, j.progress, func(_ int, sheet *sweep.Sheet) error {
		j.mu.Lock()
		defer j.mu.Unlock()
		j.swept.Sheets = append(j.swept.Sheets, sheet)
		return nil
	})
}

// view puts what was found into words, once for all who look at it.
func (j *job) view() error {
	s := j.state()
	if len(s.Sheets) == 0 {
		return nil
	}
	var missing []string
	for _, p := range s.Phases[len(s.Sheets):] {
		missing = append(missing, p.ID)
	}
	found := view.Of(&s.Swept, view.Asked{Flight: j.flight, Order: j.key.order, Most: mostRows, Missing: missing})
	var maps []*view.Map
	for phase := range s.Sheets {
		maps = append(maps, view.MapOf(&s.Swept, phase))
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	j.found, j.maps = found, maps
	return nil
}

func (j *job) progress(done, all int64) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.sets, j.of = max(j.sets, done), all
}
