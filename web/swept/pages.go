// Package swept turns sweeps and ways into pages: what every failure does,
// alone and together, and by which smallest sets of failures a function is
// lost. A sweep runs in the background while its page says how far it is.
//
// Invariant: what a page shows is a pure function of the book and the address;
// what is kept are sweeps that could be worked out again.
//
// Start reading at New. The words are package view's (sweep/view).
package swept

import (
	"bytes"
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
	"knockon/book"
	"knockon/say"
	"knockon/ways"
	"knockon/web/door"
)

//go:embed templates static
var files embed.FS

// Pages serves everything under /sweep and /ways. It may be used from many
// goroutines.
type Pages struct {
	desk      *ask.Desk
	log       *slog.Logger
	templates *template.Template
	handler   http.Handler
	jobs      *jobs
	stills    *stills
	searches  *searches
	quick     *door.Door // ways that are worked out while one waits
}

// New makes the pages of a desk's book; log takes what goes wrong in the server
// itself (nil drops it). Close ends the sweeps under way.
func New(desk *ask.Desk, log *slog.Logger) (*Pages, error) {
	t, err := template.New("").Funcs(template.FuncMap{"act": actOf}).ParseFS(files, "templates/*.html")
	if err != nil {
		return nil, err
	}
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	p := &Pages{desk: desk, log: log, templates: t, jobs: newJobs(log), stills: newStills()}
	p.quick, p.searches = door.New(quickWays), newSearches(log)
	mux := http.NewServeMux()
	mux.HandleFunc("GET /sweep", p.show(p.sweep))
	mux.HandleFunc("GET /sweep/cell", p.show(p.cell))
	mux.HandleFunc("POST /sweep/begin", p.show(p.begin))
	mux.HandleFunc("POST /sweep/stop", p.show(p.stop))
	mux.HandleFunc("GET /sweep/swept.css", p.style)
	mux.HandleFunc("GET /ways", p.show(p.ways))
	mux.HandleFunc("POST /ways/begin", p.show(p.beginWays))
	mux.HandleFunc("POST /ways/stop", p.show(p.stopWays))
	p.handler = door.Caught(log, p.trouble, door.Framed(p.trouble, mux))
	return p, nil
}

// Close ends the sweeps and searches under way and waits for them.
func (p *Pages) Close() {
	p.jobs.close()
	p.searches.close()
}

// Mounts gives the beginnings of the addresses that these pages answer, for
// web.Setting.More.
func (p *Pages) Mounts() map[string]http.Handler {
	return map[string]http.Handler{"/sweep": p, "/sweep/": p, "/ways": p, "/ways/": p}
}

// ServeHTTP answers one request.
func (p *Pages) ServeHTTP(w http.ResponseWriter, r *http.Request) { p.handler.ServeHTTP(w, r) }

func (p *Pages) style(w http.ResponseWriter, r *http.Request) {
	text, err := files.ReadFile("static/swept.css")
	if err != nil {
		http.Error(w, "There is no file at this address.", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	w.Header().Set("Cache-Control", "private, no-cache")
	w.Write(text)
}

// reply is a page, or an address to go to.
type reply struct {
	name   string // of the template
	data   any
	to     string // "" for a page
	status int    // 0: 200
	after  int    // seconds, after which to ask again; 0: not said
}

// fault is an error that the person can mend.
type fault struct{ text string }

func (f *fault) Error() string { return f.text }

// show writes what a handler returns.
func (p *Pages) show(h func(*http.Request) (reply, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		rep, err := h(r)
		if err != nil {
			rep = p.failed(r, err)
		}
		if rep.to != "" {
			http.Redirect(w, r, rep.to, http.StatusSeeOther)
			return
		}
		p.write(w, rep)
	}
}

// write sends a page, and nothing before all of it is made.
func (p *Pages) write(w http.ResponseWriter, rep reply) {
	var text bytes.Buffer
	if err := p.templates.ExecuteTemplate(&text, rep.name, rep.data); err != nil {
		p.log.Error("page", "name", rep.name, "error", err)
		http.Error(w, door.OurFault, http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "private, no-cache")
	if rep.after > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(rep.after))
	}
	if rep.status != 0 {
		w.WriteHeader(rep.status)
	}
	w.Write(text.Bytes()) // a reader who left is no matter of ours
}

// trouble writes a page that says one sentence.
func (p *Pages) trouble(w http.ResponseWriter, _ *http.Request, status int, text string) {
	p.write(w, p.troubled(status, text))
}

// titles of the pages that say what is wrong, by status.
var titles = map[int]string{
	http.StatusNotFound: "Not found", http.StatusMethodNotAllowed: "Not so", http.StatusBadRequest: "Not understood",
	http.StatusUnprocessableEntity: "Too much for one page", http.StatusServiceUnavailable: "Not now",
	http.StatusInternalServerError: "That did not work",
}

func (p *Pages) troubled(status int, text string) reply {
	return reply{name: "swept-trouble", data: troublePage{p.frame(titles[status]), text}, status: status}
}

func (p *Pages) failed(r *http.Request, err error) reply {
	var wrong *fault
	var trouble *ask.Trouble
	if text, after, ok := door.Status(err); ok {
		rep := p.troubled(http.StatusServiceUnavailable, text)
		rep.after = after
		return rep
	}
	switch {
	case errors.As(err, &wrong):
		return p.troubled(http.StatusBadRequest, wrong.text)
	case errors.As(err, &trouble):
		return p.troubled(http.StatusBadRequest, trouble.Text)
	case errors.Is(err, ways.ErrMemory):
		return p.troubled(http.StatusUnprocessableEntity, fmt.Sprintf("Nothing was found within the memory of %d MB that one question may take. Ask for fewer failures together.", waysMegabytes))
	}
	p.log.Error("cannot answer", "path", r.URL.Path, "error", err)
	return p.troubled(http.StatusInternalServerError, door.OurFault)
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

type troublePage struct {
	frame
	Text string
}

// frame is what every page has.
type frame struct {
	Title, Aircraft, Caution string
	Refresh                  int // seconds; 0: stays
}

func (p *Pages) frame(title string) frame {
	b, _ := p.desk.Book.Build("")
	return frame{Title: title, Aircraft: b.Aircraft.Title, Caution: book.Caution}
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
		return 0, &fault{fmt.Sprintf("%s is a number from %d to %d, not %q.", part, least, most, cut(text))}
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

// unknown refuses a word that names nothing of the book.
func unknown(err error) error { return &fault{say.Sentence("there is " + err.Error())} }

// patience is how long a page waits for a sweep before it says how far it is.
const patience = 700 * time.Millisecond
