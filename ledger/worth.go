package ledger

import (
	"fmt"

	"knockon/say"
)

// Worth is what of a ledger is worth teaching, in words (package point; docs/meaning.md,
// section 6b).
type Worth struct {
	Points  []Point `json:"points"`
	Share   float64 `json:"share"`             // of the weight of all that is lost that the points cover
	Nothing string  `json:"nothing,omitempty"` // why there is nothing to teach here
	Waves   []Wave  `json:"waves"`

	Others []Varied `json:"with_other_runs,omitempty"` // where somebody asked for it; package point/vary
}

// Varied is what another run makes of an answer: a point, or why there is none.
type Varied struct {
	Axis   string `json:"axis"`           // conduct, guard, set, deferral, build, phase; rescue
	Point  bool   `json:"point"`          // no: nothing differs, or it was not answered
	Open   bool   `json:"open,omitempty"` // some of what it takes was not answered, so that what it does not say may be so
	Text   string `json:"text"`
	Change string `json:"change,omitempty"` // what is otherwise in the other run, as knockon beside takes it
	Covers []Ref  `json:"covers"`
}

// Point is a sentence worth teaching.
type Point struct {
	Kind   string  `json:"kind"`
	AfterS float64 `json:"after_s"` // from the first failure
	Clock  string  `json:"clock"`
	Text   string  `json:"text"`
	Covers []Ref   `json:"covers"`
}

// Wave is a group of losses with one cause at about one time.
type Wave struct {
	AfterS float64 `json:"after_s"`
	Clock  string  `json:"clock"`
	Cause  string  `json:"cause"`
	Later  bool    `json:"later"` // the same cause made a wave before
	Text   string  `json:"text"`
	Losses []Ref   `json:"losses"`
}

// worth sets the points, and how much of all they cover.
func (p page) worth(w *Worth) {
	p.Head("Worth teaching")
	for i, x := range w.Points {
		p.Paragraph(fmt.Sprintf("%d  ", i+1), x.Text)
	}
	if w.Nothing != "" {
		p.Paragraph("", w.Nothing)
	}
	if len(w.Points) > 0 && w.Nothing == "" {
		p.Paragraph("", "These cover "+say.Whole(100*w.Share)+" percent of the weight of all that is lost (docs/meaning.md, section 6b).")
	}
	p.others(w)
}

// others sets what other runs make of it.
func (p page) others(w *Worth) {
	if len(w.Others) > 0 {
		p.Head("With other runs")
	}
	for _, x := range w.Others {
		p.Paragraph("-  ", x.Text)
	}
}

// Rest says how many rows there are behind the lead, and how they are had.
func (v *View) Rest() string {
	n := 0
	for _, g := range v.Groups {
		n += len(g.Rows)
	}
	return say.Counted(n, "row") + " behind this: --all"
}
