package ledger

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/span"
)

// Word is how people can know of a loss (docs/meaning.md, section 5a).
type Word string

// Words, in the order in which they are tried.
const (
	IsTold  Word = "told"
	Denied  Word = "denied"
	Follows Word = "follows"
	AtOnce  Word = "noticed at once"
	Late    Word = "late"
	InUse   Word = "found when used"
	Hidden  Word = "hidden"
)

// Unknown says that nobody knows of what is so known: it is hidden, or denied by an
// indication. Such a loss may be graded otherwise (book.Function.Graded).
func (w Word) Unknown() bool { return w == Hidden || w == Denied }

// Words lists them, the heaviest first.
var Words = []Word{Hidden, Denied, InUse, Late, Follows, AtOnce, IsTold}

// Word is how people can know of a loss: by its class alone where nobody judged it.
func (l Loss) Word() Word {
	if l.Known != "" {
		return l.Known
	}
	return l.Class.word()
}

func (s LossSpan) word() Word {
	if s.Known.Word != "" {
		return s.Known.Word
	}
	return s.Class.word()
}

// word is what a class comes to where nothing else is known: what follows and what
// is noticed are not.
func (c Class) word() Word { return [...]Word{IsTold, Late, Hidden, Denied, Hidden}[c] }

// Known is how people can know of one stretch of a loss.
type Known struct {
	Word    Word
	Also    []Word    // the others that fit
	LateBy  book.Time // of Late
	ByAlert bool      // of Late: an alert tells it before it follows
	Follows *Following
	Noticed *Noticing
}

// Following is that a loss follows from something told.
type Following struct {
	At      book.Time   // when it does
	From    string      // id of what is held at the other end
	Title   string      // of that
	Alert   *book.Alert // that claims it; nil: a control that was moved by hand
	Claimed book.Time   // when that was claimed, or moved
	Steps   int
	Distant bool // true, and still worth teaching
}

// Noticing is that a loss is noticed without being told.
type Noticing struct {
	At     book.Time
	By     string // one of book.Senses
	AtOnce bool
	Source string
}

// Conclusion is a function that what is told takes away, and that works.
type Conclusion struct {
	Function *book.Function
	Spans    span.Set
}

// Claiming gives when an alert is right for long enough to tell anything, over as
// much as both runs went.
func Claiming(here, there *run.Record, a *book.Alert) span.Set {
	c := &comparison{here: here, there: there, build: here.Course.Build, end: min(here.End, there.End)}
	return LongEnough(c.newly(a.ID, circuit.Main).Minus(c.isHere(a.ID, circuit.False)))
}

// LongEnough keeps the stretches in which an alert is right that tell anything.
func LongEnough(right span.Set) span.Set { return right.Longer(leastGiven - 1) }

// Lying gives when an indication is wrong here and not there.
func Lying(here, there *run.Record, i *book.Indication) span.Set {
	c := &comparison{here: here, there: there, build: here.Course.Build, end: min(here.End, there.End)}
	return c.newly(i.ID, circuit.Wrong)
}
