// Command mutants asks whether tests would notice: it changes one token of a
// package at a time, drawn by seed, and runs that package's own tests on it.
// A mutant that does not compile is not counted and another is drawn; one that
// every test passes is a survivor and is listed. The tree is never written to:
// the changed file lies in a temporary folder and the compiler is told to read
// it in place of the other. Start reading at main, then draw.
//
//	go run ./cmd/mutants -n 400 ./drill ./crew ./costs ./ways/still ./run
package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"sync"
	"time"
)

func main() {
	n := flag.Int("n", 400, "how many mutants that compile, over all packages")
	seed := flag.Uint64("seed", 1, "which are drawn")
	jobs := flag.Int("jobs", 1, "how many are tried at once")
	limit := flag.Duration("limit", 4*time.Minute, "a mutant whose tests take longer is killed by the clock")
	flag.Parse()
	folder, err := os.MkdirTemp("", "mutants")
	check(err)
	defer os.RemoveAll(folder)
	tried := try(deck(flag.Args(), *seed), *n, *jobs, trial{folder: folder, limit: *limit})
	report(tried)
}

// deck is every single-token mutant of the packages in the order of the draw.
func deck(packages []string, seed uint64) (all []mutant) {
	for _, p := range packages {
		list, err := mutantsOf(p)
		check(err)
		quick, slow, err := timed(p)
		check(err)
		for i := range list {
			list[i].quick, list[i].slow = quick, slow
		}
		all = append(all, list...)
	}
	r := rand.New(rand.NewPCG(seed, 0))
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}

// try runs mutants until n have compiled.
func try(all []mutant, n, jobs int, t trial) (tried []result) {
	var (
		mu   sync.Mutex
		next int
		wg   sync.WaitGroup
	)
	take := func() (mutant, int, bool) {
		mu.Lock()
		defer mu.Unlock()
		if next == len(all) || len(tried) >= n {
			return mutant{}, 0, false
		}
		next++
		return all[next-1], next - 1, true
	}
	keep := func(r result) {
		mu.Lock()
		defer mu.Unlock()
		if r.verdict != broken && len(tried) < n {
			tried = append(tried, r)
			fmt.Fprintf(os.Stderr, "%d %s %s\n", len(tried), r.verdict, r.mutant)
		}
	}
	for range jobs {
		wg.Go(func() {
			for m, i, ok := take(); ok; m, i, ok = take() {
				keep(t.run(m, i))
			}
		})
	}
	wg.Wait()
	slices.SortFunc(tried, func(a, b result) int { return a.order - b.order })
	return tried
}

func report(tried []result) {
	total, killed := map[string]int{}, map[string]int{}
	var packages []string
	for _, r := range tried {
		if total[r.folder] == 0 {
			packages = append(packages, r.folder)
		}
		total[r.folder]++
		if r.verdict != survived {
			killed[r.folder]++
		}
	}
	slices.Sort(packages)
	all, byClock := 0, 0
	for _, r := range tried {
		if r.verdict == late {
			byClock++
		}
	}
	for _, p := range packages {
		all += killed[p]
		fmt.Printf("%s: %d of %d killed\n", p, killed[p], total[p])
	}
	fmt.Printf("all: %d of %d killed, %d of them by the clock\n\nSurvivors:\n", all, len(tried), byClock)
	for _, r := range tried {
		if r.verdict == survived {
			fmt.Println("  " + r.String())
		}
	}
}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}
