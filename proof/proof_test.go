package proof

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/smallbook"
	"knockon/run"
)

func prove(t testing.TB, c *run.Course, fail string, at, after float64) *Proof {
	t.Helper()
	unit, fault, _ := strings.Cut(fail, ".")
	p, err := Of(context.Background(), Question{Course: c, Fail: book.FailureRef{Unit: unit, Fault: fault}, At: book.Moment{Offset: book.AtSeconds(at)}, After: book.AtSeconds(after), Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// packs is two packs behind two bleeds, each with a gauge, and a valve between.
const packs = `
unit "bleed_left" { title = "Left bleed" }
unit "bleed_right" { title = "Right bleed" }
unit "pack_left" {
  title = "Left pack"
  needs = bleed_left
}
unit "pack_right" {
  title = "Right pack"
  needs = bleed_right
}
unit "lamp" { title = "Lamp" }
unit "spare" { title = "Spare" }
unit "twin" { title = "Twin" }
event "gust" {
  title = "Gust"
  fails = [lamp]
}
function "air" { works = pack_left || pack_right }
alert "pack_off" {
  level   = "caution"
  message = "PACK OFF"
  when    = !pack_left || !pack_right
}
alert "two" {
  level   = "advisory"
  message = "TWO"
  when    = !twin
}
indication "pressure_left" {
  title = "Left pressure"
  shows = bleed_left ? 40 : 0
}
indication "pressure_right" {
  title = "Right pressure"
  shows = bleed_right ? 40 : 0
}
indication "flow_left" {
  title  = "Left flow"
  shows  = pack_left
  lit_by = lamp
}
`

// Each sentence is said of its own question only.
func TestView_Leads(t *testing.T) {
	c := smallbook.Course(t, packs)
	for _, x := range []struct {
		fail      string
		at, after float64
		lead      string
		signs     string
	}{
		{"bleed_left", 120, 60, "One sign proves it: none of the 7 other single failures that it was held against shows the same.", "indication Left pressure: 0."},
		{"pack_left", 120, 60, "What is shown proves it: none of the 7 other single failures that it was held against shows the same in both signs below.", "indication Left pressure: 40 as ever; indication Left flow: off."},
		{"pack_right", 120, 60, "What is shown proves it: none of the 7 other single failures that it was held against shows the same in all 3 signs below.", "alert PACK OFF: given; indication Right pressure: 40 as ever; indication Left flow: on as ever."},
		{"twin", 120, 60, "One sign proves it: none of the 7 other single failures that it was held against shows the same.", "alert TWO: given."},
		{"lamp", 120, 60, "What is shown does not prove it: Gust shows the same in every sign of the book. All others of the 7 other single failures that it was held against are excluded by one sign.", "indication Left flow: dark."},
		{"spare", 120, 60, "Nothing shows it: every alert, indication and control is as without it.", ""},
		{"twin", 380, 60, "The flight is over by then, so nothing is answered.", ""},
	} {
		v := prove(t, c, x.fail, x.at, x.after).View()
		if v.Lead != x.lead {
			t.Errorf("%s\ngot  %s\nwant %s", x.fail, v.Lead, x.lead)
		}
		var signs []string
		for _, s := range v.Signs {
			text := s.Kind + " " + s.Title + ": " + s.Shows
			if s.Normal {
				text += " as ever"
			}
			signs = append(signs, text)
		}
		if got := strings.TrimSpace(strings.Join(signs, "; ")); got != strings.TrimSuffix(x.signs, ".") && got+"." != x.signs {
			t.Errorf("%s\ngot  %s\nwant %s", x.fail, got, x.signs)
		}
	}
}

// On random small books the set excludes what it says, and no smaller one does: all
// sets are tried, on looks that are read anew.
func TestOf_AgreesWithTryingAll(t *testing.T) {
	sizes := map[int]int{}
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 1))
		c := smallbook.Course(t, random(rng))
		fail := fmt.Sprintf("u%d", rng.IntN(units))
		p := prove(t, c, fail, 120, 20)
		want, same := trying(t, c, fail)
		if p.Abnormal == 0 {
			continue
		}
		var got []string
		for _, s := range p.Signs {
			got = append(got, s.ID)
		}
		if len(got) != want || !p.Proven {
			t.Fatalf("seed %d, %s: %v, and %d signs are enough", seed, fail, got, want)
		}
		var shown []string
		for _, f := range p.Same {
			shown = append(shown, f.String())
		}
		if !slices.Equal(shown, same) {
			t.Fatalf("seed %d, %s: %v show the same, not %v", seed, fail, same, shown)
		}
		if left := rivalsLeft(t, c, fail, got); !slices.Equal(left, same) {
			t.Fatalf("seed %d, %s: %v leave %v", seed, fail, got, left)
		}
		sizes[len(got)]++
	}
	if sizes[2] == 0 || sizes[3] == 0 {
		t.Errorf("the books are too easy: %v", sizes)
	}
	t.Log(sizes)
}

const units = 9

// random is a book of a few units, alerts and indications.
func random(rng *rand.Rand) string {
	var s strings.Builder
	for i := range units {
		fmt.Fprintf(&s, "unit \"u%d\" {}\n", i)
	}
	s.WriteString("function \"f\" { works = u0 }\n")
	term := func() string {
		text := fmt.Sprintf("u%d", rng.IntN(units))
		if rng.IntN(3) == 0 {
			text = "!" + text
		}
		return text
	}
	both := func() string { return "(" + term() + []string{" && ", " || "}[rng.IntN(2)] + term() + ")" }
	for i := range 1 + rng.IntN(3) {
		fmt.Fprintf(&s, "alert \"a%d\" {\n level = \"caution\"\n message = \"A\"\n when = %s\n}\n", i, both())
	}
	for i := range 3 + rng.IntN(4) {
		some := []string{"true"}
		for u := range units {
			if rng.IntN(2) == 0 {
				some = append(some, fmt.Sprintf("u%d", u))
			}
		}
		fmt.Fprintf(&s, "indication \"i%d\" {\n shows = all(%s)\n lit_by = %s || u%d\n}\n", i, strings.Join(some, ", "), both(), rng.IntN(units))
	}
	return s.String()
}

// reading is what every sign of a failure says, read from a whole flight of its own.
func reading(t *testing.T, c *run.Course, fail string) map[string]string {
	t.Helper()
	var s run.Scenario
	if fail != "" {
		s.Strikes = []run.Strike{{Fail: []book.FailureRef{{Unit: fail}}, At: book.Moment{Offset: 120 * book.Second}}}
	}
	r, err := c.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	at := 140 * book.Second
	says := map[string]string{}
	for _, v := range r.Circuit().Values() {
		if id := v.Value.Item; v.Value.Aspect == "" && (id[0] == 'a' || id[0] == 'i') && len(id) == 2 {
			says[id] = fmt.Sprint(r.At(v.Node, at))
		}
	}
	for _, v := range r.Circuit().Values() {
		if v.Value.Aspect == "lit" && r.At(v.Node, at) == 0 {
			says[v.Value.Item] = "dark"
		}
	}
	return says
}

// rivalsLeft are those that some signs do not exclude.
func rivalsLeft(t *testing.T, c *run.Course, fail string, signs []string) (left []string) {
	own := reading(t, c, fail)
	for i := range units {
		other := fmt.Sprintf("u%d", i)
		says := reading(t, c, other)
		if other != fail && !slices.ContainsFunc(signs, func(id string) bool { return says[id] != own[id] }) {
			left = append(left, other)
		}
	}
	return left
}

// trying finds how many signs are enough by trying all sets of them, and which
// failures no sign excludes.
func trying(t *testing.T, c *run.Course, fail string) (fewest int, same []string) {
	own, ids := reading(t, c, fail), []string{}
	for id := range own {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	same = rivalsLeft(t, c, fail, ids)
	var others []map[string]string
	for i := range units {
		if o := fmt.Sprintf("u%d", i); o != fail && !slices.Contains(same, o) {
			others = append(others, reading(t, c, o))
		}
	}
	others = append(others, reading(t, c, ""))
	fewest = len(ids) + 1
	for bits := range 1 << len(ids) {
		var set []string
		for i, id := range ids {
			if bits>>i&1 == 1 {
				set = append(set, id)
			}
		}
		enough := !slices.ContainsFunc(others, func(o map[string]string) bool {
			return !slices.ContainsFunc(set, func(id string) bool { return o[id] != own[id] })
		})
		if enough {
			fewest = min(fewest, len(set))
		}
	}
	return fewest, same
}

func TestCover_GreedyCoversToo(t *testing.T) {
	var table [][]bool
	for i := range 8 { // eight rivals, each excluded by a sign of its own
		row := make([]bool, 8)
		row[i] = true
		table = append(table, row)
	}
	set, proven := cover(table, 8)
	if proven || len(set) != 8 {
		t.Errorf("%v, proven %v", set, proven)
	}
}
