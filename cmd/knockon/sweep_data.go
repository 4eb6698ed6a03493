package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
	"knockon/sweep/findings"
	"knockon/sweep/view"
)

// sweepJSON is the findings for a machine.
type sweepJSON struct {
	Aircraft string       `json:"aircraft"`
	Flight   string       `json:"flight"`
	Order    int          `json:"order"`
	Builds   []*view.Page `json:"builds"`
	Differ   *view.List   `json:"builds_differ,omitempty"` // nil: one build
	Caution  string       `json:"caution"`
}

// view puts what was found into words.
func (c *sweepCommand) view(all []*swept) sweepJSON {
	j := sweepJSON{Aircraft: all[0].Build.Aircraft.Title, Flight: all[0].flight.ID, Order: c.Order, Caution: book.Caution}
	var plain []*findings.Swept
	var missing []string
	for _, s := range all {
		j.Builds = append(j.Builds, view.Of(&s.Swept, view.Asked{Flight: s.flight, Order: c.Order, Most: c.Most, Missing: s.missing()}))
		plain, missing = append(plain, &s.Swept), append(missing, s.missing()...)
	}
	if len(all) > 1 {
		differ := view.Builds(plain, missing, c.Most)
		j.Differ = &differ
	}
	return j
}

// list writes a set of failures.
func (s *swept) list(set sweep.Set) (ids []string) {
	for _, n := range set {
		ids = append(ids, s.Failures[n].String())
	}
	return ids
}

// csvHead names the columns. The counts of losses are of those that mattered.
var csvHead = []string{
	"build", "phase", "at", "fail_1", "fail_2", "fail_3", "score",
	"lost", "hidden", "denied", "found_when_used", "late", "follows", "noticed_at_once", "told", "not_mattered", "wrong", "dark", "false_alarms", "alerts",
}

// writeCSV prints a line for each failure and for each set that is more than its parts,
// and the caution as a last one.
func writeCSV(w io.Writer, all []*swept) error {
	out := csv.NewWriter(w)
	out.Write(csvHead)
	for _, s := range all {
		for _, sheet := range s.Sheets {
			for n := range s.Failures {
				out.Write(s.csvLine(sheet, sweep.Set{n}, sheet.Outcome(sweep.Set{n})))
			}
			sheet.Met(func(set sweep.Set, o sweep.Outcome) { out.Write(s.csvLine(sheet, set, o)) })
		}
		if s.partial() {
			out.Write([]string{"PARTIAL: phases of " + s.Build.Variant + " are missing"})
		}
	}
	out.Write([]string{book.Caution})
	out.Flush()
	return out.Error()
}

func (s *swept) csvLine(sheet *sweep.Sheet, set sweep.Set, o sweep.Outcome) []string {
	line := []string{s.Build.Variant, sheet.Phase.ID, sheet.Phase.Moment.String(), "", "", "", fmt.Sprintf("%.2f", s.ScoreOf(set, o))}
	for i, n := range set {
		line[3+i] = s.Failures[n].String()
	}
	of := map[ledger.Word]int{}
	idle := 0
	for _, l := range o.Lost {
		if l.Mattered {
			of[l.Known]++
		} else {
			idle++
		}
	}
	for _, n := range []int{
		len(o.Lost) - idle, of[ledger.Hidden], of[ledger.Denied], of[ledger.InUse], of[ledger.Late], of[ledger.Follows], of[ledger.AtOnce], of[ledger.IsTold], idle,
		len(o.Wrong), len(o.Dark), len(o.False), len(o.Given),
	} {
		line = append(line, strconv.Itoa(n))
	}
	return line
}
