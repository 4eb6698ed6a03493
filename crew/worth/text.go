package worth

import (
	"fmt"
	"io"
	"strings"

	"knockon/book"
	"knockon/crew"
	"knockon/say"
)

// WriteText prints what the steps of a procedure are worth, within a width.
func WriteText(w io.Writer, s *Study, b *book.Build, width int) error {
	p := printer{say.NewPage(width)}
	p.line("", "%s: what each step is worth.", s.Procedure.Title)
	for i, x := range s.Worths {
		p.line("  ", "%s", x.called(letter(i)))
	}
	if len(s.Worths) == 0 {
		p.line("  ", "None of %s calls for it%s. Name one with --fail.", say.Counted(s.Tried, "likely failure"), s.limited())
	}
	for i, n := range s.listed {
		p.step(s, b, n, s.Best[i])
	}
	p.traps(s.Traps())
	p.pairs(s)
	return p.end(w)
}

func letter(i int) string { return string(rune('A' + i%26)) }

// called says with which failure a procedure was assessed.
func (w *Worth) called(name string) string {
	v := failView(w)
	text := fmt.Sprintf("%s: %s at %s", name, happens(v), say.Clock(w.strike()))
	if v.Reset {
		text += ", a reset clears it"
	}
	if c := w.call(); c != nil {
		text += fmt.Sprintf("; %s %s; begun at %s", c.Alert.Level, say.Quoted(c.Alert.Message), w.clock(c.Begun))
	}
	return strings.TrimSpace(fmt.Sprintf("%s. %s. %s", text, say.Counted(v.Flights, "flight"), v.Unanswered))
}

// happens says what fails and what was moved before.
func happens(v FailView) string {
	moved := "with " + say.And(v.Moved)
	switch {
	case len(v.Fail) == 0:
		return say.And(v.Moved) + " by hand"
	case len(v.Fail) == 1 && len(v.Moved) == 0:
		return v.Fail[0] + " fails"
	case len(v.Moved) == 0:
		return say.And(v.Fail) + " fail"
	case len(v.Fail) == 1:
		return moved + ", " + v.Fail[0] + " fails"
	}
	return moved + ", " + say.And(v.Fail) + " fail"
}

// call is the call by which the procedure was begun first.
func (w *Worth) call() *crew.Call {
	for i := range w.Right.Plan.Calls {
		if c := &w.Right.Plan.Calls[i]; c.Procedure == w.Procedure && c.Begun != book.Never {
			return c
		}
	}
	return nil
}

// strike is when the failure came, or the hand slipped.
func (w *Worth) strike() book.Time { return book.AtSeconds(failView(w).AtS) }

// clock gives a moment from the failure on.
func (w *Worth) clock(t book.Time) string { return say.After(t - w.strike()) }

type printer struct{ *say.Page }

// line sets words, each line after the first a little further in.
func (p printer) line(indent, format string, a ...any) {
	p.Hang(indent, indent+"  ", fmt.Sprintf(format, a...))
}

// end sets the caution and writes the page.
func (p printer) end(w io.Writer) error {
	p.Gap()
	p.Paragraph("", book.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

func (p printer) step(s *Study, b *book.Build, n numbered, f *Finding) {
	p.Gap()
	if f.Worth == nil {
		p.Hang(n.number+"  ", "  ", Words(b, n.step))
		p.line("   ", "Because: %s", s.notCalled())
		return
	}
	x := f.Worth
	done := ""
	if f.Step.Reached {
		done = fmt.Sprintf(" [%s, %s]", letter(s.place(x)), x.clock(f.Step.At))
	}
	p.Hang(n.number+"  ", "  ", Words(b, n.step)+answered(f.Step)+done)
	p.line("   ", "Because: %s", f.Step.Because)
	if f.Step.Price != nil {
		p.line("   ", "%s", f.Step.Price)
	}
	if n.step.Because != "" {
		p.line("   ", "The book says: %s", n.step.Because)
	}
	for _, text := range x.tried(f.Step) {
		p.line("   ", "%s", text)
	}
}

func answered(s *Step) string {
	found := crew.Found(s.Step, s.Answer)
	if found == "" || !s.Reached {
		return ""
	}
	return " — " + found
}

// Words are what a step says, or what it does where it says nothing.
func Words(b *book.Build, s *book.Step) string {
	switch {
	case s.Whom != "":
		return "Tell " + s.Whom + ": " + s.Says
	case s.Says != "":
		return s.Says
	case s.Set != "":
		return b.Title(s.Set) + ": " + s.To
	case s.Kind == "later":
		return "later"
	}
	return s.Kind
}

// tried says what comes of the other wrong ways to do a step, those that change
// nothing left out.
func (w *Worth) tried(s *Step) (texts []string) {
	late := false
	for _, t := range s.Trials {
		bad, good := parted(t.Harms)
		if t.Change.Kind == crew.Omit || len(bad)+len(good) == 0 || late && t.Change.Kind == crew.Late {
			continue
		}
		late = late || t.Change.Kind == crew.Late
		texts = append(texts, w.way(s, t)+": "+broughtAndSpared(w.list(bad), w.list(good))+".")
	}
	return texts
}

// broughtAndSpared says what a wrong way brings, and what it spares that the right one
// costs; "" where it is nothing.
func broughtAndSpared(bad, good string) string {
	switch {
	case good == "":
		return bad
	case bad == "":
		return "it spares: " + good
	}
	return bad + "; it spares: " + good
}

// way says in which wrong way a step is done.
func (w *Worth) way(s *Step, t *Trial) string {
	switch c := t.Change; c.Kind {
	case crew.Late:
		return "Late by " + say.Lasts(c.By)
	case crew.Wrong:
		return fmt.Sprintf("On the wrong switch (%s: %s)", say.Lower(w.build().Title(c.Control)), c.Position)
	case crew.Swap:
		return "Swapped with the next"
	case crew.Otherwise:
		return "Decided the other way"
	}
	return "Left out"
}

func (p printer) traps(traps []Trap) {
	if len(traps) == 0 {
		return
	}
	p.Gap()
	p.line("", "Traps: steps whose omission hides best, least told and latest first.")
	for i, t := range traps {
		p.line("  ", "%d. step %s, %s later: %s", i+1, t.Step.Number, say.Lasts(t.After), t.Worth.Say(t.Harm))
	}
}

// mostPairs is how many pairs of steps are told of with one failure.
const mostPairs = 6

// pairs tells of steps that, left out together, bring what neither brings alone.
func (p printer) pairs(s *Study) {
	flown, left, found := 0, 0, 0
	for i, w := range s.Worths {
		flown, left = flown+len(w.Pairs), left+w.PairsLeft
		for j, x := range w.Together() {
			if found == 0 {
				p.Gap()
				p.line("", "Left out together: what neither step brings alone.")
			}
			found++
			if j == mostPairs {
				p.line("  ", "[%s] and %s more", letter(i), say.Counted(len(w.Together())-mostPairs, "pair"))
				break
			}
			bad, _ := parted(x.Harms)
			p.line("  ", "[%s] steps %s and %s: %s", letter(i), x.First.Number, x.Second.Number, w.list(bad))
		}
	}
	switch {
	case flown == 0:
	case found == 0:
		p.Gap()
		p.line("", "%s left out together%s: none brings more than its two steps do one by one%s.", say.Counted(flown, "pair of steps was", "pairs of steps were"), unflown(left), s.asFar())
	default:
		p.line("", "%s flown%s.", say.Counted(flown, "pair was", "pairs were"), unflown(left))
	}
}

// asFar limits what is said of all flights of a study to those that arrived.
func (s *Study) asFar() string {
	for _, w := range s.Worths {
		if broken(w.Right) != book.Never {
			return ", as far as they went: with " + happens(failView(w)) + " the flight breaks off, and what would come after is not known"
		}
	}
	return ""
}

func unflown(left int) string {
	if left == 0 {
		return ""
	}
	return ", " + say.Counted(left, "was not", "were not")
}

// WriteTraps prints the traps of many procedures, the worst first.
func WriteTraps(w io.Writer, traps []Trap, width int) error {
	p := printer{say.NewPage(width)}
	p.line("", "Steps whose omission hides best, least told and latest first.")
	for i, t := range traps {
		p.Gap()
		p.line("", "%d. %s, step %s: %s", i+1, t.Worth.Procedure.Title, t.Step.Number, Words(t.Worth.build(), t.Step.Step))
		p.line("   ", "%s later: %s (%s)", say.Lasts(t.After), t.Worth.Say(t.Harm), say.And(failView(t.Worth).Fail))
	}
	return p.end(w)
}
