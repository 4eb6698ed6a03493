package book

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Every file in testdata/errors holds cases, parted by lines of three dashes.
// A case is a piece of a book, read beside testdata/base.hcl unless its first
// line says "alone". A comment ### "pattern" at the end of a line expects a
// diagnostic that begins in this line; a line ### whole "pattern" one of the
// whole book. A pattern is a regular expression for "code: summary. detail".
// What is expected and does not come fails as well as what comes unexpected.

type errorCase struct {
	name, text string
	alone      bool
	expect     []expectation
}

type expectation struct {
	line    int // 0: the whole book
	pattern *regexp.Regexp
	met     bool
}

func TestErrors(t *testing.T) {
	cases := errorCases(t)
	ran, met := 0, map[string]bool{"stopped": true} // see TestLoad_StopsWithItsContext
	run := func(name string, load func(t *testing.T) Diagnostics) {
		t.Run(name, func(t *testing.T) {
			ran++
			for _, d := range load(t) {
				met[d.Code] = true
			}
		})
	}
	for _, c := range cases {
		run(c.name, c.test)
	}
	for _, c := range fileCases {
		run(c.name, func(t *testing.T) Diagnostics { return loadFileCase(t, c.files(t), c.pattern) })
	}
	if ran == len(cases)+len(fileCases) {
		allCodesMet(t, met)
	}
}

// allCodesMet fails for a code that no case brings about: a message that nobody
// has read.
func allCodesMet(t *testing.T, met map[string]bool) {
	t.Helper()
	for _, c := range Codes {
		if !met[c.Name] {
			t.Errorf("no case has the code %q", c.Name)
		}
	}
}

func (c *errorCase) test(t *testing.T) Diagnostics {
	problems := c.load(t)
	for _, d := range problems {
		if !c.meet(d) {
			t.Errorf("not expected: %s", d)
		}
	}
	for _, e := range c.expect {
		if !e.met {
			t.Errorf("line %d: nothing matches %q", e.line, e.pattern)
		}
	}
	return problems
}

func errorCases(t *testing.T) []*errorCase {
	t.Helper()
	files, err := filepath.Glob("testdata/errors/*.hcl")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	var cases []*errorCase
	seen := map[string]bool{}
	for _, file := range files {
		for _, chunk := range strings.Split(readText(t, file), "\n---\n") {
			c := newErrorCase(t, file, chunk)
			if seen[c.name] {
				t.Fatalf("%s: two cases are called %q", file, c.name)
			}
			seen[c.name] = true
			cases = append(cases, c)
		}
	}
	return cases
}

func readText(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

var (
	marks    = regexp.MustCompile(`###( whole)?((?: "(?:[^"\\]|\\.)*")+)\s*$`)
	patterns = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)
)

func newErrorCase(t *testing.T, file, text string) *errorCase {
	t.Helper()
	first, _, _ := strings.Cut(text, "\n")
	name, ok := strings.CutPrefix(first, "# ")
	if !ok {
		t.Fatalf("%s: a case must begin with a comment that names it, not %q", file, first)
	}
	c := &errorCase{name: strings.TrimSuffix(name, ", alone"), text: text, alone: strings.HasSuffix(name, ", alone")}
	for i, line := range strings.Split(text, "\n") {
		m := marks.FindStringSubmatch(line)
		if m == nil && strings.Contains(line, "###") {
			t.Fatalf("%s: cannot read %q", file, line)
		}
		if m == nil {
			continue
		}
		at := i + 1
		if m[1] != "" {
			at = 0
		}
		for _, p := range patterns.FindAllString(m[2], -1) {
			plain, err := strconv.Unquote(p)
			if err != nil {
				t.Fatalf("%s: %q: %v", file, p, err)
			}
			c.expect = append(c.expect, expectation{line: at, pattern: regexp.MustCompile(plain)})
		}
	}
	return c
}

func (c *errorCase) load(t *testing.T) Diagnostics {
	t.Helper()
	parts := []string{"case.hcl", c.text}
	if !c.alone {
		parts = append(parts, "base.hcl", readText(t, "testdata/base.hcl"))
	}
	b, problems := Load(context.Background(), filesOf(parts...))
	if (b == nil) != problems.HasErrors() {
		t.Errorf("a book is given: %v; there are errors: %v", b != nil, problems.HasErrors())
	}
	return problems
}

// meet finds an expectation for a diagnostic.
func (c *errorCase) meet(d Diagnostic) bool {
	text := d.Code + ": " + d.Summary + ". " + d.Detail
	for i := range c.expect {
		e := &c.expect[i]
		if !e.met && e.line == d.Subject.Line && (e.line == 0 || d.Subject.File == "case.hcl") && e.pattern.MatchString(text) {
			e.met = true
			return true
		}
	}
	return false
}
