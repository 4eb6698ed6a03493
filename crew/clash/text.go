package clash

import (
	"fmt"
	"io"
	"strings"

	"knockon/book"
	"knockon/say"
)

// WriteText prints a report: kind by kind, each conflict with its place.
func WriteText(w io.Writer, r *Report) error {
	p := &printer{w: w}
	p.print("%s, build %s, flight %s: %s, %s%s.\n", r.Build.Aircraft.Title, r.Build.Variant, r.Flight.ID, say.Counted(r.Flights, "flight"),
		say.Counted(len(r.Conflicts), "conflict"), brokenOff(r.Broken, "; "))
	for _, k := range kinds {
		if k != Stands {
			p.kind(k, r.Conflicts)
		}
	}
	p.standing(r.Conflicts)
	if len(r.Doubles) > 0 {
		p.print("\nNo single failure calls for these; two together do\n")
	}
	for _, d := range r.Doubles {
		p.print("  %s: %s\n", d.Procedure.Title, say.And(d.Fail))
	}
	if len(r.Slips) > 0 {
		p.print("\nNo failure calls for these; a slip of the hand does\n")
	}
	for _, d := range r.Slips {
		p.print("  %s: %s\n", d.Procedure.Title, strings.Join(append(d.Moved, d.Fail...), ", then "))
	}
	p.print("\n%s\n", book.Caution)
	return p.err
}

type printer struct {
	w   io.Writer
	err error
}

func (p *printer) print(format string, a ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, a...)
	}
}

func (p *printer) kind(k Kind, list []*Conflict) {
	n := 0
	for _, c := range list {
		if c.Kind != k {
			continue
		}
		if n == 0 {
			p.print("\n%s\n", headings[k])
		}
		n++
		p.print("  %s: %s%s\n", c.Subject(), c.Says, seenIn(c))
	}
}

// standing names in one line what nobody can end: their procedures are about
// living with the failure.
func (p *printer) standing(list []*Conflict) {
	var titles []string
	for _, c := range list {
		if c.Kind == Stands {
			titles = append(titles, c.Alert.Title)
		}
	}
	if len(titles) > 0 {
		p.print("\n%s\n  %s.\n", headings[Stands], strings.Join(titles, "; "))
	}
}

func seenIn(c *Conflict) string {
	if len(c.Fail) == 0 {
		return ""
	}
	return fmt.Sprintf(" Seen with %s at %s.", say.And(c.Fail), say.Clock(book.AtSeconds(c.AtS)))
}

var headings = map[Kind]string{
	Endless:   "Alerts that call for their procedure without end",
	Against:   "Procedures that put one control in different positions",
	Unsettled: "Procedures whose order is not settled",
	Tries:     "Resets that are tried too often",
	Taken:     "Steps that nothing follows, since the failure has taken what they work through",
	Uncleared: "Alerts that their procedure never ends, though it moves what they read, or that sound on",
	Uncalled:  "Procedures for which nothing calls",
	Stands:    "Alerts that stand to the end, their procedures being about living with the failure",
	OneWay:    "Decisions that always have the same answer",
}

// View is a report for a machine.
type View struct {
	Build     string         `json:"build"`
	Flight    string         `json:"flight"`
	Flights   int            `json:"flights"`
	Broken    int            `json:"flights_broken_off"`
	Conflicts []ConflictView `json:"conflicts"`
	Doubles   []CallerView   `json:"called_by_two_failures_only"`
	Slips     []CallerView   `json:"called_by_a_slip_only"`
	Caution   string         `json:"caution"`
}

// ConflictView is one conflict.
type ConflictView struct {
	Kind      string   `json:"kind"`
	Procedure string   `json:"procedure,omitempty"`
	Other     string   `json:"other,omitempty"`
	Alert     string   `json:"alert,omitempty"`
	Unit      string   `json:"unit,omitempty"`
	Says      string   `json:"says"`
	Where     string   `json:"where"`
	There     string   `json:"other_where,omitempty"`
	Fail      []string `json:"fail"`
	AtS       float64  `json:"at_s,omitempty"`
	Seen      int      `json:"seen,omitempty"`
}

// CallerView is what calls for a procedure.
type CallerView struct {
	Procedure string   `json:"procedure"`
	Fail      []string `json:"fail"`
	Moved     []string `json:"moved"`
}

// View of a report for a machine.
func (r *Report) View() *View {
	v := &View{Build: r.Build.Variant, Flight: r.Flight.ID, Flights: r.Flights, Broken: r.Broken, Conflicts: []ConflictView{}, Doubles: callers(r.Doubles), Slips: callers(r.Slips), Caution: book.Caution}
	for _, c := range r.Conflicts {
		v.Conflicts = append(v.Conflicts, c.view())
	}
	return v
}

func callers(list []Caller) []CallerView {
	views := []CallerView{}
	for _, c := range list {
		views = append(views, CallerView{c.Procedure.ID, append([]string{}, c.Fail...), c.Moved})
	}
	return views
}

func (c *Conflict) view() ConflictView {
	v := ConflictView{Kind: string(c.Kind), Says: c.Says, Where: c.Subject().String(), Fail: c.Fail, AtS: c.AtS, Seen: c.Seen}
	if c.Procedure != nil {
		v.Procedure = c.Procedure.ID
	}
	if c.Other != nil && c.OtherStep != nil {
		v.Other, v.There = c.Other.ID, c.OtherStep.Range.String()
	}
	if c.Alert != nil {
		v.Alert = c.Alert.ID
	}
	if c.Unit != nil {
		v.Unit = c.Unit.ID
	}
	return v
}
