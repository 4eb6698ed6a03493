package find

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

// empty are words that carry nothing here.
var empty = wordSet(`a an and any are as at be but by can come comes do does during fail failed failing failure failures fails for from
	gets give given goes gone had happen happens has have if in inop into is it its just lose loses losing lost loss me my no not of off on or our out
	please plus show so stop stops than that the their then there these this to up was we were what when where which while who why will with without you your both all one two`)

// deferring are words that say that something is inoperative at dispatch.
var deferring = wordSet("deferred deferral inoperative inop mel unserviceable u/s dispatch dispatched")

// counting are words before a name that say how many of its kind.
var counting = map[string]int{"both": 2, "two": 2, "all": 99, "every": 99, "one": 1, "a": 1, "an": 1, "either": 1}

func wordSet(text string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(text) {
		set[w] = true
	}
	return set
}

// group is a run of words that name one thing, or one kind of things.
type group struct {
	from, to int
	out      bool
}

// things takes what fails and what is inoperative.
func (r *reader) things() {
	for _, g := range r.groups() {
		r.thing(g)
	}
}

// groups parts the words that are not taken: at commas, at "and" and "with", at what
// was taken before. From a "with" to what says deferred all is inoperative.
func (r *reader) groups() (list []group) {
	open, with := -1, 0
	end := func(i int) {
		if open >= 0 {
			list = append(list, group{from: open, to: i})
		}
		open = -1
	}
	for i, t := range r.tokens {
		switch {
		case t.taken:
			end(i)
		case deferring[t.folded]:
			end(i)
			for j := with; j < len(list); j++ {
				list[j].out = true
			}
			with = len(list)
		case t.folded == "with":
			end(i)
			with = len(list)
		case t.folded == "and" || t.folded == "plus" || t.folded == "+":
			end(i)
		default:
			if t.parts {
				end(i)
			}
			if open < 0 {
				open = i
			}
		}
	}
	end(len(r.tokens))
	return list
}

// thing takes what a group names; words that it does not have are looked for again
// by themselves.
func (r *reader) thing(g group) {
	var words []word
	count := 0
	for i := g.from; i < g.to; i++ {
		w := r.tokens[i].folded
		if n, is := counting[w]; is && i < g.to-1 {
			count = n
			continue
		}
		if empty[w] {
			continue
		}
		for _, part := range split(w) {
			words = append(words, word{part, i})
		}
	}
	if len(words) > 0 {
		r.look(words, count, g.out)
	}
}

// look takes the best match of some words, then looks for the rest of them.
func (r *reader) look(words []word, count int, out bool) {
	list := r.names.matches(words)
	if len(list) == 0 {
		r.unknown(words)
		return
	}
	var used, left []word
	for i, h := range list[0].hit {
		if h {
			used = append(used, words[i])
		} else {
			left = append(left, words[i])
		}
	}
	r.parts = append(r.parts, r.chosen(r.typed(used), list, count, out))
	if len(left) == 0 {
		return
	}
	if more := r.names.matches(left); len(more) > 0 && more[0].count() == len(left) {
		r.look(left, 0, out)
		return
	}
	r.unknown(left)
}

// typed is words as they were typed.
func (r *reader) typed(words []word) string {
	var list []string
	last := -1
	for _, w := range words {
		if w.token != last {
			list, last = append(list, r.tokens[w.token].text), w.token
		}
	}
	return strings.Join(list, " ")
}

// chosen is the part of the best of some matches: of as many as there are to be. What
// else the words could mean is listed, the equally good first.
func (r *reader) chosen(words string, list []match, count int, out bool) Part {
	p := Part{Words: words, Role: Fails, Others: []Choice{}}
	if out {
		p.Role = Out
	}
	list = slices.DeleteFunc(slices.Clone(list), func(m match) bool {
		return m.count() < list[0].count() || out && strings.Contains(m.ref, ".") && list[0].plain
	})
	if count >= 2 {
		if refs, title, ok := r.together(list, count); ok {
			p.Refs, p.Title = refs, title
		}
	}
	if p.Refs == nil {
		p.Refs, p.Title = []string{list[0].ref}, list[0].title
	}
	if other, ok := twin(r.names.asMatches(), list[0]); ok && len(p.Refs) == 1 && !contains(list, other.ref) {
		list = append(list, other)
	}
	for _, m := range list {
		if len(p.Refs) > 1 || m.ref != p.Refs[0] {
			p.Others = append(p.Others, Choice{Title: m.title, refs: []string{m.ref}})
		}
	}
	p.cut()
	return p
}

// together is both sides of the best thing that has two, or all that are as good as
// the best.
func (r *reader) together(list []match, count int) (refs []string, title string, ok bool) {
	var titles []string
	take := func(m match) { refs, titles = append(refs, m.ref), append(titles, say.Lower(m.title)) }
	for _, m := range list {
		if count == 2 {
			if other, there := twin(list, m); there {
				take(m)
				take(other)
				break
			}
		} else if m.plain == list[0].plain && m.score == list[0].score && len(refs) < 8 {
			take(m)
		}
	}
	return refs, say.Capital(say.And(titles)), len(refs) > 1
}

func contains(list []match, ref string) bool {
	return slices.ContainsFunc(list, func(m match) bool { return m.ref == ref })
}

func (n *names) asMatches() (list []match) {
	for _, e := range n.entries {
		list = append(list, match{entry: e})
	}
	return list
}

// twin is the same thing on the other side, or the second of two.
func twin(list []match, m match) (match, bool) {
	for _, pair := range [][2]string{{"left", "right"}, {"right", "left"}, {"1", "2"}, {"2", "1"}, {"a", "b"}} {
		parts := strings.Split(m.ref, "_")
		i := slices.Index(parts, pair[0])
		if i < 0 {
			continue
		}
		parts[i] = pair[1]
		other := strings.Join(parts, "_")
		if j := slices.IndexFunc(list, func(o match) bool { return o.ref == other }); j >= 0 {
			return list[j], true
		}
	}
	return match{}, false
}

// unknown notes words that mean nothing here; a word of a chapter's title means the
// chapter.
func (r *reader) unknown(words []word) {
	last := -1
	for _, w := range words {
		if w.token == last {
			continue
		}
		last = w.token
		text := r.tokens[w.token].text
		if n := r.names.chapterOf(fold(text)); n > 0 {
			p := r.chapterPart(n)
			p.Words = text
			r.parts = append(r.parts, p)
			continue
		}
		near := ""
		if !slices.Contains(r.names.vocabulary, fold(text)) {
			near = say.Nearest(fold(text), r.names.vocabulary)
		}
		r.strange = append(r.strange, Strange{text, near})
	}
}

// chapterOf is the first chapter with something in it whose title has a word that
// begins so.
func (n *names) chapterOf(w string) int {
	for _, e := range n.entries {
		for _, v := range split(book.ChapterTitle(e.chapter)) {
			if len(w) > 2 && strings.HasPrefix(v, w) && !empty[v] {
				return e.chapter
			}
		}
	}
	return 0
}
