package drilling_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/demo"
	"knockon/drill"
	"knockon/logbook"
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

var loaded = sync.OnceValues(func() (*book.Book, error) {
	b, diags := book.Load(context.Background(), demo.Book())
	if diags.HasErrors() {
		return nil, fmt.Errorf("%v", diags[0])
	}
	return b, nil
})

// room is a hall with its folder, its clock and the site around it.
type room struct {
	testing.TB
	dir    string
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
	b, err := loaded()
	if err != nil {
		r.Fatal(err)
	}
	shelf, err := logbook.Open(r.dir)
	if err != nil {
		r.Fatal(err)
	}
	if r.hall, err = drilling.New(drilling.Setting{Book: b, Shelf: shelf, Now: r.watch.now}); err != nil {
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

// begin begins a drill and gives the address of it, without an end stroke.
func (r *room) begin(s drill.Script) string {
	r.Helper()
	text, err := json.Marshal(s)
	if err != nil {
		r.Fatal(err)
	}
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	reply, err := client.PostForm(r.server.URL+"/drill/new", url.Values{"script": {string(text)}, "from": {"near"}, "for": {"crew"}})
	if err != nil {
		r.Fatal(err)
	}
	reply.Body.Close()
	to := reply.Header.Get("Location")
	if reply.StatusCode != http.StatusSeeOther || !strings.HasPrefix(to, "/drill/of/") {
		r.Fatalf("%s to %q", reply.Status, to)
	}
	return strings.TrimSuffix(to, "/")
}

// get gives the status and the body of an address.
func (r *room) get(address string) (int, string) {
	r.Helper()
	reply, err := http.Get(r.server.URL + address)
	if err != nil {
		r.Fatal(err)
	}
	defer reply.Body.Close()
	body, err := io.ReadAll(reply.Body)
	if err != nil {
		r.Fatal(err)
	}
	return reply.StatusCode, string(body)
}

// post sends a body as an input.
func (r *room) post(of, body string) (int, string) {
	r.Helper()
	reply, err := http.Post(r.server.URL+of+"/input", "application/json", strings.NewReader(body))
	if err != nil {
		r.Fatal(err)
	}
	defer reply.Body.Close()
	text, _ := io.ReadAll(reply.Body)
	return reply.StatusCode, string(text)
}

// send sends an input that must be taken.
func (r *room) send(of string, in drill.Input) drill.Ack {
	r.Helper()
	line, _ := json.Marshal(in)
	status, text := r.post(of, string(line))
	var ack drill.Ack
	if err := json.Unmarshal([]byte(text), &ack); err != nil || status != http.StatusOK {
		r.Fatalf("%s: %d %s", line, status, text)
	}
	return ack
}

// screens is what everyone sees, as bytes.
func (r *room) screens(of string) string {
	r.Helper()
	var all strings.Builder
	for _, who := range []string{"PF", "PM", "both", "instructor"} {
		status, body := r.get(of + "/now?who=" + who)
		if status != http.StatusOK {
			r.Fatalf("%s: %d %s", who, status, body)
		}
		all.WriteString(body + "\n")
	}
	return all.String()
}

// inputs are the inputs in a drill's log but those of the server itself.
func (r *room) inputs(of string) (list []drill.Input) {
	r.Helper()
	_, body := r.get(of + "/log")
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
