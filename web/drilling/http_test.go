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
	of := r.begin(left)
	r.send(of, drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Look, ID: "gen_left_lamp"})
	before := r.screens(of)
	for name, c := range map[string]struct {
		body   string
		status int
		text   string
	}{
		"no JSON":            {"click!", 409, "this is no input"},
		"nothing":            {"", 409, "this is no input"},
		"a list":             {"[1,2]", 409, "this is no input"},
		"something follows":  {`{"client":"a","number":2,"at_us":0,"who":"both","do":"look","id":"gen_left_lamp"} {}`, 409, "something follows it"},
		"an unknown field":   {`{"client":"a","number":2,"who":"both","do":"look","id":"gen_left_lamp","sudo":true}`, 409, "unknown field"},
		"an unknown role":    {`{"client":"a","number":2,"who":"captain","do":"look","id":"gen_left_lamp"}`, 409, "nobody is called"},
		"the wrong role":     {`{"client":"a","number":2,"who":"PF","do":"rewind"}`, 409, "only the instructor"},
		"a pilot's failure":  {`{"client":"a","number":2,"who":"PM","do":"inject","strike":{"what":["gen_right"]}}`, 409, "only the instructor"},
		"an absent control":  {`{"client":"a","number":2,"who":"PM","do":"move","id":"warp_lever","to":"on"}`, 409, "no control"},
		"an absent position": {`{"client":"a","number":2,"who":"PM","do":"move","id":"gen_left_switch","to":"sideways"}`, 409, "no control"},
		"out of order":       {`{"client":"a","number":5,"who":"both","do":"look","id":"gen_left_lamp"}`, 409, "number 2, not 5"},
		"another first":      {`{"client":"a","number":1,"who":"both","do":"look","id":"gen_right_lamp"}`, 409, "was another one"},
		"the server's name":  {`{"client":"server","number":2,"who":"instructor","do":"clock","rate":4}`, 409, "only the server"},
		"too long":           {`{"client":"` + strings.Repeat("a", 20<<10) + `"}`, 413, "too long"},
	} {
		if status, text := r.post(of, c.body); status != c.status || !strings.Contains(text, c.text) {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	if after := r.screens(of); after != before {
		t.Errorf("a refused input has changed the drill:\n%s\n%s", before, after)
	}
	if n := len(r.inputs(of)); n != 1 {
		t.Errorf("%d inputs in the log", n)
	}
}

// TestPages_ThatAreNotThere: an address that leads nowhere says so.
func TestPages_ThatAreNotThere(t *testing.T) {
	r := enter(t, t.TempDir())
	of := r.begin(left)
	for address, want := range map[string]int{
		"/drill/of/aaaaaaaaaaaaaaaa/": 404, "/drill/of/aaaaaaaaaaaaaaaa/as/PF": 404, "/drill/of/..%2f..%2fetc/": 404, "/drill/of/A-B/stream?who=PF": 404,
		of + "/as/captain": 404, of + "/nothing": 404, of + "/stream": 400, of + "/stream?who=captain": 400, of + "/now?who=": 400, "/drill/static/x.js": 404,
		"/drill/": 200, of + "/as/PF": 200, of + "/debrief": 200, of + "/": 200,
	} {
		if status, body := r.get(address); status != want || !strings.Contains(body, "not for use in flight") {
			t.Errorf("%s: %d, want %d: %s", address, status, want, body[max(0, len(body)-200):])
		}
	}
	if status, text := r.post("/drill/of/aaaaaaaaaaaaaaaa", `{"client":"a","number":1,"who":"both","do":"look","id":"gen_left_lamp"}`); status != 404 || !strings.Contains(text, "no such drill") {
		t.Errorf("an input to no drill: %d %s", status, text)
	}
	for script, want := range map[string]string{`{`: "cannot be read", `{"fail":[{"what":["warp_drive"],"at":"climb"}]}`: "warp_drive", `{"flight":"nowhere"}`: "nowhere"} {
		reply, err := http.PostForm(r.server.URL+"/drill/new", map[string][]string{"script": {script}})
		if err != nil {
			t.Fatal(err)
		}
		body, _ := io.ReadAll(reply.Body)
		reply.Body.Close()
		if reply.StatusCode != 400 || !strings.Contains(string(body), want) {
			t.Errorf("%s: %d %s", script, reply.StatusCode, body)
		}
	}
}

// TestInput_Twice: an input that comes again is acknowledged again and counts once.
func TestInput_Twice(t *testing.T) {
	r := enter(t, t.TempDir())
	of := r.begin(left)
	in := drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Call, ID: "left_generator_off"}
	first := r.send(of, in)
	r.watch.pass(3 * time.Second)
	again := r.send(of, in)
	if first.Again || !again.Again || first.Place != again.Place || first.At != again.At {
		t.Errorf("first %+v, again %+v", first, again)
	}
	if n := len(r.inputs(of)); n != 1 {
		t.Errorf("%d inputs in the log", n)
	}
}

// TestInput_AfterTheEnd: the flight being over, nothing more is taken, and the
// screens still come.
func TestInput_AfterTheEnd(t *testing.T) {
	r := enter(t, t.TempDir())
	of := r.begin(left)
	r.watch.pass(3 * time.Hour)
	if !strings.Contains(r.screens(of), `"ended":true`) {
		t.Fatal("the flight does not end")
	}
	if status, text := r.post(of, `{"client":"a","number":1,"who":"both","do":"look","id":"gen_left_lamp"}`); status != 409 || !strings.Contains(text, `"over"`) {
		t.Errorf("%d %s", status, text)
	}
	before := r.screens(of)
	r.shut()
	r.open()
	if after := r.screens(of); after != before {
		t.Error("another drill after the server was started again")
	}
}

// TestInput_AThousandASecond: a client that sends without end is told so; the
// others' inputs are taken.
func TestInput_AThousandASecond(t *testing.T) {
	r := enter(t, t.TempDir())
	of := r.begin(left)
	taken, refused := 0, 0
	for n := range 1000 {
		line, _ := json.Marshal(drill.Input{Client: "wild", Number: taken + 1, Who: drill.PilotFlying, Do: drill.Look, ID: "gen_left_lamp"})
		switch status, text := r.post(of, string(line)); {
		case status == 200:
			taken++
		case status == 409 && strings.Contains(text, `"too_many"`):
			refused++
		default:
			t.Fatalf("input %d: %d %s", n, status, text)
		}
		r.watch.pass(time.Millisecond)
		if n%100 == 50 {
			r.send(of, drill.Input{Client: "calm", Number: n/100 + 1, Who: drill.PilotMonitoring, Do: drill.Look, ID: "gen_right_lamp"})
		}
	}
	if taken != drill.MostPerSecond || taken+refused != 1000 {
		t.Errorf("%d taken, %d refused", taken, refused)
	}
	if n := len(r.inputs(of)); n != taken+10 {
		t.Errorf("%d inputs in the log", n)
	}
}

// TestClock_GoesAgainAfterManyInputsWhileItStood: who did much while the clock
// stood can let it go.
func TestClock_GoesAgainAfterManyInputsWhileItStood(t *testing.T) {
	r := enter(t, t.TempDir())
	of := r.begin(left)
	r.send(of, drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Clock, Rate: 0})
	for n := 2; n <= drill.MostPerSecond; n++ {
		r.send(of, drill.Input{Client: "a", Number: n, Who: drill.Alone, Do: drill.Look, ID: "gen_left_lamp"})
	}
	r.send(of, drill.Input{Client: "a", Number: drill.MostPerSecond + 1, Who: drill.Alone, Do: drill.Clock, Rate: 1})
}

// listen opens a stream and gives the reply and its first event.
func (r *room) listen(ctx context.Context, of, who string) (*http.Response, *bufio.Scanner) {
	r.Helper()
	ask, _ := http.NewRequestWithContext(ctx, "GET", r.server.URL+of+"/stream?who="+who, nil)
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
	of := r.begin(left)
	stays, stop := context.WithCancel(t.Context())
	defer stop()
	reply, lines := r.listen(stays, of, "PM")
	defer reply.Body.Close()
	event(t, lines)
	before := runtime.NumGoroutine()
	for range 30 {
		ctx, cancel := context.WithCancel(t.Context())
		gone, some := r.listen(ctx, of, "PF")
		event(t, some)
		cancel()
		gone.Body.Close()
	}
	r.send(of, drill.Input{Client: "a", Number: 1, Who: drill.PilotMonitoring, Do: drill.Move, ID: "gen_left_switch", To: "off"})
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
	of := r.begin(left)
	r.watch.pass(50 * time.Second)
	r.send(of, drill.Input{Client: "a", Number: 1, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
	r.watch.pass(9 * time.Second)
	r.send(of, drill.Input{Client: "b", Number: 1, Who: drill.PilotMonitoring, Do: drill.Move, ID: "gen_left_switch", To: "off"})
	r.send(of, drill.Input{Client: "b", Number: 2, Who: drill.PilotMonitoring, Do: drill.Look, ID: "gen_left_load"})
	r.watch.pass(90 * time.Second)
	r.send(of, drill.Input{Client: "i", Number: 1, Who: drill.Instructor, Do: drill.Inject, Strike: &drill.Strike{What: []string{"gen_right"}}})
	r.watch.pass(100 * time.Second)
	back := r.send(of, drill.Input{Client: "b", Number: 3, Who: drill.PilotMonitoring, Do: drill.Look, ID: "gen_right_load"}).At
	r.watch.pass(60 * time.Second) // a rewind to a moment after the last input
	r.send(of, drill.Input{Client: "i", Number: 2, Who: drill.Instructor, Do: drill.Rewind, Back: back + 5e6})
	again := func(what string) {
		t.Helper()
		before := r.screens(of)
		r.shut()
		r.open()
		var wait sync.WaitGroup
		for range 8 {
			wait.Go(func() {
				if after := r.screens(of); after != before {
					t.Errorf("after %s:\n%s\n%s", what, before, after)
				}
			})
		}
		wait.Wait()
	}
	again("a rewind")
	r.send(of, drill.Input{Client: "i", Number: 3, Who: drill.Instructor, Do: drill.Clock, Rate: 2})
	again("letting go")
	r.watch.pass(7 * time.Second)
	at := clockOf(t, r, of)
	r.shut()
	r.open()
	if now := clockOf(t, r, of); now != at {
		t.Errorf("at %v, before the server stopped at %v", now, at)
	}
}

func clockOf(t *testing.T, r *room, of string) (s string) {
	t.Helper()
	var screen drill.Screen
	_, body := r.get(of + "/now?who=PF")
	if err := json.Unmarshal([]byte(body), &screen); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprint(screen.AtUS)
}

// TestHall_ALogInOtherHands: a log that another process writes is a clear error,
// and the drill can be had when that process is gone.
func TestHall_ALogInOtherHands(t *testing.T) {
	one := enter(t, t.TempDir())
	of := one.begin(left)
	two := enter(t, one.dir)
	if status, body := two.get(of + "/as/PF"); status != http.StatusConflict || !strings.Contains(body, "Another process has the log of this drill in hand") {
		t.Errorf("%d %s", status, body)
	}
	before := one.screens(of)
	one.shut()
	if after := two.screens(of); after != before {
		t.Error("another drill in other hands")
	}
}

// TestHall_LetsGoOfWhatNobodyLooksAt: a drill left alone gives its log back.
func TestHall_LetsGoOfWhatNobodyLooksAt(t *testing.T) {
	one := enter(t, t.TempDir())
	of := one.begin(left)
	one.watch.pass(11 * time.Minute)
	one.begin(left)
	two := enter(t, one.dir)
	if status, _ := two.get(of + "/as/PF"); status != http.StatusOK {
		t.Errorf("after eleven minutes: %d", status)
	}
}
