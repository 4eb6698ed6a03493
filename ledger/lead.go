package ledger

import (
	"fmt"
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

// lead is what the answer opens with: what is hidden or denied.
func (s speaker) lead(v *View) string {
	var parts []string
	if len(v.Hidden) > 0 {
		parts = append(parts, "Lost, and hidden: "+named(v.Hidden)+".")
	}
	if len(v.Denied) > 0 {
		parts = append(parts, "Lost, and denied by what is shown: "+named(v.Denied)+".")
	}
	if len(parts) == 0 {
		return s.none(s.noneLost())
	}
	return strings.Join(parts, " ")
}

// named lists losses with their times, the first of many.
func named(list []Spoken) string {
	var titles []string
	for i, x := range list {
		if i == MostSpoken && len(list) > MostSpoken+1 {
			return strings.Join(titles, "; ") + " and " + fmt.Sprint(len(list)-i) + " more"
		}
		titles = append(titles, say.Lower(x.Title)+" ("+x.Clock+")")
	}
	return strings.Join(titles, "; ")
}

// noneHidden is what stands where nothing is hidden.
func (s speaker) noneHidden() string { return s.noneLost() }

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
	case len(s.l.Losses) == 0 && len(s.l.Wrong)+len(s.l.Dark) > 0:
		return "No function is lost."
	case len(s.l.Losses) == 0:
		return "This takes nothing away."
	case lost == 0:
		return "What is lost is not called for meanwhile."
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
