package web

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/figure/face"
	"knockon/web/door"
)

// reply is what a handler gives back.
type reply struct {
	status int // 0: 200
	kind   string
	body   []byte
	name   string // of the file that it is saved as; "" to show it
	fixed  bool   // it never changes under this address
	after  int    // seconds, after which to ask again; 0: not said
}

// Kinds of reply.
const (
	kindHTML = "text/html; charset=utf-8"
	kindSVG  = "image/svg+xml"
	kindJSON = "application/json"
)

// svgFile is a picture as a file, which brings its fonts along.
func svgFile(svg, name string) reply {
	return reply{kind: kindSVG, body: []byte(face.Alone(svg)), name: name}
}

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
		rep, err := h(r)
		if err != nil {
			rep = s.failed(r, err)
		}
		send(w, r, rep)
	})
}

// pricing lets prices in: one takes a second or more.
var pricing = door.Setting{AtWork: 2, Waiting: 40, Patience: 20 * time.Second, Limit: 30 * time.Second}

// queued is a handler behind the door of the prices.
func (s *Site) queued(h handler) http.Handler {
	return s.handle(func(r *http.Request) (rep reply, err error) {
		err = s.pricing.Do(r.Context(), func(ctx context.Context) (err error) {
			rep, err = h(r.WithContext(ctx))
			return err
		})
		return rep, err
	})
}

// failed maps an error to a page.
func (s *Site) failed(r *http.Request, err error) reply {
	var f *fault
	var trouble *ask.Trouble
	if text, after, ok := door.Status(err); ok {
		rep := s.trouble(&fault{http.StatusServiceUnavailable, text})
		rep.after = after
		return rep
	}
	switch {
	case errors.As(err, &f):
		return s.trouble(f)
	case errors.As(err, &trouble):
		return s.trouble(&fault{http.StatusBadRequest, trouble.Text})
	case errors.Is(err, context.DeadlineExceeded):
		return s.trouble(&fault{http.StatusServiceUnavailable, "The answer took too long."})
	}
	s.setting.Log.Error("cannot answer", "path", r.URL.Path, "error", err)
	return s.trouble(&fault{http.StatusInternalServerError, door.OurFault})
}

// trouble is the page of a fault.
func (s *Site) trouble(f *fault) reply {
	rep, err := s.render("trouble", troublePage{s.shelves[0].title(), book.Caution, f.text})
	if err != nil {
		return reply{status: f.status, kind: "text/plain; charset=utf-8", body: []byte(f.text)}
	}
	rep.status = f.status
	return rep
}

// refuse writes the page of a fault.
func (s *Site) refuse(w http.ResponseWriter, r *http.Request, status int, text string) {
	send(w, r, s.trouble(&fault{status, text}))
}

// troublePage is a page that says what went wrong.
type troublePage struct{ Aircraft, Caution, Text string }

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
	if rep.after > 0 {
		h.Set("Retry-After", strconv.Itoa(rep.after))
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

// mostBody bounds the bytes that a request brings along.
const mostBody = 1 << 20

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
			s.refuse(w, r, http.StatusMisdirectedRequest, "This server does not answer to that name. Use its address in numbers.")
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
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

// ours refuses what a page of another site sends here. Reading changes nothing
// and is allowed to all.
func (s *Site) ours(next http.Handler) http.Handler {
	check := http.NewCrossOriginProtection()
	check.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.refuse(w, r, http.StatusForbidden, "That was sent from a page of another site. Begin it on a page of this server.")
	}))
	return check.Handler(next)
}
