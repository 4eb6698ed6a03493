package ledger

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"knockon/book"
)

// symbols are the units as a person reads them (ISO 80000 and ICAO Annex 5).
var symbols = map[string]string{
	"ft_per_min": "ft/min", "kg_per_h": "kg/h", "kg_per_s": "kg/s", "c": "°C", "pct": "%", "deg": "°", "v": "V", "a": "A",
	"ah": "Ah", "kw": "kW", "kn": "kN", "hz": "Hz", "nm": "NM", "m2": "m²", "mach": "Mach", "ratio": "", "count": "",
}

// Quantity gives a number with its unit as a person reads it: three figures or
// the whole number, whichever is more.
func Quantity(v float64, unit string) string {
	number := figures(v)
	symbol, ok := symbols[unit]
	if !ok {
		symbol = unit
	}
	switch symbol {
	case "":
		return number
	case "%", "°":
		return number + symbol
	case "Mach":
		return symbol + " " + number
	}
	return number + " " + symbol
}

func figures(v float64) string {
	if math.Abs(v) >= 1e12 {
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	decimals := 0
	for size := math.Abs(v); size < 100 && decimals < 3; size *= 10 {
		decimals++
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	whole, rest, pointed := strings.Cut(text, ".")
	if rest = strings.TrimRight(rest, "0"); pointed && rest != "" {
		rest = "." + rest
	}
	if strings.Trim(whole+rest, "-0.") == "" {
		return "0"
	}
	return grouped(whole) + rest
}

// grouped puts a comma between thousands.
func grouped(whole string) string {
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "−", whole[1:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	return sign + whole
}

// Clock gives a length of time as minutes and seconds, 0:42, to the nearest second.
func Clock(d book.Time) string {
	sign := ""
	if d < 0 {
		sign, d = "−", -d
	}
	s := int64((d + book.Second/2) / book.Second)
	return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
}

// after gives a moment as minutes and seconds from the failure: +0:42.
func after(d book.Time) string {
	if d < 0 {
		return Clock(d)
	}
	return "+" + Clock(d)
}

// lasts gives a length of time in words: 0.5 s, 42 s, 3 min 05 s.
func lasts(d book.Time) string {
	switch s := d.Seconds(); {
	case s < 10:
		return figures(math.Round(s*10)/10) + " s"
	case s < 119.5:
		return fmt.Sprintf("%.0f s", s)
	default:
		return fmt.Sprintf("%d min %02d s", int(s+0.5)/60, int(s+0.5)%60)
	}
}

// listed joins words as in a sentence: a, b and c; with semicolons where a word
// has a comma of its own.
func listed(words []string) string {
	comma := ", "
	for _, w := range words {
		if strings.Contains(w, ",") {
			comma = "; "
		}
	}
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], comma) + " and " + words[n-1]
	}
}

// counted gives a number of things: no function, 1 function, 2 functions.
func counted(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + one
	case 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// sentence starts a text with a capital and ends it with a stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	for i, r := range s {
		return s[:i] + strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}
