package web

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// count writes a whole number with commas, and a minus as the pictures have it.
func count(v float64) string {
	s := strconv.FormatFloat(math.Abs(math.Round(v)), 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return signed(v <= -0.5, s)
}

// tenths writes a number with one decimal.
func tenths(v float64) string {
	return signed(v <= -0.05, strconv.FormatFloat(math.Abs(v), 'f', 1, 64))
}

func signed(negative bool, s string) string {
	if negative {
		return "−" + s
	}
	return s
}

// sentence makes one of words that stand elsewhere inside one: a capital in
// front, a full stop behind.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	s = string(unicode.ToUpper(r)) + s[n:]
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "?") {
		s += "."
	}
	return s
}
