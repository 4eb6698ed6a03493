package assess

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

// Cut keeps so many sets of each loss, and the losses of these functions alone
// (of all, where none is named).
func (v *View) Cut(most int, functions ...string) *View {
	cut := *v
	cut.Losses = []LossView{}
	for _, l := range v.Losses {
		if len(functions) > 0 && !slices.Contains(functions, l.Function) {
			continue
		}
		l.Sets = l.Sets[:min(most, len(l.Sets))]
		cut.Losses = append(cut.Losses, l)
	}
	return &cut
}

// Text sets a view. With all, what is met is shown with its sets as well, and
// not only named.
func (v *View) Text(p *say.Page, all bool) {
	p.Paragraph("", v.Setting+".")
	for _, line := range v.Says {
		p.Paragraph("", line)
	}
	for _, note := range v.NotAnswered {
		p.Gap()
		p.Paragraph("", note.String())
	}
	for _, c := range v.Classes {
		v.class(p, c, all)
	}
	p.Gap()
	p.Paragraph("", "A set in full: knockon fail <failures> --at \"<phase> + 5 s\" --crew none. The formulas: docs/assess.md.")
	p.Paragraph("", book.Caution)
}

func (v *View) class(p *say.Page, c ClassView, all bool) {
	var named []string
	p.Head(c.Class)
	p.Paragraph("", say.Sentence(c.Objective()+": "+c.Says))
	for _, l := range v.Losses {
		switch {
		case l.Class != c.Class:
		case l.Verdict == string(Met) && !all:
			named = append(named, l.Name()+" "+Figure(l.PerH))
		default:
			l.text(p)
		}
	}
	if len(named) > 0 {
		p.Gap()
		p.Paragraph("Met: ", strings.Join(named, "; ")+".")
	}
}

// Objective says what a class allows.
func (c ClassView) Objective() string {
	s := fmt.Sprintf("%s, at most %s per hour of flight", c.Word, Figure(c.PerH))
	if c.Slack > 1 {
		s += fmt.Sprintf(" (on the order of it: up to %s times)", say.Figures(c.Slack))
	}
	if o, _ := ObjectiveOf(c.Class); o.Alone {
		s += ", and by no single failure"
	}
	return s
}

// Most is the objective with its slack.
func (c ClassView) Most() float64 { return c.PerH * c.Slack }

// ID tells the lines of an assessment apart.
func (l LossView) ID() string {
	if l.Hidden {
		return l.Function + "-hidden"
	}
	return l.Function
}

// Name is the function, and that its loss is hidden if that is what is graded.
func (l LossView) Name() string {
	if l.Hidden {
		return l.Title + ", lost and hidden or denied"
	}
	return l.Title
}

func (l LossView) text(p *say.Page) {
	p.Gap()
	p.Headed("  ", l.Name()+" ("+l.Function+")", strings.ToUpper(l.Verdict))
	for _, line := range append(slices.Clone(l.Says), l.LatentSome()...) {
		p.Paragraph("    ", line)
	}
	for _, s := range l.Sets {
		p.Hang(fmt.Sprintf("    %8s %4s  ", s.Likely(), s.Part()), strings.Repeat(" ", 21), s.Refs()+"; "+s.Notes())
	}
	if n := l.Count - len(l.Sets); n > 0 {
		p.Paragraph("    ", fmt.Sprintf("… and %s; --most lists them.", say.Counted(n, "more set", "more sets")))
	}
}

// LatentSome are the first of the lines about latent members, hands off and then with
// the crew, and of each how many more there are.
func (l LossView) LatentSome() (lines []string) {
	lists := [][]string{l.Latent}
	if l.ByBook != nil {
		lists = append(lists, l.ByBook.Latent)
	}
	for _, list := range lists {
		lines = append(lines, list[:min(mostNamed, len(list))]...)
		if more := len(list) - mostNamed; more > 0 {
			lines = append(lines, fmt.Sprintf("… and %d more of this kind.", more))
		}
	}
	return lines
}

// Likely is how likely a set is, and Part its share.
func (s SetView) Likely() string {
	if s.PerH == nil {
		return "no rate"
	}
	return Figure(*s.PerH)
}

// Part is the share of a set in the sum.
func (s SetView) Part() string {
	switch pct := 100 * s.Share; {
	case s.PerH == nil:
		return ""
	case pct < 1:
		return "<1 %"
	default:
		return say.Whole(pct) + " %"
	}
}

// Refs are the failures as one writes them.
func (s SetView) Refs() string { return strings.Join(s.Failures, " + ") }

// Notes is what is said of a set beside its failures.
func (s SetView) Notes() string { return s.Where() + say.Ahead("; ", s.Crew) }

// Where is the same without what comes of it with the crew.
func (s SetView) Where() string {
	notes := []string{s.When}
	add := func(what string, ids []string) {
		if len(ids) > 0 {
			notes = append(notes, what+": "+strings.Join(ids, ", "))
		}
	}
	add("latent", s.Latent)
	add("common cause", s.Causes)
	add("without a rate", s.Unrated)
	if s.Brief {
		notes = append(notes, "per hour, since these phases are short")
	}
	return strings.Join(notes, "; ")
}
