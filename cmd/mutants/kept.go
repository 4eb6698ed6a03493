package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
)

type verdict string

const (
	drawn    verdict = "not tried"
	killed   verdict = "killed"
	late     verdict = "killed by the clock"
	survived verdict = "SURVIVED"
	gone     verdict = "line gone" // was drawn, and is no longer in the tree
)

// result is what became of a mutant, and the test that noticed.
type result struct {
	mutant
	Verdict verdict
	By      string
}

func (r result) String() string { return fmt.Sprintf("%s by %q: %s", r.Verdict, r.By, r.mutant) }

// kept is everything tried, in the order of the draw, and the file of it.
type kept struct {
	list []result
	file io.Writer
}

// readKept reads what was tried before; a later line about a mutant counts
// before an earlier one.
func readKept(name string) (*kept, error) {
	k := &kept{file: io.Discard}
	if name == "" {
		return k, nil
	}
	file, err := os.Open(name)
	if err == nil {
		defer file.Close()
		for lines := bufio.NewScanner(file); lines.Scan(); {
			var r result
			if err := json.Unmarshal(lines.Bytes(), &r); err != nil {
				return nil, fmt.Errorf("%s: %w: cut the file before this line", name, err)
			}
			k.put(r)
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	k.file, err = os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	return k, err
}

func (k *kept) put(r result) {
	i := slices.IndexFunc(k.list, func(old result) bool { return old.place == r.place })
	if i < 0 {
		k.list = append(k.list, r)
		return
	}
	k.list[i] = r
}

func (k *kept) add(r result) {
	k.put(r)
	line, err := json.Marshal(r)
	check(err)
	_, err = k.file.Write(append(line, '\n'))
	check(err)
}

// open finds those that are to be tried in the tree as it is: by what stands
// around them, since lines move. What is no longer there is kept as gone.
func (k *kept) open(again bool) (list []mutant) {
	now, read := map[place]mutant{}, map[string]bool{}
	for _, r := range slices.Clone(k.list) {
		if r.Verdict != drawn && !(again && r.Verdict == survived) {
			continue
		}
		if !read[r.Folder] {
			read[r.Folder] = true
			all, err := mutantsOf(r.Folder)
			check(err)
			for _, m := range all {
				now[m.place] = m
			}
		}
		if m, ok := now[r.place]; ok {
			list = append(list, m)
		} else {
			k.add(result{mutant: r.mutant, Verdict: gone})
		}
	}
	return list
}

func (k *kept) report(out io.Writer) {
	of := map[string]map[verdict]int{"all": {}}
	var packages []string
	for _, r := range k.list {
		if of[r.Folder] == nil {
			of[r.Folder] = map[verdict]int{}
			packages = append(packages, r.Folder)
		}
		of[r.Folder][r.Verdict]++
		of["all"][r.Verdict]++
	}
	slices.Sort(packages)
	for _, p := range append(packages, "all") {
		v := of[p]
		all := v[drawn] + v[killed] + v[late] + v[survived] + v[gone]
		fmt.Fprintf(out, "%s: %d of %d killed, %d of them by the clock; %d survived, %d on lines gone since, %d not tried\n",
			p, v[killed]+v[late], all, v[late], v[survived], v[gone], v[drawn])
	}
	for _, r := range k.list {
		if r.Verdict == survived || r.Verdict == gone {
			fmt.Fprintf(out, "  %s: %s\n", r.Verdict, r.mutant)
		}
	}
}
