// Package drilling turns drills and their logs into pages and live streams: a
// start page, a screen for each person, the debrief.
//
// Invariant: what a person sees is drill's Screen of the log for the seat that
// their link leads to, and nothing that they send changes who they are. An input is
// acknowledged when it stands in the log on the disk, or with the notice that it
// does not. So a page that comes back, and a server that is started again, go on
// where the drill stood.
//
// Start reading at Hall.routes, then seats.go, live.go, the clock of a drill, kept.go,
// what of it is on the disk, and places.go, which keeps one of each. The pages look
// like the other pages of the site and like nothing else.
package drilling

import (
	"context"
	"embed"
	"html/template"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"time"

	"knockon/book"
	"knockon/drill"
	"knockon/run"
	"knockon/web/door"
	"knockon/web/frame"
)

//go:embed templates static
var files embed.FS

// Setting of a hall.
type Setting struct {
	Book  *book.Book
	Shelf Shelf
	Over  run.Router       // of flights that are turned; nil: they can be turned to no other field
	Log   *slog.Logger     // what goes wrong in the server itself; nil drops it
	Now   func() time.Time // nil: the clock
	Most  int              // drills in memory at one time; 0: 256

	Patience time.Duration // how long one waits for a drill whose log is being read; 0: 20 s
}

// Hall serves the drills of a book. It may be used from many goroutines.
type Hall struct {
	set      Setting
	prepared []exercise
	frame    *frame.Frame
	handler  http.Handler
	debriefs *door.Door
	reading  *door.Door // drills that are taken up from their logs

	ctx   context.Context // until Close
	end   context.CancelFunc
	group sync.WaitGroup // debriefs under way, and the rounds

	mu     sync.Mutex
	decks  map[[2]string]*drill.Deck
	places map[string]*place
	closed bool

	timed sync.Once // the lengths of what is prepared
}

// New returns the hall of a book.
func New(set Setting) (*Hall, error) {
	if set.Now == nil {
		set.Now = time.Now
	}
	set.Log = frame.Logger(set.Log)
	if set.Most == 0 {
		set.Most = 256
	}
	if set.Patience == 0 {
		set.Patience = 20 * time.Second
	}
	f, err := frame.New(set.Book, set.Log, nil, template.FuncMap{"short": short}, files)
	if err != nil {
		return nil, err
	}
	h := &Hall{set: set, prepared: prepare(set.Book), frame: f, decks: map[[2]string]*drill.Deck{}, places: map[string]*place{}}
	h.ctx, h.end = context.WithCancel(context.Background())
	h.debriefs = door.New(door.Setting{AtWork: 1, Waiting: 31})
	h.reading = door.New(door.Setting{AtWork: 2, Waiting: set.Most})
	h.handler = h.mounted()
	h.group.Go(h.rounds)
	return h, nil
}

// routes is all that can be asked for. What stands behind a word in an address is
// for that seat, and of these some things are the instructor's.
func (h *Hall) routes() map[string]http.HandlerFunc {
	const seat = "/drill/of/{id}/{word}/"
	return map[string]http.HandlerFunc{
		"GET /drill/{$}":           h.start,
		"POST /drill/new":          h.begin,
		"GET /drill/static/{name}": h.frame.Handle(frame.Static(files)),
		"GET " + seat + "{$}":      h.seat(h.screen),
		"GET " + seat + "stream":   h.seat(h.stream),
		"GET " + seat + "now":      h.seat(h.now),
		"POST " + seat + "input":   h.seat(h.input),
		"GET " + seat + "debrief":  h.seat(h.debrief),
		"POST " + seat + "debrief": h.seat(h.beginDebrief),
		"GET " + seat + "log":      h.seat(h.log),
		"GET " + seat + "people":   h.instructors(h.people),
		"POST " + seat + "people":  h.instructors(h.issue),
	}
}

func (h *Hall) mounted() http.Handler {
	mux := http.NewServeMux()
	for pattern, handler := range h.routes() {
		mux.HandleFunc(pattern, handler)
	}
	return door.Framed(h.frame.Refuse, mux)
}

// seated answers somebody who has a seat in a drill.
type seated func(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error

// seat finds the drill and the seat of an address.
func (h *Hall) seat(answer seated) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		l, who, err := h.visit(r)
		if err == nil {
			err = answer(w, r, l, who)
		}
		if err != nil {
			h.failed(w, r, err)
		}
	}
}

// instructors is seat for the instructor alone.
func (h *Hall) instructors(answer seated) http.HandlerFunc {
	return h.seat(func(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
		if who != drill.Instructor {
			return errNotYours
		}
		return answer(w, r, l, who)
	})
}

// short is the number of a line without the words between: 3.2 for 3.else.2.
func short(number string) string {
	return strings.NewReplacer(".then.", ".", ".else.", ".", ".later.", ".").Replace(number)
}

// ServeHTTP answers one request under /drill/.
func (h *Hall) ServeHTTP(w http.ResponseWriter, r *http.Request) { h.handler.ServeHTTP(w, r) }

// deck gives the deck of a build and a flight, kept for all drills of it.
func (h *Hall) deck(build, flight string) (*drill.Deck, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	key := [2]string{build, flight}
	if d := h.decks[key]; d != nil {
		return d, nil
	}
	d, err := drill.NewDeck(h.set.Book, build, flight, h.set.Over)
	if err == nil {
		h.decks[key] = d
	}
	return d, err
}
