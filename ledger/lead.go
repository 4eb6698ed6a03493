package ledger

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

// MostSpoken is how many losses a sentence names before it counts.
const MostSpoken = 6

// spoken lists the losses of a word that mattered.
func (s speaker) spoken(w Word) []Spoken {
	list := []Spoken{}
	for _, l := range s.l.Losses {
		if l.Mattered && l.Word() == w {
			list = append(list, Spoken{l.Function.ID, l.Function.Title, s.clock(l.from(w))})
		}
	}
	return list
}

// from is when a loss first has its word while it is called for.
func (l Loss) from(w Word) (at book.Time) {
	for _, p := range l.Spans {
		if p.Mattered && p.word() == w {
			return max(p.From, p.Wanted.From)
		}
	}
	return l.Spans[0].From
}

// grave lists the gravest losses that mattered and can be known, from hazardous on,
// with when they were called for and until when.
func (s speaker) grave() []Spoken {
	list, most := []Spoken{}, slices.Index(book.Severities, "hazardous")
	for _, l := range s.l.Losses {
		rank := severity(l)
		if w := l.Word(); !l.Mattered || w == Hidden || w == Denied || rank < most {
			continue
		}
		if rank > most {
			list, most = list[:0], rank
		}
		list = append(list, s.lasting(l))
	}
	return list
}

// lasting names a loss with its first stretch that mattered and when that ends, if it
// does, and when it comes again: a loss that comes back has not been cured.
func (s speaker) lasting(l Loss) Spoken {
	return Spoken{l.Function.ID, l.Function.Title, s.stretches(l, called)}
}

// Stretches says from when to when the stretches of a loss are that mattered, whenever in
// them it was called for.
func (l *Ledger) Stretches(x Loss) string {
	return l.speaker().stretches(x, func(p LossSpan) book.Time { return p.From })
}

// called is when a stretch of a loss is first called for.
func called(p LossSpan) book.Time { return max(p.From, p.Wanted.From) }

func (s speaker) stretches(l Loss, from func(LossSpan) book.Time) string {
	var texts []string
	for _, p := range mattering(l.Spans, from) {
		text := s.clock(p.From)
		if !p.ToEnd {
			text += " to " + s.clock(p.To)
		}
		texts = append(texts, text)
	}
	return again(texts, s.clock(l.Spans[0].From))
}

// mattering are the stretches that mattered, each from a moment of it on; those that meet
// are one.
func mattering(spans []LossSpan, from func(LossSpan) book.Time) (list []LossSpan) {
	for _, p := range spans {
		if !p.Mattered {
			continue
		}
		p.From = from(p)
		if n := len(list); n > 0 && !list[n-1].ToEnd && p.From <= list[n-1].To {
			list[n-1].To, list[n-1].ToEnd = p.To, p.ToEnd
			continue
		}
		list = append(list, p)
	}
	return list
}

// again says the first stretch of several and when it comes again; none has only when
// it began.
func again(stretches []string, began string) string {
	switch n := len(stretches); n {
	case 0:
		return began
	case 1:
		return stretches[0]
	case 2:
		return stretches[0] + ", again from " + stretches[1]
	default:
		return fmt.Sprintf("%s, %d times more, the last from %s", stretches[0], n-1, stretches[n-1])
	}
}

// falseWarnings lists alerts of the gravest level that are false, with how often each
// sounds and until when.
func (s speaker) falseWarnings() []Spoken {
	list := []Spoken{}
	for _, a := range s.l.False {
		if a.Alert.Level != book.Levels[0] || len(a.Spans) == 0 {
			continue
		}
		text, last := s.clock(a.Spans[0].From), a.Spans[len(a.Spans)-1]
		if last.To > a.Spans[0].From && last.To < s.end() {
			text += " to " + s.clock(last.To)
		}
		if n := len(a.Sounds); n > 1 {
			text += ", sounds " + say.Counted(n, "time")
		}
		list = append(list, Spoken{a.Alert.ID, "“" + a.Alert.Message + "”", text})
	}
	return list
}

// Saying is a sentence that the answer opens with: losses of one kind.
type Saying struct {
	Says  string
	Group string // where they stand; "" in more than one
	Rows  []Spoken
	More  int // that it only counts
}

// Sayings are the sentences that the answer opens with, each with the first of many.
func (v *View) Sayings() (list []Saying) {
	for _, x := range []Saying{
		{Says: "Lost, and hidden", Group: GroupHidden, Rows: v.Hidden},
		{Says: "Lost, and denied by what is shown", Group: GroupDenied, Rows: v.Denied},
		{Says: "Gravest of what is told or can be known", Rows: v.Grave},
		{Says: "False warning", Group: GroupFalse, Rows: v.False},
	} {
		if len(x.Rows) > MostSpoken+1 {
			x.More, x.Rows = len(x.Rows)-MostSpoken, x.Rows[:MostSpoken]
		}
		if len(x.Rows) > 0 {
			list = append(list, x)
		}
	}
	return list
}

// None is what stands where nothing is hidden or denied: "" where anything is, and
// where the answer opens with why there is none.
func (v *View) None() string {
	if len(v.Hidden)+len(v.Denied) > 0 || v.Unanswered != "" {
		return ""
	}
	return strings.TrimSpace(strings.TrimPrefix(v.Groups[0].None, v.Silent)) // which every opening has said
}

// lead puts these sentences together.
func (v *View) lead() string {
	text := v.None()
	for _, x := range v.Sayings() {
		var titles []string
		for _, r := range x.Rows {
			titles = append(titles, say.Lower(r.Title)+" ("+r.Clock+")")
		}
		text += " " + x.Says + ": " + strings.Join(titles, "; ")
		if x.More > 0 {
			text += fmt.Sprintf(" and %d more", x.More)
		}
		text += "."
	}
	return strings.TrimSpace(text)
}

// idle says why nothing that is lost matters.
func (s speaker) idle() string {
	brief := 0
	for _, l := range s.l.Losses {
		brief += l.brief()
	}
	return idleWords(len(s.l.Losses), brief)
}

// noneLost says how everything that is lost when it is called for is known of, where
// nothing is hidden.
func (s speaker) noneLost() string {
	words := map[Word]int{}
	lost := 0
	for _, l := range s.l.Losses {
		if l.Mattered {
			lost++
			words[l.Word()]++
		}
	}
	switch {
	case len(s.l.Losses) == 0 && len(s.l.Wrong)+len(s.l.Dark)+len(s.l.Alerts)+len(s.l.False) > 0:
		return "No function is lost."
	case len(s.l.Losses) == 0:
		return "This takes nothing away."
	case lost == 0:
		return "What is lost is " + s.idle() + "."
	case words[Denied] == lost:
		return "All that is lost when it is called for is denied by an indication."
	}
	return "Nothing that is lost when it is called for is hidden: " + known(words) + "."
}

// known counts losses by their words.
func known(words map[Word]int) string {
	var parts []string
	for _, w := range Words {
		if n := words[w]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, w.counted(n)))
		}
	}
	return say.And(parts)
}

// counted is a word behind a number.
func (w Word) counted(n int) string {
	switch w {
	case Late:
		return "known late"
	case Follows:
		return say.Plural(n, "follows", "follow") + " from what is told"
	}
	return string(w)
}
