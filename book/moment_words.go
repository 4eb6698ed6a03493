package book

import (
	"regexp"
	"strconv"
	"strings"

	"knockon/say"
)

// TopOfDescent is a moment as pilots say it: where the phase "descent" begins, in a
// book that calls none of its phases otherwise so.
const TopOfDescent = "top of descent"

// phaseName is a way to name a phase, folded.
type phaseName struct{ text, id string }

// foldName makes names equal that differ in case, dashes and underscores.
func foldName(s string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("_", " ", "-", " ", "’", "'").Replace(strings.ToLower(s))), " ")
}

// phaseNames lists how phases can be named: ids go before titles, titles before
// what they are also called; a name that two phases share names none, unless it is
// an id.
func phaseNames(phases []*Phase) (names []phaseName) {
	ids, others := map[string]string{}, map[string]string{}
	add := func(in map[string]string, text, id string) {
		if text = foldName(text); in[text] != "" && in[text] != id {
			id = "?"
		}
		in[text] = id
	}
	for _, p := range phases {
		add(ids, p.ID, p.ID)
		short, _, _ := strings.Cut(p.Title, ",")
		for _, text := range append([]string{p.Title, short}, p.AlsoCalled...) {
			add(others, text, p.ID)
		}
	}
	if ids["descent"] != "" && others[TopOfDescent] == "" {
		others[TopOfDescent] = "descent"
	}
	if ids[foldName(ShortFinal)] == "" {
		others[foldName(ShortFinal)] = ShortFinal
	}
	for text, id := range ids {
		others[text] = id
	}
	for text, id := range others {
		if id != "?" {
			names = append(names, phaseName{text, id})
		}
	}
	return names
}

// phaseFirst takes the name of a phase off the beginning of a text: the longest that
// is one.
func phaseFirst(text string, phases []*Phase) (id, rest string, problem string) {
	longest := 0
	for _, n := range phaseNames(phases) {
		if behind, ok := cutName(text, n.text); ok && len(n.text) > longest {
			id, rest, longest = n.id, strings.TrimSpace(behind), len(n.text)
		}
	}
	if longest > 0 {
		return id, rest, ""
	}
	end := strings.IndexFunc(text, func(r rune) bool { return r == ' ' || r == '\t' || r == '+' || r == '-' })
	if end < 0 {
		end = len(text)
	}
	return "", "", unknownPhaseText(text[:end], IDs(phases))
}

// cutName takes a folded name off the beginning of a text.
func cutName(text, name string) (rest string, ok bool) {
	if len(text) < len(name) || foldName(text[:len(name)]) != name {
		return "", false
	}
	rest = text[len(name):]
	return rest, rest == "" || !isIDChar(rest[0])
}

func isIDChar(c byte) bool {
	return c == '_' || isDigit(c) || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c >= 0x80
}

var (
	leadWords  = regexp.MustCompile(`(?i)^(?:(?:at|in|on|during|passing|when|the|start of|beginning of)\s+)+`)
	heightOf   = regexp.MustCompile(`(?i)^(?:FL\s?(\d{2,3})|([\d,]+)\s*(?:ft|feet))\s+(?:in|of|on|during)\s+(?:the\s+)?(.+)$`)
	timeOf     = regexp.MustCompile(`(?i)^([\d.:]+\s*[a-z]*)\s+(into|after|before)\s+(?:the\s+)?(.+)$`)
	heightNext = regexp.MustCompile(`(?i)^at\s+(?:FL\s?(\d{2,3})|([\d,]+)\s*(?:ft|feet))\s*(.*)$`)
)

// withoutLead drops words that say nothing of when: "in the climb" is "climb".
func withoutLead(text string) string { return text[len(leadWords.FindString(text)):] }

// feet reads one of the two forms of a height.
func feet(level, ft string) (float64, bool) {
	if level != "" {
		n, err := strconv.Atoi(level)
		return float64(100 * n), err == nil && n > 0
	}
	n, err := strconv.Atoi(strings.ReplaceAll(ft, ",", ""))
	return float64(n), err == nil && n > 0 && n <= mostMomentFt
}

// mostMomentFt is higher than any flight.
const mostMomentFt = 100_000

// turned reads a moment that names its phase last: "10,000 ft in the climb", "2 min
// into the cruise".
func turned(text string, phases []*Phase) (m Moment, ok bool) {
	if f := heightOf.FindStringSubmatch(text); f != nil {
		high, good := feet(f[1], f[2])
		m, problem := parseMoment(f[3], phases)
		ok = good && problem == "" && m.Phase != "" && m.Phase != ShortFinal && m.AtFt == 0
		m.AtFt = high
		return m, ok
	}
	f := timeOf.FindStringSubmatch(text)
	if f == nil {
		return m, false
	}
	m, problem := parseMoment(f[3], phases)
	offset, wrong := parseOffset(strings.ToLower(f[1]))
	if problem != "" || wrong != "" || m.Phase == "" || m.Offset != 0 {
		return m, false
	}
	if m.Offset = offset; strings.EqualFold(f[2], "before") {
		m.Offset = -offset
	}
	return m, true
}

// heightBehind reads a height behind a phase: "at 10000 ft".
func heightBehind(text string) (ft float64, rest string) {
	f := heightNext.FindStringSubmatch(text)
	if f == nil {
		return 0, text
	}
	if high, ok := feet(f[1], f[2]); ok {
		return high, strings.TrimSpace(f[3])
	}
	return 0, text
}

// Spoken says a moment as a person would, with the titles of a build.
func (m Moment) Spoken(b *Build) string {
	if m.Phase == "" {
		if m.Offset == 0 {
			return "the start of the flight"
		}
		return say.Clock(m.Offset) + " after the start"
	}
	where := "the beginning of " + say.Quoted(b.Title(m.Phase))
	if m.Phase == ShortFinal {
		where = "short final"
	}
	if m.AtFt != 0 {
		where = say.Whole(m.AtFt) + " ft in " + say.Quoted(b.Title(m.Phase))
	}
	switch {
	case m.Offset > 0:
		return say.Lasts(m.Offset) + " after " + where
	case m.Offset < 0:
		return say.Lasts(-m.Offset) + " before " + where
	}
	return where
}
