// Package swept turns sweeps and ways into pages: what every failure does,
// alone and together, every function beside its objective, and by which smallest
// sets of failures a function is lost. A sweep runs in the background while its page says how far it is.
//
// Invariant: what a page shows is a pure function of the book and the address;
// what is kept are sweeps that could be worked out again.
//
// Start reading at New. The words are those of package view (sweep/view) and of package assess.
package swept

import (
	"embed"
	"errors"
	"fmt"
	"html/template"
	"log/slog"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"knockon/ask"
	"knockon/assess"
	"knockon/book"
	"knockon/say"
	"knockon/ways"
	"knockon/web/door"
	"knockon/web/frame"
)

//go:embed templates static
var files embed.FS

// funcs are what templates call.
var funcs = template.FuncMap{
	"act": actOf, "figure": assess.Figure, "capital": say.Capital,
	"answer": func(query string) string { return "/?" + query },
}

// Pages serves everything under /sweep, /assess, /ways and
// /dispatch. It may be used from many
// goroutines.
type Pages struct {
	desk     *ask.Desk
	frame    *frame.Frame
	handler  http.Handler
	jobs     *jobs
	stills   *stills
	searches *searches
	quick    *door.Door // ways that are worked out while one waits
	goes     *door.Door // the same of what may go
}

// New makes the pages of a desk's book; log takes what goes wrong in the server
// itself (nil drops it). Close ends the sweeps under way.
func New(desk *ask.Desk, log *slog.Logger) (*Pages, error) {
	f, err := frame.New(desk.Book, log, meaning, funcs, files)
	if err != nil {
		return nil, err
	}
	log = frame.Logger(log)
	p := &Pages{desk: desk, frame: f, jobs: newJobs(desk, log), stills: newStills()}
	p.quick, p.goes, p.searches = door.New(quickWays), door.New(dispatches), newSearches(log)
	mux := http.NewServeMux()
	mux.HandleFunc("GET /sweep", f.Handle(p.sweep))
	mux.HandleFunc("GET /sweep/cell", f.Handle(p.cell))
	mux.HandleFunc("POST /sweep/begin", f.Handle(p.begin("/sweep")))
	mux.HandleFunc("POST /sweep/stop", f.Handle(p.stop("/sweep")))
	mux.HandleFunc("GET /assess", f.Handle(p.assess))
	mux.HandleFunc("POST /assess/begin", f.Handle(p.begin("/assess")))
	mux.HandleFunc("POST /assess/stop", f.Handle(p.stop("/assess")))
	mux.HandleFunc("GET /sweep/swept.css", f.Handle(frame.Static(files)))
	mux.HandleFunc("GET /ways", f.Handle(p.ways))
	mux.HandleFunc("GET /dispatch", f.Handle(p.dispatch))
	mux.HandleFunc("POST /ways/begin", f.Handle(p.beginWays))
	mux.HandleFunc("POST /ways/stop", f.Handle(p.stopWays))
	p.handler = door.Caught(log, f.Refuse, door.Framed(f.Refuse, mux))
	return p, nil
}

// Close ends the sweeps and searches under way and waits for them.
func (p *Pages) Close() {
	p.jobs.Close()
	p.searches.Close()
}

// Mounts gives the beginnings of the addresses that these pages answer, for
// web.Setting.More.
func (p *Pages) Mounts() map[string]http.Handler {
	return map[string]http.Handler{"/sweep": p, "/sweep/": p, "/ways": p, "/ways/": p, "/assess": p, "/assess/": p, "/dispatch": p}
}

// ServeHTTP answers one request.
func (p *Pages) ServeHTTP(w http.ResponseWriter, r *http.Request) { p.handler.ServeHTTP(w, r) }

type reply = frame.Reply

// meaning says what an error of this room means; nil for one that is not its.
func meaning(err error) *frame.Fault {
	if !errors.Is(err, ways.ErrMemory) {
		return nil
	}
	return &frame.Fault{Status: http.StatusUnprocessableEntity, Text: fmt.Sprintf("Nothing was found within the memory of %d MB that one question may take. Ask for fewer failures together.", waysMegabytes)}
}

// act is a button that posts a question.
type act struct {
	To, Does string
	Hidden   []option
}

// actOf makes one; agreed are parts beyond the question that say yes.
func actOf(to, does string, question []option, agreed ...string) act {
	a := act{to, does, slices.Clone(question)}
	for _, part := range agreed {
		a.Hidden = append(a.Hidden, option{ID: part, Title: "yes"})
	}
	return a
}

// common is what every page has.
type common struct {
	Title, Aircraft, Caution string
	Refresh                  int // seconds; 0: stays
}

func (p *Pages) common(title string) common {
	return common{Title: title, Aircraft: p.frame.Aircraft, Caution: book.Caution}
}

// option is one choice of a list.
type option struct {
	ID, Title string
	Chosen    bool
	To        string // an address that makes the choice
}

func (p *Pages) builds(chosen string) (list []option) {
	for _, v := range p.desk.Book.Variants {
		list = append(list, option{ID: v.ID, Title: v.Title, Chosen: v.ID == chosen})
	}
	return list
}

func flights(b *book.Build, chosen string) (list []option) {
	for _, f := range b.Flights {
		list = append(list, option{ID: f.ID, Title: f.Title, Chosen: f.ID == chosen})
	}
	return list
}

// whole reads a whole number of an address; "" is otherwise.
func whole(v url.Values, part string, otherwise, least, most int) (int, error) {
	text := v.Get(part)
	if text == "" {
		return otherwise, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < least || n > most {
		return 0, frame.Wrong("%s is a number from %d to %d, not %q.", part, least, most, cut(text))
	}
	return n, nil
}

// cut keeps what a page repeats of an address short.
func cut(text string) string {
	if len(text) > 80 {
		return text[:80] + "…"
	}
	return text
}

// unknown is a word that the book does not have.
func unknown(err error) error { return frame.Wrong("%s", say.Sentence("there is "+err.Error())) }

// patience is how long a page waits for a sweep before it says how far it is.
const patience = 700 * time.Millisecond
