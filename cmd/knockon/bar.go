package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"knockon/say"
)

// bar shows on a terminal how far a work is that takes more than two seconds, and
// how long it will take yet. Neither the bar nor the time left ever runs back: a
// work that turns out longer than it looked stands still meanwhile. Elsewhere it
// is silent.
type bar struct {
	w     io.Writer // nil where nobody looks
	wide  int
	began time.Time
	stop  chan struct{}

	mu    sync.Mutex
	drawn bool
	which string
	part  int // of so many
	parts int
	share float64       // of all parts
	left  time.Duration // as it was shown last; 0: not yet
}

// patience is how long nobody needs to be told anything.
const (
	patience = 2 * time.Second
	barEvery = 200 * time.Millisecond
)

// newBar begins a work; clear ends it.
func newBar(o *out, which string) *bar {
	b := &bar{began: time.Now(), which: which, parts: 1, stop: make(chan struct{}), wide: 80}
	if isTerminal(o.stderr) {
		b.w = o.stderr
		if n := columns(o.stderr); n > 0 {
			b.wide = n
		}
		go b.run()
	}
	return b
}

func (b *bar) run() {
	tick := time.NewTicker(barEvery)
	defer tick.Stop()
	for {
		select {
		case <-b.stop:
			return
		case <-tick.C:
			if gone := time.Since(b.began); gone > patience {
				b.draw(gone)
			}
		}
	}
}

// build begins the i-th of n parts.
func (b *bar) build(which string, i, n int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.which, b.part, b.parts = which, i, n
}

// show takes how far the present part is.
func (b *bar) show(done, all int64) {
	if all <= 0 {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.share = max(b.share, min((float64(b.part)+min(float64(done)/float64(all), 1))/float64(b.parts), 1))
}

// progress is what a work tells how far it is; nil where nobody looks.
func (b *bar) progress() func(done, all int64) {
	if b.w == nil {
		return nil
	}
	return b.show
}

func (b *bar) draw(gone time.Duration) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.drawn = true
	fmt.Fprintf(b.w, "\r\033[K%s", b.line(gone))
}

// line is the bar after so long, in as much room as there is.
func (b *bar) line(gone time.Duration) string {
	text := fmt.Sprintf("%s  %s", b.which, say.Lasts(gone.Round(time.Second).Microseconds()))
	if b.share > 0 {
		text = fmt.Sprintf("%3.0f %%  %s  %s", 100*b.share, b.which, b.toGo(gone))
	}
	if room := min(b.wide-len([]rune(text))-3, 30); b.share > 0 && room >= 5 {
		full := int(b.share * float64(room))
		text = strings.Repeat("█", full) + strings.Repeat("░", room-full) + " " + text
	}
	if r := []rune(text); len(r) > b.wide-1 {
		return string(r[:b.wide-1])
	}
	return text
}

// toGo is the time left, never more than it was before.
func (b *bar) toGo(gone time.Duration) string {
	left := time.Duration(float64(gone) * (1 - b.share) / b.share)
	if b.left > 0 {
		left = min(left, b.left)
	}
	if b.left = max(left, 1); left < time.Second/2 {
		return "soon done"
	}
	return say.Lasts(left.Round(time.Second).Microseconds()) + " left"
}

// clear ends the work and takes the bar away.
func (b *bar) clear() {
	if b.w == nil {
		return
	}
	close(b.stop)
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.drawn {
		fmt.Fprint(b.w, "\r\033[K")
	}
	b.w = io.Discard
}
