package follow

import (
	"fmt"
	"io"
	"slices"

	"knockon/book"
	"knockon/say"
)

// View is what was found, in words; text and JSON are made of it.
type View struct {
	Lead     string `json:"lead"`
	Flown    int    `json:"flown"`
	Called   int    `json:"called"`
	Priced   int    `json:"priced"`
	Undone   int    `json:"neither_arrives"`
	Findings []Row  `json:"findings"`
	Caution  string `json:"caution"`
}

// Row is a finding.
type Row struct {
	Kind  Kind     `json:"kind"`
	Says  string   `json:"says"`
	Fail  []string `json:"fail"`
	Lists []string `json:"lists"`
	Line  string   `json:"line,omitempty"` // where it stands in the book
}

// View puts what was found into words.
func (f *Followed) View(b *book.Build) View {
	v := View{Lead: f.lead(), Flown: f.Flown, Called: f.Called, Priced: f.Priced, Undone: f.Undone, Findings: []Row{}, Caution: book.Caution}
	for i := range f.Findings {
		x := &f.Findings[i]
		row := Row{Kind: x.Kind, Says: x.says(f.Strike), Fail: say.Texts(x.Fail)}
		if x.Step != nil {
			row.Line = x.Step.Range.String()
		}
		for _, p := range x.Lists {
			row.Lists = append(row.Lists, p.ID)
		}
		v.Findings = append(v.Findings, row)
	}
	return v
}

// lead says the point first. That nothing is worse is said only of what was flown
// and compared.
func (f *Followed) lead() string {
	if f.Called == 0 {
		return fmt.Sprintf("None of %s has a list begun, so nothing is said of the lists.", say.Counted(f.Flown, "failure"))
	}
	text := fmt.Sprintf("%d of %s, each by itself %s into the flight, have a list begun; of other moments nothing is said. ", f.Called, say.Counted(f.Flown, "failure"), say.Clock(f.Strike))
	if n := f.worse(); n > 0 {
		text += fmt.Sprintf("After %d of them something grave is worse with the lists followed than hands off.", n)
	} else {
		text += "After none of them is anything grave lost that hands off keeps, or more than a minute sooner"
		if f.Undone > 0 {
			text += fmt.Sprintf(", as far as both flights go: after %d of them neither arrives", f.Undone)
		}
		text += "."
	}
	switch {
	case f.Priced > 0:
		text += fmt.Sprintf(" Fields were priced both ways for the %d after which the crew move something in the air.", f.Priced)
	default:
		text += " No field was priced."
	}
	return text + f.alone()
}

// worse counts the failures after which something is worse than hands off.
func (f *Followed) worse() int {
	return f.after(func(k Kind) bool { return slices.Index(kinds, k) < slices.Index(kinds, Late) })
}

// after counts the failures with a finding of some kinds.
func (f *Followed) after(of func(Kind) bool) int {
	seen := map[string]bool{}
	for _, x := range f.Findings {
		if of(x.Kind) {
			seen[fmt.Sprint(x.Fail)] = true
		}
	}
	return len(seen)
}

// alone says how often a list is worth a look by itself.
func (f *Followed) alone() (text string) {
	if n := f.after(func(k Kind) bool { return k == Late }); n > 0 {
		text += fmt.Sprintf(" After %d of them the list of a warning is not done ten minutes after it is given.", n)
	}
	if n := f.after(func(k Kind) bool { return k == GoOn }); n > 0 {
		text += fmt.Sprintf(" After %d of them something grave is lost for more than an hour, and no list says where to land.", n)
	}
	for _, a := range []struct {
		kind Kind
		says string
	}{
		{Undone, "a list that is begun in the air is not done at touchdown"},
		{Over, "something is read that is over: nothing that called for it is so any more, and no if asks for it again"},
		{Unheard, "a line tells somebody who cannot hear it, and gives no other way"},
	} {
		if n := f.after(func(k Kind) bool { return k == a.kind }); n > 0 {
			text += fmt.Sprintf(" After %d of them %s.", n, a.says)
		}
	}
	return text
}

// says is a finding as a sentence.
func (x *Finding) says(strike book.Time) string {
	switch x.Kind {
	case Breaks:
		return "the flight breaks off at " + say.After(x.At-strike) + ": " + x.Why
	case Lost:
		return fmt.Sprintf("%s is lost from %s (%s)", say.Lower(x.Function.Title), say.After(x.At-strike), x.Function.Severity)
	case Sooner:
		return fmt.Sprintf("%s is lost from %s, hands off from %s (%s)", say.Lower(x.Function.Title), say.After(x.At-strike), say.After(x.HandsOff-strike), x.Function.Severity)
	case Late:
		return fmt.Sprintf("the warning comes at %s, and %s is not done %s later", say.After(x.At-strike), say.Quoted(x.List.Title), say.Lasts(min(x.Took, lateS)))
	case GoOn:
		return fmt.Sprintf("%s is lost from %s (%s), and they fly on for %s", say.Lower(x.Function.Title), say.After(x.At-strike), x.Function.Severity, say.Lasts(x.Took))
	case Undone:
		return fmt.Sprintf("%s is begun at %s, and is not done when the wheels touch %s later", say.Quoted(x.List.Title), say.After(x.At-strike), say.Lasts(x.Took))
	case Over:
		return fmt.Sprintf("%s of %s (%s) is read at %s, and nothing that called for it is so any more", x.line(), say.Quoted(x.List.Title), x.Step.Range, say.After(x.At-strike))
	case Unheard:
		return fmt.Sprintf("%s of %s (%s) is not heard at %s", x.line(), say.Quoted(x.List.Title), x.Step.Range, say.After(x.At-strike))
	}
	return fmt.Sprintf("%s is closed: %s", x.Field, x.Why)
}

// line is what a line says, or what a later waits for.
func (x *Finding) line() string {
	switch s := x.Step; {
	case s.Says != "":
		return say.Quoted(s.Says)
	case s.When != nil:
		return "what waits for " + s.When.String()
	default:
		return "what is left for " + s.In
	}
}

// WriteText prints a view.
func WriteText(w io.Writer, v View, b *book.Build, width int) error {
	p := say.NewPage(width)
	p.Paragraph("", v.Lead)
	p.Paragraph("", "Times are minutes and seconds from the failure.")
	kind := Kind("")
	for _, r := range v.Findings {
		if r.Kind != kind {
			kind = r.Kind
			p.Gap()
			p.Head(string(kind))
		}
		var fails, lists []string
		for _, f := range r.Fail {
			fails = append(fails, b.FailureTitle(f))
		}
		for _, l := range r.Lists {
			lists = append(lists, b.Title(l))
		}
		p.Paragraph("  ", say.And(fails)+": "+r.Says+". Lists: "+say.And(lists)+".")
	}
	p.Gap()
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}
