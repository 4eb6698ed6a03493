package run

import (
	"context"
	"sync"
)

// Many does n pieces of work, several at a time (0: one), and stops at the first
// error. Told is called as they are done, one call at a time; it may be nil. What
// comes of a piece belongs into a place of its own, so that the order is that of the
// pieces.
func Many(ctx context.Context, n, workers int, told func(done, of int), work func(ctx context.Context, i int) error) error {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	next := make(chan int)
	var mu sync.Mutex
	var wait sync.WaitGroup
	done := 0
	for range max(workers, 1) {
		wait.Go(func() {
			for i := range next {
				if err := work(ctx, i); err != nil {
					stop(err)
				}
				mu.Lock()
				if done++; told != nil {
					told(done, n)
				}
				mu.Unlock()
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	wait.Wait()
	return context.Cause(ctx)
}
