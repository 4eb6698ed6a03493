package figure

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"knockon/book"
	"knockon/figure/layout"
)

var update = flag.Bool("update", false, "rewrite the pictures in testdata")

func pictures() map[string]string {
	line, chain := sampleLine(), sampleChain()
	plan := layout.Layered(chain.Graph())
	return map[string]string{
		"line_wide.svg": line.Wide(), "line_narrow.svg": line.Narrow(), "line_alone.svg": line.SVG(),
		"chain_part.svg": chain.Part(plan), "chain_alone.svg": chain.SVG(plan),
		"line_nothing_failed.svg": Line{ID: "empty", Title: "Nothing failed", Phases: line.Phases, Feet: sampleFeet, Ceiling: 34000}.Wide(),
	}
}

func TestPictures_AreAsDrawnBefore(t *testing.T) {
	for name, got := range pictures() {
		path := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatalf("%v (make it with -update)", err)
		}
		if got != string(want) {
			t.Errorf("%s differs from testdata; look at the difference and run with -update if it is meant", name)
		}
	}
}

func TestPictures_AreWellFormedAndStandAlone(t *testing.T) {
	for name, svg := range pictures() {
		ids := map[string]bool{}
		d := xml.NewDecoder(strings.NewReader(svg))
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			start, ok := token.(xml.StartElement)
			if !ok {
				continue
			}
			names := map[xml.Name]bool{}
			for _, a := range start.Attr {
				if names[a.Name] {
					t.Errorf("%s: the attribute %s stands twice in one %s", name, a.Name.Local, start.Name.Local)
				}
				names[a.Name] = true
				checkAttribute(t, name, a, ids)
			}
		}
	}
}

// checkAttribute holds pictures to the page's content policy (no style or
// script attributes, nothing from elsewhere) and to ids that are their own.
func checkAttribute(t *testing.T, name string, a xml.Attr, ids map[string]bool) {
	t.Helper()
	switch key := a.Name.Local; {
	case key == "style" || strings.HasPrefix(key, "on"):
		t.Errorf("%s: attribute %s", name, key)
	case key == "href" && !strings.HasPrefix(a.Value, "#"):
		t.Errorf("%s: a link to %q", name, a.Value)
	case key == "id" && ids[a.Value]:
		t.Errorf("%s: the id %q stands twice", name, a.Value)
	case key == "id":
		ids[a.Value] = true
	case strings.HasPrefix(a.Value, "url("):
		if id := strings.TrimSuffix(strings.TrimPrefix(a.Value, "url(#"), ")"); !ids[id] {
			t.Errorf("%s: %s refers to %q, which is not there before it", name, key, id)
		}
	}
}

func TestPictures_UseRedAndAmberForWarningsAndCautionsOnly(t *testing.T) {
	line := sampleLine()
	line.Groups = line.Groups[:5]
	for name, svg := range map[string]string{"line without alerts": line.SVG(), "chain": pictures()["chain_alone.svg"]} {
		for _, colour := range []string{warning, caution} {
			if strings.Contains(svg, colour) {
				t.Errorf("%s: has %s in it", name, colour)
			}
		}
	}
	if svg := sampleLine().SVG(); !strings.Contains(svg, warning) || !strings.Contains(svg, caution) {
		t.Error("a line with a warning and a caution has no red or no amber")
	}
}

func TestAxis_GivesBackTheMoment(t *testing.T) {
	a := newAxis(sampleLine().Phases, 264, 950)
	for m := 0.0; m <= 105; m += 0.37 {
		at := minutes(m)
		if back := a.moment(a.at(at)); back < at-book.Second/1000 || back > at+book.Second/1000 {
			t.Fatalf("%v s came back as %v s", at.Seconds(), back.Seconds())
		}
	}
	if a.at(-5) != 264 || a.at(minutes(1000)) != 950 {
		t.Error("moments outside the flight are not at its ends")
	}
}

func TestAxis_GivesShortPhasesRoom(t *testing.T) {
	a := newAxis(sampleLine().Phases, 264, 950)
	for i := range a.t[1:] {
		if room := a.x[i+1] - a.x[i]; room < 30 {
			t.Errorf("phase %d is %.1f points wide", i, room)
		}
	}
}
