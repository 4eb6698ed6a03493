package ledger

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/say"
)

// speaker says the rows of a ledger in words.
type speaker struct {
	l      *Ledger
	build  *book.Build
	phases []run.PhaseSpan
}

// title is an item's title; the id of one that the build does not have.
func (s speaker) title(id string) string {
	if name, real := strings.CutPrefix(id, "real."); real {
		for _, q := range book.Quantities {
			if q.Name == name {
				return q.Title
			}
		}
	}
	return s.build.Title(id)
}

func (s speaker) titles(ids []string) []string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = s.title(id)
	}
	return list
}

func (s speaker) moment(t book.Time) Moment {
	phase := s.phaseAt(t)
	m := Moment{Time: t, TimeS: t.Seconds(), AfterS: (t - s.l.Strike).Seconds(), Clock: say.After(t - s.l.Strike), Phase: phase}
	if phase != "" {
		m.PhaseIs = s.title(phase)
	}
	return m
}

// phaseAt is the phase at a moment, and the last one behind the end.
func (s speaker) phaseAt(t book.Time) (id string) {
	for _, p := range s.phases {
		if p.From <= t {
			id = p.ID
		}
	}
	return id
}

// in names a moment inside a sentence: +0:42 (climb).
func (s speaker) in(t book.Time) string {
	m := s.moment(t)
	if m.PhaseIs == "" {
		return m.Clock
	}
	return m.Clock + " (" + m.PhaseIs + ")"
}

func (s speaker) row(kind string, h *book.Head) Row {
	return Row{Kind: kind, ID: h.ID, Title: h.Title, Chapter: h.Chapter, Source: h.Source, Spans: []RowSpan{}}
}

func (s speaker) span(p circuit.Span, text ...string) RowSpan {
	text = slices.DeleteFunc(text, func(t string) bool { return t == "" })
	return RowSpan{
		From: s.moment(p.From), Until: s.moment(p.To), ToEnd: p.To >= s.end(),
		HeldIn: []string{}, DeniedBy: []Ref{}, Also: []Word{}, Lasts: s.until(p), Text: say.Sentence(strings.Join(text, "; ")),
	}
}

func (s speaker) end() book.Time { return min(s.l.Here.End, s.l.There.End) }

// until says how long a stretch lasts.
func (s speaker) until(p circuit.Span) string {
	switch {
	case p.From == p.To:
		return "for a moment"
	case p.To >= s.end():
		return s.toEnd()
	case p.Length() < 10*book.Second:
		return "for " + say.Lasts(p.Length())
	}
	return "until " + s.in(p.To)
}

func (s speaker) loss(l Loss) Row {
	r := s.row("function", &l.Function.Head)
	r.Rank, r.Class, r.Known, r.Mattered = l.Severity(), l.Class.String(), l.Word(), l.Mattered
	for _, p := range l.Spans {
		r.Spans = append(r.Spans, s.lossSpan(l, p))
	}
	return r
}

func (s speaker) lossSpan(l Loss, p LossSpan) RowSpan {
	r := s.span(p.Span, s.wanted(l, p), s.survived(l.Function, p), s.told(l, p), s.follows(p), s.noticed(p), s.lies(p), s.shown(p))
	r.Class, r.Mattered, r.LateS = p.Class.String(), p.Mattered, p.Late.Seconds()
	s.knowing(&r, p)
	r.HeldIn = append(r.HeldIn, p.HeldIn...)
	if p.By != nil {
		r.By = &Ref{p.By.ID, p.By.Message, p.By.Level}
	}
	if p.Via != nil {
		r.Via = &Ref{ID: p.Via.ID, Title: p.Via.Title}
	}
	for _, i := range p.Lies {
		r.DeniedBy = append(r.DeniedBy, Ref{ID: i.ID, Title: i.Title})
	}
	if p.Shown != nil {
		r.ShownBy = &Ref{ID: p.Shown.ID, Title: p.Shown.Title}
	}
	if p.By != nil || p.Via != nil {
		at := s.moment(p.At)
		r.At = &at
	}
	return r
}

// wanted says when a lost function is called for, where that is not at once.
func (s speaker) wanted(l Loss, p LossSpan) string {
	switch {
	case p.Brief && l.Mattered:
		return "too short to matter"
	case !p.Mattered && l.Mattered:
		return "not called for meanwhile"
	case p.Mattered && p.Wanted.From > p.From:
		return "called for from " + s.in(p.Wanted.From)
	}
	return ""
}

// survived says how a loss that may last some time compares with that time.
func (s speaker) survived(f *book.Function, p LossSpan) string {
	switch may, long := book.AtSeconds(f.SurvivableS), p.To-max(p.From, p.Wanted.From); {
	case may == 0 || !p.Mattered:
		return ""
	case long > may:
		return "longer than the " + say.Lasts(may) + " that can be lived through"
	case p.To < s.end():
		return "lived through: it may last " + say.Lasts(may)
	}
	return "" // it stands where the flight ends, and how long it would have is not known
}

// told says how a loss is told, as far as the group that the row stands in
// does not say it.
func (s speaker) told(l Loss, p LossSpan) string {
	held := ""
	if len(p.HeldIn) > 0 {
		held = "held back in " + say.And(s.titles(p.HeldIn))
	}
	switch p.Class {
	case Told:
		return "told by " + quoted(p.By) + " at " + s.clock(p.At)
	case ToldLate:
		return "told " + say.Lasts(p.Late) + " late by " + quoted(p.By) + " at " + s.in(p.At) + say.Ahead(", ", held)
	case OnlyShown:
		return "to be read on " + p.Via.Title + s.since(p) + say.Ahead("; the alert is ", held)
	case ToldWrong:
		return "denied by " + p.Via.Title + s.since(p) + say.Ahead("; the alert is ", held)
	}
	if held != "" {
		return "the alert is " + held
	}
	switch {
	case p.word() != Hidden:
		return ""
	case l.Mattered && l.Class == NotTold:
		return "no indication shows it"
	}
	return "nothing says so"
}

// since says from when an indication shows a loss or hides it, where that is
// not from its start on.
func (s speaker) since(p LossSpan) string {
	if p.At == p.From {
		return ""
	}
	return " from " + s.in(p.At)
}

func (s speaker) clock(t book.Time) string { return say.After(t - s.l.Strike) }

// lies names the indications that hide a loss, beside the one already named.
func (s speaker) lies(p LossSpan) string {
	var liars []string
	for _, i := range p.Lies {
		if i != p.Via {
			liars = append(liars, i.Title)
		}
	}
	if len(liars) == 0 {
		return ""
	}
	return "denied meanwhile by " + say.And(liars)
}

// shown names the indication that shows a loss although others hide it.
func (s speaker) shown(p LossSpan) string {
	if p.Shown == nil {
		return ""
	}
	text := "shown rightly by " + p.Shown.Title
	if p.ShownAt > p.From {
		text += " from " + s.in(p.ShownAt)
	}
	return text
}

// quoted names an alert by what it says and its level.
func quoted(a *book.Alert) string { return say.Quoted(a.Message) + " (" + a.Level + ")" }

func (s speaker) wrong(r Reading) Row {
	row := s.row("indication", &r.Indication.Head)
	for _, p := range r.Spans {
		text := "shows " + p.Shows + ", while the truth is " + p.Means
		if r.Indication.Shows.Type == book.Number {
			text = "farthest off at " + s.in(p.At) + ": " + text
		}
		row.Spans = append(row.Spans, s.span(p.Span, text))
	}
	return row
}

func (s speaker) dark(r Reading) Row {
	row := s.row("indication", &r.Indication.Head)
	for _, p := range r.Spans {
		row.Spans = append(row.Spans, s.span(p.Span))
	}
	return row
}

func (s speaker) alert(a Announcement) Row {
	r := s.row("alert", &a.Alert.Head)
	r.Title, r.Rank = a.Alert.Message, a.Alert.Level
	return r
}

func (s speaker) falseAlarm(a Announcement) Row {
	r := s.alert(a)
	for _, p := range a.Spans {
		r.Spans = append(r.Spans, s.sounding(p, a))
	}
	return r
}

func (s speaker) announced(a Announcement) Row { return s.falseAlarm(a) }

// sounding says how long an alert stands and how often it sounds.
func (s speaker) sounding(p circuit.Span, a Announcement) RowSpan {
	n := 0
	for _, t := range a.Sounds {
		if p.From <= t && (t < p.To || t == p.From) {
			n++
		}
	}
	text := ""
	if a.Alert.RepeatsS > 0 && n > 1 {
		text = "sounds " + say.Counted(n, "time")
	}
	by, not := s.ways(a.Alert, p)
	r := s.span(p, reached(by, not), text)
	r.Sounds, r.ByWays = n, by
	return r
}

func (s speaker) heldBack(a Announcement) Row {
	r := s.alert(a)
	r.Text = "Held back in " + say.And(s.titles(a.Phases)) + "; " + s.givenLater(a) + "."
	for _, p := range a.Spans {
		span := s.span(p)
		span.HeldIn = append(span.HeldIn, a.Phases...)
		r.Spans = append(r.Spans, span)
	}
	return r
}

// givenLater says when what was held back is given, if it is.
func (s speaker) givenLater(a Announcement) string {
	e, _ := s.l.ending()
	switch {
	case a.Given:
		return "given at " + s.in(a.At)
	case !e.Arrived():
		return "not given before the flight breaks off"
	}
	return "never given"
}

func (s speaker) kept(k Kept) Row {
	r := s.row("function", &k.Function.Head)
	r.Rank = k.Function.Severity
	gone := s.titles(k.Gone)
	r.Text = "Without " + say.And(gone)
	if len(k.By) > 0 {
		r.Text += "; rests on " + s.rests(k)
	}
	r.Text = say.Sentence(r.Text)
	return r
}

// rests names what keeps a function working: by itself, or by not being so.
func (s speaker) rests(k Kept) string {
	var so, not []string
	for _, id := range k.By {
		if s.isNo(id, k.At) {
			not = append(not, s.title(id))
		} else {
			so = append(so, s.title(id))
		}
	}
	list := so
	if len(not) > 0 {
		list = append(list, say.Plural(len(not), "this", "these")+" not being so: "+say.And(not))
	}
	return say.And(list)
}

// isNo says that an item is a yes/no that is no at a moment.
func (s speaker) isNo(id string, at book.Time) bool {
	if name, real := strings.CutPrefix(id, "real."); real {
		q := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == name })
		return q >= 0 && book.Quantities[q].Type == book.YesNo && s.l.Here.Path().Value(q, at) == 0
	}
	c := s.l.Here.Circuit()
	n, ok := c.Node(circuit.Value{Item: id})
	return ok && c.Type(n) == book.YesNo && s.l.Here.At(n, at) == 0
}
