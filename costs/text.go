package costs

import (
	"bufio"
	"fmt"
	"io"

	"knockon/book"
	"knockon/say"
)

// WriteText writes the costs as plain text: a line for each airfield with what
// the failed aircraft needs, and one with what the healthy one needs.
func WriteText(w io.Writer, v *View) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "%s\n%s\n", v.Heading, v.Summary)
	for _, text := range []string{v.Supposed, v.Turn} {
		if text != "" {
			fmt.Fprintln(b, text)
		}
	}
	fmt.Fprintf(b, "At %s ft, %s kg with %s kg of fuel. Final reserve: %s (%s).\n\n", say.Whole(v.AltFt), say.Whole(v.MassKg), say.Whole(v.FuelKg), v.RuleIs, v.RuleFrom)
	fmt.Fprintf(b, "  %-20s %5s %5s %6s %6s  %-7s %7s %6s  %s\n", "airfield", "NM", "min", "burns", "lands", "runway", "needs", "has", "good?")
	for i := range v.Rows {
		r := &v.Rows[i]
		name := r.Name
		if r.Own {
			name += " (dest.)"
		}
		writeSide(b, name, r.NM, &r.Failed)
		writeSide(b, "  nothing failed", -1, &r.Healthy)
	}
	fmt.Fprintf(b, "\n  burns, lands: kg of fuel on the way and left at touchdown. needs: landing distance with 15 %% on top; has: landing distance available, m.\n")
	for _, n := range v.Notes {
		fmt.Fprintf(b, "  %s\n", n)
	}
	fmt.Fprintf(b, "\n%s\n", v.Caution)
	return b.Flush()
}

func writeSide(b *bufio.Writer, name string, nm float64, s *SideView) {
	far := ""
	if nm >= 0 {
		far = say.Whole(nm)
	}
	runway, needs, has := "-", "-", "-"
	if len(s.Runways) > 0 {
		r := &s.Runways[0]
		runway, has = r.End, say.Whole(r.AvailableM)
		if needs = say.Whole(r.RequiredM); r.ByRows && r.Unsaid != "" {
			needs = "-"
		} else if !r.Stops {
			needs = "no stop"
		}
	}
	lands := say.Whole(s.LandsKg)
	if !s.Arrives {
		lands = "-"
	}
	if s.Binding == Near {
		fmt.Fprintf(b, "  %s %5s %5s %6s %6s  %-7s %7s %6s  %s\n", title(name, 20), far, "-", "-", "-", "-", "-", "-", s.Verdict)
		return
	}
	fmt.Fprintf(b, "  %s %5s %5.0f %6s %6s  %-7s %7s %6s  %s\n", title(name, 20), far, s.Minutes, say.Whole(s.FuelKg), lands, runway, needs, has, s.Verdict)
	if len(s.Runways) > 0 && s.Runways[0].ManualM > 0 {
		fmt.Fprintf(b, "  %s %34s %7s\n", title("  by the manual", 24), "", say.Whole(s.Runways[0].ManualM))
	}
	if s.Binding != Lacking {
		for _, l := range s.Lacking {
			fmt.Fprintf(b, "  %76s and not worked out: %s\n", "", l)
		}
	}
	if len(s.Reasons) > 1 {
		for _, r := range s.Reasons[1:] {
			fmt.Fprintf(b, "  %76s and %s\n", "", r)
		}
	}
}

// WriteParts writes an attribution as plain text.
func WriteParts(w io.Writer, v *AttributionView) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "What each thing adds on the way to %s, runway %s: given back alone (taken alone)\n\n", v.Name, v.End)
	fmt.Fprintf(b, "  %-34s %15s %15s %17s\n", "", "fuel kg", "time min", "runway m")
	line := func(title2 string, a Amounts) {
		fmt.Fprintf(b, "  %s %7s %7s %7.1f %7s %8s %8s\n", title(title2, 34), say.Whole(a.FuelKg), "", a.Minutes, "", say.Whole(a.RequiredM), "")
	}
	line("nothing failed", v.Healthy)
	for _, p := range v.Parts {
		fmt.Fprintf(b, "  %s %7s %7s %7s %7s %8s %8s\n", title("+ "+p.Title, 34), say.Whole(p.Back.FuelKg), "("+say.Whole(p.Alone.FuelKg)+")",
			fmt.Sprintf("%.1f", p.Back.Minutes), fmt.Sprintf("(%.1f)", p.Alone.Minutes), say.Whole(p.Back.RequiredM), "("+say.Whole(p.Alone.RequiredM)+")")
		for _, f := range p.Functions {
			fmt.Fprintf(b, "      %s\n", f)
		}
	}
	line("+ together more (or less)", v.Interaction)
	line("all of it", v.Failed)
	if v.Trouble != "" {
		fmt.Fprintf(b, "\n  %s\n", v.Trouble)
	}
	fmt.Fprintf(b, "\n%s\n", v.Caution)
	return b.Flush()
}

// WriteUntil writes last moments as plain text.
func WriteUntil(w io.Writer, v *UntilView) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "%s\nUntil when each airfield is good for the failed aircraft, if the flight goes on meanwhile; to half a minute, the clock from the start of the flight:\n\n", v.Heading)
	for _, r := range v.Rows {
		when := "never good"
		switch {
		case !r.Ever && r.near:
			when = "not worked out"
		case r.Always:
			when = "until the approach"
		case r.Ever:
			when = "for " + say.Lasts(book.AtSeconds(r.AfterS)) + ", until " + say.Clock(book.AtSeconds(r.TimeS))
		}
		line := fmt.Sprintf("  %s %-31s", title(r.Name, 20), when)
		if r.Then != "" {
			line += "  then " + r.Then
			if !r.Ever {
				line = fmt.Sprintf("  %s %-31s  %s", title(r.Name, 20), when, r.Then)
			}
		}
		fmt.Fprintln(b, line)
	}
	fmt.Fprintf(b, "\n%s\n", v.Caution)
	return b.Flush()
}
