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
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/say"
)

//go:embed templates static
var files embed.FS

// Pages serves everything under /sweep and /ways. It may be used from many
// goroutines.
type Pages struct {
	desk      *ask.Desk
	templates *template.Template
	mux       *http.ServeMux
	jobs      *jobs
	stills    *stills
}

// New makes the pages of a desk's book. Close ends the sweeps under way.
func New(desk *ask.Desk) (*Pages, error) {
	t, err := template.New("").ParseFS(files, "templates/*.html")
	if err != nil {
		return nil, err
	}
	p := &Pages{desk: desk, templates: t, mux: http.NewServeMux(), jobs: newJobs(), stills: newStills()}
	p.mux.HandleFunc("GET /sweep", p.show(p.sweep))
	p.mux.HandleFunc("GET /sweep/cell", p.show(p.cell))
	p.mux.HandleFunc("POST /sweep/stop", p.show(p.stop))
	p.mux.HandleFunc("POST /sweep/go", p.show(p.goOn))
	p.mux.HandleFunc("GET /sweep/swept.css", p.style)
	p.mux.HandleFunc("GET /ways", p.show(p.ways))
	return p, nil
}

// Close ends the sweeps under way and waits for them.
func (p *Pages) Close() { p.jobs.close() }

// Mounts gives the beginnings of the addresses that these pages answer, for
// web.Setting.More.
func (p *Pages) Mounts() map[string]http.Handler {
	return map[string]http.Handler{"/sweep": p, "/sweep/": p, "/ways": p}
}

// ServeHTTP answers one request.
func (p *Pages) ServeHTTP(w http.ResponseWriter, r *http.Request) { p.mux.ServeHTTP(w, r) }

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
}

// fault is an error that the person can mend.
type fault struct{ text string }

func (f *fault) Error() string { return f.text }

// show writes what a handler returns, and nothing before all of it is made.
func (p *Pages) show(h func(*http.Request) (reply, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		rep, err := h(r)
		if err != nil {
			rep = p.failed(err)
		}
		if rep.to != "" {
			http.Redirect(w, r, rep.to, http.StatusSeeOther)
			return
		}
		var text bytes.Buffer
		if err := p.templates.ExecuteTemplate(&text, rep.name, rep.data); err != nil {
			http.Error(w, "Something went wrong in the program itself.", http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("Cache-Control", "private, no-cache")
		if rep.status != 0 {
			w.WriteHeader(rep.status)
		}
		w.Write(text.Bytes()) // a reader who left is no matter of ours
	}
}

func (p *Pages) failed(err error) reply {
	status, text := http.StatusInternalServerError, err.Error()
	var wrong *fault
	var trouble *ask.Trouble
	switch {
	case errors.As(err, &wrong):
		status = http.StatusBadRequest
	case errors.As(err, &trouble):
		status, text = http.StatusBadRequest, trouble.Text
	}
	return reply{name: "swept-trouble", data: troublePage{p.frame("Not understood"), text}, status: status}
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

// known refuses a word that is not in a list.
func known(what, id string, list []option) error {
	if slices.ContainsFunc(list, func(o option) bool { return o.ID == id }) {
		return nil
	}
	var ids []string
	for _, o := range list {
		ids = append(ids, o.ID)
	}
	return &fault{say.Sentence("there is " + say.No(what, cut(id), ids))}
}

// patience is how long a page waits for a sweep before it says how far it is.
const patience = 700 * time.Millisecond
