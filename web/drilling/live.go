package drilling

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"hash/fnv"
	"io"
	"sync"
	"time"

	"knockon/book"
	"knockon/drill"
	"knockon/logbook"
)

// house is the client under which the server itself writes into a log: the first
// input, which lets the clock go, and marks of how far the drill has come.
const house = "server"

// markEvery is how much of the clock a server that is killed may lose: nothing
// that anybody did, but the time since.
const markEvery = 10 * time.Second

// live is a drill under way: its session, its log, and the clock that drives it.
type live struct {
	id  string
	now func() time.Time

	mu      sync.Mutex
	session *drill.Session
	writer  *logbook.Writer
	since   time.Time // when the session stood at base
	base    book.Time
	rate    int
	marked  time.Time
	marks   int           // inputs of the house
	changed chan struct{} // closed when an input has been taken
	seen    time.Time     // when somebody last asked
	watched int           // streams that are open
	gone    error         // why nothing more is done here: the log is let go of
}

func newLive(id string, s *drill.Session, w *logbook.Writer, now func() time.Time) *live {
	l := &live{id: id, now: now, session: s, writer: w, changed: make(chan struct{}), seen: now(), marked: now().Add(-spread(id))}
	for _, in := range s.Log() {
		if in.Client == house {
			l.marks++
		}
	}
	l.wind()
	return l
}

// spread keeps drills that began together from marking their logs together: the
// disk would make inputs wait.
func spread(id string) time.Duration {
	h := fnv.New32a()
	_, _ = h.Write([]byte(id))
	return time.Duration(h.Sum32()) % markEvery
}

// wind starts the clock anew from where the session stands.
func (l *live) wind() { l.since, l.base, l.rate = l.now(), l.session.Now(), l.session.Rate() }

// goOn lets the drill go on to the present.
func (l *live) goOn(ctx context.Context) error {
	if l.gone != nil {
		return l.gone
	}
	l.seen = l.now()
	if l.rate == 0 || l.session.Ended() {
		return nil
	}
	gone := l.now().Sub(l.since) * time.Duration(l.rate)
	to := l.base + book.Time(gone/time.Microsecond)
	if to <= l.session.Now() {
		return nil
	}
	if err := l.session.Advance(ctx, to); err != nil {
		return err
	}
	if l.now().Sub(l.marked) < markEvery && !l.session.Ended() {
		return nil
	}
	return l.mark(ctx)
}

// mark writes down how far the drill has come: the clock goes on as it goes.
func (l *live) mark(ctx context.Context) error {
	log := l.session.Log()
	if l.rate == 0 || log[len(log)-1].At == l.session.Now() {
		return nil
	}
	l.marked = l.now()
	_, err := l.write(ctx, drill.Input{Client: house, Number: l.marks + 1, Who: drill.Instructor, Do: drill.Clock, Rate: l.rate, At: l.session.Now()})
	if refusal := (*drill.Refusal)(nil); errors.As(err, &refusal) {
		return nil // the log is full: it goes on without marks
	}
	return err
}

// write accepts an input and writes it down. What is not written has not been
// accepted: the drill is taken up anew from its log.
func (l *live) write(ctx context.Context, in drill.Input) (drill.Ack, error) {
	ack, err := l.session.Accept(context.WithoutCancel(ctx), in)
	if err != nil || ack.Again {
		return ack, err
	}
	if err := l.writer.Append(in); err != nil {
		l.gone = errors.Join(err, l.writer.Close())
		return drill.Ack{}, l.gone
	}
	if in.Client == house {
		l.marks++
	}
	return ack, nil
}

// screen is what a person sees now, as JSON.
func (l *live) screen(ctx context.Context, who drill.Role) ([]byte, <-chan struct{}, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := l.goOn(ctx); err != nil {
		return nil, nil, err
	}
	body, err := json.Marshal(l.session.Screen(who))
	return body, l.changed, err
}

// take accepts an input at the present moment.
func (l *live) take(ctx context.Context, in drill.Input) (drill.Ack, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := l.goOn(ctx); err != nil {
		return drill.Ack{}, err
	}
	in.At = l.momentOf(in)
	ack, err := l.write(ctx, in)
	if err != nil || ack.Again {
		return ack, err
	}
	l.wind()
	close(l.changed)
	l.changed = make(chan struct{})
	return ack, nil
}

// momentOf is the moment of an input: now, or that of the same input before.
func (l *live) momentOf(in drill.Input) book.Time {
	for _, k := range l.session.Log() {
		if k.Client == in.Client && k.Number == in.Number {
			return k.At
		}
	}
	return l.session.Now()
}

// copied writes the log of the drill so far.
func (l *live) copied(w io.Writer) (at book.Time, err error) {
	l.mu.Lock()
	script, log, now := l.session.Script(), append([]drill.Input(nil), l.session.Log()...), l.session.Now()
	l.mu.Unlock()
	if err := drill.WriteScript(w, script); err != nil {
		return 0, err
	}
	for _, in := range log {
		if err := drill.WriteInput(w, in); err != nil {
			return 0, err
		}
	}
	return now, nil
}

func (l *live) script() drill.Script {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.session.Script()
}

func (l *live) watch(more int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.watched += more
}

// touch says that somebody needs the drill; false when it has been let go of.
func (l *live) touch() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.seen = l.now()
	return l.gone == nil
}

// left lets go of the log of a drill that nobody has looked at for a while.
func (l *live) left(after time.Duration) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.gone == nil && (l.watched > 0 || l.now().Sub(l.seen) < after) {
		return false
	}
	_ = l.letGo()
	return true
}

func (l *live) close() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.letGo()
}

// letGo marks where the drill stands and closes its log.
func (l *live) letGo() error {
	if l.gone != nil {
		return nil
	}
	if err := l.mark(context.Background()); err != nil {
		return err
	}
	l.gone = errClosed
	return l.writer.Close()
}

// replay opens the drill of a log on its deck.
func (h *Hall) replay(ctx context.Context, r io.Reader) (*drill.Session, error) {
	var all bytes.Buffer
	first, err := bufio.NewReader(io.TeeReader(r, &all)).ReadBytes('\n')
	if err != nil {
		return nil, err
	}
	var script drill.Script
	if err := json.Unmarshal(first, &script); err != nil {
		return nil, err
	}
	d, err := h.deck(script.Build, script.Flight)
	if err != nil {
		return nil, err
	}
	return d.Replay(ctx, io.MultiReader(&all, r))
}
