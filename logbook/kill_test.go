//go:build unix

package logbook_test

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"syscall"
	"testing"
	"time"

	"knockon/book"
	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/logbook"
)

// The server of this test is the test itself, run again: it takes one drill over
// from its log, or begins it, then answers each line of input with one line.

func TestMain(m *testing.M) {
	if dir := os.Getenv("LOGBOOK_SERVE"); dir != "" {
		if err := serve(dir, os.Stdin, os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

var script = drill.Script{Fail: []drill.Strike{{What: []string{"gen_left"}, At: "climb"}}}

func newDeck() (*drill.Deck, error) {
	b, err := corvane.Load()
	if err != nil {
		return nil, err
	}
	return drill.NewDeck(b, "", "short_hop", nil)
}

func serve(dir string, in io.Reader, out io.Writer) error {
	deck, err := newDeck()
	if err != nil {
		return err
	}
	shelf, err := logbook.Open(dir)
	if err != nil {
		return err
	}
	s, w, err := takeOver(deck, shelf)
	if err != nil {
		return err
	}
	fmt.Fprintln(out, "ready")
	for lines := bufio.NewScanner(in); lines.Scan(); {
		input, err := drill.ReadInput(lines.Bytes())
		if err != nil {
			return err
		}
		ack, err := s.Accept(context.Background(), input)
		if err == nil && !ack.Again {
			err = w.Append(input)
		}
		if err != nil {
			return err
		}
		if err := json.NewEncoder(out).Encode(ack); err != nil {
			return err
		}
	}
	return nil
}

func takeOver(deck *drill.Deck, shelf *logbook.Shelf) (*drill.Session, *logbook.Writer, error) {
	w, err := shelf.Continue("one")
	if errors.Is(err, fs.ErrNotExist) {
		s, err := deck.Open(context.Background(), script)
		if err != nil {
			return nil, nil, err
		}
		w, err := shelf.Begin("one", script)
		return s, w, err
	}
	if err != nil {
		return nil, nil, err
	}
	r, err := shelf.Read("one")
	if err != nil {
		return nil, nil, err
	}
	defer r.Close()
	s, err := deck.Replay(context.Background(), r)
	return s, w, err
}

// server is the process under test.
type server struct {
	*exec.Cmd
	in    io.WriteCloser
	lines *bufio.Scanner
}

func start(t *testing.T, dir string) *server {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), "LOGBOOK_SERVE="+dir)
	c.Stderr = os.Stderr
	in, err := c.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	s := &server{c, in, bufio.NewScanner(out)}
	if !s.lines.Scan() || s.lines.Text() != "ready" {
		t.Fatalf("the server does not come up: %q", s.lines.Text())
	}
	return s
}

// send gives an input to the server; ok says that it was acknowledged.
func (s *server) send(t *testing.T, in drill.Input) (ok bool) {
	t.Helper()
	line, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.in.Write(append(line, '\n')); err != nil || !s.lines.Scan() {
		return false
	}
	var ack drill.Ack
	if err := json.Unmarshal(s.lines.Bytes(), &ack); err != nil || ack.Number != in.Number {
		t.Fatalf("%q for input %d", s.lines.Text(), in.Number)
	}
	return true
}

// TestKill_LosesNothingAcknowledged: a server that is killed at random moments
// while a scripted drill goes on, each time taken over by another, loses no input
// that it has acknowledged, takes none twice, and the drill is the one that was
// never disturbed. KNOCKON_KILLS=200 kills it so often.
func TestKill_LosesNothingAcknowledged(t *testing.T) {
	kills, err := strconv.Atoi(os.Getenv("KNOCKON_KILLS"))
	if err != nil {
		kills = 8
	}
	deck, err := newDeck()
	if err != nil {
		t.Fatal(err)
	}
	dir, rng, next := t.TempDir(), rand.New(rand.NewPCG(1, 9)), 1
	inputs := inputsFor(deck, rng)
	for range kills {
		s := start(t, dir)
		after := time.Duration(rng.IntN(30_000)) * time.Microsecond
		killed := make(chan error, 1)
		time.AfterFunc(after, func() { killed <- s.Process.Signal(syscall.SIGKILL) })
		for from := next; next < from+mostPerLife && s.send(t, inputs(next)); {
			next++
		}
		if err := <-killed; err != nil {
			t.Fatal(err)
		}
		s.Wait()
	}
	check(t, deck, dir, inputs, next)
	t.Logf("killed %d times over %d inputs", kills, next-1)
	if next < kills {
		t.Errorf("only %d inputs went through", next-1)
	}
}

// mostPerLife keeps a flight from ending before the kills do.
const mostPerLife = 40

// inputsFor gives a script of inputs, each the same whenever it is asked for.
func inputsFor(deck *drill.Deck, rng *rand.Rand) func(n int) drill.Input {
	var list []drill.Input
	b := deck.Build()
	return func(n int) drill.Input {
		for len(list) < n {
			i := len(list)
			in := drill.Input{Client: "a", Number: i + 1, Who: drill.Alone, At: 60*book.Second + book.Time(i)*book.Second/15, Do: drill.Look, ID: b.Indications[rng.IntN(len(b.Indications))].ID}
			if rng.IntN(3) == 0 {
				c := b.Controls[rng.IntN(len(b.Controls))]
				in.Do, in.ID, in.To = drill.Move, c.ID, c.Positions[rng.IntN(len(c.Positions))]
			}
			list = append(list, in)
		}
		return list[n-1]
	}
}

// check holds the log against what was acknowledged: inputs 1 to next-1. One more
// may be there, which was on the disk when the server died over its answer.
func check(t *testing.T, deck *drill.Deck, dir string, inputs func(int) drill.Input, next int) {
	t.Helper()
	shelf, err := logbook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	s, w, err := takeOver(deck, shelf)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	fresh, err := deck.Open(context.Background(), script)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(s.Log()); n != next-1 && n != next {
		t.Fatalf("%d inputs in the log, %d acknowledged", n, next-1)
	}
	for i, in := range s.Log() {
		if in != inputs(i+1) {
			t.Errorf("input %d: %v, sent %v", i+1, in, inputs(i+1))
		}
		if _, err := fresh.Accept(context.Background(), in); err != nil {
			t.Fatal(err)
		}
	}
	a, _ := json.Marshal(s.Screen(drill.Instructor))
	b, _ := json.Marshal(fresh.Screen(drill.Instructor))
	if string(a) != string(b) {
		t.Error("the drill is not the one that was never disturbed")
	}
}
