package sweep

import "sync"

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
