package ledger

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/span"
)

// Lost gives the stretches in which a function is lost, with when it was first
// called for in each, without how it was told. Records that begin under way, as
// those of run.Together do, count from there. Where there is nil, all that does
// not work here is lost.
func Lost(here, there *run.Record, f *book.Function) []LossSpan {
	c := &comparison{here: here, there: there, end: here.End, wrong: WrongAfter(here.Course.Build.Aircraft)}
	if there != nil {
		c.end = min(c.end, there.End)
	}
	return c.lost(f)
}

// lost does that for one comparison.
func (c *comparison) lost(f *book.Function) (list []LossSpan) {
	wanted := c.isHere(f.ID, circuit.Wanted)
	works := span.Set{{From: c.here.Instants()[0], To: c.end}}
	if c.there != nil {
		works = c.isThere(f.ID, circuit.Main).And(works)
	}
	for _, p := range Gone(c.isHere(f.ID, circuit.Main), works, c.wrong) {
		s := LossSpan{Span: p, ToEnd: p.To == c.end}
		switch w := Wanted(wanted, p); {
		case len(w) == 0:
		case s.ToEnd || Counts(p, c.wrong):
			s.Mattered, s.Wanted = true, w[0]
		default:
			s.Brief = true
		}
		list = append(list, s)
	}
	return list
}

// Wanted is when a function is wanted in a stretch of a loss, beyond span.Rounding.
func Wanted(wanted span.Set, p circuit.Span) span.Set { return wanted.Within(p).Longer(span.Rounding) }

// Counts says that a loss lasts longer than wrong: one that is over sooner is a flicker,
// and no crew misses it, unless the run ends with it (docs/meaning.md, section 5).
func Counts(p circuit.Span, wrong book.Time) bool { return p.To-p.From > wrong }

// Gone gives the stretches in which what works there does not work here: those
// less than wrong apart are one.
func Gone(here, there span.Set, wrong book.Time) span.Set { return there.Beyond(here).Join(wrong) }
