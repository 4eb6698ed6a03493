package price

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/figure/sheet"
	"knockon/say"
)

// Wide draws the waterfall for a page of a book's width: a part of a page.
func (w Waterfall) Wide() string { return w.draw(sheet.Wide) }

// Narrow draws it for a telephone's width.
func (w Waterfall) Narrow() string { return w.draw(sheet.Narrow) }

// SVG draws it as a document of its own.
func (w Waterfall) SVG() string { return w.draw(sheet.Document) }

// Bounds of what a waterfall shows.
const (
	mostTotal = 1e9
	mostParts = 40
)

// whole says whether both totals are numbers: without them there is no
// waterfall.
func (w Waterfall) whole() bool {
	return sheet.Sound(w.Healthy, mostTotal) && sheet.Sound(w.Failed, mostTotal)
}

// sound gives the waterfall without parts that are senseless or too many.
func (w Waterfall) sound() Waterfall {
	w.Parts = slices.DeleteFunc(slices.Clone(w.Parts), func(p Part) bool {
		return !sheet.Sound(p.Back, mostTotal) || !sheet.Sound(p.Alone, mostTotal)
	})
	w.Parts = w.Parts[:min(len(w.Parts), mostParts)]
	return w
}

// Interaction is what is left over of the difference between the totals when
// every part has been given back alone; NaN when a total is missing.
func (w Waterfall) Interaction() float64 {
	w = w.sound()
	rest := w.Failed - w.Healthy
	for _, p := range w.Parts {
		rest -= p.Back
	}
	return rest
}

// Caption is the title of the picture: its own, or one made from the rest.
func (w Waterfall) Caption() string {
	switch {
	case w.Title != "":
		return w.Title
	case w.What != "":
		return "What each lost function adds: " + w.What
	}
	return "What each lost function adds"
}

func (w Waterfall) amount(v float64) string { return strings.TrimSpace(w.digits(v) + " " + w.Unit) }

func (w Waterfall) added(v float64) string {
	if text := w.amount(v); w.digits(v) != w.digits(0) && v > 0 {
		return "+" + text
	}
	return w.amount(v)
}

// digits writes a value: small ones with a decimal, when the unit is not a
// thing that is counted whole.
func (w Waterfall) digits(v float64) string {
	if w.Unit == "min" && sheet.Sound(v, mostTotal) {
		v = math.Round(v*10)/10 + 0
		return strings.Replace(fmt.Sprintf("%.1f", v), "-", "−", 1)
	}
	return say.Whole(v)
}

// Words says the picture to whoever does not see it.
func (w Waterfall) Words() string {
	if !w.whole() {
		return "There are no totals to compare."
	}
	all := w.sound()
	text := fmt.Sprintf("Healthy %s, failed %s, a difference of %s.", w.amount(w.Healthy), w.amount(w.Failed), w.added(w.Failed-w.Healthy))
	for _, p := range all.Parts {
		text += fmt.Sprintf(" %s: %s; taken alone %s.", p.Title, w.added(p.Back), w.added(p.Alone))
	}
	return text + fmt.Sprintf(" Left over, because losses act on each other: %s.", w.added(w.Interaction()))
}

// kind of a row of the waterfall.
type kind uint8

const (
	kindHealthy kind = iota
	kindPart
	kindRest
	kindFailed
)

// row is one bar.
type row struct {
	kind     kind
	title    string
	from, to float64
	alone    float64 // for a part: where taking it alone would lead from its start
	text     string
	second   string
}

// rows are the bars from the healthy total to the failed one.
func (w Waterfall) rows() []row {
	at := w.Healthy
	rows := []row{{kind: kindHealthy, title: "Healthy", to: w.Healthy, text: w.amount(w.Healthy)}}
	for _, p := range w.Parts {
		rows = append(rows, row{kindPart, p.Title, at, at + p.Back, at + p.Alone, w.added(p.Back), w.added(p.Alone)})
		at += p.Back
	}
	rest := w.Interaction()
	rows = append(rows, row{kind: kindRest, title: "Interaction: what is left over", from: at, to: at + rest, text: w.added(rest)})
	return append(rows, row{kind: kindFailed, title: "Failed", to: w.Failed, text: w.amount(w.Failed)})
}
