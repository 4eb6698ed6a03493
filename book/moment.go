package book

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"knockon/say"
)

// Moment is a time of a flight: so long after a phase begins (before it, if
// Offset is negative), or after the start if Phase is "".
type Moment struct {
	Phase  string
	Offset Time
}

// ShortFinal is a moment that every book knows, whether or not one of its phases is
// called so: the flight with nothing failed comes below ShortFinalFt on its final
// approach path.
const (
	ShortFinal   = "short_final"
	ShortFinalFt = 500.0 // above the runway (common practice)
)

// String gives a moment as ParseMoment reads it.
func (m Moment) String() string {
	size := strconv.FormatFloat(max(m.Offset, -m.Offset).Seconds(), 'f', -1, 64) + " s"
	switch {
	case m.Phase == "":
		return size
	case m.Offset == 0:
		return m.Phase
	case m.Offset < 0:
		return m.Phase + " - " + size
	}
	return m.Phase + " + " + size
}

// ParseMoment reads a moment as people write it: "climb", "climb + 120 s",
// "descent - 30 s", "1800 s", "30 min", "short final - 10 s"; "" is the start of the flight. The
// error says in a full sentence what is wrong and what to write.
func ParseMoment(text string, b *Build) (Moment, error) {
	m, problem := parseMoment(text, IDs(b.Phases))
	if problem != "" {
		return Moment{}, errors.New(problem)
	}
	return m, nil
}

var momentUnits = map[string]float64{"s": 1, "min": 60, "h": 3600}

func parseMoment(text string, phases []string) (m Moment, problem string) {
	rest := strings.TrimSpace(text)
	if rest == "" {
		return Moment{}, ""
	}
	if behind, ok := strings.CutPrefix(rest, "short final"); ok { // as pilots write it
		rest = ShortFinal + behind
	}
	if !isDigit(rest[0]) && rest[0] != '-' && rest[0] != '+' && rest[0] != '.' {
		end := strings.IndexFunc(rest, func(r rune) bool { return r == ' ' || r == '\t' || r == '+' || r == '-' })
		if end < 0 {
			end = len(rest)
		}
		m.Phase, rest = rest[:end], strings.TrimSpace(rest[end:])
		if !slices.Contains(phases, m.Phase) && m.Phase != ShortFinal {
			return m, unknownPhaseText(m.Phase, phases)
		}
		if rest == "" {
			return m, ""
		}
		if rest[0] != '+' && rest[0] != '-' {
			return m, fmt.Sprintf("Write + or - between the phase and the time, as in %q.", m.Phase+" + 120 s")
		}
	}
	m.Offset, problem = parseOffset(rest)
	if problem == "" && m.Phase == "" && m.Offset < 0 {
		problem = "A time from the start of the flight cannot be negative."
	}
	return m, problem
}

func unknownPhaseText(phase string, phases []string) string {
	there := ""
	if len(phases) > 0 {
		there = "The phases are: " + strings.Join(phases, ", ") + "."
	}
	return fmt.Sprintf("There is no phase called %q.", phase) + say.Ahead(" ", say.DidYouMean(say.Nearest(phase, phases), there))
}

// clock reads minutes and seconds as they are printed: 9:12.
func clock(text string) (Time, bool) {
	minutes, seconds, ok := strings.Cut(text, ":")
	m, errM := strconv.ParseUint(minutes, 10, 16)
	s, errS := strconv.ParseUint(seconds, 10, 16)
	return Time(60*m+s) * Second, ok && errM == nil && errS == nil && len(seconds) == 2 && s < 60
}

// parseOffset reads "+ 120 s", "+ 2:00".
func parseOffset(text string) (Time, string) {
	sign := 1.0
	switch text[0] {
	case '-':
		sign, text = -1, text[1:]
	case '+':
		text = text[1:]
	}
	text = strings.TrimSpace(text)
	if t, ok := clock(text); ok {
		return Time(sign) * t, ""
	}
	end := strings.IndexFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if end < 0 {
		end = len(text)
	}
	num, err := strconv.ParseFloat(text[:end], 64)
	unit := strings.TrimSpace(text[end:])
	size, ok := momentUnits[unit]
	switch {
	case err != nil:
		return 0, fmt.Sprintf("%q is no time. Write a number and its unit, such as \"120 s\" or \"2 min\".", text)
	case unit == "":
		return 0, fmt.Sprintf("Say the unit of the time: \"%s s\", \"%s min\" or \"%s h\".", text, text, text)
	case !ok:
		return 0, fmt.Sprintf("%q is no unit of time. Use s, min or h.", unit)
	case !isDuration(num * size):
		return 0, "That is longer than any flight."
	}
	return AtSeconds(sign * num * size), ""
}
