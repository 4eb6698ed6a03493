package ledger_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
)

// The rows of the slow ledger that are no losses: readings and alerts.

func (s *slow) dumpReadings(w *strings.Builder, b *book.Build) {
	for _, word := range []string{"wrong", "dark"} {
		for _, i := range b.Indications {
			list := s.darkness(i)
			if word == "wrong" {
				list = s.lies(i)
			}
			if len(list) > 0 {
				fmt.Fprintf(w, "%s %s:", word, i.ID)
				for _, p := range list {
					fmt.Fprintf(w, " %s", stretch(s.time(p), p[1] == len(s.grid)-1))
				}
				fmt.Fprintln(w)
			}
		}
	}
}

func (s *slow) darkness(i *book.Indication) [][2]int {
	here, there := s.look(i.ID, circuit.Lit)
	return s.stretches(func(i int) bool { return !here[i] && there[i] })
}

func (s *slow) lies(i *book.Indication) (long [][2]int) {
	for _, p := range s.newly(i.ID, circuit.Wrong) {
		if s.grid[p[1]]-s.grid[p[0]] > s.v {
			long = append(long, p)
		}
	}
	return long
}

func (s *slow) dumpAlerts(w *strings.Builder, b *book.Build) {
	for _, word := range []string{"given", "false", "held"} {
		var list []ledger.Announcement
		for _, a := range b.Alerts {
			if n := s.announcement(word, a); len(n.Spans) > 0 {
				list = append(list, n)
			}
		}
		slices.SortStableFunc(list, func(x, y ledger.Announcement) int {
			return cmp.Or(cmp.Compare(x.Spans[0].From, y.Spans[0].From),
				slices.Index(book.Levels, x.Alert.Level)-slices.Index(book.Levels, y.Alert.Level))
		})
		announcements(w, word, list)
	}
}

func (s *slow) announcement(word string, a *book.Alert) ledger.Announcement {
	n := ledger.Announcement{Alert: a}
	aspect := map[string]circuit.Aspect{"given": circuit.Main, "false": circuit.False, "held": circuit.HeldBack}[word]
	for _, p := range s.newly(a.ID, aspect) {
		n.Spans = append(n.Spans, s.time(p))
	}
	if word == "held" {
		return s.release(n)
	}
	for _, i := range s.blinks(a.ID, aspect) {
		if word == "given" || s.soundsAt(a, i) {
			n.Spans = append(n.Spans, circuit.Span{From: s.grid[i], To: s.grid[i]})
		}
	}
	slices.SortFunc(n.Spans, func(x, y circuit.Span) int { return cmp.Compare(x.From, y.From) })
	for i, t := range s.grid {
		in := slices.ContainsFunc(n.Spans, func(p circuit.Span) bool { return p.From <= t && t < p.To || p.From == t })
		if in && s.soundsAt(a, i) {
			n.Sounds = append(n.Sounds, t)
		}
	}
	return n
}

// soundsAt says that an alert sounds at a moment: it becomes given, or has been
// given for a whole number of its repeats.
func (s *slow) soundsAt(a *book.Alert, i int) bool {
	given, _ := s.look(a.ID, circuit.Main)
	n, _ := s.here.Circuit().Node(circuit.Value{Item: a.ID})
	for _, ch := range s.here.Changes() {
		if ch.Node == n && ch.To != 0 && ch.At == s.grid[i] {
			return true
		}
	}
	if !given[i] || i == 0 {
		return given[i]
	}
	for j := i - 1; a.RepeatsS > 0 && j >= 0; j-- {
		if j == 0 || s.risesAt(n, j) {
			passed := (s.grid[i] - s.grid[j]) % book.AtSeconds(a.RepeatsS)
			return passed == 0 && i < len(s.grid)-1
		}
	}
	return false
}

func (s *slow) risesAt(n circuit.Node, i int) bool {
	return slices.ContainsFunc(s.here.Changes(), func(ch circuit.Change) bool {
		return ch.Node == n && ch.To != 0 && ch.At == s.grid[i]
	})
}

func (s *slow) release(n ledger.Announcement) ledger.Announcement {
	if len(n.Spans) == 0 {
		return n
	}
	n.Phases = s.quiet([]*book.Alert{n.Alert}, 0, len(s.grid)-1)
	here, there := s.look(n.Alert.ID, circuit.Main)
	blinks := s.blinks(n.Alert.ID, circuit.Main)
	for i, t := range s.grid {
		lasting := here[i] && !there[i] && i < len(s.grid)-1
		if t >= n.Spans[0].From && (lasting || slices.Contains(blinks, i)) {
			n.Given, n.At = true, t
			break
		}
	}
	return n
}
