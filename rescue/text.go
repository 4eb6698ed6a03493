package rescue

import (
	"fmt"
	"io"
	"slices"

	"knockon/say"
)

// WriteText writes a view as plain text, width characters wide.
func WriteText(w io.Writer, v *View, width int) error {
	p := say.NewPage(width)
	for _, text := range append([]string{v.Lead, v.Verdict, v.Delay, v.Crew}, v.Worse...) {
		if text != "" {
			p.Paragraph("", text)
		}
	}
	if len(v.Rescues)+len(v.Dearer) > 0 {
		p.Paragraph("", "Times are minutes and seconds from the failure. Kept means: not lost while it is wanted.")
	}
	bars(p, v)
	head := "What rescues it"
	if v.Flight {
		head = "What lets it arrive"
	}
	sets(p, head, v.Rescues)
	sets(p, "Rescues that cost as much as they save, or more", v.Dearer)
	p.Gap()
	if v.More != "" {
		p.Paragraph("", v.More)
	}
	if v.Tried != "" {
		p.Paragraph("", v.Tried)
	}
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

func sets(p *say.Page, head string, list []Spoken) {
	if len(list) == 0 {
		return
	}
	p.Head(head)
	for i, s := range list {
		p.Paragraph(fmt.Sprintf("%4d  ", i+1), s.Says)
		for _, text := range slices.Concat(s.Members, s.Parts, s.Also) {
			p.Paragraph("      ", text)
		}
		for _, text := range []string{s.Cost, s.Without, s.Lists, s.Crew} {
			if text != "" {
				p.Paragraph("      ", text)
			}
		}
	}
}

// WriteSpared writes what moves spare as plain text.
func WriteSpared(w io.Writer, v *SpareView, width int) error {
	p := say.NewPage(width)
	p.Paragraph("", v.Lead)
	p.Paragraph("", "Times are minutes and seconds from the failure. Kept means: not lost while it is wanted.")
	if len(v.Steps) > 0 {
		p.Head("What it spares, the shortest time first")
	}
	for _, s := range v.Steps {
		p.Paragraph("  ", s.Says)
	}
	p.Gap()
	for _, text := range []string{v.Undone, v.Falls, v.Never, v.Cost, v.Caution} {
		if text != "" {
			p.Paragraph("", text)
		}
	}
	_, err := io.WriteString(w, p.String())
	return err
}
