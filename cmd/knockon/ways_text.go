package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/ways/sets"
)

func writeWays(w io.Writer, r *sets.Report) error {
	fmt.Fprintf(w, "%s.\n", r.Words)
	writeLines(w, append([]string{r.Verdict}, r.NotAnswered...)...)
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
			_ = out.Write([]string{strconv.Itoa(o.Size), strings.Join(s.Names, " + "), p, found})
		}
	}
}

// waysJSON is the answer for a machine. Sets that are listed may be fewer than
// their count.
type waysJSON struct {
	Condition   string     `json:"condition"`
	Always      bool       `json:"always"`
	Never       bool       `json:"never"`
	Verdict     string     `json:"verdict,omitempty"`
	Complete    string     `json:"complete"`
	Partial     bool       `json:"partial"`
	NotAnswered []string   `json:"not_answered"`
	Counts      setCounts  `json:"counts"`
	Sets        setNames   `json:"sets"`
	Flown       *flownJSON `json:"flown,omitempty"`
	Risk        *riskJSON  `json:"risk,omitempty"`
	NoRisk      string     `json:"no_risk,omitempty"`
	Caution     string     `json:"caution"`
}

// setCounts and setNames are by how many failures a set has.
type (
	setCounts map[string]string
	setNames  map[string][]string
)

// flownJSON is what the flight adds as it goes on.
type flownJSON struct {
	Says   string    `json:"says"`
	Counts setCounts `json:"counts"`
	Sets   setNames  `json:"sets"`
	Not    []string  `json:"held_still_only"`
	Broken string    `json:"broken_off,omitempty"`
}

type riskJSON struct {
	Says  string    `json:"says"`
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
	j := waysJSON{Condition: r.Words, Always: r.Always, Never: r.Never, Verdict: r.Verdict, Complete: r.Complete, Partial: r.Partial,
		NotAnswered: r.NotAnswered, NoRisk: r.NoRisk, Caution: book.Caution}
	j.Counts, j.Sets = ordersAsJSON(r.Orders)
	if f := r.Flown; f != nil {
		j.Flown = &flownJSON{Says: f.Says, Broken: f.Broken}
		j.Flown.Counts, j.Flown.Sets = ordersAsJSON(f.Orders)
		for _, s := range f.Not {
			j.Flown.Not = append(j.Flown.Not, strings.Join(s.Names, " + "))
		}
	}
	if r.Risk != nil {
		j.Risk = riskAsJSON(r.Risk)
	}
	return j
}

func ordersAsJSON(orders []sets.Order) (setCounts, setNames) {
	counts, all := setCounts{}, setNames{}
	for _, o := range orders {
		key := strconv.Itoa(o.Size)
		counts[key] = o.Count.String()
		for _, s := range o.Sets {
			all[key] = append(all[key], strings.Join(s.Names, " + "))
		}
	}
	return counts, all
}

func riskAsJSON(r *sets.Risk) *riskJSON {
	j := &riskJSON{Says: r.Says, P: r.P, Rows: []rowJSON{}}
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
