package door

import (
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"
)

// Page writes a page with a status that says one sentence.
type Page func(w http.ResponseWriter, r *http.Request, status int, text string)

// OurFault is what a person is told of a slip of the program.
const OurFault = "Something went wrong in the program itself. The log of the server says what."

// Caught serves a handler. A panic in it is written to the log and answered
// with a page; where part of a reply has gone out already the connection is cut,
// so that nobody takes the part for the whole.
func Caught(log *slog.Logger, page Page, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		seen := &watched{ResponseWriter: w}
		defer func() {
			p := recover()
			if p == nil {
				return
			}
			if p != http.ErrAbortHandler {
				log.Error("panic", "path", r.URL.Path, "panic", p, "stack", string(debug.Stack()))
			}
			if seen.begun || p == http.ErrAbortHandler {
				panic(http.ErrAbortHandler)
			}
			page(w, r, http.StatusInternalServerError, OurFault)
		}()
		next.ServeHTTP(seen, r)
	})
}

// watched knows whether a reply has begun.
type watched struct {
	http.ResponseWriter
	begun bool
}

func (w *watched) WriteHeader(status int) {
	w.begun = true
	w.ResponseWriter.WriteHeader(status)
}

func (w *watched) Write(b []byte) (int, error) {
	w.begun = true
	return w.ResponseWriter.Write(b)
}

// Unwrap lets a stream set its deadlines and flush.
func (w *watched) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// Framed serves a mux whose own replies to an address that is none (404) and to
// a wrong method (405, with Allow) become pages.
func Framed(page Page, mux *http.ServeMux) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		refuse, pattern := mux.Handler(r)
		if pattern != "" {
			mux.ServeHTTP(w, r)
			return
		}
		said := &heading{header: http.Header{}}
		refuse.ServeHTTP(said, r)
		if allow := said.header.Get("Allow"); allow != "" {
			w.Header().Set("Allow", allow)
		}
		switch said.status {
		case http.StatusNotFound:
			page(w, r, said.status, "There is no page at this address.")
		case http.StatusMethodNotAllowed:
			page(w, r, said.status, fmt.Sprintf("This address takes %s, not %.20s.", said.header.Get("Allow"), r.Method))
		default:
			refuse.ServeHTTP(w, r)
		}
	})
}

// heading keeps the status and the header of a reply and drops its text.
type heading struct {
	header http.Header
	status int
}

func (h *heading) Header() http.Header { return h.header }

func (h *heading) WriteHeader(status int) { h.status = status }

func (h *heading) Write(b []byte) (int, error) { return len(b), nil }

// Slip turns a panic into an error, for work on a goroutine of its own, where
// nothing else would catch it: defer door.Slip(&err).
func Slip(err *error) {
	if p := recover(); p != nil {
		*err = errors.Join(*err, fmt.Errorf("panic: %v\n%s", p, debug.Stack()))
	}
}
