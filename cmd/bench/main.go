// Command bench measures what the README's table of speed says, and prints
// that table: the median of several runs of each. Run it on a quiet machine.
package main

import (
	"context"
	"flag"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"runtime"
	"runtime/debug"
	"slices"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/demo"
	"knockon/internal/booktest"
	"knockon/rescue"
	"knockon/run"
	"knockon/scenario"
	"knockon/web"
)

// row is one line of the table. work does it once and returns what it cost.
type row struct {
	what string
	goal time.Duration
	runs int
	work func(i int) time.Duration
}

func main() {
	flag.Parse()
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(200) // as knockon does
	}
	loaded := load(demo.Book())
	desk := ask.NewDesk(loaded)
	site, err := web.New(web.Setting{}, ask.NewDesk(loaded))
	check(err)
	big := booktest.Synthetic(5000, 20000)
	rows := []row{
		{"load and check the demonstration book, three builds", 50 * time.Millisecond, 15, func(int) time.Duration {
			return timed(func() { load(demo.Book()) })
		}},
		{"a flight of 106 minutes with two failures, and its ledger", 25 * time.Millisecond, 40, func(i int) time.Duration {
			return timed(func() { answer(desk, i) })
		}},
		{"the answer page of a new question, server side", 40 * time.Millisecond, 40, func(i int) time.Duration {
			return timed(func() { page(site, i) })
		}},
		{"load and check a book of 5,000 units and 20,000 items", time.Second, 5, func(int) time.Duration {
			return timed(func() { load(big) })
		}},
		{"rescue of one loss, one move", time.Second, 5, func(i int) time.Duration {
			return timed(func() { rescued(desk, i, 1) })
		}},
		{"rescue of one loss, up to two moves", 3 * time.Second, 3, func(i int) time.Duration {
			return timed(func() { rescued(desk, i, 2) })
		}},
		{"rescue of one loss, up to three moves", 10 * time.Second, 1, func(i int) time.Duration {
			return timed(func() { rescued(desk, i, 3) })
		}},
	}
	rows = append(rows, crewed(loaded)...)
	fmt.Printf("| what | goal | median | worst | runs |\n| --- | --- | --- | --- | --- |\n")
	for _, r := range rows {
		fmt.Println(r.measured())
	}
	check(sweeps(desk))
	fmt.Printf("\n%s %s/%s, %d processors.\n", runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
}

func (r row) measured() string {
	r.work(-1) // what is worked out once is not counted
	var costs []time.Duration
	for i := range r.runs {
		costs = append(costs, r.work(i))
	}
	slices.Sort(costs)
	return fmt.Sprintf("| %s | %s | %s | %s | %d |", r.what, r.goal, round(costs[len(costs)/2]), round(costs[len(costs)-1]), r.runs)
}

func round(d time.Duration) time.Duration { return d.Round(100 * time.Microsecond) }

func timed(work func()) time.Duration {
	start := time.Now()
	work()
	return time.Since(start)
}

func load(files fs.FS) *book.Book {
	b, diags := book.Load(context.Background(), files)
	if diags.HasErrors() {
		fmt.Fprintln(os.Stderr, "bench: the book has errors:", diags[0].Summary)
		os.Exit(1)
	}
	return b
}

func question(i int) string { return fmt.Sprintf("climb + %d s", 121+i) }

func answer(d *ask.Desk, i int) {
	_, err := d.Answer(context.Background(), ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: question(i)}}, Out: []string{"tr_left"}})
	check(err)
}

// rescued looks for what saves the wing from a burst duct: a loss that many
// controls reach.
func rescued(d *ask.Desk, i, order int) {
	if i < 0 && order > 1 {
		return // warmed by what one move took
	}
	c, err := d.Course("", "")
	check(err)
	k := run.Strike{Fail: []book.FailureRef{{Unit: "duct_burst"}}, At: book.Moment{Phase: "cruise", Offset: book.AtSeconds(float64(60 + i))}}
	_, err = rescue.Of(context.Background(), c, rescue.Question{Scenario: run.Scenario{Strikes: []run.Strike{k}}, Function: "sound_wing", Order: order, Workers: runtime.GOMAXPROCS(0)}, nil)
	check(err)
}

func page(site http.Handler, i int) {
	target := fmt.Sprintf("/?fail=tr_right&out=tr_left&at=climb%%2B%d+s", 121+i)
	r := httptest.NewRequest(http.MethodGet, "http://127.0.0.1"+target, nil)
	w := httptest.NewRecorder()
	site.ServeHTTP(w, r)
	if w.Code != http.StatusOK {
		check(fmt.Errorf("%s: status %d", target, w.Code))
	}
}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}
