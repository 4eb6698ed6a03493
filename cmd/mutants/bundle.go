package main

import (
	"encoding/json"
	"fmt"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// bundle is the tests of a package built once with all its mutants in them; the
// environment says which one stands: MUTANT=7, or 0 for none. With -1 it notes
// which functions with mutants a test comes by. A mutant outside of a function
// that can hand over has no number and is built alone.
type bundle struct {
	temp, folder string
	binary       string
	list         []mutant
	broken       map[place]bool // do not compile
	alone        map[place]bool // compile alone
	number       map[place]int  // from 1
	first        map[int]int    // by mutant: the number that its function goes by
	tests        []test
	counting     sync.Mutex // of what the tests noticed
}

// aside is the file that a bundle adds to the package.
const aside = `package %s

import (
	"os"
	"strconv"
	"sync"
)

var mutantNow, _ = strconv.Atoi(os.Getenv("MUTANT"))
var mutantsSeen sync.Map

func mutantIn(first int) int {
	if mutantNow < 0 {
		mutantNote(first)
	}
	return mutantNow
}

func mutantNote(first int) {
	if _, old := mutantsSeen.LoadOrStore(first, true); old {
		return
	}
	f, err := os.OpenFile(os.Getenv("MUTANTS_SEEN"), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		panic(err)
	}
	defer f.Close()
	if _, err := f.WriteString(strconv.Itoa(first) + "\n"); err != nil {
		panic(err)
	}
}
`

func sortedKeys[K ~int | ~string, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }

// build makes the bundle of some mutants. If some do not compile, it is to be
// built again without them.
func (b *bundle) build(list []mutant) (bad bool, err error) {
	if slices.Equal(b.list, list) {
		return false, nil
	}
	b.list, b.number, b.first = list, map[place]int{}, map[int]int{}
	before := len(b.broken)
	text, lines, err := b.texts()
	if err != nil {
		return false, err
	}
	b.binary = filepath.Join(b.temp, flat(b.folder)+".test")
	said, failed := b.compile(b.binary, text)
	for _, c := range complaint.FindAllStringSubmatch(said, -1) {
		line, _ := strconv.Atoi(c[2])
		_, file, _ := strings.Cut(filepath.Base(c[1]), readInstead)
		if at := lines[file]; line <= len(at) && at[line-1] > 0 {
			b.broken[list[at[line-1]-1].place] = true
		}
	}
	if failed != nil && len(b.broken) == before {
		return false, fmt.Errorf("%s: %w\n%s", b.folder, failed, said)
	}
	return len(b.broken) > before, nil
}

// texts are the files of the bundle, and which mutant each of their lines is of.
func (b *bundle) texts() (text map[string]string, lines map[string][]int, err error) {
	byFile := map[string]map[int]mutant{}
	for i, m := range b.list {
		if byFile[m.File] == nil {
			byFile[m.File] = map[int]mutant{}
		}
		byFile[m.File][i+1] = m
	}
	text, lines = map[string]string{}, map[string][]int{}
	for _, file := range sortedKeys(byFile) {
		old, err := os.ReadFile(file)
		if err != nil {
			return nil, nil, err
		}
		s, err := splice(old, byFile[file])
		if err != nil {
			return nil, nil, err
		}
		text[file], lines[flat(file)] = s.text, s.lines
		text[filepath.Join(b.folder, "zz_mutants.go")] = fmt.Sprintf(aside, s.pkg)
		b.sort(byFile[file], s)
	}
	return text, lines, nil
}

// sort tells apart those of a file that are in the bundle, those that stand
// outside of functions, and those that do not compile.
func (b *bundle) sort(mutants map[int]mutant, s *spliced) {
	maps.Copy(b.first, s.first)
	for n, m := range mutants {
		switch {
		case s.first[n] > 0:
			b.number[m.place] = n
		case slices.Contains(s.bad, n):
			b.broken[m.place] = true
		case !b.alone[m.place]:
			binary, err := b.buildAlone(m)
			os.Remove(binary)
			if err == nil {
				b.alone[m.place] = true
			} else {
				b.broken[m.place] = true
			}
		}
	}
}

var complaint = regexp.MustCompile(`(?m)^(\S+\.go):(\d+):\d+: `)

// readInstead stands between the names of a binary and of a file that is read
// in place of another; the compiler names that one.
const readInstead = "_instead_"

func flat(path string) string { return strings.ReplaceAll(path, "/", "_") }

// compile builds the tests of the package with some files read in place of
// those of the tree.
func (b *bundle) compile(binary string, text map[string]string) (said string, err error) {
	instead := map[string]string{}
	for file, t := range text {
		place, err := filepath.Abs(file)
		check(err)
		instead[place] = binary + readInstead + flat(file)
		check(os.WriteFile(instead[place], []byte(t), 0o600))
		defer os.Remove(instead[place])
	}
	overlay, err := json.Marshal(map[string]any{"Replace": instead})
	check(err)
	check(os.WriteFile(binary+".json", overlay, 0o600))
	out, err := exec.Command("go", "test", "-c", "-vet=off", "-gcflags=-e", "-ldflags=-s -w", "-overlay", binary+".json", "-o", binary, "./"+b.folder).CombinedOutput()
	return string(out), err
}

// buildAlone builds the tests with one mutant, which always stands.
func (b *bundle) buildAlone(m mutant) (binary string, err error) {
	text, err := m.changedFile()
	check(err)
	if _, err := parser.ParseFile(token.NewFileSet(), "", text, 0); err != nil {
		return "", err
	}
	binary = filepath.Join(b.temp, fmt.Sprintf("%s_%d.test", flat(m.File), m.offset))
	_, err = b.compile(binary, map[string]string{m.File: string(text)})
	return binary, err
}
