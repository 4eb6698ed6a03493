// Package view puts what a sweep found into the words and the order in which a
// page shows it: the lists of findings, and the pair map.
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

	"knockon/book"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// Page is a sweep of one build in words.
type Page struct {
	Heading string   `json:"heading"` // what was swept
	Setting string   `json:"setting"` // on which aircraft, build and flight
	Missing []string `json:"missing,omitempty"`
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

// Row is one finding.
type Row struct {
	Score  float64  `json:"score"`
	Title  string   `json:"title"`            // the failures, or what tells of them
	Where  string   `json:"where,omitempty"`  // the phase, and what the score is beside
	Losses []string `json:"losses,omitempty"` // the worst three
	More   int      `json:"more,omitempty"`   // so many more losses
	Also   []string `json:"also,omitempty"`   // other sets, causes, or what takes a guardian away
	Query  string   `json:"query,omitempty"`  // of the answer page's address
}

// Ids of the lists, in their order.
const (
	ListTogether  = "together"
	ListTraps     = "traps"
	ListPhases    = "phases"
	ListGuardians = "guardians"
	ListFaces     = "faces"
)

// viewer writes the findings of one build.
type viewer struct {
	*findings.Swept
	flight *book.Flight
}

// Of views what was found on a build, at most most rows of a kind.
func Of(s *findings.Swept, flight *book.Flight, most int) *Page {
	v := &viewer{s, flight}
	p := &Page{
		Heading: fmt.Sprintf("%s in %s, alone and together", say.Counted(len(s.Failures), "failure"), say.Counted(len(s.Sheets), "phase")),
		Setting: fmt.Sprintf("%s, %s; %s", s.Build.Aircraft.Title, v.build(), flight.Title),
		Caution: book.Caution,
	}
	p.Lists = []List{
		{ListTogether, "Worse together", "by what the set takes away beyond its parts", "No set is worse than its parts.", v.together(most)},
		{ListTraps, "Traps", "single failures by severity, silence, lateness and surprise", "Every single loss that matters is told.", v.traps(most)},
		{ListPhases, "The phase that matters", "by how far the phases are apart", "Every failure does the same in every phase.", v.phases(most)},
		{ListGuardians, "Lone guardians", "by the severities of what they alone tell of", "No loss rests on one alert or indication alone.", v.guardians(most)},
		{ListFaces, "Same face, different cause", "single failures that give the same alerts, by how far their outcomes are apart", "No two failures look the same.", v.faces(most)},
	}
	return p
}

func (v *viewer) build() string {
	for _, b := range v.Build.Book.Variants {
		if b.ID == v.Build.Variant {
			return "build " + b.Title
		}
	}
	return "build " + v.Build.Variant
}

// title of an item of the book.
func (v *viewer) title(id string) string {
	if item, ok := v.Build.Item(id); ok {
		return item.Named().Title
	}
	return id
}

// failure names one way to fail.
func (v *viewer) failure(n int) string {
	f := v.Failures[n]
	item, _ := v.Build.Item(f.Unit)
	if u, ok := item.(*book.Unit); ok {
		for _, fault := range u.Faults {
			if fault.ID == f.Fault {
				return u.Title + ": " + fault.Title
			}
		}
	}
	return v.title(f.Unit)
}

func (v *viewer) names(set sweep.Set) (text string) {
	for i, n := range set {
		if i > 0 {
			text += " + "
		}
		text += v.failure(n)
	}
	return text
}

func (v *viewer) phase(p int) string { return v.title(v.Sheets[p].Phase.ID) }

// query is the question that opens the ledger of a set in a phase.
func (v *viewer) query(set sweep.Set, phase int) string {
	q := url.Values{}
	for _, n := range set {
		q.Add("fail", v.Failures[n].String())
	}
	q.Set("at", v.Sheets[phase].Phase.Moment.String())
	if v.Build.Variant != "" {
		q.Set("build", v.Build.Variant)
	}
	q.Set("flight", v.flight.ID)
	return q.Encode()
}

// shown is how many losses a row names.
const shown = 3

// losses fills in the worst of what is lost.
func (v *viewer) losses(r *Row, list []sweep.Lost) {
	list = slices.DeleteFunc(slices.Clone(list), func(l sweep.Lost) bool { return !l.Mattered })
	slices.SortStableFunc(list, func(a, b sweep.Lost) int {
		return cmp.Or(-cmp.Compare(v.Weight(a, nil), v.Weight(b, nil)), cmp.Compare(a.Function, b.Function))
	})
	for i, l := range list {
		if i == shown {
			r.More = len(list) - shown
			return
		}
		r.Losses = append(r.Losses, v.Build.Functions[l.Function].Title+": "+l.String())
	}
}
