package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"knockon/say"
)

// bar shows on a terminal how far a sweep is, how fast it goes, and how long it
// will take yet. Elsewhere it is silent.
type bar struct {
	w     io.Writer
	began time.Time

	mu     sync.Mutex
	shown  time.Time
	which  string
	number int   // of this build
	builds int   // how many there are
	before int64 // sets of the builds that are done
	done   int64 // of this build
}

func newBar(o *out) *bar {
	b := &bar{w: o.stderr, began: time.Now()}
	if !isTerminal(o.stderr) {
		b.w = nil
	}
	return b
}

// build begins a build, the i-th of n.
func (b *bar) build(id string, i, n int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.which, b.number, b.builds = id, i, n
	b.before, b.done = b.before+b.done, 0
}

// progress is what a sweep tells how far it is; nil where nobody looks.
func (b *bar) progress() func(done, all int64) {
	if b.w == nil {
		return nil
	}
	return b.show
}

const barEvery = 100 * time.Millisecond

func (b *bar) show(done, all int64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.done = max(b.done, done)
	now := time.Now()
	if now.Sub(b.shown) < barEvery || all == 0 {
		return
	}
	b.shown = now
	fmt.Fprintf(b.w, "\r\033[K%s", b.line(float64(b.done)/float64(all), now.Sub(b.began)))
}

// line is the bar with part of the present build done.
func (b *bar) line(part float64, gone time.Duration) string {
	share := min((float64(b.number)+part)/float64(b.builds), 1)
	const width = 30
	full := int(share * width)
	rate := float64(b.before+b.done) / max(gone.Seconds(), 1e-3)
	left := "?"
	if share > 0 {
		left = time.Duration(float64(gone) * (1 - share) / share).Round(time.Second).String()
	}
	return fmt.Sprintf("%s%s %3.0f %%  %s  %s sets/s  %s left",
		strings.Repeat("█", full), strings.Repeat("░", width-full), 100*share, b.which, say.Whole(rate), left)
}

func (b *bar) clear() {
	if b.w != nil && !b.shown.IsZero() {
		fmt.Fprint(b.w, "\r\033[K")
	}
}
