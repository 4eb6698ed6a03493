package ledger

import (
	"knockon/say"
)

// knowing fills in how people can know of a stretch of a loss.
func (s speaker) knowing(r *RowSpan, p LossSpan) {
	k := p.Known
	r.Known, r.Also = p.word(), append(r.Also, k.Also...)
	if f := k.Follows; f != nil {
		r.FollowsFrom = &RowFollows{Ref{ID: f.From, Title: f.Title}, nil, s.moment(f.At), f.Steps, (f.At - f.Claimed).Seconds()}
		if f.Alert != nil {
			r.FollowsFrom.Alert = &Ref{f.Alert.ID, f.Alert.Message, f.Alert.Level}
		}
	}
	if n := k.Noticed; n != nil {
		r.Noticed = &RowNoticed{s.moment(n.At), n.By, n.Source}
	}
	at := s.moment(p.At)
	switch {
	case r.Known == Late && (k.ByAlert || k.Follows == nil):
		r.KnownFrom = &at
	case r.Known == Late:
		r.KnownFrom = &r.FollowsFrom.At
	case r.Known == InUse:
		r.KnownFrom = &r.Noticed.At
	}
}

// follows says from what a loss follows that no alert tells in time.
func (s speaker) follows(p LossSpan) string {
	f := p.Known.Follows
	if f == nil || p.word() == IsTold || p.By != nil && p.By == f.Alert && p.At == f.At {
		return ""
	}
	text := "follows "
	if p.Known.Word == Late || f.At > p.From {
		text += "at " + s.in(f.At) + " "
	}
	switch {
	case f.Alert == nil:
		text += "from what was done: " + say.Lower(f.Title) + " moved"
	case f.Steps <= 1:
		return text + "from " + quoted(f.Alert)
	default:
		text += "from " + quoted(f.Alert) + ", through " + say.Lower(f.Title)
	}
	if f.Distant {
		text += ", for who knows the way (" + say.Counted(f.Steps-1, "step") + ")"
	}
	if after := f.At - f.Claimed; after >= 1_000_000 {
		text += ", " + say.Lasts(after) + " later"
	}
	return text
}

// noticed says how a loss is noticed that no alert tells in time.
func (s speaker) noticed(p LossSpan) string {
	n := p.Known.Noticed
	if n == nil || p.word() == IsTold {
		return ""
	}
	if n.At == p.From {
		return n.By + " at once"
	}
	return n.By + " at " + s.in(n.At)
}

// concluded is the row of a function that what is told takes away, and that works.
func (s speaker) concluded(c Conclusion) Row {
	r := s.row("function", &c.Function.Head)
	r.Rank = c.Function.Severity
	for _, p := range c.Spans {
		r.Spans = append(r.Spans, s.span(p, "it would be lost if all that is told were so"))
	}
	return r
}
