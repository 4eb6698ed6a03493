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
	"knockon/ways/sets"
)

func writeWays(w io.Writer, r *sets.Report) error {
	fmt.Fprintf(w, "%s.\n", r.Words)
	writeLines(w, append([]string{r.Means, r.Verdict}, r.NotAnswered...)...)
	for _, o := range r.Orders {
		writeOrder(w, o)
	}
	writeRisk(w, r)
	writeLines(w, r.Complete)
	if f := r.Flown; f != nil {
		writeLines(w, f.Says)
		for _, o := range f.Orders {
			writeOrder(w, o)
		}
		writeLines(w, f.NotOnFlight(), f.Broken)
	}
	_, err := fmt.Fprintf(w, "\n%s\n", book.Caution)
	return err
}

// writeLines prints sentences, each after an empty line.
func writeLines(w io.Writer, lines ...string) {
	for _, l := range lines {
		if l != "" {
			fmt.Fprintf(w, "\n%s\n", l)
		}
	}
}

func writeOrder(w io.Writer, o sets.Order) {
	head := map[int]string{1: "One failure", 2: "Both of", 3: "All three of"}[o.Size]
	if head == "" {
		head = fmt.Sprintf("All %d of", o.Size)
	}
	fmt.Fprintf(w, "\n%s (%s)\n", head, o.Count)
	for _, s := range o.Sets {
		fmt.Fprintf(w, "  %s\n", s)
	}
	if !o.All {
		fmt.Fprintf(w, "  … and more: --most lists them\n")
	}
}

func writeRisk(w io.Writer, r *sets.Report) {
	if r.NoRisk != "" {
		fmt.Fprintf(w, "\nHow likely it is, is not said here: %s.\n", r.NoRisk)
	}
	if r.Risk == nil {
		return
	}
	fmt.Fprintf(w, "\n%s: %.3g\n", r.Risk.Says, r.Risk.P)
	if b := r.Risk.Bounds; b != nil {
		fmt.Fprintf(w, "  the likeliest set %.3g, union %.3g, sum of the sets %.3g\n", b.Largest, b.Union, b.Sum)
	}
	if len(r.Risk.Rows) == 0 {
		return
	}
	fmt.Fprintf(w, "\n  %-32s %9s %9s %11s %10s %9s %9s %9s\n", "", "p", "Birnbaum", "criticality", "diagnostic", "achieved", "reduced", "F-Vesely")
	for _, x := range r.Risk.Rows {
		fmt.Fprintf(w, "  %-32s %9.2e %9.2e %11s %10s %9s %9s %9s\n", x.Name, x.P, x.Birnbaum,
			x.Criticality, x.Diagnostic, x.RiskAchievement, x.RiskReduction, x.FussellVesely)
	}
}

// writeWaysCSV prints a line for each set that is listed, and before them what is
// said of all.
func writeWaysCSV(w io.Writer, r *sets.Report) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"# " + r.Words, r.Verdict + r.Complete, book.Caution, ""})
	for _, says := range r.NotAnswered {
		_ = out.Write([]string{"# " + says, "", "", ""})
	}
	if f := r.Flown; f != nil {
		for _, says := range []string{f.Says, f.NotOnFlight(), f.Broken} {
			if says != "" {
				_ = out.Write([]string{"# " + says, "", "", ""})
			}
		}
	}
	_ = out.Write([]string{"failures", "set", "probability", "found"})
	listed(out, r.Orders, "held still")
	if r.Flown != nil {
		listed(out, r.Flown.Orders, "flown on")
	}
	out.Flush()
	return out.Error()
}

func listed(out *csv.Writer, orders []sets.Order, found string) {
	for _, o := range orders {
		for _, s := range o.Sets {
			p := ""
			if !math.IsNaN(s.P) {
				p = strconv.FormatFloat(s.P, 'g', 6, 64)
			}
			_ = out.Write([]string{strconv.Itoa(o.Size), s.String(), p, found})
		}
	}
}

// dispatched is what a deferral leaves one failure away.
type dispatched struct{ *ask.Deferral }

func (d dispatched) write(w io.Writer) error {
	fmt.Fprintf(w, "%s\n\n", d.Lead())
	head := ""
	for _, a := range d.Away {
		if a.Head() != head {
			head = a.Head()
			fmt.Fprintf(w, "%s\n", head)
		}
		fmt.Fprintf(w, "  %s: %s\n", a.Function.Title, strings.Join(append(already(a), a.By...), ", "))
	}
	writeLines(w, d.BrokenOff())
	_, err := fmt.Fprintf(w, "\n%s\n", book.Caution)
	return err
}

func already(a ask.Away) []string {
	if says := a.Already(); says != "" {
		return []string{says}
	}
	return nil
}

func (d dispatched) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"# " + d.Lead(), d.BrokenOff(), book.Caution})
	_ = out.Write([]string{"function", "severity", "failure"})
	for _, a := range d.Away {
		for _, by := range append(already(a), a.By...) {
			_ = out.Write([]string{a.Function.ID, a.Function.Severity, by})
		}
	}
	out.Flush()
	return out.Error()
}

type dispatchJSON struct {
	Out     []string   `json:"inoperative"`
	Moment  string     `json:"moment"`
	Says    string     `json:"says"`
	Away    []awayJSON `json:"one_failure_away"`
	Broken  string     `json:"broken_off,omitempty"`
	Caution string     `json:"caution"`
}

type awayJSON struct {
	Function string   `json:"function"`
	Lost     bool     `json:"lost_already,omitempty"`
	Later    bool     `json:"lost_later,omitempty"`
	By       []string `json:"by"`
}

func (d dispatched) asJSON() dispatchJSON {
	j := dispatchJSON{Out: d.Units, Moment: d.Moment, Says: d.Lead(), Away: []awayJSON{}, Broken: d.BrokenOff(), Caution: book.Caution}
	for _, a := range d.Away {
		j.Away = append(j.Away, awayJSON{a.Function.ID, a.Lost, a.Later, append([]string{}, a.By...)})
	}
	return j
}
