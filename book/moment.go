package book

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"knockon/say"
)

// Moment is a time of a flight: so long after a phase begins (before it, if
// Offset is negative), or after the start if Phase is "". With a height it is so
// long after the flight first passes that pressure altitude in the phase.
type Moment struct {
	Phase  string
	Offset Time
	AtFt   float64 // 0: none
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
	place := m.Phase
	if m.AtFt != 0 {
		place += " at " + strconv.FormatFloat(m.AtFt, 'f', -1, 64) + " ft"
	}
	switch {
	case m.Phase == "":
		return size
	case m.Offset == 0:
		return place
	case m.Offset < 0:
		return place + " - " + size
	}
	return place + " + " + size
}

// ParseMoment reads a moment as people write it: "climb", "climb + 120 s",
// "descent - 30 s", "1800 s", "30 min", "45:00", "1:20:00", "short final - 10 s",
// "top of descent", "2 min into the cruise", "10,000 ft in the climb"; "" is the
// start of the flight. A phase is named by its id, its title or what it is also
// called. The error says in a full sentence what is wrong and what to write.
func ParseMoment(text string, b *Build) (Moment, error) {
	m, problem := parseMoment(text, b.Phases)
	if problem != "" {
		return Moment{}, errors.New(problem)
	}
	return m, nil
}

var momentUnits = map[string]float64{"s": 1, "sec": 1, "second": 1, "seconds": 1, "min": 60, "minute": 60, "minutes": 60, "h": 3600, "hour": 3600, "hours": 3600}

func parseMoment(text string, phases []*Phase) (m Moment, problem string) {
	rest := withoutLead(strings.TrimSpace(text))
	if rest == "" {
		return Moment{}, ""
	}
	if m, ok := turned(rest, phases); ok {
		return m, ""
	}
	if !isDigit(rest[0]) && rest[0] != '-' && rest[0] != '+' && rest[0] != '.' {
		if m.Phase, rest, problem = phaseFirst(rest, phases); problem != "" {
			return m, problem
		}
		if m.AtFt, rest = heightBehind(rest); rest == "" {
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

// clock reads minutes and seconds as they are printed, 9:12, or hours before them,
// 1:20:00.
func clock(text string) (Time, bool) {
	parts := strings.Split(text, ":")
	if len(parts) < 2 || len(parts) > 3 {
		return 0, false
	}
	total := uint64(0)
	for i, p := range parts {
		n, err := strconv.ParseUint(p, 10, 16)
		if err != nil || i > 0 && (len(p) != 2 || n > 59) {
			return 0, false
		}
		total = 60*total + n
	}
	return Time(total) * Second, true
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
