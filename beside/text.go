package beside

import (
	"io"
	"strings"

	"knockon/say"
)

// Write writes two answers side by side as a page of plain text.
func (v *View) Write(w io.Writer, width int) error {
	p := say.NewPage(width)
	p.Paragraph("", v.Says)
	for i, s := range []Side{v.First, v.Second} {
		p.Gap()
		p.Paragraph([]string{"1  ", "2  "}[i], s.Heading+" "+s.Setting)
		p.Paragraph("   ", strings.TrimSpace(s.Opens+" "+s.Ends))
	}
	for _, section := range v.Sections {
		p.Head(say.Capital(section.Title))
		for _, r := range section.Rows {
			p.Headed("    ", r.Title, r.Rank)
			if list := cells(r); len(list) > 0 {
				p.Paragraph("        ", strings.Join(list, "; "))
			}
		}
	}
	if len(v.Alike) > 0 {
		p.Gap()
		p.Paragraph("", "Alike and not listed: "+v.AlikeText()+".")
	}
	p.Gap()
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// cells are what a row is in each of the two.
func cells(r Row) (list []string) {
	if r.First != "" && r.First != "yes" {
		list = append(list, "1: "+r.First)
	}
	if r.Second != "" && r.Second != "yes" {
		list = append(list, "2: "+r.Second)
	}
	return list
}

// AlikeText counts what is alike.
func (v *View) AlikeText() string {
	var list []string
	for _, c := range v.Alike {
		list = append(list, c.Title+" "+say.Whole(float64(c.Count)))
	}
	return strings.Join(list, "; ")
}
