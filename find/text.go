package find

import (
	"io"

	"knockon/book"
	"knockon/say"
)

// labels are what the roles are called before a part.
var labels = map[string]string{Fails: "What fails", Out: "Inoperative at dispatch", Chapter: "Of the chapter", When: "When", Build: "Which build", Flight: "Which flight", Crew: "Who acts"}

// Label is what a part's role is called.
func (p Part) Label() string { return labels[p.Role] }

// Write writes how a text was understood as a page of plain text.
func (v *View) Write(w io.Writer, width int) error {
	p := say.NewPage(width)
	p.Paragraph("", v.Says)
	for _, part := range v.Parts {
		p.Gap()
		p.Paragraph("", part.Label()+": "+part.Title+" (for "+say.Quoted(part.Words)+")")
		for _, c := range part.Others {
			p.Paragraph("    or ", c.Title+refsOf(c))
		}
		if part.More > 0 {
			p.Paragraph("    ", "and "+say.Counted(part.More, "more", "more"))
		}
	}
	for _, s := range v.Strange {
		if s.Near != "" {
			p.Gap()
			p.Paragraph("", say.Quoted(s.Word)+": did you mean "+say.Quoted(s.Near)+"?")
		}
	}
	if v.Command != "" {
		p.Gap()
		p.Paragraph("", "The question:")
		p.Paragraph("  ", v.Command)
	}
	p.Gap()
	p.Paragraph("", book.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// refsOf is how a choice is typed.
func refsOf(c Choice) string {
	if len(c.refs) != 1 {
		return ""
	}
	return " (" + c.refs[0] + ")"
}
