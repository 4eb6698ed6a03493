package ledger

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// Facet is a part by which rows are chosen, with what there is to choose.
type Facet struct {
	Part, Title string
	Values      []FacetValue
}

var facetTitles = map[string]string{ByPhase: "Phase in which it is so", ByChapter: "Chapter", BySeverity: "Severity, of an alert its level", ByGroup: "What it is"}

// FacetValue is a value that some row of the answer has, whatever else is chosen.
type FacetValue struct {
	Wish
	Title  string
	Rows   int // how many it leaves, beside what is chosen of the other parts
	Chosen bool
}

// Facets lists what rows can be chosen by; the words are typed. The values are those of
// the whole answer, so that no choice moves or hides another.
func (v *View) Facets(o Only) (list []Facet) {
	for _, part := range OnlyParts[:len(OnlyParts)-1] {
		f := Facet{Part: part, Title: facetTitles[part]}
		for _, value := range v.order(part) {
			w := Wish{part, value}
			others := append(o.Beside(part), w)
			chosen := slices.Contains(o, w)
			if chosen || v.counted(Only{w}) > 0 {
				f.Values = append(f.Values, FacetValue{w, v.titleOf(w), v.counted(others), chosen})
			}
		}
		list = append(list, f)
	}
	return list
}

// order lists the values of a part as people read them: phases as they come, the worst
// first.
func (v *View) order(part string) (values []string) {
	switch part {
	case ByPhase:
		for _, p := range v.phases {
			values = append(values, p.ID)
		}
	case ByChapter:
		for _, n := range v.chapters() {
			values = append(values, strconv.Itoa(n))
		}
	case BySeverity:
		values = slices.Clone(book.Severities)
		slices.Reverse(values)
		values = append(values, book.Levels...)
	default:
		values = Groups
	}
	return values
}

// chapters lists those of the rows.
func (v *View) chapters() (list []int) {
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			list = append(list, r.Chapter)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// during lists the phases in which a row is so at some time: of what has no stretches,
// since it still works, all from the failure on.
func (s speaker) during(r Row) (ids []string) {
	stretches := r.Spans
	if len(stretches) == 0 {
		stretches = []RowSpan{{From: Moment{Time: s.l.Strike}, Until: Moment{Time: s.end()}}}
	}
	for _, p := range s.phases {
		in := func(x RowSpan) bool { return meet(p, x.From.Time, x.Until.Time) }
		if slices.ContainsFunc(stretches, in) && !slices.Contains(ids, p.ID) {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// meet tells whether a phase has any of a stretch, or the moment that it is.
func meet(p run.PhaseSpan, from, to book.Time) bool {
	if from == to {
		return p.From <= from && from < p.To
	}
	return from < p.To && p.From < to
}

// titled are the phases that the flight went through, each once.
func (s speaker) titled() (list []Ref) {
	for _, p := range s.phases {
		if !slices.ContainsFunc(list, func(r Ref) bool { return r.ID == p.ID }) {
			list = append(list, Ref{ID: p.ID, Title: s.title(p.ID)})
		}
	}
	return list
}

// check refuses what means nothing on a build.
func (w Wish) check(b *book.Build) error {
	if !slices.Contains(OnlyParts, w.Part) {
		return errors.New("there is " + say.No("part", w.Part, OnlyParts))
	}
	if w.Part == ByWords {
		return nil
	}
	if n, err := strconv.Atoi(w.Value); w.Part == ByChapter && (err != nil || n < 0 || n > mostChapter) {
		return fmt.Errorf("there is no chapter %q: give its number, such as 24", w.Value)
	}
	if known := w.known(b); w.Part != ByChapter && !slices.Contains(known, w.Value) {
		return errors.New("there is " + say.No(w.Part, w.Value, known))
	}
	return nil
}

// mostChapter is the last chapter that there is.
const mostChapter = 99

// known lists what a part may be on a build.
func (w Wish) known(b *book.Build) (ids []string) {
	switch w.Part {
	case BySeverity:
		return slices.Concat(book.Severities, book.Levels)
	case ByGroup:
		return Groups
	}
	for _, p := range b.Phases {
		ids = append(ids, p.ID)
	}
	return ids
}
