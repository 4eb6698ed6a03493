package child

import (
	"bufio"
	"fmt"
	"os"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"knockon/figure/layout"
)

// The test binary plays the child when it is started with one of these words.
var parts = map[string]func(){
	"answer": func() {
		in := bufio.NewReader(os.Stdin)
		for {
			if _, err := ReadFrame(in); err != nil {
				return
			}
			WriteAnswer(os.Stdout, []byte(onePlan), nil)
		}
	},
	"refuse": func() {
		in := bufio.NewReader(os.Stdin)
		for {
			if _, err := ReadFrame(in); err != nil {
				return
			}
			WriteAnswer(os.Stdout, nil, fmt.Errorf("syntax error"))
		}
	},
	"hang":   func() { time.Sleep(time.Minute) },
	"die":    func() { os.Exit(3) },
	"babble": func() { fmt.Println("not a frame at all, whatever it may be"); time.Sleep(time.Minute) },
	"bad":    func() { ReadFrame(bufio.NewReader(os.Stdin)); WriteAnswer(os.Stdout, []byte("node n9 1 1"), nil) },
}

const onePlan = "graph 1 3 1\nnode n0 2.5 0.5 1 0.5\nnode n1 0.5 0.5 1 0.5\nedge n1 n0 4 1 0.5 1.3 0.5 1.6 0.5 2 0.5 solid black\nstop\n"

func TestMain(m *testing.M) {
	if len(os.Args) == 2 {
		if play, ok := parts[os.Args[1]]; ok {
			play()
			return
		}
	}
	os.Exit(m.Run())
}

func engine(t *testing.T, part string) *Engine {
	e := New(os.Args[0], part)
	e.cost, e.first = 300*time.Millisecond, 5*time.Second
	if part == "hang" {
		e.first = 0
	}
	t.Cleanup(e.Close)
	return e
}

func pair() layout.Graph {
	return layout.Graph{Boxes: []layout.Box{{Width: 72, Height: 36}, {Width: 72, Height: 36}}, Arrows: []layout.Arrow{{From: 1, To: 0}}}
}

func TestPlace_TakesTheChildsPlan(t *testing.T) {
	e := engine(t, "answer")
	for range 2 { // the second from what is kept
		p, err := e.Place(t.Context(), pair())
		if err != nil || p.Width != 216 {
			t.Fatalf("width %v, %v", p.Width, err)
		}
	}
}

func TestPlace_FallsBackToThePlainWay(t *testing.T) {
	for _, part := range []string{"refuse", "hang", "die", "babble", "bad"} {
		t.Run(part, func(t *testing.T) {
			p, err := engine(t, part).Place(t.Context(), pair())
			if err == nil {
				t.Error("no word of why")
			}
			if !reflect.DeepEqual(p, layout.Layered(pair())) {
				t.Errorf("got %+v", p)
			}
		})
	}
}

func TestPlace_LeavesABadChildAlone(t *testing.T) {
	e := engine(t, "die")
	for range mostFails {
		e.Place(t.Context(), pair())
	}
	if _, err := e.Place(t.Context(), pair()); err != errGivenUp {
		t.Errorf("got %v", err)
	}
}

func TestPlace_DoesNotAskForTooMuch(t *testing.T) {
	big := layout.Graph{Boxes: make([]layout.Box, mostBoxes+1)}
	if _, err := engine(t, "hang").Place(t.Context(), big); err != errTooBig {
		t.Errorf("got %v", err)
	}
}

func TestPlace_WithoutAChild(t *testing.T) {
	for _, e := range []*Engine{nil, {}, New()} {
		if p, err := e.Place(t.Context(), pair()); err != nil || !reflect.DeepEqual(p, layout.Layered(pair())) {
			t.Errorf("got %+v, %v", p, err)
		}
	}
}

func TestPlace_ManyAtOnce(t *testing.T) {
	e := engine(t, "answer")
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			g := pair()
			g.Boxes[0].Height += float64(i)
			if p, err := e.Place(t.Context(), g); err != nil || p.Width != 216 {
				t.Errorf("width %v, %v", p.Width, err)
			}
		})
	}
	wait.Wait()
}

func TestReadFrame_RefusesWhatIsTooLong(t *testing.T) {
	if _, err := ReadFrame(strings.NewReader("\xff\xff\xff\xff")); err == nil {
		t.Error("a frame of 4 GB was read")
	}
}
