package drilling

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"strings"
	"time"

	"knockon/drill"
	"knockon/logbook"
	"knockon/say"
	"knockon/web/door"
)

// How long a drill that nobody looks at is kept in memory; its log stays. One that
// has none is lost then.
const (
	idle       = 10 * time.Minute
	idleUnkept = 2 * time.Hour
	roundEvery = 30 * time.Second
)

// place is where a drill stands in memory. Who comes first takes it up from its
// log; the others wait, for a log has one writer.
type place struct {
	ready chan struct{} // closed when one of these is there
	live  *live
	err   error
}

var (
	// errClosed is a hall that takes up nothing more.
	errClosed = errors.New("the server is about to stop")
	// errFull is a hall with as many drills as it holds.
	errFull = errors.New("too many drills are under way")
	// errNoSeat is an address that leads to no drill, or to no seat of it: which of
	// the two is nobody's matter.
	errNoSeat = errors.New("no such drill or seat")
	// errReading is a drill whose log is still being read.
	errReading = errors.New("the log is still being read")
	// errNotYours is for the instructor.
	errNotYours = errors.New("this is the instructor's")
	// errNotYet is for after the drill.
	errNotYet = errors.New("the drill has not ended")
	// errStreams is one page too many.
	errStreams = errors.New("too many pages of one seat are open")
)

// visit is the drill and the seat that an address leads to. A drill is taken up
// from its log only for somebody who has a seat in it.
func (h *Hall) visit(r *http.Request) (*live, drill.Role, error) {
	id, word := r.PathValue("id"), r.PathValue("word")
	if id == "" || len(id) > 64 || strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		return nil, "", errNoSeat
	}
	if !h.inMemory(id) {
		s, err := h.seatsKept(id)
		if err != nil {
			return nil, "", errNoSeat
		}
		if _, ok := s.of(word); !ok {
			return nil, "", errNoSeat
		}
	}
	ctx, done := context.WithTimeoutCause(r.Context(), h.set.Patience, errReading)
	defer done()
	l, err := h.find(ctx, id)
	if errors.Is(err, fs.ErrNotExist) {
		err = errNoSeat
	}
	if err != nil {
		return nil, "", err
	}
	who, ok := l.seated().of(word)
	if !ok {
		return nil, "", errNoSeat
	}
	return l, who, nil
}

func (h *Hall) inMemory(id string) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.places[id] != nil
}

// find gives a drill, taken up from its log if it is not in memory.
func (h *Hall) find(ctx context.Context, id string) (*live, error) {
	for {
		p, first, err := h.placeOf(id)
		if err != nil {
			return nil, err
		}
		if first {
			go h.fill(p, id)
		}
		select {
		case <-p.ready:
		case <-ctx.Done():
			return nil, context.Cause(ctx)
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

// fill takes a drill up from its log when its turn has come, whoever still waits:
// the log of an hour and a half of moves takes seconds to fly.
func (h *Hall) fill(p *place, id string) {
	defer h.group.Done()
	defer close(p.ready)
	defer door.Slip(&p.err)
	var turn *door.Place
	if turn, p.err = h.reading.Enter(); p.err != nil {
		return
	}
	defer turn.Leave()
	if p.err = turn.Turn(h.ctx); p.err == nil {
		p.live, p.err = h.takeUp(h.ctx, id)
	}
}

// placeOf is the place of a drill, and whether the caller is the one to fill it.
func (h *Hall) placeOf(id string) (p *place, first bool, err error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if p = h.places[id]; p != nil {
		return p, false, nil
	}
	switch {
	case h.closed:
		return nil, false, errClosed
	case len(h.places) >= h.set.Most:
		return nil, false, errFull
	}
	p = &place{ready: make(chan struct{})}
	h.places[id] = p
	h.group.Add(1) // while closed is known to be no; who fills the place is done with it
	return p, true, nil
}

func (h *Hall) forget(id string, p *place) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.places[id] == p {
		delete(h.places, id)
	}
}

// rounds lets go, now and then, of the drills that nobody looks at.
func (h *Hall) rounds() {
	tick := time.NewTicker(roundEvery)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			h.tidy()
		case <-h.ctx.Done():
			return
		}
	}
}

func (h *Hall) tidy() {
	for id, p := range h.standing() {
		gone, err := p.live.left()
		if err != nil {
			h.set.Log.Error("a drill that nobody looks at", "error", err)
		}
		if gone {
			h.forget(id, p)
		}
	}
}

// standing are the drills in memory.
func (h *Hall) standing() map[string]*place {
	h.mu.Lock()
	defer h.mu.Unlock()
	all := map[string]*place{}
	for id, p := range h.places {
		select {
		case <-p.ready:
			if p.live != nil {
				all[id] = p
			}
		default:
		}
	}
	return all
}

// takeUp reads a drill from its log. A log that cannot be written is read all the
// same, and one that is spoiled as far as it goes.
func (h *Hall) takeUp(ctx context.Context, id string) (*live, error) {
	k := kept{shelf: h.set.Shelf, id: id}
	w, unwritable := h.set.Shelf.Continue(id)
	if errors.Is(unwritable, logbook.ErrBusy) || errors.Is(unwritable, logbook.ErrEmpty) || errors.Is(unwritable, fs.ErrNotExist) {
		return nil, unwritable
	}
	k.writer, k.missing = w, unwritable
	s, who, err := h.read(ctx, id)
	var spoilt *drill.Spoiled
	if errors.As(err, &spoilt) && s != nil {
		k.setAside(s, spoilt)
		err = nil
	}
	if err != nil {
		if w != nil {
			err = errors.Join(err, w.Close())
		}
		return nil, err
	}
	k.inputs = len(s.Log())
	if k.spoilt == "" && w != nil && w.WasCut() {
		k.spoilt = fmt.Sprintf("The log of this drill ended in the middle of its line %d, which is left out: %s. The drill stands where the lines before it left it, at %s.", w.Lines()+1, k.shelf.Path(id), say.Clock(s.Now()))
	}
	return newLive(id, s, who, k, h.set.Now), nil
}

// read gives what a log and the seats beside it say. A log without seats is one
// that nobody has a link to yet.
func (h *Hall) read(ctx context.Context, id string) (*drill.Session, seats, error) {
	who, err := h.seatsKept(id)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, nil, err
	}
	r, err := h.set.Shelf.Read(id)
	if err != nil {
		return nil, nil, err
	}
	defer r.Close()
	s, err := h.replay(ctx, r)
	return s, who, err
}

// setAside keeps a spoiled log under another name and goes on with what stands
// before the spoiled line. Where that cannot be done, the log stays as it is and
// the drill goes on without.
func (k *kept) setAside(s *drill.Session, spoilt *drill.Spoiled) {
	what := fmt.Sprintf("Line %d of the log of this drill cannot be read (%s). What was done from there on is not in the drill, which stands where the lines before left it, at %s.", spoilt.Line, reason(spoilt.Err), say.Clock(s.Now()))
	if k.writer == nil {
		k.spoilt = what
		return
	}
	path, err := k.shelf.SetAside(k.id, k.writer, spoilt.Line-1)
	if err != nil {
		k.missing = errors.Join(err, k.writer.Close())
		k.writer = nil
		k.spoilt = what
		return
	}
	k.spoilt = what + " The whole log, as it was, is kept in " + path + "."
}

// Close writes down where the drills stand and lets go of all logs.
func (h *Hall) Close() error {
	h.mu.Lock()
	h.closed = true
	h.mu.Unlock()
	h.end()
	h.group.Wait()
	var errs []error
	for id, p := range h.standing() {
		errs = append(errs, p.live.close())
		h.forget(id, p)
	}
	err := errors.Join(errs...)
	if err != nil {
		h.set.Log.Error("drills", "error", err)
	}
	return err
}

// Resume gives a new address of the instructor's screen of a drill that lies in the
// folder; the old one is dead. A drill that had no instructor has one from then on.
func (h *Hall) Resume(ctx context.Context, id string) (string, error) {
	l, err := h.find(ctx, id)
	if err != nil {
		status, text := h.wording(err)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			text = "there is no " + h.set.Shelf.Path(id) + ": give the name of a file of that folder, without .drill, or another folder"
		case status == http.StatusInternalServerError:
			return "", err
		}
		return "", errors.New(text)
	}
	l.mu.Lock()
	if l.seats.alone() {
		l.seats = newSeats(order...)
	}
	l.mu.Unlock()
	l.issue(drill.Instructor)
	return address(id, l.seated()[drill.Instructor]), nil
}
