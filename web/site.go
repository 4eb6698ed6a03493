// Package web turns questions in addresses into pages: the question, its
// answer, and why each row of it is so.
//
// Invariant: a page is a pure function of the book and the address (but for how
// many moves /rescue looked for in its time, which it says); the server
// keeps nothing but answers that it could work out again. Every handler
// returns a value, and respond.go alone writes it, maps errors to status codes
// and sets the headers.
//
// Start reading at New, then page.go. The pictures are package figure's; the
// words of the rows are package ledger's.
package web

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"net/url"
	"slices"
	"sync"
	"time"

	"knockon/ask"
	"knockon/figure/layout/child"
	"knockon/find"
	"knockon/first"
	"knockon/region"
	"knockon/web/door"
	"knockon/web/frame"
)

// Setting of a site. The zero value works.
type Setting struct {
	// Opening is the question that the bare address answers, as the query of
	// an address: "fail=tr_right&at=climb". "" answers none.
	Opening string
	// Layout places the pictures of chains; nil places them in the plain way.
	Layout *child.Engine
	// Hosts are names under which this site may be reached beside localhost
	// and any address in numbers. Another name in a request's Host is refused:
	// it is how a foreign page would reach a server on this machine.
	Hosts []string
	// Region is where the flights may turn to; nil leaves out what it costs.
	Region *region.Region
	// More are handlers of further rooms, by the beginning of their addresses:
	// "/drill/".
	More map[string]http.Handler
	// Log takes what goes wrong in the server itself; nil drops it.
	Log *slog.Logger
}

// Site serves the pages of some books. It may be used from many goroutines.
type Site struct {
	setting Setting
	shelves []*shelf
	opening url.Values
	frame   *frame.Frame
	static  *assets
	handler http.Handler
	prices  *priceKeeper
	pricing *door.Door
	proofs  keptProofs

	varying *door.Door

	rescueWithin time.Duration // how long a page looks for sets of two moves
	variedWithin time.Duration // how long it flies other runs
	savedWithin  time.Duration // how long it looks for what saves the gravest loss
}

// shelf is one book with what is kept of it.
type shelf struct {
	id    string // the aircraft's
	first bool   // the book of an address that names none
	desk  *ask.Desk
	kept  *keeper
	lists *catalogues
	names *find.Index

	opening sync.Mutex
	opens   []first.Question // to begin with; nil: not worked out yet
}

// New returns the site of one or more books; the first is the one used when an
// address names none. It fails if there is no book, two are of the same
// aircraft, or the setting's opening cannot be asked.
func New(set Setting, desks ...*ask.Desk) (*Site, error) {
	set.Log = frame.Logger(set.Log)
	s := &Site{setting: set, prices: newPriceKeeper(), pricing: door.New(pricing), varying: door.New(varying),
		rescueWithin: rescueWithin, variedWithin: variedWithin, savedWithin: savedWithin}
	for _, d := range desks {
		if set.Region != nil {
			d.Over(set.Region)
		}
		b, _ := d.Book.Build("")
		if s.shelf(b.Aircraft.ID) != nil {
			return nil, errors.New("web: two books describe the aircraft " + b.Aircraft.ID)
		}
		s.shelves = append(s.shelves, &shelf{id: b.Aircraft.ID, first: len(s.shelves) == 0, desk: d, kept: newKeeper(d), lists: newCatalogues(), names: find.New(d.Book)})
	}
	if len(s.shelves) == 0 {
		return nil, errors.New("web: no book to show")
	}
	if err := s.prepare(); err != nil {
		return nil, err
	}
	return s, s.open()
}

// open asks the opening question, so that a wrong one is found before anyone
// comes, and the first to come does not wait.
func (s *Site) open() error {
	if s.setting.Opening == "" {
		return nil
	}
	values, err := url.ParseQuery(s.setting.Opening)
	if err != nil {
		return errors.New("web: the opening question: " + err.Error())
	}
	q := s.parse(values)
	if len(q.Problems) > 0 {
		return errors.New("web: the opening question: " + q.Problems[0].Text)
	}
	if _, err := q.shelf.kept.answer(context.Background(), q.typed()); err != nil {
		return errors.New("web: the opening question: " + err.Error())
	}
	s.opening = values
	return nil
}

func (s *Site) prepare() (err error) {
	if s.static, err = loadAssets(); err != nil {
		return err
	}
	if s.frame, err = newFrame(s.shelves[0].desk.Book, s.setting.Log, s.static); err != nil {
		return err
	}
	s.frame.Rooms = s.rooms()
	s.handler = s.routes()
	return nil
}

// rooms are the places of the site that are there.
func (s *Site) rooms() []frame.Room {
	return slices.DeleteFunc(slices.Clone(s.frame.Rooms), func(r frame.Room) bool {
		elsewhere := !slices.Contains([]string{"/", "/ask", "/beside"}, r.To)
		return elsewhere && s.setting.More[r.To] == nil
	})
}

// shelf finds a book by its aircraft; nil if there is none.
func (s *Site) shelf(id string) *shelf {
	for _, sh := range s.shelves {
		if sh.id == id {
			return sh
		}
	}
	return nil
}

// routes is the whole site.
func (s *Site) routes() http.Handler {
	mux := http.NewServeMux()
	mux.Handle("GET /{$}", s.frame.Handle(s.page))
	mux.Handle("GET /ask", s.frame.Handle(s.page))
	mux.Handle("GET /find", s.frame.Handle(s.find))
	mux.Handle("GET /find.json", s.frame.Handle(s.findJSON))
	mux.Handle("GET /beside", s.frame.Handle(s.besides))
	mux.Handle("GET /beside.json", s.frame.Handle(s.besidesJSON))
	mux.Handle("GET /snapshot", s.frame.Handle(s.snapshots))
	mux.Handle("GET /snapshot.json", s.frame.Handle(s.snapshotsJSON))
	mux.Handle("GET /answer", s.frame.Handle(s.fragment))
	mux.Handle("GET /answer.json", s.frame.Handle(s.json))
	mux.Handle("GET /why", s.frame.Handle(s.why))
	mux.Handle("GET /why.svg", s.frame.Handle(s.whyPicture))
	mux.Handle("GET /line.svg", s.frame.Handle(s.linePicture))
	mux.Handle("GET /crew", s.queued(s.crews))
	mux.Handle("GET /crew.json", s.queued(s.crewsJSON))
	mux.Handle("GET /alike", s.queued(s.alike))
	mux.Handle("GET /alike.json", s.queued(s.alikeJSON))
	mux.Handle("GET /rescue", s.queued(s.rescue))
	mux.Handle("GET "+pictureOfRescue, s.queued(s.rescue))
	mux.Handle("GET /handout", s.behind(&s.varying, s.handout))
	mux.Handle("GET /handout.html", s.behind(&s.varying, s.handoutFile))
	mux.Handle("GET /vary", s.behind(&s.varying, s.varies))
	mux.Handle("GET /vary.json", s.behind(&s.varying, s.variesJSON))
	mux.Handle("GET /vary/part", s.behind(&s.varying, s.variesPart))
	mux.Handle("GET /vary/rescue", s.behind(&s.varying, s.variesRescue))
	if s.setting.Region != nil {
		mux.Handle("GET /costs", s.queued(s.costs))
		mux.Handle("GET /costs/part", s.queued(s.costsPart))
		mux.Handle("GET /costs.json", s.queued(s.costsJSON))
		mux.Handle("GET /costs/until", s.queued(s.costsUntil))
		mux.Handle("GET /costs/until.json", s.queued(s.costsUntilJSON))
		mux.Handle("GET /costs/{file}", s.queued(s.costsPicture))
	}
	for prefix, more := range s.setting.More {
		mux.Handle(prefix, more)
	}
	mux.Handle("GET /static/{name}", s.frame.Handle(s.static.serve))
	return s.guard(s.ours(door.Caught(s.setting.Log, s.frame.Refuse, door.Framed(s.frame.Refuse, mux))))
}

// ServeHTTP answers one request.
func (s *Site) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }
