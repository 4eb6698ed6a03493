package ledger

import (
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/say"
)

// Only says which rows of an answer are wanted: of each part one of its values, and of
// the words every one. None is all rows.
type Only []Wish

// Wish is one value of a part.
type Wish struct {
	Part  string `json:"part"` // one of OnlyParts
	Value string `json:"value"`
}

// Parts by which rows are chosen.
const (
	ByPhase    = "phase"    // it is so in it at some time
	ByChapter  = "chapter"  // of the item
	BySeverity = "severity" // of a function; of an alert its level
	ByGroup    = "group"    // what it is: how a loss is known, and the other groups
	ByWords    = "has"      // what the row says has every word
)

// OnlyParts lists them in the order in which they are said.
var OnlyParts = []string{ByPhase, ByChapter, BySeverity, ByGroup, ByWords}

var partTitles = map[string]string{ByPhase: "Phase", ByChapter: "Chapter", BySeverity: "Severity", ByGroup: "What it is", ByWords: "Words"}

// Groups lists the ids of the groups in their order.
var Groups = []string{GroupHidden, GroupDenied, GroupInUse, GroupLate, GroupFollows, GroupNoticed, GroupTold, GroupIdle,
	GroupConcluded, GroupWrong, GroupDark, GroupFalse, GroupHeld, GroupAlerts, GroupKept}

// Shown is which rows a view has of all that the answer has.
type Shown struct {
	Only  Only       `json:"choices"`
	Says  string     `json:"says"` // the same in words
	Rows  int        `json:"rows"`
	Of    int        `json:"of"`
	Loose []Loosened `json:"-"` // where there is none: which parts, left out, leave some
}

// Loosened is how many rows there are without one of the parts.
type Loosened struct {
	Part, Says string
	Rows       int
}

// Text says how many rows there are, of how many, and which.
func (s *Shown) Text() string {
	return say.Whole(float64(s.Rows)) + " of " + say.Counted(s.Of, "row") + " shown: " + s.Says + "."
}

// None says that no row fits, and what would leave some; "" where one fits.
func (s *Shown) None() string {
	if s.Rows > 0 {
		return ""
	}
	if len(s.Loose) == 0 {
		return "No row fits all of this, nor with one part of it less."
	}
	var ways []string
	for _, l := range s.Loose {
		ways = append(ways, say.Lower(l.Says)+": "+say.Counted(l.Rows, "row"))
	}
	return "No row fits all of this. " + say.Sentence(strings.Join(ways, "; "))
}

// Check refuses a part or a value that means nothing on a build.
func (o Only) Check(b *book.Build) error {
	for _, w := range o {
		if err := w.check(b); err != nil {
			return err
		}
	}
	return nil
}

// Of lists the values of a part.
func (o Only) Of(part string) (values []string) {
	for _, w := range o {
		if w.Part == part {
			values = append(values, w.Value)
		}
	}
	return values
}

// With is the same with a wish more, in the order of the parts.
func (o Only) With(w Wish) Only {
	if slices.Contains(o, w) {
		return o
	}
	o = append(slices.Clone(o), w)
	slices.SortStableFunc(o, func(a, b Wish) int { return slices.Index(OnlyParts, a.Part) - slices.Index(OnlyParts, b.Part) })
	return o
}

// Other is the same with a wish less where it is there, else with it.
func (o Only) Other(w Wish) Only {
	if !slices.Contains(o, w) {
		return o.With(w)
	}
	return slices.DeleteFunc(slices.Clone(o), func(x Wish) bool { return x == w })
}

// Beside is the same without a part.
func (o Only) Beside(part string) Only {
	return slices.DeleteFunc(slices.Clone(o), func(x Wish) bool { return x.Part == part })
}

// fits tells whether a row is wanted.
func (o Only) fits(g Group, r Row) bool {
	for _, part := range OnlyParts {
		values := o.Of(part)
		switch {
		case len(values) == 0:
		case part == ByWords && !r.has(g, values):
			return false
		case part != ByWords && !slices.ContainsFunc(g.valuesOf(r, part), func(v string) bool { return slices.Contains(values, v) }):
			return false
		}
	}
	return true
}

// valuesOf gives what a row has of a part.
func (g Group) valuesOf(r Row, part string) []string {
	switch part {
	case ByPhase:
		return r.Phases
	case ByChapter:
		return []string{strconv.Itoa(r.Chapter)}
	case BySeverity:
		return []string{r.Rank}
	}
	return []string{g.ID}
}

// has tells whether what a row says has every word, whatever its case.
func (r Row) has(g Group, texts []string) bool {
	all := []string{r.Title, r.ID, strings.ReplaceAll(r.ID, "_", " "), r.Rank, r.Text, g.Title, book.ChapterTitle(r.Chapter)}
	for _, s := range r.Spans {
		all = append(all, s.From.Clock, s.From.PhaseIs, s.Lasts, s.Text)
	}
	hay := strings.ToLower(strings.Join(all, "\n"))
	return !slices.ContainsFunc(strings.Fields(strings.ToLower(strings.Join(texts, " "))), func(w string) bool { return !strings.Contains(hay, w) })
}

// Only is the view with the rows that are wanted. What it opens with, the points and the
// waves stay those of the whole answer.
func (v *View) Only(o Only) *View {
	if len(o) == 0 {
		return v
	}
	less := *v
	less.Groups = nil
	for _, g := range v.Groups {
		had := len(g.Rows)
		g.Rows = slices.DeleteFunc(slices.Clone(g.Rows), func(r Row) bool { return !o.fits(g, r) })
		if had > 0 {
			g.None = "None of these is among the rows shown."
		}
		less.Groups = append(less.Groups, g)
	}
	less.Shown = &Shown{Only: o, Says: v.says(o), Rows: less.Rows(), Of: v.Rows()}
	if less.Shown.Rows == 0 {
		less.Shown.Loose = v.loosened(o)
	}
	return &less
}

// Rows counts them.
func (v *View) Rows() (n int) {
	for _, g := range v.Groups {
		n += len(g.Rows)
	}
	return n
}

// counted is how many rows fit a wish.
func (v *View) counted(o Only) (n int) {
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			if o.fits(g, r) {
				n++
			}
		}
	}
	return n
}

// loosened lists the parts without which there are rows.
func (v *View) loosened(o Only) (list []Loosened) {
	for _, part := range OnlyParts {
		if n := v.counted(o.Beside(part)); n > 0 && len(o.Of(part)) > 0 {
			list = append(list, Loosened{part, "Without " + looser[part], n})
		}
	}
	return list
}

var looser = map[string]string{ByPhase: "the phase", ByChapter: "the chapter", BySeverity: "the severity", ByGroup: "what it is", ByWords: "the words"}

// says puts a wish into words: phase: Approach or Final; words: “brake”.
func (v *View) says(o Only) string {
	var parts []string
	for _, part := range OnlyParts {
		var titles []string
		for _, value := range o.Of(part) {
			title := v.titleOf(Wish{part, value})
			if part == ByGroup {
				title = say.Quoted(title)
			}
			titles = append(titles, title)
		}
		if len(titles) > 0 {
			parts = append(parts, say.Lower(partTitles[part])+": "+strings.Join(titles, joint(part)))
		}
	}
	return strings.Join(parts, "; ")
}

// joint stands between two values of a part: one is enough, but of words every one counts.
func joint(part string) string {
	if part == ByWords {
		return " and "
	}
	return " or "
}

// titleOf names a value.
func (v *View) titleOf(w Wish) string {
	switch w.Part {
	case ByWords:
		return say.Quoted(w.Value)
	case ByChapter:
		n, _ := strconv.Atoi(w.Value)
		if n == 0 {
			return "Other"
		}
		return strings.TrimSpace(w.Value + " " + book.ChapterTitle(n))
	case ByGroup:
		for _, g := range v.Groups {
			if g.ID == w.Value {
				return g.Title
			}
		}
	case ByPhase:
		for _, p := range v.phases {
			if p.ID == w.Value {
				return p.Title
			}
		}
	}
	return w.Value
}
