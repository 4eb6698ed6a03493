package figure

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/say"
)

// LineOf makes the line of a ledger. The caller gives it its id, title and foot.
func LineOf(l *ledger.Ledger, v *ledger.View) Line {
	line := Line{Description: v.Heading + " " + v.Summary, Mark: l.Strike, MarkText: MomentText(v.Strike)}
	build := l.There.Course.Build
	for _, p := range l.There.Phases() {
		line.Phases = append(line.Phases, Phase{p.ID, build.Title(p.ID), p.From, p.To})
	}
	clock, _ := l.Here.Course.Clock(context.Background()) // known, or the answer would not be there
	for _, p := range clock {
		line.Clock = append(line.Clock, Phase{p.ID, build.Title(p.ID), p.From, p.To})
	}
	line.Feet = feetOf(l)
	for _, p := range line.Phases {
		line.Ceiling = max(line.Ceiling, line.Feet(p.From), line.Feet(p.To))
	}
	if !v.Ended.Arrived {
		line.Ends = v.Ended.At.Time
	}
	line.Groups, line.Together, line.Told = groupsOf(l, v), wavesOf(v), alertsOf(l)
	return line
}

// MomentText says a moment as a phase and the time from the start.
func MomentText(m ledger.Moment) string {
	clock := say.Clock(m.Time)
	if m.PhaseIs == "" {
		return clock
	}
	return clock + ", " + m.PhaseIs
}

// feetOf reads the height above the ground from the flight.
func feetOf(l *ledger.Ledger) func(book.Time) float64 {
	q := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "height_ft" })
	path := l.There.Course.Path
	return func(t book.Time) float64 { return path.Value(q, t) }
}

// RowID is the anchor of a row in a page that shows a ledger's view. A loss
// keeps its anchor when the way in which it is told changes.
func RowID(group, item string) string { return "row-" + kindOf(group) + "-" + item }

func kindOf(group string) string {
	switch group {
	case ledger.GroupWrong:
		return "wrong"
	case ledger.GroupDark:
		return "dark"
	case ledger.GroupFalse:
		return "false"
	case ledger.GroupHeld:
		return "held"
	case ledger.GroupAlerts:
		return "alert"
	case ledger.GroupKept:
		return "kept"
	}
	return "loss"
}

var lossInks = map[string]Ink{
	ledger.GroupHidden: InkHidden, ledger.GroupDenied: InkDenied, ledger.GroupInUse: InkInUse, ledger.GroupLate: InkLate,
	ledger.GroupFollows: InkFollows, ledger.GroupNoticed: InkNoticed, ledger.GroupTold: InkTold,
}

func groupsOf(l *ledger.Ledger, v *ledger.View) []Group {
	var groups []Group
	var idle *Group
	for _, g := range v.Groups {
		ink, isLoss := lossInks[g.ID]
		if len(g.Rows) == 0 || !isLoss && g.ID != ledger.GroupIdle {
			continue
		}
		drawn := Group{Title: g.Title, Ink: ink, Plain: !isLoss}
		for _, r := range g.Rows {
			drawn.Rows = append(drawn.Rows, lossRow(g.ID, r))
		}
		if isLoss {
			groups = append(groups, drawn)
		} else {
			idle = &drawn
		}
	}
	if alerts := alertsOf(l); len(alerts.Rows) > 0 {
		groups = append(groups, alerts)
	}
	if idle != nil {
		groups = append(groups, *idle)
	}
	return groups
}

func lossRow(group string, r ledger.Row) Row {
	row := Row{Label: r.Title, Link: "#" + RowID(group, r.ID)}
	for _, s := range r.Spans {
		row.Says += MomentText(s.From) + ". " + s.Text + " "
		row.Pieces = append(row.Pieces, lossPieces(s)...)
	}
	return row
}

// lossPieces draws a loss of which people know later as such until they do.
func lossPieces(s ledger.RowSpan) []Piece {
	from, to := s.From.Time, s.Until.Time
	ink := lossInks[ledger.GroupOf(s.Known)]
	if s.KnownFrom == nil {
		return []Piece{{from, to, ink, !s.Mattered}}
	}
	at := s.KnownFrom.Time
	return []Piece{{from, at, ink, !s.Mattered}, {at, to, InkTold, !s.Mattered}}
}

// alertsOf gives each alert that is given or held back one bar, in the order
// in which they come.
func alertsOf(l *ledger.Ledger) Group {
	g := Group{Title: "Alerts: filled while given, hollow while held back", Plain: true}
	at := map[string]int{}
	row := func(a *book.Alert, link string) *Row {
		if i, ok := at[a.ID]; ok {
			return &g.Rows[i]
		}
		at[a.ID] = len(g.Rows)
		g.Rows = append(g.Rows, Row{Label: "“" + a.Message + "” " + a.Level, Link: "#" + link})
		return &g.Rows[len(g.Rows)-1]
	}
	for _, a := range l.Alerts {
		r := row(a.Alert, RowID(ledger.GroupAlerts, a.Alert.ID))
		r.Count = 1 // one that is given stands before those that are only held back
		r.add(a.Spans, alertInk(a.Alert.Level), "given")
	}
	for _, a := range l.Held {
		row(a.Alert, RowID(ledger.GroupHeld, a.Alert.ID)).add(a.Spans, heldInk(a.Alert.Level), "held back")
	}
	for _, a := range l.False {
		r := row(a.Alert, RowID(ledger.GroupFalse, a.Alert.ID))
		r.Label += ", false"
	}
	slices.SortStableFunc(g.Rows, func(a, b Row) int { return int(a.Pieces[0].From - b.Pieces[0].From) })
	return g
}

func (r *Row) add(spans []circuit.Span, ink Ink, says string) {
	for _, s := range spans {
		r.Pieces = append(r.Pieces, Piece{From: s.From, To: s.To, Ink: ink})
		r.Says += fmt.Sprintf("%s from %s to %s. ", says, say.Clock(s.From), say.Clock(s.To))
	}
	slices.SortStableFunc(r.Pieces, func(a, b Piece) int { return int(a.From - b.From) })
}

func alertInk(level string) Ink {
	switch level {
	case "warning":
		return InkWarning
	case "caution":
		return InkCaution
	}
	return InkAdvisory
}

func heldInk(level string) Ink {
	switch level {
	case "warning":
		return InkWarningHeld
	case "caution":
		return InkCautionHeld
	}
	return InkAdvisoryHeld
}
