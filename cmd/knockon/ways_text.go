package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/say"
	"knockon/ways/sets"
)

func writeWays(w io.Writer, r *sets.Report) error {
	fmt.Fprintf(w, "%s.\n", r.Words)
	switch {
	case r.Always:
		fmt.Fprintln(w, "\nIt is so whatever fails, and if nothing does.")
	case r.Never:
		fmt.Fprintln(w, "\nNo set of failures brings it about.")
	}
	for _, o := range r.Orders {
		writeOrder(w, o)
	}
	writeRisk(w, r)
	fmt.Fprintf(w, "\n%s\n", r.Complete)
	for _, t := range r.Totals {
		fmt.Fprintf(w, "%s reads a total (a tank, a battery): what fills or empties it in time is not counted.\n", t)
	}
	_, err := fmt.Fprintln(w, book.Caution)
	return err
}

func writeOrder(w io.Writer, o sets.Order) {
	head := map[int]string{1: "One failure", 2: "Both of", 3: "All three of"}[o.Size]
	if head == "" {
		head = fmt.Sprintf("All %d of", o.Size)
	}
	fmt.Fprintf(w, "\n%s (%s)\n", head, o.Count)
	for _, s := range o.Sets {
		fmt.Fprintf(w, "  %s\n", strings.Join(s.Names, " + "))
	}
	if !o.All {
		fmt.Fprintf(w, "  … and more: --most lists them\n")
	}
}

func writeRisk(w io.Writer, r *sets.Report) {
	if r.NoRisk != "" {
		fmt.Fprintf(w, "\nHow likely it is cannot be said: %s.\n", r.NoRisk)
	}
	if r.Risk == nil {
		return
	}
	fmt.Fprintf(w, "\nOn one flight, if failures are independent: %.3g\n", r.Risk.P)
	if b := r.Risk.Bounds; b != nil {
		fmt.Fprintf(w, "  the likeliest set %.3g, union %.3g, sum of the sets %.3g\n", b.Largest, b.Union, b.Sum)
	}
	if len(r.Risk.Rows) == 0 {
		return
	}
	fmt.Fprintf(w, "\n  %-32s %9s %9s %11s %10s %9s %9s %9s\n", "", "p", "Birnbaum", "criticality", "diagnostic", "achieved", "reduced", "F-Vesely")
	for _, x := range r.Risk.Rows {
		fmt.Fprintf(w, "  %-32s %9.2e %9.2e %11s %10s %9s %9s %9s\n", x.Name, x.P, x.Birnbaum,
			figure3(x.Criticality), figure3(x.Diagnostic), figure3(x.RiskAchievement), figure3(x.RiskReduction), figure3(x.FussellVesely))
	}
}

func figure3(x float64) string {
	switch {
	case math.IsNaN(x):
		return "-"
	case math.IsInf(x, 0):
		return "without end"
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// writeWaysCSV prints a line for each set that is listed.
func writeWaysCSV(w io.Writer, r *sets.Report) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"# " + r.Words, r.Complete, book.Caution})
	_ = out.Write([]string{"failures", "set", "probability"})
	for _, o := range r.Orders {
		for _, s := range o.Sets {
			p := ""
			if !math.IsNaN(s.P) {
				p = strconv.FormatFloat(s.P, 'g', 6, 64)
			}
			_ = out.Write([]string{strconv.Itoa(o.Size), strings.Join(s.Names, " + "), p})
		}
	}
	out.Flush()
	return out.Error()
}

// waysJSON is the answer for a machine.
type waysJSON struct {
	Condition string              `json:"condition"`
	Always    bool                `json:"always"`
	Never     bool                `json:"never"`
	Complete  string              `json:"complete"`
	Partial   bool                `json:"partial"`
	Totals    []string            `json:"reads_totals,omitempty"`
	Counts    map[string]string   `json:"counts"`
	Sets      map[string][]string `json:"sets"`
	Risk      *riskJSON           `json:"risk,omitempty"`
	NoRisk    string              `json:"no_risk,omitempty"`
	Caution   string              `json:"caution"`
}

type riskJSON struct {
	P     float64   `json:"probability_per_flight"`
	Low   *float64  `json:"likeliest_set,omitempty"`
	Union *float64  `json:"union,omitempty"`
	Sum   *float64  `json:"sum,omitempty"`
	Rows  []rowJSON `json:"failures"`
}

// rowJSON leaves out a ratio that is not a number or has no end.
type rowJSON struct {
	Name            string   `json:"failure"`
	P               float64  `json:"probability"`
	Birnbaum        float64  `json:"birnbaum"`
	Criticality     *float64 `json:"criticality,omitempty"`
	Diagnostic      *float64 `json:"diagnostic,omitempty"`
	RiskAchievement *float64 `json:"risk_achievement,omitempty"`
	RiskReduction   *float64 `json:"risk_reduction,omitempty"`
	FussellVesely   *float64 `json:"fussell_vesely,omitempty"`
}

func waysAsJSON(r *sets.Report) waysJSON {
	j := waysJSON{Condition: r.Words, Always: r.Always, Never: r.Never, Complete: r.Complete, Partial: r.Partial, Totals: r.Totals,
		Counts: map[string]string{}, Sets: map[string][]string{}, NoRisk: r.NoRisk, Caution: book.Caution}
	for _, o := range r.Orders {
		key := strconv.Itoa(o.Size)
		j.Counts[key] = o.Count.String()
		for _, s := range o.Sets {
			j.Sets[key] = append(j.Sets[key], strings.Join(s.Names, " + "))
		}
	}
	if r.Risk != nil {
		j.Risk = riskAsJSON(r.Risk)
	}
	return j
}

func riskAsJSON(r *sets.Risk) *riskJSON {
	j := &riskJSON{P: r.P, Rows: []rowJSON{}}
	if b := r.Bounds; b != nil {
		j.Low, j.Union, j.Sum = &b.Largest, &b.Union, &b.Sum
	}
	for _, x := range r.Rows {
		j.Rows = append(j.Rows, rowJSON{x.Name, x.P, x.Birnbaum, number(x.Criticality), number(x.Diagnostic),
			number(x.RiskAchievement), number(x.RiskReduction), number(x.FussellVesely)})
	}
	return j
}

func number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// dispatched is what a deferral leaves one failure away.
type dispatched struct {
	out   []string
	s     *ask.Standing
	away  []sets.Away
	blind []*book.Function
}

func (d dispatched) write(w io.Writer) error {
	fmt.Fprintf(w, "With %s inoperative, %s: what one failure now takes away, and did not before.\n\n", say.And(d.out), d.s.Moment)
	severity := ""
	for _, a := range d.away {
		if a.Function.Severity != severity {
			severity = a.Function.Severity
			fmt.Fprintf(w, "%s\n", say.Capital(severity))
		}
		by := "lost already"
		if !a.Lost {
			by = strings.Join(a.By, ", ")
		}
		fmt.Fprintf(w, "  %s: %s\n", a.Function.Title, by)
	}
	if len(d.away) == 0 {
		fmt.Fprintln(w, "  Nothing.")
	}
	fmt.Fprintln(w)
	if len(d.blind) > 0 {
		fmt.Fprintln(w, sets.Blind(len(d.blind)))
	}
	_, err := fmt.Fprintln(w, book.Caution)
	return err
}

func (d dispatched) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"# with " + say.And(d.out) + " inoperative, " + d.s.Moment, book.Caution})
	_ = out.Write([]string{"function", "severity", "failure"})
	for _, a := range d.away {
		if a.Lost {
			_ = out.Write([]string{a.Function.ID, a.Function.Severity, ""})
		}
		for _, f := range a.By {
			_ = out.Write([]string{a.Function.ID, a.Function.Severity, f})
		}
	}
	out.Flush()
	return out.Error()
}

type dispatchJSON struct {
	Out     []string   `json:"inoperative"`
	Moment  string     `json:"moment"`
	Away    []awayJSON `json:"one_failure_away"`
	Blind   []string   `json:"not_followed,omitempty"`
	Caution string     `json:"caution"`
}

type awayJSON struct {
	Function string   `json:"function"`
	Lost     bool     `json:"lost_already,omitempty"`
	By       []string `json:"by"`
}

func (d dispatched) asJSON() dispatchJSON {
	j := dispatchJSON{Out: d.out, Moment: d.s.Moment, Away: []awayJSON{}, Caution: book.Caution}
	for _, a := range d.away {
		by := a.By
		if by == nil {
			by = []string{}
		}
		j.Away = append(j.Away, awayJSON{a.Function.ID, a.Lost, by})
	}
	for _, f := range d.blind {
		j.Blind = append(j.Blind, f.ID)
	}
	return j
}
