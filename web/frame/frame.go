// Package frame is what all rooms of the site have in common: it turns what a
// handler gives back, or its error, into a reply with its headers, and what went
// wrong into a page that says so under the caution.
//
// Invariant: nothing is written before all of a page is made, and an error that
// no room has words for is in the log and answered with one sentence.
//
// Start reading at Frame.Handle.
package frame

import (
	"bytes"
	"context"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"path"
	"strconv"

	"knockon/ask"
	"knockon/book"
	"knockon/web/door"
)

// Reply is what a handler gives back.
type Reply struct {
	Status int // 0: 200
	Kind   string
	Body   []byte
	To     string // an address to go to instead
	Name   string // of the file that it is saved as; "" to show it
	Fixed  bool   // it never changes under this address
	Secret bool   // nobody on the way keeps it
	After  int    // seconds, after which to ask again; 0: not said
}

// HTML is the kind of a page.
const HTML = "text/html; charset=utf-8"

// Fault is an error with its status and what to tell the person.
type Fault struct {
	Status int
	Text   string
}

func (f *Fault) Error() string { return f.Text }

// Wrong is a fault of the question.
func Wrong(format string, args ...any) error {
	return &Fault{http.StatusBadRequest, fmt.Sprintf(format, args...)}
}

// Handler answers a request.
type Handler func(*http.Request) (Reply, error)

// Frame makes the pages of one room.
type Frame struct {
	Aircraft  string
	Rooms     []Room // the line of contents on every page
	log       *slog.Logger
	words     func(error) *Fault
	templates *template.Template
}

//go:embed templates
var files embed.FS

// Room is a place of the site.
type Room struct{ To, Title string }

// rooms are all places that a person begins at.
var rooms = []Room{
	{"/", "Front page"}, {"/ask", "One failure"}, {"/beside", "Side by side"}, {"/sweep", "All that can fail"}, {"/ways", "Ways to lose a function"},
	{"/assess", "Objectives"}, {"/dispatch", "May it go"}, {"/drill/", "Live it"},
}

// New makes the frame of a room of its templates; words says what its own errors
// mean, nil for one that it does not know. A nil log drops what goes wrong.
func New(b *book.Book, log *slog.Logger, words func(error) *Fault, funcs template.FuncMap, pages fs.FS) (*Frame, error) {
	build, _ := b.Build("")
	f := &Frame{Aircraft: build.Aircraft.Title, Rooms: rooms, log: Logger(log), words: words}
	own := template.FuncMap{"contents": func() []Room { return f.Rooms }}
	t, err := template.New("").Funcs(own).Funcs(funcs).ParseFS(files, "templates/*.html")
	if err == nil {
		t, err = t.ParseFS(pages, "templates/*.html")
	}
	f.templates = t
	return f, err
}

// Logger is a log, or one that drops everything.
func Logger(log *slog.Logger) *slog.Logger {
	if log == nil {
		return slog.New(slog.DiscardHandler)
	}
	return log
}

// Page makes a page of a template.
func (f *Frame) Page(name string, data any) (Reply, error) {
	var b bytes.Buffer
	if err := f.templates.ExecuteTemplate(&b, name, data); err != nil {
		return Reply{}, fmt.Errorf("web: page %s: %w", name, err)
	}
	return Reply{Kind: HTML, Body: b.Bytes()}, nil
}

// static are the kinds of the files of a room.
var static = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8"}

// Static answers with a file of a room by the name in its address.
func Static(files fs.FS) Handler {
	return func(r *http.Request) (Reply, error) {
		name := path.Base(r.URL.Path)
		text, err := fs.ReadFile(files, path.Join("static", name))
		if err != nil {
			return Reply{}, &Fault{http.StatusNotFound, "There is no file at this address."}
		}
		return Reply{Kind: static[path.Ext(name)], Body: text}, nil
	}
}

// Handle writes what a handler gives back.
func (f *Frame) Handle(h Handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		rep, err := h(r)
		if err != nil {
			rep = f.Failed(r.URL.Path, err)
		}
		Send(w, r, rep)
	}
}

// Failed is the page of an error.
func (f *Frame) Failed(path string, err error) Reply {
	wrong := f.Fault(path, err)
	rep := f.Trouble(wrong.Status, wrong.Text)
	_, rep.After, _ = door.Status(err)
	return rep
}

// Fault says what an error means to the person.
func (f *Frame) Fault(path string, err error) *Fault {
	var wrong *Fault
	var trouble *ask.Trouble
	text, _, full := door.Status(err)
	switch {
	case full:
		return &Fault{http.StatusServiceUnavailable, text}
	case errors.As(err, &wrong):
		return wrong
	case errors.As(err, &trouble):
		return &Fault{http.StatusBadRequest, trouble.Text}
	}
	if f.words != nil {
		if wrong = f.words(err); wrong != nil {
			return wrong
		}
	}
	if errors.Is(err, context.DeadlineExceeded) {
		return &Fault{http.StatusServiceUnavailable, "The answer took too long."}
	}
	f.log.Error("cannot answer", "path", path, "error", err)
	return &Fault{http.StatusInternalServerError, door.OurFault}
}

// titles of the pages that say what is wrong, by status.
var titles = map[int]string{
	http.StatusNotFound: "Not found", http.StatusMethodNotAllowed: "Not so", http.StatusBadRequest: "Not understood",
	http.StatusUnprocessableEntity: "Too much for one page", http.StatusServiceUnavailable: "Not now",
}

// Trouble is a page that says one sentence.
func (f *Frame) Trouble(status int, text string) Reply {
	title, ok := titles[status]
	if !ok {
		title = "That did not work"
	}
	rep, err := f.Page("trouble", struct{ Title, Aircraft, Caution, Text string }{title, f.Aircraft, book.Caution, text})
	if err != nil {
		rep = Reply{Kind: "text/plain; charset=utf-8", Body: []byte(text)}
	}
	rep.Status = status
	return rep
}

// Refuse writes such a page.
func (f *Frame) Refuse(w http.ResponseWriter, r *http.Request, status int, text string) {
	Send(w, r, f.Trouble(status, text))
}

// Send writes a reply.
func Send(w http.ResponseWriter, r *http.Request, rep Reply) {
	if rep.To != "" {
		http.Redirect(w, r, rep.To, http.StatusSeeOther)
		return
	}
	if rep.Status == 0 {
		rep.Status = http.StatusOK
	}
	head(w.Header(), rep)
	if rep.Status == http.StatusOK && !rep.Secret {
		sum := sha256.Sum256(rep.Body)
		tag := `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`
		w.Header().Set("ETag", tag)
		if r.Header.Get("If-None-Match") == tag {
			w.WriteHeader(http.StatusNotModified)
			return
		}
	}
	w.WriteHeader(rep.Status)
	if r.Method != http.MethodHead {
		w.Write(rep.Body) // a reader who left is no matter of ours
	}
}

func head(h http.Header, rep Reply) {
	h.Set("Content-Type", rep.Kind)
	switch {
	case rep.Secret:
		h.Set("Cache-Control", "private, no-store")
	case rep.Fixed:
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	default:
		h.Set("Cache-Control", "private, no-cache")
	}
	if rep.Name != "" {
		h.Set("Content-Disposition", `attachment; filename="`+rep.Name+`"`)
	}
	if rep.After > 0 {
		h.Set("Retry-After", strconv.Itoa(rep.After))
	}
}
