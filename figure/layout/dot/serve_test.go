package dot

import (
	"bytes"
	"encoding/binary"
	"io"
	"os"
	"strings"
	"testing"

	"knockon/figure/layout"
	"knockon/figure/layout/child"
)

func TestMain(m *testing.M) {
	if len(os.Args) == 2 && os.Args[1] == "serve" {
		if err := Serve(os.Stdin, os.Stdout); err != nil {
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// tree is a chain of causes with one shared cause and two arrows alike.
func tree() layout.Graph {
	g := layout.Graph{Arrows: []layout.Arrow{{From: 1, To: 0}, {From: 2, To: 0}, {From: 3, To: 1}, {From: 3, To: 2}, {From: 3, To: 0}, {From: 3, To: 0}}}
	for i := range 4 {
		g.Boxes = append(g.Boxes, layout.Box{Width: 178, Height: 40 + 10*float64(i)})
	}
	return g
}

func TestServe_PlacesWhatAnEngineAsks(t *testing.T) {
	e := child.New(os.Args[0], "serve")
	defer e.Close()
	g := tree()
	p, err := e.Place(t.Context(), g)
	if err != nil {
		t.Fatal(err)
	}
	for i := range g.Boxes {
		for j := range i {
			if apart := max(abs(p.Centres[i].X-p.Centres[j].X)-178, abs(p.Centres[i].Y-p.Centres[j].Y)-(g.Boxes[i].Height+g.Boxes[j].Height)/2); apart < -0.5 {
				t.Errorf("boxes %d and %d lie upon one another", j, i)
			}
		}
	}
	for _, a := range g.Arrows {
		if p.Centres[a.From].X >= p.Centres[a.To].X {
			t.Errorf("the cause %d is not left of %d", a.From, a.To)
		}
	}
	other := child.New(os.Args[0], "serve")
	defer other.Close()
	again, err := other.Place(t.Context(), g)
	if err != nil || again.Width != p.Width || again.Centres[3] != p.Centres[3] {
		t.Errorf("another process places it otherwise: %v, %v", again, err)
	}
}

func abs(v float64) float64 { return max(v, -v) }

func TestServe_RefusesAndGoesOn(t *testing.T) {
	var in, out bytes.Buffer
	for _, request := range []string{"", "digraph {", "digraph { a -> b }"} {
		in.Write(binary.BigEndian.AppendUint32(nil, uint32(len(request))))
		in.WriteString(request)
	}
	if err := Serve(&in, &out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"eno graph", "e", "pgraph 1"} {
		answer, err := child.ReadFrame(&out)
		if err != nil || !strings.HasPrefix(string(answer), want) {
			t.Errorf("got %q, %v; want %q…", answer, err, want)
		}
	}
	if _, err := child.ReadFrame(&out); err != io.EOF {
		t.Errorf("more answers than requests: %v", err)
	}
}
