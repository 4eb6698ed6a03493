package drilling_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"knockon/drill"
)

// TestInput_Refused: what makes no sense is refused with a clear word, and the
// drill is as if it had never come.
func TestInput_Refused(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Look, ID: "gen_left_lamp"})
	before := r.screens(seats)
	for name, c := range map[string]struct {
		who    drill.Role
		body   string
		status int
		text   string
	}{
		"no JSON":            {drill.Alone, "click!", 409, "this is no input"},
		"nothing":            {drill.Alone, "", 409, "this is no input"},
		"a list":             {drill.Alone, "[1,2]", 409, "this is no input"},
		"something follows":  {drill.Alone, `{"client":"a","number":2,"at_us":0,"do":"look","id":"gen_left_lamp"} {}`, 409, "something follows it"},
		"an unknown field":   {drill.Alone, `{"client":"a","number":2,"do":"look","id":"gen_left_lamp","sudo":true}`, 409, "unknown field"},
		"no client":          {drill.Alone, `{"number":2,"do":"look","id":"gen_left_lamp"}`, 409, "which client"},
		"an unknown role":    {drill.Alone, `{"client":"a","number":2,"who":"captain","do":"look","id":"gen_left_lamp"}`, 409, "said by the link"},
		"another's role":     {drill.Alone, `{"client":"a","number":2,"who":"instructor","do":"rewind"}`, 409, "said by the link"},
		"the wrong role":     {drill.PilotFlying, `{"client":"a","number":1,"do":"rewind"}`, 409, "only the instructor"},
		"a pilot's failure":  {drill.PilotMonitoring, `{"client":"a","number":1,"do":"inject","strike":{"what":["gen_right"]}}`, 409, "only the instructor"},
		"a pilot's end":      {drill.PilotMonitoring, `{"client":"a","number":1,"do":"finish"}`, 409, "only the instructor"},
		"both pilots' end":   {drill.Alone, `{"client":"a","number":2,"do":"finish"}`, 409, "only the instructor"},
		"an absent control":  {drill.PilotMonitoring, `{"client":"a","number":1,"do":"move","id":"warp_lever","to":"on"}`, 409, "no control"},
		"an absent position": {drill.PilotMonitoring, `{"client":"a","number":1,"do":"move","id":"gen_left_switch","to":"sideways"}`, 409, "no control"},
		"out of order":       {drill.Alone, `{"client":"a","number":5,"do":"look","id":"gen_left_lamp"}`, 409, "number 2, not 5"},
		"another first":      {drill.Alone, `{"client":"a","number":1,"do":"look","id":"gen_right_lamp"}`, 409, "was another one"},
		"the server's count": {drill.Instructor, `{"client":"server","number":2,"do":"clock","rate":4}`, 409, "number 1, not 2"},
		"too long":           {drill.Alone, `{"client":"` + strings.Repeat("a", 20<<10) + `"}`, 413, "too long"},
	} {
		if status, text := r.post(seats[c.who], c.body); status != c.status || !strings.Contains(text, c.text) {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	if after := r.screens(seats); after != before {
		t.Errorf("a refused input has changed the drill:\n%s\n%s", before, after)
	}
	if n := len(r.inputs(seats)); n != 1 {
		t.Errorf("%d inputs in the log", n)
	}
}

// TestPages_ThatAreNotThere: an address that leads nowhere says so.
func TestPages_ThatAreNotThere(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	pf, in := seats[drill.PilotFlying], seats[drill.Instructor]
	id := strings.Split(pf, "/")[3]
	for address, want := range map[string]int{
		"/drill/of/aaaaaaaaaaaaaaaa/": 404, "/drill/of/aaaaaaaaaaaaaaaa/" + pf[len(pf)-26:] + "/": 404, "/drill/of/..%2f..%2fetc/x/": 404, "/drill/of/A-B/x/stream": 404,
		"/drill/of/" + id + "/": 404, "/drill/of/" + id + "/as/instructor": 404, pf + "/nothing": 404, pf[:len(pf)-1] + "/": 404, pf[:len(pf)-1] + "/stream": 404, "/drill/static/x.js": 404,
		pf + "/debrief": 403, pf + "/log": 403, pf + "/people": 403,
		"/drill/": 200, pf + "/": 200, in + "/": 200, in + "/debrief": 200, in + "/people": 200,
	} {
		if status, body := r.get(address); status != want || !strings.Contains(body, "not for use in flight") {
			t.Errorf("%s: %d, want %d: %s", address, status, want, body[max(0, len(body)-200):])
		}
	}
	if status, text := r.post("/drill/of/aaaaaaaaaaaaaaaa/aaaaaaaa", `{"client":"a","number":1,"do":"look","id":"gen_left_lamp"}`); status != 404 || !strings.Contains(text, "leads to no drill") {
		t.Errorf("an input to no drill: %d %s", status, text)
	}
	for script, want := range map[string]string{`{`: "cannot be read", `{"fail":[{"what":["warp_drive"],"at":"climb"}]}`: "warp_drive", `{"flight":"nowhere"}`: "nowhere"} {
		reply, err := http.PostForm(r.server.URL+"/drill/new", map[string][]string{"script": {script}, "for": {"crew"}})
		if err != nil {
			t.Fatal(err)
		}
		body, _ := io.ReadAll(reply.Body)
		reply.Body.Close()
		if reply.StatusCode != 400 || !strings.Contains(string(body), want) {
			t.Errorf("%s: %d %s", script, reply.StatusCode, body)
		}
	}
	if status, text := r.ask("POST", "/drill/new", "form:script="); status != 400 || !strings.Contains(text, "whom the drill is for") {
		t.Errorf("a drill for nobody: %d %s", status, text)
	}
}

// TestInput_Twice: an input that comes again is acknowledged again and counts once.
func TestInput_Twice(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	in := drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Call, ID: "left_generator_off"}
	first := r.send(seats, in)
	r.watch.pass(3 * time.Second)
	again := r.send(seats, in)
	if first.Again || !again.Again || first.Place != again.Place || first.At != again.At {
		t.Errorf("first %+v, again %+v", first, again)
	}
	if n := len(r.inputs(seats)); n != 1 {
		t.Errorf("%d inputs in the log", n)
	}
}

// TestInput_AfterTheEnd: the flight being over, nothing more is taken, and the
// screens still come.
func TestInput_AfterTheEnd(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	r.watch.pass(3 * time.Hour)
	if !strings.Contains(r.screens(seats), `"ended":true`) {
		t.Fatal("the flight does not end")
	}
	if status, text := r.post(seats[drill.Alone], `{"client":"a","number":1,"do":"look","id":"gen_left_lamp"}`); status != 409 || !strings.Contains(text, `"over"`) {
		t.Errorf("%d %s", status, text)
	}
	before := r.screens(seats)
	r.shut()
	r.open()
	if after := r.screens(seats); after != before {
		t.Error("another drill after the server was started again")
	}
}

// TestInput_AThousandASecond: a seat that sends without end, under a new name each
// time, is told so; the others' inputs are taken.
func TestInput_AThousandASecond(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	taken, refused := 0, 0
	for n := range 1000 {
		line, _ := json.Marshal(drill.Input{Client: fmt.Sprint("wild ", n), Number: 1, Do: drill.Look, ID: "gen_left_lamp"})
		switch status, text := r.post(seats[drill.PilotFlying], string(line)); {
		case status == 200:
			taken++
		case status == 409 && strings.Contains(text, `"too_many"`):
			refused++
		default:
			t.Fatalf("input %d: %d %s", n, status, text)
		}
		r.watch.pass(time.Millisecond)
		if n%100 == 50 {
			r.send(seats, drill.Input{Client: "calm", Number: n/100 + 1, Who: drill.PilotMonitoring, Do: drill.Look, ID: "gen_right_lamp"})
		}
	}
	if taken != drill.MostPerSecond || taken+refused != 1000 {
		t.Errorf("%d taken, %d refused", taken, refused)
	}
	if n := len(r.inputs(seats)); n != taken+10 {
		t.Errorf("%d inputs in the log", n)
	}
}

// TestClock_GoesAgainAfterManyInputsWhileItStood: who did much while the clock
// stood can let it go.
func TestClock_GoesAgainAfterManyInputsWhileItStood(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Clock, Rate: 0})
	for n := 2; n <= drill.MostPerSecond; n++ {
		r.send(seats, drill.Input{Client: "a", Number: n, Who: drill.Alone, Do: drill.Look, ID: "gen_left_lamp"})
	}
	r.send(seats, drill.Input{Client: "a", Number: drill.MostPerSecond + 1, Who: drill.Alone, Do: drill.Clock, Rate: 1})
}

// listen opens a stream and gives the reply and its first event.
func (r *room) listen(ctx context.Context, seat string) (*http.Response, *bufio.Scanner) {
	r.Helper()
	ask, _ := http.NewRequestWithContext(ctx, "GET", r.server.URL+seat+"/stream", nil)
	reply, err := http.DefaultClient.Do(ask)
	if err != nil {
		r.Fatal(err)
	}
	lines := bufio.NewScanner(reply.Body)
	lines.Buffer(nil, 1<<20)
	return reply, lines
}

// event is the next screen that a stream sends.
func event(t testing.TB, lines *bufio.Scanner) (s drill.Screen) {
	t.Helper()
	for lines.Scan() {
		if text, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
			if err := json.Unmarshal([]byte(text), &s); err != nil {
				t.Fatal(err)
			}
			return s
		}
	}
	t.Fatalf("the stream has ended: %v", lines.Err())
	return s
}

// TestStream_AClientVanishes: who goes in the middle of a stream leaves nothing
// behind, and the others go on.
func TestStream_AClientVanishes(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	stays, stop := context.WithCancel(t.Context())
	defer stop()
	reply, lines := r.listen(stays, seats[drill.PilotMonitoring])
	defer reply.Body.Close()
	event(t, lines)
	before := runtime.NumGoroutine()
	for range 30 {
		ctx, cancel := context.WithCancel(t.Context())
		gone, some := r.listen(ctx, seats[drill.PilotFlying])
		event(t, some)
		cancel()
		gone.Body.Close()
	}
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.PilotMonitoring, Do: drill.Move, ID: "gen_left_switch", To: "off"})
	r.watch.pass(time.Second)
	for s := event(t, lines); !slices.Contains(s.Controls, drill.Set{ID: "gen_left_switch", To: "off"}); s = event(t, lines) {
	}
	for deadline := time.Now().Add(20 * time.Second); runtime.NumGoroutine() > before+8; time.Sleep(50 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("%d goroutines, %d before", runtime.NumGoroutine(), before)
		}
	}
}

// TestHall_ShutAndOpenedAgain: the same folder gives the same screens to the byte,
// whatever was done, and to many who come at once.
func TestHall_ShutAndOpenedAgain(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	r.watch.pass(50 * time.Second)
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
	r.watch.pass(9 * time.Second)
	r.send(seats, drill.Input{Client: "b", Number: 1, Who: drill.PilotMonitoring, Do: drill.Move, ID: "gen_left_switch", To: "off"})
	r.send(seats, drill.Input{Client: "b", Number: 2, Who: drill.PilotMonitoring, Do: drill.Look, ID: "gen_left_load"})
	r.watch.pass(90 * time.Second)
	r.send(seats, drill.Input{Client: "i", Number: 1, Who: drill.Instructor, Do: drill.Inject, Strike: &drill.Strike{What: []string{"tr_right"}}})
	r.watch.pass(100 * time.Second)
	back := r.send(seats, drill.Input{Client: "b", Number: 3, Who: drill.PilotMonitoring, Do: drill.Look, ID: "gen_right_load"}).At
	r.watch.pass(60 * time.Second) // a rewind to a moment after the last input
	r.send(seats, drill.Input{Client: "i", Number: 2, Who: drill.Instructor, Do: drill.Rewind, Back: back + 5e6})
	again := func(what string) {
		t.Helper()
		before := r.screens(seats)
		r.shut()
		r.open()
		var wait sync.WaitGroup
		for range 8 {
			wait.Go(func() {
				if after := r.screens(seats); after != before {
					t.Errorf("after %s:\n%s\n%s", what, before, after)
				}
			})
		}
		wait.Wait()
	}
	again("a rewind")
	r.send(seats, drill.Input{Client: "i", Number: 3, Who: drill.Instructor, Do: drill.Clock, Rate: 2})
	again("letting go")
	r.watch.pass(7 * time.Second)
	at := clockOf(t, r, seats)
	r.shut()
	r.open()
	if now := clockOf(t, r, seats); now != at {
		t.Errorf("at %v, before the server stopped at %v", now, at)
	}
}

func clockOf(t *testing.T, r *room, seats of) (s string) {
	t.Helper()
	var screen drill.Screen
	_, body := r.get(seats[drill.PilotFlying] + "/now")
	if err := json.Unmarshal([]byte(body), &screen); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprint(screen.AtUS)
}

// TestHall_ALogInOtherHands: a log that another process writes is a clear error,
// and the drill can be had when that process is gone.
func TestHall_ALogInOtherHands(t *testing.T) {
	one := enter(t, t.TempDir())
	seats := one.begin(left)
	two := enter(t, one.dir)
	if status, body := two.get(seats[drill.PilotFlying] + "/"); status != http.StatusConflict || !strings.Contains(body, "Another process has the log of this drill in hand") {
		t.Errorf("%d %s", status, body)
	}
	before := one.screens(seats)
	one.shut()
	if after := two.screens(seats); after != before {
		t.Error("another drill in other hands")
	}
}
