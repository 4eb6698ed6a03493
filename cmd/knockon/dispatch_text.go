package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"knockon/ask"
	"knockon/book"
)

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
