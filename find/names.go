package find

import (
	"slices"
	"strings"

	"knockon/book"
)

// entry is something that can fail.
type entry struct {
	ref, title string
	chapter    int
	plain      bool       // a unit, not a fault of one or an event
	words      [][]string // of its id, its title, and each other name
}

// names are the entries of a build, in the order of the book.
type names struct {
	entries    []entry
	vocabulary []string
}

func namesOf(b *book.Build) *names {
	n := &names{}
	seen := map[string]bool{}
	for _, f := range b.Failures() {
		item, _ := b.Item(f.Unit)
		h := item.Named()
		e := entry{ref: f.String(), title: b.FailureTitle(f.String()), chapter: h.Chapter, plain: f.Fault == "" && h.Kind == "unit"}
		calls := slices.Clone(h.AlsoCalled)
		if u, ok := item.(*book.Unit); ok && f.Fault != "" {
			calls = faultCalls(u, f.Fault, calls)
		}
		for _, text := range append([]string{e.title, f.String()}, calls...) {
			words := split(text)
			e.words = append(e.words, words)
			for _, w := range words {
				if len(w) > 3 && !seen[w] {
					seen[w] = true
					n.vocabulary = append(n.vocabulary, w)
				}
			}
		}
		n.entries = append(n.entries, e)
	}
	return n
}

// faultCalls are the other names of a fault: each of its unit's with its title, and
// its own.
func faultCalls(u *book.Unit, fault string, unit []string) (calls []string) {
	for _, f := range u.Faults {
		if f.ID == fault {
			for _, c := range unit {
				calls = append(calls, c+" "+f.Title)
			}
			return append(calls, f.AlsoCalled...)
		}
	}
	return nil
}

func split(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" _-.,:;()/", r) })
}

func (n *names) in(chapter int) (list []entry) {
	for _, e := range n.entries {
		if e.chapter == chapter {
			list = append(list, e)
		}
	}
	return list
}

// longer says that the words of a text are the beginning or the middle of a name of
// two words more, all of which stand in the tokens in a row.
func (n *names) longer(tokens []token, text string) bool {
	want := split(text)
	var all []string
	for _, t := range tokens {
		all = append(all, split(t.text)...)
	}
	for _, e := range n.entries {
		for _, words := range e.words {
			if len(words) > len(want) && within(words, want) && within(all, words) {
				return true
			}
		}
	}
	return false
}

func within(all, some []string) bool {
	for i := 0; i+len(some) <= len(all); i++ {
		if slices.Equal(all[i:i+len(some)], some) {
			return true
		}
	}
	return false
}

// word is a word to look for: part of a token, of which all is meant or nothing.
type word struct {
	text  string
	token int
}

// match is how well some words name an entry.
type match struct {
	entry
	score int
	hit   []bool // by word: it is part of the name
}

// sides are how people say left and right where a name has no number.
var sides = map[string]string{"1": "left", "2": "right", "one": "left", "two": "right", "l": "left", "lh": "left", "r": "right", "rh": "right"}

// matches ranks the entries by how many of the words they have, then by how well.
func (n *names) matches(words []word) (list []match) {
	for _, e := range n.entries {
		best := match{}
		for _, name := range e.words {
			if m := (match{entry: e}); m.against(name, words) && (m.count() > best.count() || m.count() == best.count() && m.score > best.score) {
				best = m
			}
		}
		if best.score > 0 {
			list = append(list, best)
		}
	}
	slices.SortStableFunc(list, func(a, b match) int {
		if a.count() != b.count() {
			return b.count() - a.count()
		}
		return b.score - a.score
	})
	return list
}

func (m match) count() (n int) {
	for _, h := range m.hit {
		if h {
			n++
		}
	}
	return n
}

// Scores of a word against a name: each is worth more than any number of words that
// a name has beyond it.
const (
	whole, start, joined, initials, sided = 60, 40, 30, 30, 35
)

// against scores words against one name. Something that merely has "left" or a
// number in it is not meant.
func (m *match) against(name []string, words []word) bool {
	m.hit = make([]bool, len(words))
	missed := map[int]bool{}
	for _, w := range words {
		missed[w.token] = missed[w.token] || scored(name, w.text) == 0
	}
	tells := false
	for i, x := range words {
		w, points := x.text, scored(name, x.text)
		if points > 0 && !missed[x.token] {
			m.hit[i], m.score = true, m.score+points
			tells = tells || !onlySide(w)
		}
	}
	if !tells {
		return false
	}
	m.score -= min(len(name)-m.count(), 20)
	if m.plain {
		m.score += 5
	}
	return true
}

func onlySide(w string) bool {
	return sides[w] != "" || w == "left" || w == "right" || len(w) == 1 || empty[w]
}

func scored(name []string, w string) int {
	for _, form := range []string{w, singular(w)} {
		if slices.Contains(name, form) {
			return whole
		}
	}
	if s := sides[w]; s != "" && slices.Contains(name, s) {
		return sided
	}
	if len(w) < 2 {
		return 0
	}
	for _, form := range []string{w, singular(w)} {
		if slices.ContainsFunc(name, func(v string) bool { return strings.HasPrefix(v, form) }) {
			return start
		}
	}
	if isInitials(name, w) {
		return initials
	}
	for i := range name {
		if joins(name[i:], w, 0) {
			return joined
		}
	}
	return 0
}

func singular(w string) string {
	switch {
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "s") && len(w) > 3:
		return w[:len(w)-1]
	}
	return w
}

// isInitials says that a word is the first letters of words in a row, or of them but
// for left and right; a u behind them stands for a unit.
func isInitials(name []string, w string) bool {
	var letters strings.Builder
	for _, v := range name {
		if v != "left" && v != "right" {
			letters.WriteString(v[:1])
		}
	}
	unit, is := strings.CutSuffix(w, "u")
	return len(w) > 1 && strings.Contains(letters.String(), w) || is && len(unit) > 1 && strings.Contains(letters.String(), unit)
}

// joins says that a word is put together from the beginnings of two words or more in
// a row, of two letters or more each: radalt of radio altimeter.
func joins(name []string, w string, used int) bool {
	if w == "" {
		return used > 1
	}
	if len(name) == 0 {
		return false
	}
	for n := min(len(w), len(name[0])); n >= 2; n-- {
		if w[:n] == name[0][:n] && joins(name[1:], w[n:], used+1) {
			return true
		}
	}
	return false
}
