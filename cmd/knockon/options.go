package main

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"strings"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/demo"
)

// wrong refuses the value of an option, with what to write instead.
func wrong(part, format string, a ...any) error {
	return &ask.Trouble{Part: part, Text: fmt.Sprintf(format, a...)}
}

// atLeast refuses a number that is too small for an option.
func atLeast(part string, n, least, example int) error {
	if n >= least {
		return nil
	}
	return wrong(part, "%d is too few: give %d or more, such as --%s %d", n, least, part, example)
}

// longEnough refuses a time limit that ends before it begins.
func longEnough(d time.Duration) error {
	if d >= 0 {
		return nil
	}
	return wrong("within", "%s is over before it begins: give a length of time, such as --within 60s", d)
}

// first gives the first error of a list.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// once refuses a name that stands twice in a list.
func once(part string, names []string) error {
	seen := map[string]bool{}
	for _, n := range names {
		if n = strings.TrimSpace(n); seen[n] {
			return wrong(part, "%s is named twice: name it once", n)
		}
		seen[n] = true
	}
	return nil
}

// check refuses what no flight could show of a scenario.
func (f scenarioFlags) check(fail []string) error {
	if f.At != "" && f.When != "" {
		return wrong("when", "a failure comes at a moment or when something becomes yes: leave out --at or --when")
	}
	if math.IsNaN(f.For) || math.IsInf(f.For, 0) || f.For < 0 {
		return wrong("for", "%g is no length of time: give seconds, such as --for 30, or leave it out for a failure that lasts", f.For)
	}
	for _, o := range f.Out {
		for _, x := range fail {
			if strings.TrimSpace(o) == strings.TrimSpace(x) {
				return wrong("out", "%s is inoperative from the start, so it cannot fail later: name it once", x)
			}
		}
	}
	return first(once("fail", fail), once("out", f.Out))
}

// bookFlag chooses the book.
type bookFlag struct {
	Book string `help:"Folder of the book. Default: the built-in demonstration." placeholder:"DIR" type:"path"`
}

// files returns the book's file system.
func (b bookFlag) files() (fs.FS, error) {
	if b.Book == "" {
		return demo.Book(), nil
	}
	info, err := os.Stat(b.Book)
	if err != nil {
		return nil, fmt.Errorf("no book at %s: give the folder that holds its .hcl files", b.Book)
	}
	if !info.IsDir() {
		return nil, fmt.Errorf("%s is a file: give the folder that holds the book's .hcl files", b.Book)
	}
	return os.DirFS(b.Book), nil
}

// load reads the book and prints its errors; advice is check's business.
func (b bookFlag) load(ctx context.Context, stderr io.Writer) (*book.Book, error) {
	files, err := b.files()
	if err != nil {
		return nil, err
	}
	loaded, diags := book.Load(ctx, files)
	if !diags.HasErrors() {
		return loaded, nil
	}
	for _, d := range diags {
		if d.Severity == book.Error {
			d.Write(stderr, files)
		}
	}
	return nil, errFinding
}

func (b bookFlag) desk(o *out) (*ask.Desk, error) {
	loaded, err := b.load(o, o.stderr)
	if err != nil {
		return nil, err
	}
	return ask.NewDesk(loaded), nil
}
