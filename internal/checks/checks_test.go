package checks

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
)

func tables(t *testing.T) ([]Table, []*Source) {
	t.Helper()
	list, sources, err := Tables()
	if err != nil {
		t.Fatal(err)
	}
	return list, sources
}

func TestPage_IsCurrent(t *testing.T) {
	tables(t)
	want, err := Page()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile("../../docs/checks.md")
	if err != nil || string(got) != want {
		t.Errorf("docs/checks.md is not what the tables say (%v): go run ./cmd/checks", err)
	}
}

// runs finds the tables that the tests below a folder run, and where.
func runs(t *testing.T, top string) map[string][]string {
	t.Helper()
	call := regexp.MustCompile(`\tchecks\.Run\(t, "([a-z-]+)"`)
	found := map[string][]string{}
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, m := range call.FindAllStringSubmatch(string(text), -1) {
			in, _ := filepath.Rel(top, filepath.Dir(path))
			found[m[1]] = append(found[m[1]], filepath.ToSlash(in))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// Each table is run by one test, in the package that it names; what Run then
// does with every row is held below.
func TestTables_AreEachRunByTheirPackage(t *testing.T) {
	found := runs(t, "../..")
	list, _ := tables(t)
	for _, a := range list {
		if got := found[a.Area]; len(got) != 1 || got[0] != a.Package {
			t.Errorf("%s.tsv is for one test in %s, but is run in %q", a.Area, a.Package, got)
		}
	}
}

func TestSources_AreEachNamedByARow(t *testing.T) {
	list, sources := tables(t)
	named := map[*Source]bool{}
	for _, a := range list {
		for _, v := range a.Values {
			named[v.Source] = true
			if v.Mark == Read && strings.Contains(v.Source.Address, "not read") {
				t.Errorf("%s.tsv:%d was read in a source that was not read", a.Area, v.Line)
			}
		}
	}
	for _, s := range sources {
		if !named[s] {
			t.Errorf("no row names the source %s", s.Key)
		}
	}
}

// told collects what a test is told.
type told struct{ lines []string }

func (*told) Helper() {}
func (l *told) Errorf(format string, args ...any) {
	l.lines = append(l.lines, fmt.Sprintf(format, args...))
}

const small = "# title: Small\n# package: p\n\n@\tread\tbook\tpage 1\nlength, m\t3 and -4.5 of e1\t7.5\t0.1\nshare\tno number\t200\t1%\nword\t\tgood\t0\n"

func smallTable(t *testing.T) Table {
	t.Helper()
	list, _, err := load(fstest.MapFS{"sources.tsv": {Data: []byte("book\tA book\tshelf\n")}, "small.tsv": {Data: []byte(small)}})
	if err != nil || len(list) != 1 || len(list[0].Values) != 3 {
		t.Fatalf("%v, %v", list, err)
	}
	return list[0]
}

func TestRun_FailsForAWrongValue(t *testing.T) {
	table := smallTable(t)
	right := func() map[string]How {
		return map[string]How{
			"length, m": Of(func(n []float64) float64 { return n[0] - n[1] + 0.09 }),
			"share":     func(Value) any { return 199 },
			"word":      func(Value) any { return "good" },
		}
	}
	for _, c := range []struct {
		what string
		how  How
		want string
	}{
		{"length, m", nil, "small.tsv:5: nothing computes length, m"},
		{"length, m", Of(func([]float64) float64 { return 7.61 }), "small.tsv:5: length, m (3 and -4.5 of e1): got 7.61, want 7.5 within 0.1; A book, page 1"},
		{"share", func(Value) any { return 203 }, "small.tsv:6: share (no number): got 203, want 200 within 2; A book, page 1"},
		{"share", func(Value) any { return nil }, "small.tsv:6: share (no number): got <nil>, which is no value; A book, page 1"},
		{"word", func(Value) any { return "poor" }, `small.tsv:7: word (): got "poor", want "good"; A book, page 1`},
		{"word", func(Value) any { return 1.0 }, "small.tsv:7: word (): got 1, want good within 0; A book, page 1"},
		{"more", func(Value) any { return 1 }, "small.tsv has no row of more"},
		{"", nil, ""},
	} {
		how, log := right(), &told{}
		if how[c.what] = c.how; c.how == nil {
			delete(how, c.what)
		}
		table.run(log, how)
		if got := strings.Join(log.lines, "\n"); got != c.want {
			t.Errorf("got %s\nwant %s", got, c.want)
		}
	}
	log := &told{}
	if Run(log, "no such area", nil); len(log.lines) != 1 {
		t.Errorf("%q", log.lines)
	}
}

func TestLoad_SaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"read", "heard", `small.tsv:4: "heard" is no mark`},
		{"\tbook\t", "\tbok\t", `small.tsv:4: sources.tsv does not list the source "bok"`},
		{"page 1", "", "small.tsv:4: give a mark, a source and a place"},
		{"0.1", "-1", `small.tsv:5: "-1" is no tolerance`},
		{"\t0.1", "", "small.tsv:5: a row is a quantity"},
		{"@\tread\tbook\tpage 1\n", "", "small.tsv:4: a row is a quantity"},
		{"# title: Small\n", "", "small.tsv: no title"},
		{"# title", "# tilte", `small.tsv:1: "tilte": a table has`},
		{"share\tno number\t200\t1%", "length, m\t3 and -4.5 of e1\t7.5\t2", "small.tsv:6: this row stands in line 5 already"},
	} {
		_, _, err := load(fstest.MapFS{"sources.tsv": {Data: []byte("book\tA book\tshelf\n")}, "small.tsv": {Data: []byte(strings.Replace(small, c.old, c.new, 1))}})
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
}
