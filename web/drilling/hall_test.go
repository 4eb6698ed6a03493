package drilling_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"knockon/ask"
	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/logbook"
	"knockon/run"
	"knockon/web"
	"knockon/web/drilling"
)

// watch is a clock that goes on when a test says so, and a little whenever it is
// read, if it ticks: what is moved stands there a microsecond later.
type watch struct {
	mu   sync.Mutex
	at   time.Time
	tick time.Duration
}

func (w *watch) now() time.Time {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.at = w.at.Add(w.tick)
	return w.at
}

func (w *watch) pass(d time.Duration) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.at = w.at.Add(d)
}

// room is a hall with its folder, its clock and the site around it.
type room struct {
	testing.TB
	dir    string
	shelf  drilling.Shelf // nil: the folder
	most   int
	waits  time.Duration
	over   run.Router
	watch  *watch
	hall   *drilling.Hall
	server *httptest.Server
	shut   func()
}

func enter(t testing.TB, dir string) *room {
	t.Helper()
	r := &room{TB: t, dir: dir, watch: &watch{at: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)}}
	r.open()
	return r
}

// open opens the hall, again if it was shut.
func (r *room) open() {
	r.Helper()
	b, err := corvane.Load()
	if err != nil {
		r.Fatal(err)
	}
	shelf := r.shelf
	if shelf == nil {
		if shelf, err = logbook.Open(r.dir); err != nil {
			r.Fatal(err)
		}
	}
	if r.hall, err = drilling.New(drilling.Setting{Book: b, Shelf: shelf, Over: r.over, Now: r.watch.now, Most: r.most, Patience: r.waits}); err != nil {
		r.Fatal(err)
	}
	site, err := web.New(web.Setting{More: map[string]http.Handler{"/drill/": r.hall}}, ask.NewDesk(b))
	if err != nil {
		r.Fatal(err)
	}
	server, hall := httptest.NewServer(site), r.hall
	r.server = server
	r.shut = sync.OnceFunc(func() {
		server.CloseClientConnections()
		if err := hall.Close(); err != nil {
			r.Error(err)
		}
		server.Close()
	})
	r.Cleanup(r.shut)
}

// left is the demonstration failure of these tests.
var left = drill.Script{Flight: "northern_link", Fail: []drill.Strike{{What: []string{"gen_left"}, At: "cruise + 60 s"}}}

// of is a drill: the address of each seat, without an end stroke.
type of map[drill.Role]string

// begin begins a drill for a crew.
func (r *room) begin(s drill.Script) of {
	r.Helper()
	return r.begun(s, "crew")
}

// begun begins a drill for a crew or for one alone.
func (r *room) begun(s drill.Script, who string) of {
	r.Helper()
	seats, err := beginAt(r.server.URL, s, who)
	if err != nil {
		r.Fatal(err)
	}
	return seats
}

// stay is a client that follows no redirect.
var stay = http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}

var linked = regexp.MustCompile(`<dt id="(\w+)">[^<]*</dt>\s*<dd><a class="join" href="http://[^/]*(/drill/of/[a-z0-9]+/[a-z0-9]+)/">`)

func beginAt(server string, s drill.Script, who string) (of, error) {
	text, err := json.Marshal(s)
	if err != nil {
		return nil, err
	}
	reply, err := stay.PostForm(server+"/drill/new", url.Values{"script": {string(text)}, "from": {"near"}, "for": {who}})
	if err != nil {
		return nil, err
	}
	body, _ := io.ReadAll(reply.Body)
	reply.Body.Close()
	to := reply.Header.Get("Location")
	if reply.StatusCode != http.StatusSeeOther || !strings.HasPrefix(to, "/drill/of/") {
		return nil, fmt.Errorf("%s to %q: %s", reply.Status, to, body)
	}
	if who == "alone" {
		return of{drill.Alone: strings.TrimSuffix(to, "/")}, nil
	}
	return peopleOf(server + to)
}

// peopleOf reads the seats off the instructor's page.
func peopleOf(address string) (of, error) {
	reply, err := http.Get(address)
	if err != nil {
		return nil, err
	}
	defer reply.Body.Close()
	page, err := io.ReadAll(reply.Body)
	seats := of{}
	for _, m := range linked.FindAllSubmatch(page, -1) {
		seats[drill.Role(m[1])] = string(m[2])
	}
	if len(seats) != 4 {
		return nil, fmt.Errorf("the page of the seats: %s", page)
	}
	return seats, err
}

// get gives the status and the body of an address.
func (r *room) get(address string) (int, string) {
	r.Helper()
	return r.ask("GET", address, "")
}

// post sends a body as an input of a seat.
func (r *room) post(seat, body string) (int, string) {
	r.Helper()
	return r.ask("POST", seat+"/input", body)
}

// ask gives the status and the body of a request.
func (r *room) ask(method, address, body string) (int, string) {
	r.Helper()
	ask, err := http.NewRequest(method, r.server.URL+address, strings.NewReader(body))
	if err != nil {
		r.Fatal(err)
	}
	if strings.HasPrefix(body, "form:") {
		ask.Body = io.NopCloser(strings.NewReader(strings.TrimPrefix(body, "form:")))
		ask.ContentLength = int64(len(body) - len("form:"))
		ask.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	reply, err := stay.Do(ask)
	if err != nil {
		r.Fatal(err)
	}
	defer reply.Body.Close()
	text, err := io.ReadAll(reply.Body)
	if err != nil {
		r.Fatal(err)
	}
	return reply.StatusCode, string(text) + reply.Header.Get("Location")
}

// send sends an input that must be taken, from the seat of who does it.
func (r *room) send(seats of, in drill.Input) drill.Ack {
	r.Helper()
	ack, _ := r.sent(seats, in)
	return ack
}

// sent gives the notice too.
func (r *room) sent(seats of, in drill.Input) (ack drill.Ack, notice string) {
	r.Helper()
	seat := seats[in.Who]
	in.Who = ""
	line, _ := json.Marshal(in)
	status, text := r.post(seat, string(line))
	var said struct {
		drill.Ack
		Notice string
	}
	if err := json.Unmarshal([]byte(text), &said); err != nil || status != http.StatusOK {
		r.Fatalf("%s: %d %s", line, status, text)
	}
	return said.Ack, said.Notice
}

var everybody = []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Alone, drill.Instructor}

// screens is what everyone sees, as bytes.
func (r *room) screens(seats of) string {
	r.Helper()
	var all strings.Builder
	for _, who := range everybody {
		status, body := r.get(seats[who] + "/now")
		if status != http.StatusOK {
			r.Fatalf("%s: %d %s", who, status, body)
		}
		all.WriteString(body + "\n")
	}
	return all.String()
}

// inputs are the inputs in a drill's log but those of the server itself.
func (r *room) inputs(seats of) (list []drill.Input) {
	r.Helper()
	_, body := r.get(seats[drill.Instructor] + "/log")
	for i, line := range bytes.Split([]byte(strings.TrimSpace(body)), []byte("\n")) {
		if i == 0 {
			continue
		}
		in, err := drill.ReadInput(line)
		if err != nil {
			r.Fatal(err)
		}
		if in.Client != "server" {
			list = append(list, in)
		}
	}
	return list
}

// from posts to an address as a page does that says where it comes from.
func (r *room) from(header [2]string, address string) int {
	r.Helper()
	ask, err := http.NewRequest("POST", r.server.URL+address, nil)
	if err != nil {
		r.Fatal(err)
	}
	ask.Header.Set(header[0], header[1])
	reply, err := stay.Do(ask)
	if err != nil {
		r.Fatal(err)
	}
	reply.Body.Close()
	return reply.StatusCode
}

// id is the name of a drill's log.
func (r *room) id(seats of) string { return strings.Split(seats[drill.Instructor], "/")[3] }

// json reads what an address answers.
func (r *room) json(address string, into any) {
	r.Helper()
	status, body := r.get(address)
	if err := json.Unmarshal([]byte(body), into); err != nil || status != http.StatusOK {
		r.Fatalf("%s: %d %s", address, status, body)
	}
}

var aNotice = regexp.MustCompile(`,"notice":"[^"]*"`)

func withoutNotices(screens string) string { return aNotice.ReplaceAllString(screens, "") }
