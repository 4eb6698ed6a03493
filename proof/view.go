package proof

import (
	"fmt"
	"io"

	"knockon/book"
	"knockon/say"
)

// View is a proof in words; text and JSON are made of it.
type View struct {
	Heading string   `json:"heading"`
	Lead    string   `json:"lead"`
	Signs   []Row    `json:"signs"`
	Same    []string `json:"same"`     // failures that show the same in every sign
	Unknown []string `json:"unknown"`  // failures of which nothing is known then
	Looked  int      `json:"others"`   // failures that it was held against
	Proven  bool     `json:"smallest"` // no smaller set will do
	Caution string   `json:"caution"`
}

// Row is a sign.
type Row struct {
	Kind   string `json:"kind"`
	ID     string `json:"id"`
	Title  string `json:"title"`
	Shows  string `json:"shows"`
	Normal bool   `json:"normal"` // as without the failure
}

// View puts a proof into words.
func (p *Proof) View() View {
	b := p.Question.Course.Build
	v := View{Heading: p.heading(b), Lead: p.lead(b), Signs: []Row{}, Same: titles(b, p.Same), Unknown: titles(b, p.Unknown), Looked: p.Rivals, Proven: p.Proven, Caution: book.Caution}
	for _, s := range p.Signs {
		v.Signs = append(v.Signs, Row{s.Kind.String(), s.ID, s.Title, s.Shows, s.Normal})
	}
	return v
}

func titles(b *book.Build, list []book.FailureRef) []string {
	texts := []string{}
	for _, f := range list {
		texts = append(texts, b.FailureTitle(f.String()))
	}
	return texts
}

func (p *Proof) heading(b *book.Build) string {
	text := b.FailureTitle(p.Question.Fail.String()) + ", " + say.Clock(p.Strike) + " into the flight, looked at " + say.Lasts(p.Look-p.Strike) + " later, hands off"
	if len(p.Question.Out) > 0 {
		text += ", with " + say.And(titles(b, p.Question.Out)) + " inoperative"
	}
	return say.Sentence(text)
}

// lead says what can be concluded, as far as it can.
func (p *Proof) lead(b *book.Build) string {
	switch {
	case p.Ended != nil && p.Ended.Arrived():
		return "The flight is over by then, so nothing is answered."
	case p.Ended != nil:
		return "The flight breaks off before that (" + p.Ended.Why + "), so nothing is answered."
	case p.Abnormal == 0:
		return "Nothing shows it: every alert, indication and control is as without it."
	}
	whole := fmt.Sprintf("of the %s that it was held against", say.Counted(p.Rivals, "other single failure"))
	text := "What is shown proves it: none " + whole + " shows the same in " + all(len(p.Signs)) + " below"
	switch {
	case len(p.Signs) == 1:
		text = "One sign proves it: none " + whole + " shows the same"
	case len(p.Same) > 0:
		text = "What is shown does not prove it: " + say.And(titles(b, p.Same)) + " " + say.Plural(len(p.Same), "shows", "show") + " the same in every sign of the book. All others " + whole + " are excluded by what stands below"
	}
	if len(p.Signs) == 1 && len(p.Same) > 0 {
		text = "What is shown does not prove it: " + say.And(titles(b, p.Same)) + " " + say.Plural(len(p.Same), "shows", "show") + " the same in every sign of the book. All others " + whole + " are excluded by one sign"
	}
	text += "."
	if !p.Proven {
		text += " A smaller set may do."
	}
	if n := len(p.Unknown); n > 0 {
		text += fmt.Sprintf(" Of %d more nothing is known: with %s the flight is over by then.", n, say.Plural(n, "it", "them"))
	}
	return text
}

func all(n int) string {
	if n == 2 {
		return "both signs"
	}
	return "all " + say.Counted(n, "sign")
}

// WriteText prints a view.
func (v View) WriteText(w io.Writer, width int) error {
	p := say.NewPage(width)
	p.Paragraph("", v.Heading)
	p.Paragraph("", v.Lead)
	p.Gap()
	for _, s := range v.Signs {
		as := ""
		if s.Normal {
			as = ", as without the failure"
		}
		p.Paragraph("  ", say.Capital(s.Kind)+" "+say.Quoted(s.Title)+": "+s.Shows+as+".")
	}
	p.Gap()
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}
