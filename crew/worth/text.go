package worth

import (
	"fmt"
	"io"
	"strings"

	"knockon/book"
	"knockon/crew"
	"knockon/ledger"
)

// WriteText prints what the steps of a procedure are worth, within a width.
func WriteText(w io.Writer, x *Worth, width int) error {
	p := &printer{w: w, width: max(width, 40)}
	p.line("", "%s: what each step is worth.", x.Procedure.Title)
	if call := x.call(); call != nil {
		p.line("", "Called for by %s %s at %s, begun at %s. Flown %d times; times are those of the flight.",
			call.Alert.Level, quoted(call.Alert.Title), ledger.Clock(call.Given), ledger.Clock(call.Begun), x.Flights+1)
	}
	for _, s := range x.Steps {
		p.step(x, s)
	}
	p.traps(x)
	p.line("", "%s", book.Caution)
	return p.err
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

type printer struct {
	w     io.Writer
	width int
	err   error
}

// line prints words, broken at the width, each line after the first indented.
func (p *printer) line(indent, format string, a ...any) {
	text := fmt.Sprintf(format, a...)
	room := p.width - len(indent)
	for first := true; text != ""; first = false {
		piece := text
		if runes := []rune(text); len(runes) > room {
			cut := string(runes[:room])
			if i := strings.LastIndexByte(cut, ' '); i > 0 {
				cut = cut[:i]
			}
			piece = cut
		}
		text = strings.TrimLeft(text[len(piece):], " ")
		p.print(indent + strings.TrimRight(piece, " ") + "\n")
		if first && indent != "" {
			indent += "  "
			room -= 2
		}
	}
}

func (p *printer) print(s string) {
	if p.err == nil {
		_, p.err = io.WriteString(p.w, s)
	}
}

func (p *printer) step(x *Worth, s *Step) {
	p.print("\n")
	done := ""
	if s.Reached {
		done = ", " + ledger.Clock(s.At)
	}
	p.line("", "%s  %s%s%s", s.Number, Words(x.build(), s.Step), answered(s), done)
	p.line("   ", "Because: %s", s.Because)
	if s.Step.Because != "" {
		p.line("   ", "The book says: %s", s.Step.Because)
	}
	for _, text := range x.tried(s) {
		p.line("   ", "%s", text)
	}
}

func answered(s *Step) string {
	if s.Answer == crew.None {
		return ""
	}
	return " — " + string(s.Answer)
}

// Words are what a step says, or what it does where it says nothing.
func Words(b *book.Build, s *book.Step) string {
	switch {
	case s.Says != "":
		return s.Says
	case s.Set != "":
		if item, ok := b.Item(s.Set); ok {
			return item.Named().Title + ": " + s.To
		}
		return s.Set + ": " + s.To
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
		text := w.way(s, t) + ": "
		if len(bad) > 0 {
			text += w.list(bad)
		}
		if len(good) > 0 && len(bad) > 0 {
			text += "; "
		}
		if len(good) > 0 {
			text += "without: " + w.list(good)
		}
		texts = append(texts, text+".")
	}
	return texts
}

// way says in which wrong way a step is done.
func (w *Worth) way(s *Step, t *Trial) string {
	switch c := t.Change; c.Kind {
	case crew.Late:
		return "Late by " + spell(c.By)
	case crew.Wrong:
		return fmt.Sprintf("On the wrong switch (%s: %s)", lower(w.title(c.Control)), c.Position)
	case crew.Swap:
		return "Swapped with the next"
	case crew.Otherwise:
		return "Decided the other way"
	}
	return "Left out"
}

func spell(d book.Time) string {
	if s := d.Seconds(); s < 60 {
		return fmt.Sprintf("%.0f s", s)
	}
	return fmt.Sprintf("%.0f min", d.Seconds()/60)
}

func (p *printer) traps(x *Worth) {
	traps := Traps(x)
	if len(traps) == 0 {
		return
	}
	p.print("\n")
	p.line("", "Traps: steps whose omission hides best, least told and latest first.")
	for i, t := range traps {
		p.line("   ", "%d. step %s, %s later: %s", i+1, t.Step.Number, ledger.Clock(t.After), x.Say(t.Harm))
	}
}
