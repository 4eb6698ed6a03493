package say

import (
	"math"
	"strconv"
	"strings"
)

// symbols are the units as a person reads them (ISO 80000 and ICAO Annex 5).
var symbols = map[string]string{
	"ft_per_min": "ft/min", "kg_per_h": "kg/h", "kg_per_s": "kg/s", "c": "°C", "pct": "%", "deg": "°", "v": "V", "a": "A",
	"ah": "Ah", "kw": "kW", "kn": "kN", "hz": "Hz", "hpa": "hPa", "mj": "MJ", "nm": "NM", "m2": "m²", "mach": "Mach", "ratio": "", "count": "",
}

// Quantity gives a number with its unit as a person reads it: three figures or
// the whole number, whichever is more.
func Quantity(v float64, unit string) string {
	number := Figures(v)
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

// Figures writes a number with three figures, or whole if that is more: 0.785, 2,345.
func Figures(v float64) string {
	if !(math.Abs(v) < 1e12) {
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	decimals := 0
	for size := math.Abs(v); size < 100 && decimals < 3; size *= 10 {
		decimals++
	}
	whole, rest, pointed := strings.Cut(strconv.FormatFloat(v, 'f', decimals, 64), ".")
	if rest = strings.TrimRight(rest, "0"); pointed && rest != "" {
		rest = "." + rest
	}
	if strings.Trim(whole+rest, "-0.") == "" {
		return "0"
	}
	return grouped(whole) + rest
}

// Whole writes a number without decimals: 2,345 or −40.
func Whole(v float64) string { return fixed(v, 0) }

// Tenths writes a number with one decimal: 2,345.6 or −0.4.
func Tenths(v float64) string { return fixed(v, 1) }

// fixed writes a number with so many decimals, halves away from 0. What is not
// a number that can be read out is a question mark.
func fixed(v float64, decimals int) string {
	if !(math.Abs(v) <= 1e12) {
		return "?"
	}
	step := math.Pow10(decimals)
	v = math.Round(v*step) / step
	if v == 0 {
		v = 0 // never −0
	}
	whole, rest, pointed := strings.Cut(strconv.FormatFloat(v, 'f', decimals, 64), ".")
	if pointed {
		rest = "." + rest
	}
	return grouped(whole) + rest
}

// grouped puts a comma between thousands, and a true minus in front.
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
