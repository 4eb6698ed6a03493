package main

import (
	"bytes"
	"strings"
	"sync"
)

// screen keeps what is written to it, from any goroutine, and says when an address
// has been.
type screen struct {
	mu    sync.Mutex
	text  bytes.Buffer
	once  sync.Once
	ready chan struct{}
}

func (w *screen) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if strings.Contains(string(p), "http://") {
		w.once.Do(func() { close(w.ready) })
	}
	return w.text.Write(p)
}

func (w *screen) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.String()
}
