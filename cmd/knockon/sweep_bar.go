package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// bar shows on a terminal how far a sweep is, how fast it goes, and how long it
// will take yet. Elsewhere it is silent.
type bar struct {
	w     io.Writer
	began time.Time

	mu     sync.Mutex
	shown  time.Time
	where  string
	from   float64 // share of the whole that was done when the phase began
	share  float64 // of the phase in the whole
	builds [2]int
	before int64 // sets of the phases that are done
	last   int64 // of this phase
}

func newBar(o *out) *bar {
	b := &bar{w: o.stderr, began: time.Now()}
	if !isTerminal(o.stderr) {
		b.w = nil
	}
	return b
}

func (b *bar) build(id string, i, n int) { b.where, b.builds = id, [2]int{i, n} }

// phase returns what is told of the progress of one phase.
func (b *bar) phase(id string, i, n int) func(done, all int64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.share = 1 / float64(n*b.builds[1])
	b.from = float64(b.builds[0]*n+i) * b.share
	b.before, b.last = b.before+b.last, 0
	if b.w == nil {
		return nil
	}
	return func(done, all int64) { b.show(id, done, all) }
}

const barEvery = 100 * time.Millisecond

func (b *bar) show(phase string, done, all int64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.last = max(b.last, done)
	now := time.Now()
	if now.Sub(b.shown) < barEvery || all == 0 {
		return
	}
	b.shown = now
	fmt.Fprintf(b.w, "\r\033[K%s", b.line(phase, float64(b.last)/float64(all), now.Sub(b.began)))
}

func (b *bar) line(phase string, part float64, gone time.Duration) string {
	share := min(b.from+part*b.share, 1)
	const width = 30
	full := int(share * width)
	rate := float64(b.before+b.last) / max(gone.Seconds(), 1e-3)
	left := "?"
	if share > 0 {
		left = time.Duration(float64(gone) * (1 - share) / share).Round(time.Second).String()
	}
	return fmt.Sprintf("%s%s %3.0f %%  %s, %s  %s sets/s  %s left",
		strings.Repeat("█", full), strings.Repeat("░", width-full), 100*share, b.where, phase, grouped(int64(rate)), left)
}

func (b *bar) clear() {
	if b.w != nil && !b.shown.IsZero() {
		fmt.Fprint(b.w, "\r\033[K")
	}
}

// grouped writes a count with a comma between each three digits.
func grouped(n int64) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
