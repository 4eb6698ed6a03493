package web

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"runtime/debug"
	"slices"
	"strings"

	"knockon/ask"
)

// reply is what a handler gives back.
type reply struct {
	status int // 0: 200
	kind   string
	body   []byte
	name   string // of the file that it is saved as; "" to show it
	fixed  bool   // it never changes under this address
}

// Kinds of reply.
const (
	kindHTML = "text/html; charset=utf-8"
	kindSVG  = "image/svg+xml"
	kindJSON = "application/json"
)

// fault is an error with its status and what to tell the person.
type fault struct {
	status int
	text   string
}

func (f *fault) Error() string { return f.text }

type handler func(*http.Request) (reply, error)

// handle writes what a handler returns.
func (s *Site) handle(h handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		rep, err := s.call(h, r)
		if err != nil {
			rep = s.failed(r, err)
		}
		send(w, r, rep)
	})
}

// call runs a handler; a panic is an error of ours, not the end of the server.
func (s *Site) call(h handler, r *http.Request) (rep reply, err error) {
	defer func() {
		if p := recover(); p != nil {
			s.setting.Log.Error("panic", "path", r.URL.Path, "panic", p, "stack", string(debug.Stack()))
			err = errors.New("panic")
		}
	}()
	return h(r)
}

// caught serves another room's handler; a panic in it is an error of ours.
func (s *Site) caught(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if p := recover(); p != nil && p != http.ErrAbortHandler {
				s.setting.Log.Error("panic", "path", r.URL.Path, "panic", p, "stack", string(debug.Stack()))
				http.Error(w, "Something went wrong in the program itself.", http.StatusInternalServerError)
			}
		}()
		h.ServeHTTP(w, r)
	})
}

// failed maps an error to a page.
func (s *Site) failed(r *http.Request, err error) reply {
	f := &fault{http.StatusInternalServerError, "Something went wrong in the program itself. The log of the server says what."}
	var trouble *ask.Trouble
	switch {
	case errors.As(err, &f):
	case errors.As(err, &trouble):
		f = &fault{http.StatusBadRequest, trouble.Text}
	case errors.Is(err, context.Canceled):
		f = &fault{http.StatusServiceUnavailable, "The question was taken back."}
	case errors.Is(err, context.DeadlineExceeded):
		f = &fault{http.StatusServiceUnavailable, "The answer took too long."}
	default:
		s.setting.Log.Error("cannot answer", "path", r.URL.Path, "error", err)
	}
	rep, err := s.render("trouble", troublePage{s.shelves[0].title(), f.text})
	if err != nil {
		return reply{status: f.status, kind: "text/plain; charset=utf-8", body: []byte(f.text)}
	}
	rep.status = f.status
	return rep
}

// troublePage is a page that says what went wrong.
type troublePage struct{ Aircraft, Text string }

func send(w http.ResponseWriter, r *http.Request, rep reply) {
	if rep.status == 0 {
		rep.status = http.StatusOK
	}
	h := w.Header()
	h.Set("Content-Type", rep.kind)
	h.Set("Cache-Control", "private, no-cache")
	if rep.fixed {
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	}
	if rep.name != "" {
		h.Set("Content-Disposition", `attachment; filename="`+rep.name+`"`)
	}
	if rep.status == http.StatusMethodNotAllowed {
		h.Set("Allow", "GET, HEAD")
	}
	if rep.status == http.StatusOK {
		sum := sha256.Sum256(rep.body)
		tag := `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`
		h.Set("ETag", tag)
		if r.Header.Get("If-None-Match") == tag {
			w.WriteHeader(http.StatusNotModified)
			return
		}
	}
	w.WriteHeader(rep.status)
	if r.Method != http.MethodHead {
		w.Write(rep.body) // a reader who left is no matter of ours
	}
}

// policy lets a page use what this site serves and nothing else: no inline
// script or style, no frame around it.
const policy = "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'"

// guard sets the headers that all replies have, and refuses requests that come
// under a name which is not ours.
func (s *Site) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if !s.ourHost(r.Host) {
			http.Error(w, "This server does not answer to that name. Use its address in numbers.", http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// ourHost allows localhost, addresses in numbers (a foreign page cannot make
// one lead here) and the names of the setting.
func (s *Site) ourHost(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	if _, err := netip.ParseAddr(name); err == nil || name == "localhost" {
		return true
	}
	return slices.ContainsFunc(s.setting.Hosts, func(h string) bool { return strings.EqualFold(h, name) })
}

// lost answers an address that is none.
func (s *Site) lost(r *http.Request) (reply, error) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		return reply{}, &fault{http.StatusMethodNotAllowed, "These pages can be read, and nothing else."}
	}
	return reply{}, &fault{http.StatusNotFound, "There is no page at this address."}
}
