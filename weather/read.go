package weather

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// ReadAll reads reports that follow each other. One ends at an equals sign, or
// where the next code name stands, or where a line begins with a station and a
// time.
func ReadAll(text string) (reports []Report) {
	for _, words := range split(text) {
		reports = append(reports, read(words))
	}
	return reports
}

var (
	stationForm = regexp.MustCompile(`^[A-Z][A-Z0-9]{3}$`)
	timeForm    = regexp.MustCompile(`^[0-9]{6}Z$`)
)

// split cuts a text into the words of each report.
func split(text string) (reports [][]string) {
	text = strings.ToValidUTF8(strings.ToUpper(text), "\ufffd")
	for part := range strings.SplitSeq(text, "=") {
		var words []string
		for line := range strings.SplitSeq(part, "\n") {
			fields := strings.Fields(line)
			for i, w := range fields {
				if len(words) > 0 && (named(w) || i == 0 && heads(fields) && slices.ContainsFunc(words, timeForm.MatchString)) {
					reports, words = append(reports, words), nil
				}
				words = append(words, w)
			}
		}
		if len(words) > 0 {
			reports = append(reports, words)
		}
	}
	return reports
}

func named(word string) bool { return word == "METAR" || word == "SPECI" }

func heads(words []string) bool {
	return len(words) > 1 && stationForm.MatchString(words[0]) && timeForm.MatchString(words[1])
}

// reader goes through the words of a report.
type reader struct {
	*Report
	words []string
	at    int
	order order // of the last group
	seen  [orders]bool
}

func read(words []string) Report {
	r := Report{Text: strings.Join(words, " ")}
	p := &reader{Report: &r, words: words}
	p.head()
	for p.at < len(p.words) {
		p.at += p.next()
	}
	p.lacking()
	return r
}

func (p *reader) here() string {
	if p.at >= len(p.words) {
		return ""
	}
	return p.words[p.at]
}

func (r *Report) problem(place int, group, format string, a ...any) {
	r.Problems = append(r.Problems, Problem{place, group, fmt.Sprintf(format, a...)})
}

func (p *reader) say(format string, a ...any) { p.problem(p.at+1, p.here(), format, a...) }

// head reads the code name and the station.
func (p *reader) head() {
	if named(p.here()) {
		p.Special = p.here() == "SPECI"
		p.at++
	}
	if p.here() == "COR" {
		p.Corrected = true
		p.at++
	}
	if !stationForm.MatchString(p.here()) {
		if p.here() != "" {
			p.say("expected a station of four letters")
		}
		return
	}
	p.Station = p.here()
	p.at++
}

// next reads a group and tells how many words it took.
func (p *reader) next() int {
	word := p.here()
	for _, g := range groups {
		if !g.looks.MatchString(word) {
			continue
		}
		p.follow(g)
		took, expected := g.read(p, word)
		if expected != "" {
			p.say("%s: expected %s", g.order, expected)
			p.Unknown = append(p.Unknown, word)
		}
		return max(1, took)
	}
	p.say("no group of a report looks like this; it is kept as it stands")
	p.Unknown = append(p.Unknown, word)
	return 1
}

// follow checks a group's place after those before it.
func (p *reader) follow(g group) {
	if g.order < p.order {
		p.say("%s stands after %s", g.order, p.order)
	}
	if p.seen[g.order] && !g.order.repeats() {
		p.say("a second %s; it takes the place of the first", g.order)
	}
	p.seen[g.order] = true
	p.order = max(p.order, g.order)
}

// lacking names the groups that every report has.
func (p *reader) lacking() {
	if p.Station == "" && len(p.words) == 0 {
		p.problem(0, "", "the report is empty")
		return
	}
	for _, need := range []struct {
		order   order
		example string
	}{
		{timing, "221630Z"}, {wind, "24015KT"}, {visibility, "9999 or CAVOK"}, {temperature, "17/M02"}, {pressure, "Q1018 or A2992"},
	} {
		if !p.seen[need.order] && (!p.Missing || need.order == timing) {
			p.problem(0, "", "no %s: expected a group like %s", need.order, need.example)
		}
	}
}
