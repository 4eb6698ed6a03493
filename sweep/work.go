package sweep

import (
	"context"
	"encoding/binary"
	"sync"
	"sync/atomic"
)

// phaseWork is the sweep of one phase.
type phaseWork struct {
	*Sweep
	ctx      context.Context
	phase    int
	workers  []*worker
	done     atomic.Int64
	all      atomic.Int64
	progress func(done, all int64)

	mu       sync.Mutex
	numbers  map[string]uint32 // rows, as bytes -> number of the outcome
	outcomes [][]Row
	failed   error
}

// worker works out one block after the other.
type worker struct {
	*phaseWork
	engine *engine
	begin  *snapshot
	seen   *observer
	known  map[string]uint32
	key    []byte
}

func (s *Sweep) newWork(ctx context.Context, phase int, progress func(done, all int64)) (*phaseWork, error) {
	w := &phaseWork{Sweep: s, ctx: ctx, phase: phase, progress: progress, numbers: map[string]uint32{}}
	for range s.workers {
		e := newEngine(s.p)
		begin, err := e.before(s.phases[phase].At)
		if err != nil {
			return nil, err
		}
		w.workers = append(w.workers, &worker{phaseWork: w, engine: e, begin: begin, seen: newObserver(e), known: map[string]uint32{}})
	}
	return w, nil
}

// perBlock is how many sets a block holds: lane 0 has no failure.
const perBlock = lanes - 1

// outcomesOf works out sets and gives the number of the outcome of each, and
// their reaches if wanted.
func (w *phaseWork) outcomesOf(n int, set func(i int) Set, of []uint32, reaches []reach) error {
	blocks := make(chan int)
	var wait sync.WaitGroup
	for _, k := range w.workers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for b := range blocks {
				from := b * perBlock
				to := min(n, from+perBlock)
				k.block(from, to, set, of, reaches)
				if w.progress != nil {
					w.progress(w.done.Add(int64(to-from)), w.all.Load())
				}
			}
		}()
	}
	for b := 0; b*perBlock < n && w.ctx.Err() == nil; b++ {
		blocks <- b
	}
	close(blocks)
	wait.Wait()
	if w.ctx.Err() != nil {
		return w.ctx.Err()
	}
	return w.failed
}

// block works out sets from..to-1.
func (k *worker) block(from, to int, set func(i int) Set, of []uint32, reaches []reach) {
	strikes := make([][]int, 1, lanes)
	for i := from; i < to; i++ {
		strikes = append(strikes, k.waysOf(set(i)))
	}
	k.engine.load(k.begin)
	k.engine.fly(k.begin.at, strikes)
	rows := k.seen.rowsOf(k.begin)
	for i := from; i < to; i++ {
		lane := i - from + 1
		if k.engine.lost.has(lane) {
			rows[lane] = k.plainly(strikes[lane])
		}
		of[i] = k.number(rows[lane])
	}
	if reaches != nil {
		k.reaches(from, to, reaches)
	}
}

func (k *worker) reaches(from, to int, reaches []reach) {
	into := make([]reach, to-from+1)
	for i := from; i < to; i++ {
		into[i-from+1] = k.p.newReach()
		reaches[i] = into[i-from+1]
	}
	k.engine.reachOf(into)
	k.engine.lost.each(func(lane int) {
		if lane > 0 && lane < len(into) {
			for i := range into[lane] {
				into[lane][i] = ^uint64(0)
			}
		}
	})
}

// plainly flies a lane that the engine gave up on.
func (k *worker) plainly(ways []int) []Row {
	l, err := k.ledgerOf(k.ctx, k.phase, ways)
	if err != nil {
		k.mu.Lock()
		k.failed = err
		k.mu.Unlock()
		return nil
	}
	return k.p.rowsOf(l)
}

// number gives the number of an outcome, which has one number however often it
// comes up.
func (k *worker) number(rows []Row) uint32 {
	key := k.key[:0]
	for _, r := range rows {
		key = binary.LittleEndian.AppendUint64(key, uint64(r))
	}
	k.key = key
	n, ok := k.known[string(key)]
	if ok {
		return n
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if n, ok = k.numbers[string(key)]; !ok {
		n = uint32(len(k.outcomes))
		k.outcomes = append(k.outcomes, append([]Row(nil), rows...))
		k.numbers[string(key)] = n
	}
	k.known[string(key)] = n
	return n
}
