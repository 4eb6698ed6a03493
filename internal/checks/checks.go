// Package checks turns tables of values that come from outside (published
// tables, rules, worked examples) into checks of the code that computes them,
// and into the page that counts them (docs/checks.md).
//
// Invariant: every row of every table is checked by a test of the package whose
// code computes it, and only a row whose value was read in its source counts.
// A table is text in tables/; start reading there, then at Value. Run compares,
// Page counts.
package checks

import (
	"embed"
	"fmt"
	"io/fs"
	"regexp"
	"strconv"
	"strings"
)

// Mark says how a value came here.
type Mark string

// The marks. Only what was Read in its source counts.
const (
	Read     Mark = "read"
	Memory   Mark = "from memory"
	Practice Mark = "common practice"
	Computed Mark = "computed by ourselves"
)

// Value is one value from outside and where it stands.
type Value struct {
	What      string  // the quantity, with its unit
	Given     string  // what it is of
	Want      string  // as it stands in the source
	Tolerance float64 // absolute, or with Relative a part of the value
	Relative  bool
	Mark      Mark
	Source    *Source
	Place     string // in the source
	Line      int    // of the table
}

// Source is a document, and where it was read.
type Source struct{ Key, Title, Address string }

// Table is the values of one area.
type Table struct {
	Area, Title string
	Package     string // whose test runs it
	Needs       string // what that test needs beside the repository; empty: nothing
	Values      []Value
}

//go:embed tables
var files embed.FS

// Tables gives all tables, by area, and the sources they name, in the order of
// the list of sources.
func Tables() ([]Table, []*Source, error) {
	dir, err := fs.Sub(files, "tables")
	if err != nil {
		return nil, nil, err
	}
	return load(dir)
}

const sourcesFile = "sources.tsv"

func load(dir fs.FS) (tables []Table, sources []*Source, err error) {
	text, err := fs.ReadFile(dir, sourcesFile)
	if err != nil {
		return nil, nil, err
	}
	byKey := map[string]*Source{}
	for i, line := range lines(string(text)) {
		cells := strings.Split(line, "\t")
		if len(cells) != 3 || byKey[cells[0]] != nil {
			return nil, nil, fmt.Errorf("%s:%d: a source is a key of its own, a title and an address, with tabs between", sourcesFile, i+1)
		}
		s := &Source{cells[0], cells[1], cells[2]}
		sources, byKey[s.Key] = append(sources, s), s
	}
	names, err := fs.Glob(dir, "*.tsv")
	for _, name := range names {
		if name == sourcesFile {
			continue
		}
		text, err := fs.ReadFile(dir, name)
		if err != nil {
			return nil, nil, err
		}
		t, err := parse(name, string(text), byKey)
		if err != nil {
			return nil, nil, err
		}
		tables = append(tables, t)
	}
	return tables, sources, err
}

func lines(text string) []string { return strings.Split(strings.TrimSuffix(text, "\n"), "\n") }

// parse reads a table. "# key: text" describes it; "@", a mark, a source and a
// place, with tabs between, hold for the rows below; a row is a quantity, what
// it is of, the value and the tolerance.
func parse(name, text string, sources map[string]*Source) (t Table, err error) {
	t.Area = strings.TrimSuffix(name, ".tsv")
	above := Value{}
	for i, line := range lines(text) {
		cells := strings.Split(line, "\t")
		switch {
		case strings.HasPrefix(line, "# "):
			err = t.describe(line[2:])
		case line == "":
		case cells[0] == "@":
			above, err = heading(cells, sources)
		default:
			err = t.row(above, cells, i+1)
		}
		if err != nil {
			return t, fmt.Errorf("%s:%d: %w", name, i+1, err)
		}
	}
	if t.Title == "" || t.Package == "" || len(t.Values) == 0 {
		return t, fmt.Errorf("%s: no title, no package or no rows", name)
	}
	return t, nil
}

func (t *Table) describe(line string) error {
	key, text, _ := strings.Cut(line, ": ")
	for _, f := range []struct {
		key string
		to  *string
	}{{"title", &t.Title}, {"package", &t.Package}, {"needs", &t.Needs}} {
		if f.key == key {
			*f.to = text
			return nil
		}
	}
	return fmt.Errorf("%q: a table has a title, a package and needs", key)
}

func heading(cells []string, sources map[string]*Source) (v Value, err error) {
	if len(cells) != 4 || cells[3] == "" {
		return v, fmt.Errorf("give a mark, a source and a place, with tabs between")
	}
	v.Mark, v.Source, v.Place = Mark(cells[1]), sources[cells[2]], cells[3]
	switch v.Mark {
	case Read, Memory, Practice, Computed:
	default:
		return v, fmt.Errorf("%q is no mark", v.Mark)
	}
	if v.Source == nil {
		return v, fmt.Errorf("%s does not list the source %q", sourcesFile, cells[2])
	}
	return v, nil
}

func (t *Table) row(v Value, cells []string, line int) (err error) {
	if len(cells) != 4 || v.Source == nil {
		return fmt.Errorf("a row is a quantity, what it is of, the value and the tolerance, with tabs between, below a line of its source")
	}
	v.What, v.Given, v.Want, v.Line = cells[0], cells[1], cells[2], line
	tolerance, relative := strings.CutSuffix(cells[3], "%")
	if v.Tolerance, err = strconv.ParseFloat(tolerance, 64); err != nil || v.Tolerance < 0 {
		return fmt.Errorf("%q is no tolerance", cells[3])
	}
	if v.Relative = relative; relative {
		v.Tolerance /= 100
	}
	for _, other := range t.Values {
		if other.What == v.What && other.Given == v.Given && other.Source == v.Source && other.Want == v.Want {
			return fmt.Errorf("this row stands in line %d already", other.Line)
		}
	}
	t.Values = append(t.Values, v)
	return nil
}

var number = regexp.MustCompile(`[-+]?\d+(\.\d+)?(e[-+]?\d+)?`)

// Numbers are the numbers in what the value is of.
func (v Value) Numbers() (list []float64) {
	for _, text := range number.FindAllString(v.Given, -1) {
		x, _ := strconv.ParseFloat(text, 64) // the pattern lets nothing else through
		list = append(list, x)
	}
	return list
}
