// Package view puts what a sweep found into the words and the order in which
// text, JSON and page show it: the lists of findings, and the pair map.
//
// Invariant: a view is a pure function of the sheets; every row and every cell
// leads to the answer page of its scenario.
//
// Start reading at Of and MapOf.
package view

import (
	"cmp"
	"fmt"
	"net/url"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// Page is a sweep of one build in words.
type Page struct {
	Build   string   `json:"build"`
	Heading string   `json:"heading"` // what was swept
	Setting string   `json:"setting"` // on which aircraft, build and flight
	Phases  []string `json:"phases"`
	Missing []string `json:"phases_missing"`
	Open    string   `json:"unanswered"` // of which sets not everything is known, and why; "" if of none
	Lists   []List   `json:"lists"`
	Caution string   `json:"caution"`
}

// List is the findings of one kind, the worst first.
type List struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	How   string `json:"how"`  // how it is ranked
	None  string `json:"none"` // what to say when it is empty
	Rows  []Row  `json:"rows"`
}

// What says what the further names of a row are.
func (l List) What() string {
	switch l.ID {
	case ListGuardians:
		return "Taken away by"
	case ListFaces:
		return "Causes"
	}
	return "The same of"
}

// Row is one finding.
type Row struct {
	Score float64 `json:"score"`
	Names
	At        string   `json:"at,omitempty"`
	Where     string   `json:"where,omitempty"`     // the phase, and what the score is beside
	Losses    []Loss   `json:"losses"`              // the worst first
	Functions []string `json:"functions,omitempty"` // that rest on a guardian
	Failures  []string `json:"failures,omitempty"`
	Also      []Names  `json:"also"`            // other sets, causes, or what takes a guardian away
	Query     string   `json:"query,omitempty"` // of the answer page's address
	Open      bool     `json:"breaks_off"`      // the run breaks off: this is what had come by then
}

// BreaksOff opens what is said of a set whose run breaks off.
const BreaksOff = "the flight breaks off, up to there"

// Names are failures, or what tells of them.
type Names struct {
	IDs   []string `json:"ids"` // as one writes them
	Title string   `json:"title"`
	Score float64  `json:"score,omitempty"` // of a cause
	Lost  []string `json:"lost,omitempty"`
}

// Refs are the ids as one writes them.
func (n Names) Refs() string { return strings.Join(n.IDs, " + ") }

// Loss is a function that is lost, and how that is told and known.
type Loss struct {
	Function string `json:"function"`
	Title    string `json:"title"`
	Class    string `json:"class,omitempty"`
	Mattered bool   `json:"mattered"`
	LateS    int    `json:"late_s,omitempty"` // told late
	Known    string `json:"known,omitempty"`
	Distant  bool   `json:"distant,omitempty"`       // follows from far
	KnownS   int    `json:"known_late_s,omitempty"`  // late: of an alert or of what follows
	Shown    bool   `json:"shown_rightly,omitempty"` // told wrong, and an indication shows it rightly as well
	said     string
}

func (l Loss) String() string { return l.Title + say.Ahead(": ", l.said) }

// shown is how many losses a row names.
const shown = 3

// Worst says the worst losses that matter, and how many more there are.
func (r Row) Worst() string {
	var list []string
	for _, l := range r.Losses {
		if l.Mattered {
			list = append(list, l.String())
		}
	}
	return some(list, shown)
}

// Others says what else a row names, by title or as one writes it.
func (r Row) Others(titles bool) string {
	var list []string
	for _, n := range r.Also {
		list = append(list, map[bool]string{true: n.Title, false: n.Refs()}[titles])
	}
	return some(list, shown+1)
}

func some(list []string, most int) string {
	if len(list) > most {
		return fmt.Sprintf("%s; and %d more", strings.Join(list[:most], "; "), len(list)-most)
	}
	return strings.Join(list, "; ")
}

// Ids of the lists, in their order.
const (
	ListTogether  = "together"
	ListTraps     = "traps"
	ListPhases    = "phases"
	ListGuardians = "guardians"
	ListFaces     = "faces"
	ListBuilds    = "builds"
)

// viewer writes the findings of one build.
type viewer struct {
	*findings.Swept
	flight *book.Flight
}

// Asked is what was swept, and how much of what was found is shown.
type Asked struct {
	Flight  *book.Flight
	Order   int      // failures together
	Most    int      // rows of a kind
	Missing []string // phases that were asked for and not done
}

// Of views what was found on a build.
func Of(s *findings.Swept, a Asked) *Page {
	v := &viewer{s, a.Flight}
	p := &Page{
		Build:   s.Build.Variant,
		Heading: fmt.Sprintf("%s in %s, alone and together", say.Counted(len(s.Failures), "failure"), say.Counted(len(s.Sheets), "phase")),
		Setting: fmt.Sprintf("%s, build %s; %s", s.Build.Aircraft.Title, s.Build.VariantTitle(), a.Flight.Title),
		Missing: a.Missing, Open: open(s), Caution: book.Caution,
	}
	for _, sheet := range s.Sheets {
		p.Phases = append(p.Phases, sheet.Phase.ID)
	}
	if a.Order > 1 {
		p.Lists = append(p.Lists, List{ListTogether, "Worse together", "by what the set takes away beyond its parts", "No set is worse than its parts.", v.together(a.Most)})
	}
	p.Lists = append(p.Lists,
		List{ListTraps, "Traps", "single failures by severity, how far people are from knowing, and surprise", "Every single loss that matters is told, or noticed at once.", v.traps(a.Most)},
		List{ListPhases, "The phase that matters", "by how far the phases are apart", v.samePhases(), v.phases(a.Most)},
		List{ListGuardians, "Lone guardians", "by the severities of what they alone tell of", "No loss rests on one alert or indication alone.", v.guardians(a.Most)},
		List{ListFaces, "Same face, different cause", "single failures that give the same alerts, by how far their outcomes are apart", "No two failures look the same.", v.faces(a.Most)})
	for i := range p.Lists {
		if none := noneKnown(a.Missing, p.Open); none != "" {
			p.Lists[i].None = none
		}
	}
	return p
}

// samePhases is what is said where no phase matters.
func (v *viewer) samePhases() string {
	if len(v.Sheets) < 2 {
		return "Not known: one phase alone was swept."
	}
	return "Every failure does the same in each of these phases."
}

// noneKnown is what an empty list says where it does not rest on everything that
// was asked for; "" where it does.
func noneKnown(missing []string, open string) string {
	switch {
	case len(missing) > 0:
		return "None in the phases that were done."
	case open != "":
		return "None in what is known: some runs break off."
	}
	return ""
}

// mostOpen is how many sets whose runs break off are named.
const mostOpen = 6

// open says which runs break off, each set once.
func open(s *findings.Swept) string {
	var names []string
	for _, sheet := range s.Sheets {
		for _, set := range sheet.Restless() {
			name := strings.Join(refs(s, set), " + ")
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "The flight breaks off in a loop that never settles, and what comes after that is not known, with these failures: " + some(names, mostOpen) + "."
}

func refs(s *findings.Swept, set sweep.Set) (ids []string) {
	for _, f := range set {
		ids = append(ids, s.Failures[f].String())
	}
	return ids
}

func (v *viewer) names(set ...int) (n Names) {
	var titles []string
	for _, f := range set {
		id := v.Failures[f].String()
		n.IDs, titles = append(n.IDs, id), append(titles, v.Build.FailureTitle(id))
	}
	n.Title = strings.Join(titles, " + ")
	return n
}

func (v *viewer) phase(p int) string { return v.Build.Title(v.Sheets[p].Phase.ID) }

// row is a finding of a set of failures in a phase.
func (v *viewer) row(score float64, set sweep.Set, phase int, lost []sweep.Lost) Row {
	r := Row{Score: score, Names: v.names(set...), At: v.Sheets[phase].Phase.Moment.String(), Where: v.phase(phase), Losses: Losses(v.Swept, lost), Query: v.query(set, phase)}
	if r.Open = v.Sheets[phase].Open(set); r.Open {
		r.Where = BreaksOff + "; " + r.Where
	}
	return r
}

// query is the question that opens the ledger of a set in a phase.
func (v *viewer) query(set sweep.Set, phase int) string {
	q := url.Values{"fail": v.names(set...).IDs, "at": {v.Sheets[phase].Phase.Moment.String()}, "flight": {v.flight.ID}, "crew": {"none"}}
	if v.Build.Variant != "" {
		q.Set("build", v.Build.Variant)
	}
	return q.Encode()
}

// Losses are what is lost, the worst first.
func Losses(s *findings.Swept, list []sweep.Lost) []Loss {
	all := []Loss{}
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b sweep.Lost) int {
		return cmp.Or(-cmp.Compare(s.Weight(a, nil), s.Weight(b, nil)), cmp.Compare(a.Function, b.Function))
	})
	for _, l := range list {
		f := s.Build.Functions[l.Function]
		all = append(all, Loss{f.ID, f.Title, l.Class.String(), l.Mattered, int(l.LateS), string(l.Known), l.Distant, int(l.KnownS), l.Shown, l.String()})
	}
	return all
}
