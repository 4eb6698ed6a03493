package snapshot

import (
	"io"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/say"
)

// lost are the functions that are lost now, as the ledger has them.
func (m maker) lost(l *ledger.View) []Lost {
	list := []Lost{}
	for _, g := range l.Groups {
		for _, r := range g.Rows {
			if r.Kind != "function" || g.ID == ledger.GroupKept || g.ID == ledger.GroupConcluded {
				continue
			}
			for _, s := range r.Spans {
				if s.From.Time <= m.at && (m.at < s.Until.Time || s.ToEnd) {
					list = append(list, m.lostNow(r, s))
					break
				}
			}
		}
	}
	return list
}

func (m maker) lostNow(r ledger.Row, s ledger.RowSpan) Lost {
	x := Lost{ID: r.ID, Title: r.Title, Severity: r.Rank, Known: s.Known, CalledFor: true}
	if n, ok := m.Here.Circuit().Node(circuit.Value{Item: r.ID, Aspect: circuit.Wanted}); ok {
		x.CalledFor = m.Here.At(n, m.at) != 0
	}
	if by := m.denying(s); s.Known == ledger.Denied && by != "" {
		x.Text = "denied by " + say.Quoted(by)
		return x
	}
	var since *ledger.Moment
	how := ""
	try := func(at *ledger.Moment, text string) {
		if at != nil && (since == nil || at.Time < since.Time) {
			since, how = at, text
		}
	}
	if s.By != nil {
		try(s.At, "told by "+say.Quoted(s.By.Title))
	}
	if s.FollowsFrom != nil {
		text := "follows from what is told"
		if s.FollowsFrom.Alert != nil {
			text = "follows from " + say.Quoted(s.FollowsFrom.Alert.Title)
		}
		try(&s.FollowsFrom.At, text)
	}
	if s.Noticed != nil {
		try(&s.Noticed.At, "noticed, "+s.Noticed.By)
	}
	switch {
	case since == nil:
		x.Text = "nothing tells of it"
	case since.Time > m.at:
		x.Text = "not known yet; " + how + " at " + since.Clock
	default:
		x.ByNow, x.Text = true, how+" at "+since.Clock
	}
	return x
}

// denying is what shows a loss wrong now; "" nothing does.
func (m maker) denying(s ledger.RowSpan) string {
	for _, d := range s.DeniedBy {
		for _, r := range m.Ledger.Wrong {
			if r.Indication.ID == d.ID && in(r.Spans, m.at) {
				return r.Indication.Title
			}
		}
	}
	return ""
}

// Ways are the losses by how they are known: first what nobody can know by now.
func (v *View) Ways() (list []Way) {
	for _, known := range []bool{false, true} {
		for _, x := range v.Lost {
			if x.ByNow != known {
				continue
			}
			i := slices.IndexFunc(list, func(w Way) bool { return w.Text == x.Text && w.ByNow == known })
			if i < 0 {
				i, list = len(list), append(list, Way{Text: x.Text, ByNow: known})
			}
			list[i].Titles = append(list[i].Titles, x.Name())
		}
	}
	return list
}

// Way is how some losses are known.
type Way struct {
	Text   string
	ByNow  bool
	Titles []string
}

// wrong are the indications that are lit and wrong now.
func (m maker) wrong() []Shown {
	list := []Shown{}
	for _, r := range m.Ledger.Wrong {
		if in(r.Spans, m.at) {
			list = append(list, Shown{r.Indication.ID, r.Indication.Title})
		}
	}
	return list
}

func (m maker) dark() []string {
	list := []string{}
	for _, r := range m.Ledger.Dark {
		if in(r.Spans, m.at) {
			list = append(list, r.Indication.Title)
		}
	}
	return list
}

func in(spans []ledger.ReadingSpan, at book.Time) bool {
	for _, s := range spans {
		if s.From <= at && (at < s.To || s.ToEnd) {
			return true
		}
	}
	return false
}

// says is the moment's point: how much is lost, and how much of that is known.
func (m maker) says(v *View) string {
	called, unknown := 0, 0
	for _, x := range v.Lost {
		if x.CalledFor {
			called++
			if !x.ByNow {
				unknown++
			}
		}
	}
	told := say.NoneOr(len(v.Told), "alert stands", "alerts stand")
	at := v.At.Clock + " into the flight" + say.Ahead(", in the phase ", quoted(v.At.Title))
	if e := m.Here.Ending(); m.at == m.Here.End && !e.Arrived() {
		at += ", where the flight breaks off: " + e.Why
	}
	switch {
	case m.at < m.Ledger.Strike:
		return at + ": nothing has failed yet. " + say.Capital(told) + "."
	case called == 0:
		return at + ": nothing is lost that is called for now. " + say.Capital(told) + "."
	}
	text := say.Counted(called, "thing is lost", "things are lost") + " that " + say.Plural(called, "is", "are") + " called for now, "
	switch unknown {
	case 0:
		text += "and people can know of " + say.Plural(called, "it", "all of them")
	case called:
		text += "and so far nobody can know of " + say.Plural(called, "it", "any of them")
	default:
		text += "and of " + map[bool]string{true: "one", false: say.Whole(float64(unknown))}[unknown == 1] + " of them nobody can know so far"
	}
	return at + ": " + text + ". " + say.Capital(told) + "."
}

func quoted(title string) string {
	if title == "" {
		return ""
	}
	return say.Quoted(title)
}

// Write writes a moment as a page of plain text.
func (v *View) Write(w io.Writer, width int) error {
	p := say.NewPage(width)
	p.Paragraph("", v.Says)
	p.Gap()
	p.Paragraph("", v.Heading+" It is "+v.At.After+" from the failure.")
	for _, block := range []struct {
		title string
		list  []Figure
	}{{"The flight", v.Flight}, {"The weather", v.Weather}, {"How it is set", v.Set}} {
		p.Head(block.title)
		for _, f := range block.list {
			p.Paragraph("  ", f.Title+": "+f.Text+say.Ahead("; without the failure ", f.Usually))
		}
	}
	listed(p, "Failed", v.Failed)
	var told, wrong []string
	for _, t := range v.Told {
		told = append(told, t.Text())
	}
	for _, x := range v.Wrong {
		wrong = append(wrong, x.Title)
	}
	listed(p, "What is told", told)
	p.Head("What is true: lost now")
	for _, way := range v.Ways() {
		p.Paragraph("  ", say.Capital(way.Text)+": "+strings.Join(way.Titles, "; ")+".")
	}
	if len(v.Lost) == 0 {
		p.Paragraph("  ", "Nothing.")
	}
	listed(p, "Shown wrong", wrong)
	listed(p, "Dark", v.Dark)
	p.Gap()
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

func listed(p *say.Page, title string, list []string) {
	p.Head(title)
	if len(list) == 0 {
		list = []string{"Nothing."}
	}
	for _, text := range list {
		p.Paragraph("  ", text)
	}
}

// Text is an alert in words.
func (t Told) Text() string {
	notes := []string{t.Level}
	if t.False {
		notes = append(notes, "false")
	}
	if t.Usual {
		notes = append(notes, "without the failure too")
	}
	return say.Quoted(t.Message) + " (" + strings.Join(notes, ", ") + ")"
}

// Name is a loss with what one has to know of it beside how it is known.
func (x Lost) Name() string {
	notes := []string{x.Severity}
	if !x.CalledFor {
		notes = append(notes, "not called for now")
	}
	if notes = slices.DeleteFunc(notes, func(s string) bool { return s == "" || s == "minor" }); len(notes) == 0 {
		return say.Lower(x.Title)
	}
	return say.Lower(x.Title) + " (" + strings.Join(notes, ", ") + ")"
}
