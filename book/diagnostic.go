package book

import (
	"cmp"
	"slices"
)

// Severity says whether a book can be used in spite of a diagnostic.
type Severity uint8

// Severities. The zero value is invalid.
const (
	_      Severity = iota
	Error           // the book cannot be used
	Advice          // the book can be used; something is probably forgotten
)

func (s Severity) String() string { return [...]string{"invalid", "error", "advice"}[s] }

// Diagnostic is one thing that is wrong with a book, or worth a second look.
type Diagnostic struct {
	Severity Severity
	Code     string // stable, e.g. "unknown-id"; listed in Codes
	Summary  string // what is wrong, in one short sentence
	Detail   string // what to do about it, in full sentences
	Subject  Range  // the smallest place at fault; no File if it is the whole book
	Context  *Range // the wider place around it; nil where there is none
	Others   []Place
	Line     string // the text of the line where Subject begins; "" where there is none
}

// Place is a further place that a diagnostic speaks about.
type Place struct {
	Note  string
	Range Range
}

// Diagnostics are sorted by position: first those of the whole book, then file by file.
type Diagnostics []Diagnostic

// HasErrors tells whether any of them is an Error.
func (d Diagnostics) HasErrors() bool {
	return slices.ContainsFunc(d, func(d Diagnostic) bool { return d.Severity == Error })
}

// Sort puts them in order of position; errors before advice at the same place.
func (d Diagnostics) Sort() { slices.SortStableFunc(d, compareDiagnostics) }

func compareDiagnostics(a, b Diagnostic) int {
	return cmp.Or(
		comparePlaces(a.Subject, b.Subject),
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Code, b.Code),
		cmp.Compare(a.Summary, b.Summary),
	)
}

func comparePlaces(a, b Range) int {
	return cmp.Or(
		cmp.Compare(a.File, b.File),
		cmp.Compare(a.Offset, b.Offset),
		cmp.Compare(a.EndOffset, b.EndOffset),
	)
}

// How many diagnostics a load gives at most, and how many it keeps of each
// severity before it sorts them.
const (
	mostDiagnostics = 200
	mostKept        = 2000
)

// collector gathers diagnostics. The same problem found again on another build
// is one problem.
type collector struct {
	kept    Diagnostics
	seen    map[seenKey]bool
	dropped int
	of      [3]int // kept, by severity
}

type seenKey struct {
	code, file, summary string
	from, to            int
}

func (c *collector) add(d Diagnostic) {
	if c.of[d.Severity] >= mostKept {
		c.dropped++
		return
	}
	key := seenKey{d.Code, d.Subject.File, d.Summary, d.Subject.Offset, d.Subject.EndOffset}
	if c.seen[key] {
		return
	}
	if c.seen == nil {
		c.seen = map[seenKey]bool{}
	}
	c.seen[key] = true
	c.of[d.Severity]++
	c.kept = append(c.kept, d)
}

// full tells whether further errors would be dropped, so that work done only
// for the sake of a message can be spared.
func (c *collector) full() bool { return c.of[Error] >= mostKept }

// sorted gives the diagnostics in order, at most mostDiagnostics of them:
// advice gives way to errors.
func (c *collector) sorted() Diagnostics {
	all := append(Diagnostics(nil), c.kept...)
	all.Sort()
	surplus := len(all) - mostDiagnostics
	if surplus <= 0 && c.dropped == 0 {
		return all
	}
	out := withoutLast(all, surplus, Advice)
	out = withoutLast(out, len(out)-mostDiagnostics, Error)
	return append(out, andMore(len(all)-len(out)+c.dropped))
}

// withoutLast drops the last n diagnostics of a severity.
func withoutLast(all Diagnostics, n int, s Severity) Diagnostics {
	keep := -n
	for _, d := range all {
		if d.Severity == s {
			keep++
		}
	}
	var out Diagnostics
	for _, d := range all {
		if d.Severity == s {
			if keep <= 0 {
				continue
			}
			keep--
		}
		out = append(out, d)
	}
	return out
}
