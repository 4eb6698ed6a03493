// Package drilling turns drills and their logs into pages and live streams: a
// start page, a screen for each person, the debrief.
//
// Invariant: what a person sees is drill's Screen of the log, and an input is
// acknowledged only when it stands in the log on the disk. So a page that comes
// back, and a server that is started again, go on where the drill stood.
//
// Start reading at New, then live.go, the clock of a drill, and places.go, which
// keeps one of each. The pages look like the other
// pages of the site and like nothing else.
package drilling

import (
	"embed"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"time"

	"knockon/book"
	"knockon/drill"
	"knockon/logbook"
)

//go:embed templates static
var files embed.FS

// Setting of a hall.
type Setting struct {
	Book  *book.Book
	Shelf *logbook.Shelf
	Log   *slog.Logger     // what goes wrong in the server itself; nil drops it
	Now   func() time.Time // nil: the clock
}

// Hall serves the drills of a book. It may be used from many goroutines.
type Hall struct {
	set       Setting
	prepared  []prepared
	templates *template.Template
	mux       *http.ServeMux

	mu     sync.Mutex
	decks  map[[2]string]*drill.Deck
	places map[string]*place
	closed bool
}

// New returns the hall of a book.
func New(set Setting) (*Hall, error) {
	if set.Now == nil {
		set.Now = time.Now
	}
	if set.Log == nil {
		set.Log = slog.New(slog.DiscardHandler)
	}
	t, err := template.New("").Funcs(template.FuncMap{"short": short}).ParseFS(files, "templates/*.html")
	if err != nil {
		return nil, err
	}
	h := &Hall{set: set, prepared: prepare(set.Book), templates: t, mux: http.NewServeMux(), decks: map[[2]string]*drill.Deck{}, places: map[string]*place{}}
	h.mux.HandleFunc("GET /drill/{$}", h.start)
	h.mux.HandleFunc("POST /drill/new", h.begin)
	h.mux.HandleFunc("GET /drill/static/{name}", h.static)
	h.mux.HandleFunc("GET /drill/of/{id}/{$}", h.roles)
	h.mux.HandleFunc("GET /drill/of/{id}/as/{role}", h.screen)
	h.mux.HandleFunc("GET /drill/of/{id}/stream", h.stream)
	h.mux.HandleFunc("GET /drill/of/{id}/now", h.now)
	h.mux.HandleFunc("POST /drill/of/{id}/input", h.input)
	h.mux.HandleFunc("GET /drill/of/{id}/debrief", h.debrief)
	h.mux.HandleFunc("GET /drill/of/{id}/log", h.log)
	h.mux.HandleFunc("/", h.lost)
	return h, nil
}

// short is the number of a line without the words between: 3.2 for 3.else.2.
func short(number string) string {
	return strings.NewReplacer(".then.", ".", ".else.", ".", ".later.", ".").Replace(number)
}

// ServeHTTP answers one request under /drill/.
func (h *Hall) ServeHTTP(w http.ResponseWriter, r *http.Request) { h.mux.ServeHTTP(w, r) }

func (h *Hall) lost(w http.ResponseWriter, r *http.Request) {
	h.trouble(w, http.StatusNotFound, "There is no page of a drill at this address.")
}

func (h *Hall) static(w http.ResponseWriter, r *http.Request) {
	kinds := map[string]string{"drill.css": "text/css; charset=utf-8", "drill.js": "text/javascript; charset=utf-8"}
	kind, ok := kinds[r.PathValue("name")]
	if !ok {
		h.lost(w, r)
		return
	}
	text, _ := fs.ReadFile(files, "static/"+r.PathValue("name"))
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "private, no-cache")
	_, _ = w.Write(text)
}

// deck gives the deck of a build and a flight, kept for all drills of it.
func (h *Hall) deck(build, flight string) (*drill.Deck, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	key := [2]string{build, flight}
	if d := h.decks[key]; d != nil {
		return d, nil
	}
	d, err := drill.NewDeck(h.set.Book, build, flight)
	if err == nil {
		h.decks[key] = d
	}
	return d, err
}
