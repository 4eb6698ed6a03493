package ways_test

import (
	"bufio"
	"context"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"knockon/internal/tree"
	"knockon/ways"
	"knockon/ways/logic"
)

// The open set of 43 fault trees (DOI 10.5281/zenodo.20160659) is not part of
// this repository. KNOCKON_FAULT_TREES names a folder that holds it as plain
// text, one file a tree, with COUNTS.tsv, whose columns computed_mcs,
// computed_p and computed_mcs_by_order_from_0 these tests compare with.
const treesVariable = "KNOCKON_FAULT_TREES"

// tiers of analysis.md section 2: what an ordinary test run solves, and what
// only KNOCKON_SLOW=1 asks for.
var slowTrees = []string{"cea9601", "das9701", "edf9203", "edf9204", "edfpa14b", "edfpa14o", "edfpa14p", "edfpa14q", "edfpa14r"}

// unsolved has no known count.
const unsolved = "nus9601"

type openTree struct {
	name    string
	counts  []string // by order
	p, sum  float64  // exact probability; sum over the smallest sets
	negated bool
	l       *logic.Logic
	top     logic.Term
}

func openTrees(t testing.TB) []openTree {
	dir := os.Getenv(treesVariable)
	if dir == "" {
		t.Skipf("%s is not set: the open fault trees are not here", treesVariable)
	}
	file, err := os.Open(filepath.Join(dir, "COUNTS.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var trees []openTree
	column := map[string]int{}
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		cells := strings.Split(lines.Text(), "\t")
		if len(column) == 0 {
			for i, c := range cells {
				column[c] = i
			}
			continue
		}
		trees = append(trees, openTree{
			name:    cells[column["tree"]],
			counts:  strings.Split(cells[column["computed_mcs_by_order_from_0"]], ","),
			p:       number(cells[column["computed_p"]]),
			sum:     number(cells[column["computed_sum_mcs"]]),
			negated: cells[column["data_not"]] != "0" || cells[column["data_xor"]] != "0",
		})
	}
	for i := range trees {
		trees[i].load(t, dir)
	}
	if len(trees) != 43 {
		t.Fatalf("%d trees in %s, want 43", len(trees), dir)
	}
	return trees
}

// number reads a cell; one that holds none is not compared.
func number(cell string) float64 {
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

func (o *openTree) load(t testing.TB, dir string) {
	file, err := os.Open(filepath.Join(dir, o.name+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if o.l, o.top, err = tree.Read(file); err != nil {
		t.Fatalf("%s: %v", o.name, err)
	}
}

func (o *openTree) slow() bool {
	for _, s := range slowTrees {
		if o.name == s {
			return true
		}
	}
	return false
}

func checkCounts(t *testing.T, o openTree, w *ways.Ways, highest int) {
	t.Helper()
	for order := range max(len(o.counts), w.Highest()+1) {
		want := "0"
		if order < len(o.counts) && order <= highest {
			want = o.counts[order]
		}
		if got := w.Count(order).String(); got != want {
			t.Errorf("%s: %s sets of order %d, want %s", o.name, got, order, want)
		}
	}
}

func TestFind_CountsOpenTrees(t *testing.T) {
	slow := os.Getenv("KNOCKON_SLOW") != ""
	var total time.Duration
	for _, o := range openTrees(t) {
		if o.name == unsolved || o.slow() && !slow {
			continue
		}
		start := cpuTime()
		w, err := ways.Find(context.Background(), o.l, o.top, ways.Options{})
		if err != nil {
			t.Fatal(o.name, err)
		}
		took := cpuTime() - start
		total += took
		if took > 100*time.Millisecond {
			t.Logf("%-9s %8.3f s", o.name, took.Seconds())
		}
		checkCounts(t, o, w, ways.AllOrders)
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	t.Logf("all %8.3f s of processor time, memory taken from the system %d MB", total.Seconds(), m.Sys>>20)
}

// The table prints six digits.
func TestRisk_OfOpenTrees(t *testing.T) {
	for _, o := range openTrees(t) {
		if o.name == unsolved || o.slow() {
			continue
		}
		w := find(t, o.l, o.top, ways.Options{})
		risk, err := w.Risk(context.Background())
		if err != nil || !near(risk.P, o.p, 1e-5) {
			t.Errorf("%s: P = %.6g, want %.6g (%v)", o.name, risk.P, o.p, err)
		}
		b, err := w.Bounds()
		if o.negated {
			if err == nil {
				t.Errorf("%s: bounds of a tree with negation", o.name)
			}
			continue
		}
		if err != nil || !near(b.Sum, o.sum, 1e-5) {
			t.Errorf("%s: sum %.6g, want %.6g (%v)", o.name, b.Sum, o.sum, err)
		}
		slack := 1 + 1e-12
		if !(b.Largest <= risk.P*slack && risk.P <= b.Union*slack && b.Union <= b.Sum*slack) {
			t.Errorf("%s: P = %g is outside its bounds %g", o.name, risk.P, b)
		}
	}
}

func TestFind_CountsUpToOrder3(t *testing.T) {
	var total time.Duration
	for _, o := range openTrees(t) {
		if o.negated {
			continue
		}
		start := cpuTime()
		w, err := ways.Find(context.Background(), o.l, o.top, ways.Options{Order: 3})
		if err != nil {
			t.Fatal(o.name, err)
		}
		took := cpuTime() - start
		total += took
		if took > 10*time.Millisecond {
			t.Logf("%-9s %8.3f s", o.name, took.Seconds())
		}
		if o.name == unsolved {
			// 10 sets of order 3: own count, and an answer-set solver's.
			o.counts = []string{"0", "0", "0", "10"}
		}
		checkCounts(t, o, w, 3)
	}
	t.Logf("all %.3f s of processor time", total.Seconds())
}
