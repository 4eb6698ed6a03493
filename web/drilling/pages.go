package drilling

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/drill"
	"knockon/logbook"
	"knockon/web/frame"
)

// page is what the templates are made of.
type page struct {
	Title, Caution, Text string
	Role, Who, Flight    string
	Notice               string // of the log
	Back                 string // to the screen
	Exercises            []exercise
	Themes               []string
	Lengths              []int // minutes
	Programme            *drill.Programme
	Script               string // as JSON, of a question that came along
	Says                 string
	Inventory            string // as JSON
	Alone                bool   // the drill has no instructor
	Log                  bool   // it may be saved
	Seats                []handed
	HereOnly             bool // the address leads here from this machine alone

	Debrief   *drill.Debrief
	UpTo      string // the moment of the drill that it goes to
	Older     bool   // the drill has gone on since
	Begun     bool
	Done, All int // flights
}

func (h *Hall) render(w http.ResponseWriter, r *http.Request, status int, name string, p page) {
	p.Caution = book.Caution
	rep, err := h.frame.Page(name, p)
	if err != nil {
		rep = h.frame.Failed(r.URL.Path, err)
	} else {
		rep.Status = status
	}
	rep.Secret = true
	frame.Send(w, r, rep)
}

// failed tells what went wrong in words.
func (h *Hall) failed(w http.ResponseWriter, r *http.Request, err error) {
	status, text := h.wording(err)
	rep := h.frame.Trouble(status, text)
	rep.Secret = true
	frame.Send(w, r, rep)
}

func (h *Hall) wording(err error) (status int, text string) {
	var r *drill.Refusal
	var spoilt *drill.Spoiled
	switch {
	case errors.As(err, &spoilt):
		h.set.Log.Error("drill", "error", err)
		return http.StatusInternalServerError, fmt.Sprintf("The log of this drill is spoiled in line %d, and nothing of the drill can be shown. The file has been left as it is; the log of the server says what is wrong with it.", spoilt.Line)
	case errors.As(err, &r):
		return http.StatusBadRequest, "Refused: " + r.Text + "."
	case errors.Is(err, errNoSeat), errors.Is(err, fs.ErrNotExist):
		return http.StatusNotFound, "This address leads to no drill. It may be cut off, or the instructor has given out a new link for it."
	case errors.Is(err, errNotYours):
		return http.StatusForbidden, "This is the instructor's."
	case errors.Is(err, errNotYet):
		return http.StatusForbidden, "The debrief is the instructor's until the drill has ended."
	case errors.Is(err, errStreams):
		return http.StatusTooManyRequests, fmt.Sprintf("%d pages of this seat are open already. Shut one of them.", mostStreams)
	case errors.Is(err, errReading):
		return http.StatusServiceUnavailable, "The log of this drill is being read, which takes a while for a long one. Open this address again in a minute."
	case errors.Is(err, errFull):
		return http.StatusServiceUnavailable, fmt.Sprintf("%d drills are under way on this server, and it holds no more. One that nobody looks at is let go of after %d minutes; try again then.", h.set.Most, int(idle.Minutes()))
	case errors.Is(err, logbook.ErrEmpty):
		return http.StatusNotFound, "The log of this drill is empty: the drill was never begun."
	case errors.Is(err, logbook.ErrBusy):
		return http.StatusConflict, "Another process has the log of this drill in hand. Stop it, or go on with the drill there."
	case errors.Is(err, errClosed):
		return http.StatusServiceUnavailable, "The server is about to stop. The drill is kept, and goes on when it is started again."
	}
	wrong := h.frame.Fault("/drill/", err)
	return wrong.Status, wrong.Text
}

// start is the page on which a drill is chosen.
func (h *Hall) start(w http.ResponseWriter, r *http.Request) {
	p := page{Title: "Live a failure", Lengths: lengths}
	if q := r.URL.Query(); len(q["fail"]) == 0 {
		p.Exercises = h.exercises(r.Context())
		p.Themes = themes(p.Exercises)
	} else {
		s := scriptAsked(q)
		if err := h.understood(s); err != nil {
			h.failed(w, r, &drill.Refusal{Text: strings.TrimSuffix(err.Error(), ".")})
			return
		}
		text, _ := json.Marshal(s)
		p.Script, p.Says = string(text), h.titles(q.Get("build"), q["fail"])
	}
	h.render(w, r, http.StatusOK, "start", p)
}

// understood refuses what the book does not have, before anybody begins.
func (h *Hall) understood(s drill.Script) error {
	b, err := h.set.Book.BuildNamed(s.Build)
	if err != nil {
		return errors.New("there is " + err.Error())
	}
	if _, err := b.FlightNamed(s.Flight); err != nil {
		return errors.New("there is " + err.Error())
	}
	for _, f := range slices.Concat(s.Fail[0].What, s.Out) {
		if _, err := book.ParseFailure(f, b); err != nil {
			return err
		}
	}
	_, err = book.ParseMoment(s.Fail[0].At, b)
	return err
}

// titles names failures as a person does; what the book does not know keeps its id.
func (h *Hall) titles(build string, ids []string) string {
	names := slices.Clone(ids)
	if b, ok := h.set.Book.Build(build); ok {
		for i, id := range names {
			names[i] = b.FailureTitle(id)
		}
	}
	return strings.Join(names, ", ")
}

// scriptAsked is the script of a question in an address.
func scriptAsked(q url.Values) drill.Script {
	s := drill.Script{Build: q.Get("build"), Flight: q.Get("flight"), Out: q["out"]}
	s.Fail = []drill.Strike{{What: q["fail"], At: q.Get("at")}}
	return s
}

const mostForm = 64 << 10

// begin makes a drill and leads to it.
func (h *Hall) begin(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		h.frame.Refuse(w, r, http.StatusBadRequest, "The form could not be read.")
		return
	}
	script, err := h.chosen(r.Context(), r.Form)
	if err != nil {
		h.failed(w, r, err)
		return
	}
	who := newSeats(order...)
	switch r.Form.Get("for") {
	case "crew":
	case "alone":
		who = newSeats(drill.Alone)
	default:
		h.frame.Refuse(w, r, http.StatusBadRequest, "The form does not say whom the drill is for: for=alone or for=crew.")
		return
	}
	id, err := h.open(r.Context(), script, r.Form.Get("from") != "start", who)
	if err != nil {
		h.failed(w, r, err)
		return
	}
	to := address(id, who[drill.Alone])
	if !who.alone() {
		to = address(id, who[drill.Instructor]) + "people"
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// chosen is the script that a form asks for.
func (h *Hall) chosen(ctx context.Context, form url.Values) (s drill.Script, err error) {
	if text := form.Get("script"); text != "" {
		if err := json.Unmarshal([]byte(text), &s); err != nil {
			return s, &drill.Refusal{Why: drill.Garbage, Text: "the question that came along cannot be read"}
		}
		return s, nil
	}
	among := h.exercises(ctx)
	want := form.Get("scenario")
	if want == "" {
		most, _ := strconv.Atoi(form.Get("most"))
		return surprise(among, form.Get("theme"), most)
	}
	for _, x := range among {
		if x.ID == want {
			return x.Script, nil
		}
	}
	return s, &drill.Refusal{Why: drill.Garbage, Text: fmt.Sprintf("there is no scenario %q", want)}
}

// leadIn is how long before the first failure a drill begins, unless it begins
// with the flight.
const leadIn = 45 * book.Second

// open makes a drill and its log. Its first input lets the clock go, a little
// before the first failure: so the log alone says where it began.
func (h *Hall) open(ctx context.Context, script drill.Script, near bool, who seats) (id string, err error) {
	id = word()
	p, _, err := h.placeOf(id)
	if err != nil {
		return "", err
	}
	defer func() {
		h.group.Done()
		if close(p.ready); err != nil {
			h.forget(id, p)
		}
	}()
	s, err := h.begun(ctx, script, near)
	if err != nil {
		p.err = err
		return "", err
	}
	l := newLive(id, s, who, kept{shelf: h.set.Shelf, id: id, inputs: -1, seatsChanged: true}, h.set.Now)
	_, p.err = l.take(ctx, drill.Input{Client: house, Number: 1, Who: drill.Instructor, Do: drill.Clock, Rate: 1})
	p.live = l
	return id, p.err
}

// begun is a drill at its beginning.
func (h *Hall) begun(ctx context.Context, script drill.Script, near bool) (*drill.Session, error) {
	d, err := h.deck(script.Build, script.Flight)
	if err != nil {
		return nil, err
	}
	s, err := d.Open(ctx, script)
	if err != nil {
		return nil, err
	}
	at := book.Time(0)
	if near {
		if first, ok := firstStrike(ctx, d, script); ok {
			at = max(0, first-leadIn)
		}
	}
	return s, s.Advance(ctx, at)
}

// firstStrike is when the first failure of a script comes.
func firstStrike(ctx context.Context, d *drill.Deck, script drill.Script) (first book.Time, ok bool) {
	for _, k := range script.Fail {
		m, err := book.ParseMoment(k.At, d.Build())
		if err != nil {
			continue
		}
		if at, err := d.Course().Resolve(ctx, m); err == nil && (!ok || at < first) {
			first, ok = at, true
		}
	}
	return first, ok
}

// hereOnly says whether a host's name means the machine that asks.
func hereOnly(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	ip := net.ParseIP(strings.Trim(name, "[]"))
	return name == "localhost" || ip.IsLoopback()
}

// screen is the page of one person.
func (h *Hall) screen(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
	script := l.script()
	d, err := h.deck(script.Build, script.Flight)
	if err != nil {
		return err
	}
	inventory, _ := json.Marshal(inventoryFor(d, who))
	alone := l.seated().alone()
	p := page{Title: people[who], Role: string(who), Who: people[who], Inventory: string(inventory), Flight: d.Inventory().Flight, Alone: alone, Log: alone || who == drill.Instructor}
	if who == drill.Instructor {
		if p.Programme, err = l.programmed(r.Context(), d); err != nil {
			return err
		}
	}
	h.render(w, r, http.StatusOK, "screen", p)
	return nil
}

// programmed is the programme of a drill, worked out once.
func (l *live) programmed(ctx context.Context, d *drill.Deck) (*drill.Programme, error) {
	l.mu.Lock()
	p, script := l.programme, l.session.Script()
	l.mu.Unlock()
	if p != nil {
		return p, nil
	}
	p, err := d.Programme(ctx, script)
	l.mu.Lock()
	defer l.mu.Unlock()
	l.programme = p
	return p, err
}
