package web

import (
	"context"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"slices"
	"strings"
	"time"

	"knockon/figure/face"
	"knockon/web/door"
	"knockon/web/frame"
)

// What a handler gives back, and an error with its status (package frame).
type (
	reply   = frame.Reply
	fault   = frame.Fault
	handler = frame.Handler
)

// Kinds of reply, beside frame.HTML.
const (
	kindSVG  = "image/svg+xml"
	kindJSON = "application/json"
)

// svgFile is a picture as a file, which brings its fonts along.
func svgFile(svg, name string) reply {
	return reply{Kind: kindSVG, Body: []byte(face.Alone(svg)), Name: name}
}

// pricing lets prices in: one takes a second or more.
var pricing = door.Setting{AtWork: 2, Waiting: 40, Patience: 20 * time.Second, Limit: 30 * time.Second}

// varying lets other runs in: those of one answer take up to three seconds, what saves
// its gravest loss up to six.
var varying = door.Setting{AtWork: 2, Waiting: 40, Patience: 20 * time.Second, Limit: 30 * time.Second}

// queued is a handler behind the door of the prices.
func (s *Site) queued(h handler) http.Handler { return s.behind(&s.pricing, h) }

// behind is a handler behind a door of the site, whichever stands there when it is asked.
func (s *Site) behind(d **door.Door, h handler) http.Handler {
	return s.frame.Handle(func(r *http.Request) (rep reply, err error) {
		err = (*d).Do(r.Context(), func(ctx context.Context) (err error) {
			rep, err = h(r.WithContext(ctx))
			return err
		})
		return rep, err
	})
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
			s.frame.Refuse(w, r, http.StatusMisdirectedRequest, "This server does not answer to that name. Use its address in numbers.")
			return
		}
		// A part that is cut off must not be left out in silence: what is then
		// asked is another, milder question.
		if _, err := url.ParseQuery(r.URL.RawQuery); err != nil {
			s.frame.Refuse(w, r, http.StatusBadRequest, "This address is broken, perhaps cut off: "+err.Error()+". Copy the whole of it.")
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
		s.frame.Refuse(w, r, http.StatusForbidden, "That was sent from a page of another site. Begin it on a page of this server.")
	}))
	return check.Handler(next)
}
