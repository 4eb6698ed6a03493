package drilling

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"hash/fnv"
	"io"
	"maps"
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
	seats   seats
	log     kept
	since   time.Time // when the session stood at base
	base    book.Time
	rate    int
	marked  time.Time
	marks   int                // inputs of the house
	changed chan struct{}      // closed when an input has been taken
	seen    time.Time          // when somebody last asked
	watched map[drill.Role]int // streams that are open
	gone    error              // why nothing more is done here: the log is let go of
	report  *report            // the debrief, nil if nobody has asked for one

	programme *drill.Programme // nil if no instructor has looked yet
}

func newLive(id string, s *drill.Session, who seats, log kept, now func() time.Time) *live {
	l := &live{id: id, now: now, session: s, seats: who, log: log, changed: make(chan struct{}), seen: now(), marked: now().Add(-spread(id)), watched: map[drill.Role]int{}}
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

// write accepts an input and writes it down. What the disk does not take the drill
// keeps, and says so.
func (l *live) write(ctx context.Context, in drill.Input) (drill.Ack, error) {
	ack, err := l.session.Accept(context.WithoutCancel(ctx), in)
	if err != nil || ack.Again {
		return ack, err
	}
	if in.Client == house {
		l.marks++
	}
	l.log.catchUp(l.session, l.seats)
	return ack, nil
}

// view is a screen, and what its person must know of the log.
type view struct {
	drill.Screen
	Notice string `json:"notice,omitempty"`
}

// screen is what the person of a link sees now, as JSON.
func (l *live) screen(ctx context.Context, word string) ([]byte, <-chan struct{}, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	who, ok := l.seats.of(word)
	if !ok {
		return nil, nil, errNoSeat
	}
	if err := l.goOn(ctx); err != nil {
		return nil, nil, err
	}
	body, err := json.Marshal(view{l.session.Screen(who), l.notice(who)})
	return body, l.changed, err
}

// notice is what a person must know of the log.
func (l *live) notice(who drill.Role) string {
	return l.log.notice(l.session, who == drill.Instructor || l.seats.alone())
}

// taken tells a client of its input. Its place in the log is the instructor's: it
// tells how much others have done.
type taken struct {
	drill.Ack
	Place  int    `json:"place,omitempty"`
	Notice string `json:"notice,omitempty"`
}

// take accepts an input of a seat at the present moment.
func (l *live) take(ctx context.Context, in drill.Input) (t taken, err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := l.goOn(ctx); err != nil {
		return t, err
	}
	if in.Do == drill.Finish && in.Who == drill.Alone && !l.seats.alone() {
		return t, &drill.Refusal{Why: drill.NotAllowed, Text: "only the instructor may do that"}
	}
	in.At = l.momentOf(in)
	t.Ack, err = l.write(ctx, in)
	if err != nil || t.Again {
		return l.told(t, in.Who), err
	}
	l.wind()
	close(l.changed)
	l.changed = make(chan struct{})
	return l.told(t, in.Who), nil
}

func (l *live) told(t taken, who drill.Role) taken {
	if who == drill.Instructor {
		t.Place = t.Ack.Place
	}
	t.Notice = l.notice(who)
	return t
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

// over says whether the drill has ended, the present taken into account.
func (l *live) over(ctx context.Context) (bool, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	err := l.goOn(ctx)
	return l.session.Over(), err
}

// copied is the log of the drill so far, from memory.
func (l *live) copied() (text []byte, at book.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return logOf(l.session), l.session.Now()
}

func logOf(s *drill.Session) []byte {
	var b bytes.Buffer
	_ = drill.WriteScript(&b, s.Script()) // a buffer takes all
	for _, in := range s.Log() {
		_ = drill.WriteInput(&b, in)
	}
	return b.Bytes()
}

func (l *live) script() drill.Script {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.session.Script()
}

func (l *live) seated() seats {
	l.mu.Lock()
	defer l.mu.Unlock()
	return maps.Clone(l.seats)
}

// issue gives a seat a new word.
func (l *live) issue(role drill.Role) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.seats[role] == "" {
		return false
	}
	l.seats = maps.Clone(l.seats)
	l.seats[role] = word()
	l.log.seatsChanged = true
	l.log.catchUp(l.session, l.seats)
	return true
}

// mostStreams is how many pages of one seat may follow a drill.
const mostStreams = 8

// watch counts a stream of a seat; false when there are too many.
func (l *live) watch(who drill.Role) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.watched[who] >= mostStreams {
		return false
	}
	l.watched[who]++
	return true
}

func (l *live) unwatch(who drill.Role) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.watched[who]--
}

// touch says that somebody needs the drill; false when it has been let go of.
func (l *live) touch() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.seen = l.now()
	return l.gone == nil
}

// left lets go of a drill that nobody has looked at for a while. One that is not
// on the disk would be lost with it, and is kept longer; the error is that.
func (l *live) left() (bool, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.gone != nil {
		return true, nil
	}
	watched := 0
	for _, n := range l.watched {
		watched += n
	}
	quiet := l.now().Sub(l.seen)
	if watched > 0 || l.report.underWay() || quiet < idle {
		return false, nil
	}
	l.log.catchUp(l.session, l.seats)
	if l.log.missing != nil && quiet < idleUnkept {
		return false, nil
	}
	return true, l.letGo()
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
	err := errors.Join(l.mark(context.Background()), l.log.close(l.session, l.seats))
	l.gone = errClosed
	return err
}

// replay opens the drill of a log on its deck. With a *drill.Spoiled error the
// session is what stands before the spoiled line.
func (h *Hall) replay(ctx context.Context, r io.Reader) (*drill.Session, error) {
	var all bytes.Buffer
	first, err := bufio.NewReader(io.TeeReader(r, &all)).ReadBytes('\n')
	if errors.Is(err, io.EOF) {
		err = logbook.ErrEmpty
	}
	if err != nil {
		return nil, err
	}
	var script drill.Script
	if err := json.Unmarshal(first, &script); err != nil {
		return nil, &drill.Spoiled{Line: 1, Err: err}
	}
	d, err := h.deck(script.Build, script.Flight)
	if err != nil {
		return nil, &drill.Spoiled{Line: 1, Err: err}
	}
	return d.Replay(ctx, io.MultiReader(&all, r))
}
