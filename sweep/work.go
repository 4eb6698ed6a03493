package sweep

import (
	"context"
	"fmt"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"

	"knockon/book"
	"knockon/circuit"
	"knockon/known"
)

// phaseWork is a sweep at one moment.
type phaseWork struct {
	*Sweep
	ctx      context.Context
	at       book.Time
	workers  []*worker
	done     atomic.Int64
	all      atomic.Int64
	progress func(done, all int64)

	mu       sync.Mutex
	numbers  map[print]uint32 // rows -> number of the outcome
	outcomes [][]row
	broken   []uint64
	failed   error
}

// worker works out one block after the other.
type worker struct {
	*phaseWork
	engine *engine
	begin  *snapshot
	seen   *observer
	told   *engine // nil: no alert claims anything
	teller *teller
	known  map[print]uint32
	usual  []row
}

func (s *Sweep) newWork(ctx context.Context, at book.Time, progress func(done, all int64)) (*phaseWork, error) {
	w := &phaseWork{Sweep: s, ctx: ctx, at: at, progress: progress, numbers: map[print]uint32{}}
	return w, w.employ(1)
}

// employ sees to it that there are so many workers. Later ones know what the
// first has found out so far of when numbers cross.
func (w *phaseWork) employ(n int) error {
	for len(w.workers) < n {
		e := w.engines.take(w.p)
		if len(w.workers) > 0 && len(e.terms.list) == 0 {
			e.terms = w.workers[0].engine.terms.clone()
		}
		begin, err := e.before(w.at)
		if err != nil {
			return err
		}
		k := &worker{phaseWork: w, engine: e, begin: begin, seen: newObserver(e), known: map[print]uint32{}}
		if err := k.listen(); err != nil {
			return err
		}
		w.workers = append(w.workers, k)
	}
	return nil
}

// end gives the engines back.
func (w *phaseWork) end() {
	for _, k := range w.workers {
		w.engines.give(k.engine)
		if k.told != nil {
			w.listeners.give(k.told)
		}
	}
}

// pool keeps engines between phases: when two numbers cross, say, need not be
// worked out again.
type pool struct {
	mu   sync.Mutex
	list []*engine
}

func (o *pool) take(p *program) *engine {
	o.mu.Lock()
	defer o.mu.Unlock()
	if last := len(o.list) - 1; last >= 0 {
		e := o.list[last]
		o.list = o.list[:last]
		return e
	}
	return newEngine(p)
}

// mostTerms is how many terms an engine may have grown to and be used again.
const mostTerms = 300_000

func (o *pool) give(e *engine) {
	if len(e.terms.list) > mostTerms {
		return
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	o.list = append(o.list, e)
}

// perBlock is how many sets a block holds: lane 0 has no failure.
const perBlock = lanes - 1

// as is the number of an outcome that is what the parts of the set come to.
const as = ^uint32(0)

// job is a list of sets to work out.
type job struct {
	n       int
	set     func(i int) Set
	usual   func(s Set, into []row) []row // what the parts come to; nil: nothing
	of      []uint32                      // the outcome of each
	reaches []reach                       // nil: not wanted
	felt    []bool                        // nil: not wanted
	untold  bool                          // how losses are known is not wanted
}

// do works out a job, one block of lanes after the other.
func (w *phaseWork) do(j job) error {
	blocks := make(chan int)
	var wait sync.WaitGroup
	for _, k := range w.workers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for b := range blocks {
				from := b * perBlock
				to := min(j.n, from+perBlock)
				k.caught(func() { k.block(j, from, to) })
				if w.progress != nil {
					w.progress(w.done.Add(int64(to-from)), w.all.Load())
				}
			}
		}()
	}
	for b := 0; b*perBlock < j.n && w.ctx.Err() == nil; b++ {
		blocks <- b
	}
	close(blocks)
	wait.Wait()
	if w.ctx.Err() != nil {
		return w.ctx.Err()
	}
	return w.failed
}

// caught works on; a slip of the program there is an error of the work. Left
// alone it would end the whole process: nobody above is on this goroutine.
func (w *phaseWork) caught(work func()) {
	defer func() {
		if p := recover(); p != nil {
			w.mu.Lock()
			defer w.mu.Unlock()
			w.failed = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	work()
}

// block works out sets from..to-1.
func (k *worker) block(j job, from, to int) {
	sets, strikes := make([]Set, 1, lanes), make([][]int, 1, lanes)
	for i := from; i < to; i++ {
		s := j.set(i)
		sets, strikes = append(sets, s), append(strikes, k.waysOf(s))
	}
	k.engine.load(k.begin)
	k.engine.fly(k.begin.at, strikes)
	k.seen.teller = k.tellerFor(j)
	rows := k.seen.rowsOf(k.begin)
	for lane := 1; lane < len(sets); lane++ {
		if k.givenUp(lane) {
			rows[lane] = k.plainly(sets[lane], strikes[lane])
		}
		j.of[from+lane-1] = k.outcome(j, sets[lane], rows[lane])
	}
	if j.reaches != nil {
		k.reaches(from, to, j.reaches)
	}
	if j.felt != nil {
		k.felt(j.felt[from:to])
	}
}

// felt says of each lane after the first whether it, or a lane that the engine
// gave up on, changes an effect.
func (k *worker) felt(into []bool) {
	for i := range into {
		into[i] = k.engine.lost.has(i+1) || slices.ContainsFunc(k.p.felt, func(n circuit.Node) bool { return k.engine.ever[n].has(i + 1) })
	}
}

func (k *worker) outcome(j job, s Set, rows []row) uint32 {
	if j.usual != nil {
		if k.usual = j.usual(s, k.usual[:0]); slices.Equal(k.usual, rows) {
			return as
		}
	}
	return k.number(rows)
}

func (k *worker) reaches(from, to int, reaches []reach) {
	into := make([]reach, to-from+1)
	for i := from; i < to; i++ {
		into[i-from+1] = k.p.newReach()
		reaches[i] = into[i-from+1]
	}
	k.engine.reachOf(into)
	for lane := 1; lane < len(into); lane++ {
		if k.givenUp(lane) {
			for i := range into[lane] {
				into[lane][i] = ^uint64(0)
			}
		} else if t := k.seen.toldOf(lane); t != nil {
			into[lane].join(t.reach)
		}
	}
}

// plainly flies a lane that the engine gave up on.
func (k *worker) plainly(s Set, ways []int) []row {
	l, err := k.ledgerOf(k.ctx, k.at, ways)
	if err == nil {
		err = known.Judge(k.ctx, l)
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if err != nil {
		k.failed = err
		return nil
	}
	if l.Here.Fault != nil {
		k.broken = append(k.broken, s.Key())
	}
	return k.p.rowsOf(l)
}

// print tells rows apart: two different lists have the same print about once in
// 2^128 times.
type print [2]uint64

func printOf(rows []row) print {
	p := print{1, 2}
	for _, r := range rows {
		p[0], p[1] = mix(p[0], uint64(r)), mix(uint64(r)^p[1], p[1]+uint64(r))
	}
	return p
}

// number gives the number of an outcome, which has one number however often it
// comes up.
func (k *worker) number(rows []row) uint32 {
	p := printOf(rows)
	n, ok := k.known[p]
	if ok {
		return n
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if n, ok = k.numbers[p]; !ok {
		n = uint32(len(k.outcomes))
		k.outcomes = append(k.outcomes, slices.Clone(rows))
		k.numbers[p] = n
	}
	k.known[p] = n
	return n
}

// count adds up the progress of phases that are under way together.
type count struct {
	mu        sync.Mutex
	done, all []int64
	progress  func(done, all int64)
}

func newCount(n int, progress func(done, all int64)) *count {
	return &count{done: make([]int64, n), all: make([]int64, n), progress: progress}
}

// of is the progress of one phase.
func (c *count) of(i int) func(done, all int64) {
	if c.progress == nil {
		return nil
	}
	return func(done, all int64) {
		c.mu.Lock()
		defer c.mu.Unlock()
		c.done[i], c.all[i] = max(c.done[i], done), max(c.all[i], all)
		var sum [2]int64
		for j := range c.done {
			sum[0], sum[1] = sum[0]+c.done[j], sum[1]+c.all[j]
		}
		c.progress(sum[0], sum[1])
	}
}

// firstError keeps the first error of many goroutines.
type firstError struct {
	mu  sync.Mutex
	err error
}

func (f *firstError) set(err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.err == nil {
		f.err = err
	}
}

func (f *firstError) get() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.err
}
