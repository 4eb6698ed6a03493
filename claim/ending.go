package claim

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/say"
)

// ending answers how the flight with the failures ends.
func (f *finder) ending(e *book.Expr) float64 {
	how := f.how()
	word := ""
	if len(e.Args) > 0 {
		word = e.Args[0].Word
	}
	ident, name := f.bound()
	if e.Word == "never_arrives" {
		return f.note(yes(how != "" && (word == "" || word == how)), f.ended(ident, name))
	}
	there := word == "" || strings.EqualFold(word, ident) || strings.EqualFold(word, name)
	return f.note(yes(how == "" && there), f.ended(ident, name))
}

// overruns is how a flight ends that runs off the end of its runway.
const overruns = "overruns"

// how is how the flight ends, "" where it arrives.
func (f *finder) how() string {
	if end := f.l.Here.Ending(); !end.Arrived() {
		return string(end.How)
	}
	if _, _, over := f.l.Here.Overrun(); over {
		return overruns
	}
	return ""
}

// bound is the field that the flight goes to.
func (f *finder) bound() (ident, name string) {
	name = f.l.Here.Bound()
	if f.ground != nil {
		if a, ok := f.ground.Find(name); ok {
			return a.Ident, a.Name
		}
	}
	return name, name
}

func (f *finder) ended(ident, name string) string {
	end := f.l.Here.Ending()
	if !end.Arrived() {
		return fmt.Sprintf("%s: %s at %s", end.How, end.Why, f.clock(end.At))
	}
	to := name
	if ident != name {
		to += " (" + ident + ")"
	}
	if took, has, over := f.l.Here.Overrun(); over {
		return fmt.Sprintf("%s: at %s the landing takes %s m of %s m", overruns, to, say.Whole(took), say.Whole(has))
	}
	return "arrives at " + to + ", at " + f.clock(end.At)
}
