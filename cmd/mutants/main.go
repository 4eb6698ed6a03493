// Command mutants asks whether tests would notice: it changes one token of a
// package at a time, drawn by seed, and runs that package's own tests on it.
// A mutant that does not compile is not counted and another is drawn; one that
// every test passes is a survivor and is listed, also where nobody could see
// it. The tree is never written to: the changed file lies in a temporary folder
// and the compiler is told to read it in place of the other. What was tried is
// kept in a file, so that a run can be stopped and gone on with, and survivors
// tried again once the tests are better. Start reading at main, then draw.
//
//	go run ./cmd/mutants -n 400 -kept tried.jsonl ./drill ./crew ./costs ./ways/still ./run
//	go run ./cmd/mutants -again -kept tried.jsonl
package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
)

func main() {
	n := flag.Int("n", 400, "how many mutants that compile are drawn, over all packages")
	seed := flag.Uint64("seed", 1, "which are drawn")
	jobs := flag.Int("jobs", 1, "how many are tried at once")
	file := flag.String("kept", "", "the file of what was drawn and tried: read to go on from, and added to")
	again := flag.Bool("again", false, "try the survivors of that file too, on the tree as it is now")
	flag.Parse()
	tried, err := readKept(*file)
	check(err)
	temp, err := os.MkdirTemp("", "mutants")
	check(err)
	defer os.RemoveAll(temp)
	if len(tried.list) == 0 {
		check(draw(temp, flag.Args(), *seed, *n, tried))
	}
	todo, bundles, err := bundled(temp, tried.open(*again), len(tried.list))
	check(err)
	for _, folder := range sortedKeys(bundles) {
		check(bundles[folder].learn(tried))
	}
	try(todo, *jobs, bundles, tried)
	tried.report(os.Stdout)
}

// draw keeps n mutants of the packages that compile, as not tried yet.
func draw(temp string, packages []string, seed uint64, n int, tried *kept) error {
	var all []mutant
	for _, p := range packages {
		list, err := mutantsOf(p)
		if err != nil {
			return err
		}
		all = append(all, list...)
	}
	r := rand.New(rand.NewPCG(seed, 0))
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	used, bundles, err := bundled(temp, all, n)
	for _, m := range used {
		if !bundles[m.Folder].broken[m.place] {
			tried.add(result{mutant: m, Verdict: drawn})
		}
	}
	return err
}

// bundled builds the first n mutants that compile, and gives the list back as
// far as it was needed for them.
func bundled(temp string, list []mutant, n int) (used []mutant, bundles map[string]*bundle, err error) {
	bundles = map[string]*bundle{}
	for again := true; again; {
		parts, good := map[string][]mutant{}, 0
		for used = nil; good < n && len(used) < len(list); {
			m := list[len(used)]
			used = append(used, m)
			if bundles[m.Folder] == nil {
				bundles[m.Folder] = &bundle{temp: temp, folder: m.Folder, broken: map[place]bool{}, alone: map[place]bool{}}
			}
			if !bundles[m.Folder].broken[m.place] {
				good++
				parts[m.Folder] = append(parts[m.Folder], m)
			}
		}
		again = false
		for _, folder := range sortedKeys(parts) {
			bad, err := bundles[folder].build(parts[folder])
			if err != nil {
				return nil, nil, err
			}
			again = again || bad
		}
	}
	return used, bundles, nil
}

// try runs mutants, some at once. They are kept in their order, so that a run
// can be gone on with.
func try(todo []mutant, jobs int, bundles map[string]*bundle, tried *kept) {
	results, slots := make([]chan result, len(todo)), make(chan bool, jobs)
	for i := range results {
		results[i] = make(chan result, 1)
	}
	go func() {
		for i, m := range todo {
			slots <- true
			go func() { results[i] <- bundles[m.Folder].run(m); <-slots }()
		}
	}()
	for _, c := range results {
		r := <-c
		tried.add(r)
		fmt.Fprintln(os.Stderr, r)
	}
}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}
