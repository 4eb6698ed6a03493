package ledger

import (
	"strings"

	"knockon/say"
)

// Loss returns the row of a function; nil if it is not lost.
func (l *Ledger) Loss(id string) *Loss {
	for i := range l.Losses {
		if l.Losses[i].Function.ID == id {
			return &l.Losses[i]
		}
	}
	return nil
}

// Say says in one line all that the ledger has about an item.
func (l *Ledger) Say(id string) string {
	if text := l.View().say(id); text != "" {
		return text
	}
	return l.saysNothing(id)
}

func (v *View) say(id string) string {
	var parts []string
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			if r.ID == id {
				parts = append(parts, said(g, r)+": "+r.line())
			}
		}
	}
	return strings.TrimSpace(strings.Join(parts, " "))
}

// said is what a row of a group says of its item.
func said(g Group, r Row) string {
	switch {
	case g.ID == GroupIdle:
		return "lost when it does not matter, " + r.Class
	case r.Class != "":
		return "lost, " + r.Class
	case g.ID == GroupAlerts:
		return "given"
	case g.ID == GroupFalse:
		return "false alarm"
	}
	return strings.ToLower(g.Title)
}

func (l *Ledger) saysNothing(id string) string {
	item, ok := l.Here.Course.Build.Item(id)
	if !ok {
		return "no such item on this build"
	}
	text, ok := silent[item.Named().Kind]
	if !ok {
		return "no row"
	}
	if e, _ := l.ending(); !e.Arrived() {
		return text + " up to " + say.Clock(e.At) + ", where the flight breaks off"
	}
	if !l.comes() {
		return text + ", but the failure never comes"
	}
	return text
}

// silent is what it means that a ledger has no row for an item.
var silent = map[string]string{
	"function": "not lost", "alert": "not given, or given without the failure too", "indication": "lit and right, or the same without the failure",
}

// line is a row without its title.
func (r Row) line() string {
	parts := []string{}
	if r.Text != "" {
		parts = append(parts, r.Text)
	}
	for i, s := range r.Spans {
		if i == mostSpans {
			parts = append(parts, "And more.")
			break
		}
		parts = append(parts, say.Sentence("from "+s.From.Clock+" "+s.Lasts), s.Text)
	}
	return strings.TrimSpace(strings.Join(parts, " "))
}
