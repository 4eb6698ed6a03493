package claim

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"knockon/book"
	"knockon/say"
)

// WriteText writes a report as plain text: the claims that fail, each with
// what was expected, what was found and why, then how many hold.
func WriteText(w io.Writer, r *Report) error {
	var text strings.Builder
	for _, c := range r.Results {
		if !c.Holds() {
			writeResult(&text, c)
		}
	}
	n := len(r.Results)
	switch failing := r.Failing(); {
	case n == 0:
		fmt.Fprintln(&text, "The book makes no claims.")
	case failing == 0:
		fmt.Fprintln(&text, say.Plural(n, "The one claim holds.", "All "+say.Counted(n, "claim")+" hold."))
	default:
		fmt.Fprintf(&text, "%d of %s %s; %d %s.\n", n-failing, say.Counted(n, "claim"), say.Plural(n-failing, "holds", "hold"), failing, say.Plural(failing, "fails", "fail"))
	}
	fmt.Fprintln(&text, book.Caution)
	_, err := io.WriteString(w, text.String())
	return err
}

func writeResult(w io.Writer, r Result) {
	fmt.Fprintf(w, "%s: claim %s fails\n  %s\n", r.Claim.Range, r.Claim.ID, r.Claim.Says)
	if r.Claim.Source != "" {
		fmt.Fprintf(w, "  Source: %s\n", r.Claim.Source)
	}
	for i, o := range r.Givens {
		if o.Holds() {
			continue
		}
		if len(r.Givens) > 1 {
			fmt.Fprintf(w, "  given %s, line %d\n", titled(o, i), o.Given.Range.Line)
		}
		writeOutcome(w, o)
	}
	fmt.Fprintln(w)
}

// titled names a given of a claim.
func titled(o Outcome, i int) string {
	if o.Given.Title != "" {
		return fmt.Sprintf("%q", o.Given.Title)
	}
	return fmt.Sprintf("%d", i+1)
}

func writeOutcome(w io.Writer, o Outcome) {
	if o.Trouble != "" {
		fmt.Fprintf(w, "    cannot be judged: %s\n", o.Trouble)
		return
	}
	if o.BrokeOff != "" {
		fmt.Fprintf(w, "    %s\n", o.BrokeOff)
	}
	for _, f := range o.Findings {
		if f.Holds {
			continue
		}
		fmt.Fprintf(w, "    expected  %s\n    got       %s\n", f.Expect, f.Got)
		for _, line := range f.Why {
			fmt.Fprintf(w, "    why       %s\n", line)
		}
	}
}

// MarshalJSON writes the report with stable names.
func (r *Report) MarshalJSON() ([]byte, error) {
	results := make([]resultView, len(r.Results))
	for i, c := range r.Results {
		results[i] = viewOf(c)
	}
	return json.Marshal(reportView{len(results), r.Failing(), results, book.Caution})
}

type reportView struct {
	Count   int          `json:"count"`
	Failing int          `json:"failing"`
	Claims  []resultView `json:"claims"`
	Caution string       `json:"caution"`
}

type resultView struct {
	ID     string        `json:"id"`
	Says   string        `json:"says"`
	Source string        `json:"source,omitempty"`
	File   string        `json:"file"`
	Line   int           `json:"line"`
	Holds  bool          `json:"holds"`
	Givens []outcomeView `json:"givens"`
}

type outcomeView struct {
	Title    string        `json:"title,omitempty"`
	Line     int           `json:"line"`
	Holds    bool          `json:"holds"`
	Trouble  string        `json:"trouble,omitempty"`
	BrokeOff string        `json:"broke_off,omitempty"`
	Expected []findingView `json:"expected"`
}

type findingView struct {
	Expect    string   `json:"expect"`
	Holds     bool     `json:"holds"`
	Undecided bool     `json:"undecided"`
	Got       string   `json:"got"`
	Why       []string `json:"why"`
}

func viewOf(r Result) resultView {
	v := resultView{
		ID: r.Claim.ID, Says: r.Claim.Says, Source: r.Claim.Source,
		File: r.Claim.Range.File, Line: r.Claim.Range.Line, Holds: r.Holds(), Givens: []outcomeView{},
	}
	for _, o := range r.Givens {
		g := outcomeView{Title: o.Given.Title, Line: o.Given.Range.Line, Holds: o.Holds(), Trouble: o.Trouble, BrokeOff: o.BrokeOff, Expected: []findingView{}}
		for _, f := range o.Findings {
			g.Expected = append(g.Expected, findingView{f.Expect.String(), f.Holds, f.Undecided, f.Got, append([]string{}, f.Why...)})
		}
		v.Givens = append(v.Givens, g)
	}
	return v
}
