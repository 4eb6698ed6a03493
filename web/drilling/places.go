package drilling

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"io/fs"
	"strings"
	"time"
)

// newID is a name nobody guesses.
func newID() string {
	var b [10]byte
	_, _ = rand.Read(b[:])
	return strings.ToLower(base32.StdEncoding.EncodeToString(b[:]))
}

// idle is how long a drill that nobody looks at is kept in memory; its log stays.
const idle = 10 * time.Minute

// place is where a drill stands in memory. Who comes first takes it up from its
// log; the others wait, for a log has one writer.
type place struct {
	ready chan struct{} // closed when one of these is there
	live  *live
	err   error
}

// errClosed is a hall that takes up nothing more.
var errClosed = errors.New("the server is about to stop")

// find gives a drill, taken up from its log if it is not in memory.
func (h *Hall) find(ctx context.Context, id string) (*live, error) {
	if id == "" || len(id) > 40 || strings.Trim(id, "abcdefghijklmnopqrstuvwxyz234567") != "" {
		return nil, fs.ErrNotExist
	}
	for {
		p, first, err := h.placeOf(id)
		if err != nil {
			return nil, err
		}
		if first {
			p.live, p.err = h.takeUp(context.WithoutCancel(ctx), id)
			close(p.ready)
		}
		select {
		case <-p.ready:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
		if p.err == nil && p.live.touch() {
			return p.live, nil
		}
		h.forget(id, p)
		if p.err != nil {
			return nil, p.err
		}
	}
}

// placeOf is the place of a drill, and whether the caller is the one to fill it.
func (h *Hall) placeOf(id string) (p *place, first bool, err error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if p = h.places[id]; p != nil {
		return p, false, nil
	}
	if h.closed {
		return nil, false, errClosed
	}
	h.tidy()
	p = &place{ready: make(chan struct{})}
	h.places[id] = p
	return p, true, nil
}

func (h *Hall) forget(id string, p *place) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.places[id] == p {
		delete(h.places, id)
	}
}

// tidy lets go of the drills that nobody looks at. The caller holds the lock.
func (h *Hall) tidy() {
	for id, p := range h.places {
		select {
		case <-p.ready:
			if p.live != nil && p.live.left(idle) {
				delete(h.places, id)
			}
		default:
		}
	}
}

// takeUp reads a drill from its log.
func (h *Hall) takeUp(ctx context.Context, id string) (*live, error) {
	w, err := h.set.Shelf.Continue(id)
	if err != nil {
		return nil, err
	}
	r, err := h.set.Shelf.Read(id)
	if err != nil {
		return nil, errors.Join(err, w.Close())
	}
	defer r.Close()
	s, err := h.replay(ctx, r)
	if err != nil {
		return nil, errors.Join(err, w.Close())
	}
	return newLive(id, s, w, h.set.Now), nil
}

// keep puts a new drill into memory.
func (h *Hall) keep(l *live) error {
	p, _, err := h.placeOf(l.id)
	if err == nil {
		p.live = l
		close(p.ready)
	}
	return err
}

// Close writes down where the drills stand and lets go of all logs.
func (h *Hall) Close() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.closed = true
	var errs []error
	for id, p := range h.places {
		select {
		case <-p.ready:
			if p.live != nil {
				errs = append(errs, p.live.close())
			}
			delete(h.places, id)
		default:
		}
	}
	return errors.Join(errs...)
}
