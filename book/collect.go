package book

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
