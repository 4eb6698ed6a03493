//go:build unix

package drilling_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"knockon/drill"
	"knockon/internal/corvane"
)

// program is the real server, built once by the test.
func program(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "knockon")
	if out, err := exec.Command("go", "build", "-o", path, "knockon/cmd/knockon").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return path
}

// life is the server from its start to its end.
type life struct {
	*exec.Cmd
	url string
}

func start(t *testing.T, path, dir string) *life {
	t.Helper()
	c := exec.Command(path, "drill", "--address", "127.0.0.1:0", "--drills", dir)
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	from, to := strings.Index(line, "http://"), strings.Index(line, "/drill/")
	if err != nil || from < 0 || to < 0 {
		_ = c.Process.Kill()
		t.Fatalf("the server does not come up: %q, %v; it ended with: %v", line, err, c.Wait())
	}
	go func() { _, _ = io.Copy(io.Discard, out) }()
	return &life{c, line[from:to]}
}

// scripted is a client that sends one input after the other, each until it is
// acknowledged.
type scripted struct {
	*testing.T
	*rand.Rand
	deck  *drill.Deck
	id    string
	seats of
	next  int                 // number of its next input
	acked map[int]drill.Ack   // by number
	sent  map[int]drill.Input // by number
	seen  []byte              // what the instructor saw last
	over  bool                // the flight has ended
	total int                 // inputs acknowledged in all drills
}

// input is the input of a number, the same whenever it is asked for.
func (c *scripted) input(n int) drill.Input {
	if in, ok := c.sent[n]; ok {
		return in
	}
	b := c.deck.Build()
	in := drill.Input{Client: "script", Number: n, Who: drill.Instructor, Do: drill.Look, ID: b.Indications[c.IntN(len(b.Indications))].ID}
	if k := b.Controls[c.IntN(len(b.Controls))]; c.IntN(2) == 0 {
		in.Do, in.ID, in.To = drill.Move, k.ID, k.Positions[c.IntN(len(k.Positions))]
	}
	if n == 1 {
		in = drill.Input{Client: "script", Number: n, Who: drill.Instructor, Do: drill.Clock, Rate: 4}
	}
	c.sent[n] = in
	return in
}

// run sends inputs, and looks now and then, until the server is dead.
func (c *scripted) run(at string) {
	for {
		in := c.input(c.next)
		seat := c.seats[in.Who]
		in.Who = ""
		line, _ := json.Marshal(in)
		reply, err := http.Post(at+seat+"/input", "application/json", bytes.NewReader(line))
		if err != nil {
			return
		}
		body, err := io.ReadAll(reply.Body)
		reply.Body.Close()
		var ack drill.Ack
		switch {
		case err != nil:
			return
		case reply.StatusCode == http.StatusConflict && bytes.Contains(body, []byte("too_many")):
			time.Sleep(5 * time.Millisecond)
			continue
		case reply.StatusCode == http.StatusConflict && bytes.Contains(body, []byte("the flight has ended")):
			c.over = true
			return
		case reply.StatusCode != http.StatusOK || json.Unmarshal(body, &ack) != nil:
			c.Errorf("input %s: %s %s", line, reply.Status, body)
			return
		}
		c.acked[c.next] = ack
		c.total++
		c.next++
		if c.next%3 == 0 && !c.look(at) {
			return
		}
	}
}

func (c *scripted) look(at string) bool {
	reply, err := http.Get(at + c.seats[drill.Instructor] + "/now")
	if err != nil {
		return false
	}
	defer reply.Body.Close()
	body, err := io.ReadAll(reply.Body)
	if err == nil && reply.StatusCode == http.StatusOK {
		c.seen = body
	}
	return err == nil
}

// check holds the log against what was acknowledged, and what was seen last
// against what the log gives.
func (c *scripted) check(dir string) {
	c.Helper()
	text, err := os.ReadFile(filepath.Join(dir, c.id+".drill"))
	if err != nil {
		c.Fatal(err)
	}
	lines := bytes.SplitAfter(text[:bytes.LastIndexByte(text, '\n')+1], []byte("\n"))
	there := map[int]int{}
	for i, line := range lines[1 : len(lines)-1] {
		in, err := drill.ReadInput(line)
		if err != nil {
			c.Fatalf("line %d: %v", i+2, err)
		}
		if in.Client != "instructor script" {
			continue
		}
		there[in.Number]++
		if ack, ok := c.acked[in.Number]; ok && (ack.Place != i+1 || ack.At != in.At) {
			c.Errorf("input %d was acknowledged as %+v and stands at place %d, %v", in.Number, ack, i+1, in.At)
		}
	}
	for n := range c.acked {
		if there[n] != 1 {
			c.Errorf("input %d was acknowledged and is in the log %d times", n, there[n])
		}
	}
	var was drill.Screen
	if len(c.seen) == 0 {
		return
	}
	if err := json.Unmarshal(c.seen, &was); err != nil {
		c.Fatal(err)
	}
	s, err := c.deck.Replay(context.Background(), bytes.NewReader(bytes.Join(lines[:was.Inputs+1], nil)))
	if err != nil {
		c.Fatal(err)
	}
	if err := s.Advance(context.Background(), was.AtUS); err != nil {
		c.Fatal(err)
	}
	if is, _ := json.Marshal(s.Screen(drill.Instructor)); string(is) != string(c.seen) {
		c.Errorf("the screen was\n%s\nand is\n%s", c.seen, is)
	}
}

// TestServer_KilledAtRandomMoments: the program itself is killed while a client
// sends inputs, and started again: no acknowledged input is lost, none is there
// twice, and what was seen is seen again. KNOCKON_SERVER_KILLS says how often.
func TestServer_KilledAtRandomMoments(t *testing.T) {
	kills, err := strconv.Atoi(os.Getenv("KNOCKON_SERVER_KILLS"))
	if err != nil {
		kills = 20
	}
	b, err := corvane.Load()
	if err != nil {
		t.Fatal(err)
	}
	script := drill.Script{Flight: "northern_link", Fail: []drill.Strike{{What: []string{"gen_left"}, At: "climb"}}}
	deck, err := drill.NewDeck(b, script.Build, script.Flight, nil)
	if err != nil {
		t.Fatal(err)
	}
	path, dir := program(t), t.TempDir()
	c := &scripted{T: t, Rand: rand.New(rand.NewPCG(4, 200)), deck: deck}
	for n := range kills {
		s := start(t, path, dir)
		if n == 0 || c.over {
			c.begin(s.url, script)
		}
		if c.IntN(4) > 0 {
			c.look(s.url) // the drill is taken up; else the kill may come before that
		}
		killed := make(chan error, 1)
		time.AfterFunc(time.Duration(c.IntN(300_000))*time.Microsecond, func() { killed <- s.Process.Kill() })
		c.run(s.url)
		if err := <-killed; err != nil {
			t.Fatal(err)
		}
		_ = s.Wait()
		c.check(dir)
		if t.Failed() {
			t.Fatalf("at kill %d", n+1)
		}
	}
	t.Logf("killed %d times, %d inputs acknowledged", kills, c.total)
	if c.total < kills {
		t.Errorf("only %d inputs went through", c.total)
	}
}

// begin begins a drill at a server.
func (c *scripted) begin(at string, script drill.Script) {
	c.Helper()
	seats, err := beginAt(at, script, "crew")
	if err != nil {
		c.Fatal(err)
	}
	c.seats, c.next, c.seen, c.over = seats, 1, nil, false
	c.id = strings.Split(seats[drill.Instructor], "/")[3]
	c.acked, c.sent = map[int]drill.Ack{}, map[int]drill.Input{}
}
