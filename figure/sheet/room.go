package sheet

import (
	"math"
	"slices"
)

// Box is a part of the sheet, in points.
type Box struct{ Left, Top, Right, Bottom float64 }

// Meets says whether two boxes share a point.
func (b Box) Meets(c Box) bool {
	return b.Left < c.Right && c.Left < b.Right && b.Top < c.Bottom && c.Top < b.Bottom
}

// Inside says whether a box lies within another.
func (b Box) Inside(c Box) bool {
	return b.Left >= c.Left && b.Right <= c.Right && b.Top >= c.Top && b.Bottom <= c.Bottom
}

// TextBox is the room that a text takes when it is written at a place.
func TextBox(text string, x, y float64, s Style) Box {
	size := s.Size
	if size == 0 {
		size = TextSize
	}
	w := Width(text, size)
	switch s.Anchor {
	case "middle":
		x -= w / 2
	case "end":
		x -= w
	}
	return Box{x, y - 0.76*size, x + w, y + 0.24*size}
}

// Room is a part of the sheet in which labels find places that are free.
type Room struct {
	within Box
	taken  []Box
}

// NewRoom is an empty room.
func NewRoom(within Box) *Room { return &Room{within: within} }

// Take says that a place is taken.
func (r *Room) Take(b Box) { r.taken = append(r.taken, b) }

// Free says whether a place is in the room and not taken.
func (r *Room) Free(b Box) bool {
	return b.Inside(r.within) && !slices.ContainsFunc(r.taken, b.Meets)
}

// Spot is a place for a text.
type Spot struct {
	X, Y   float64
	Anchor string
}

// Around are the places for a text beside a mark, the best first: right, left,
// above, below, and the corners, nearer and farther off.
func Around(x, y, off float64) (spots []Spot) {
	for _, d := range []float64{off, off + 8, off + 18, off + 30} {
		spots = append(spots, Spot{x + d, y + 4, "start"}, Spot{x - d, y + 4, "end"},
			Spot{x, y - d - 2, "middle"}, Spot{x, y + d + 9, "middle"},
			Spot{x + d*0.7, y - d, "start"}, Spot{x + d*0.7, y + d + 8, "start"},
			Spot{x - d*0.7, y - d, "end"}, Spot{x - d*0.7, y + d + 8, "end"})
	}
	return spots
}

// LabelOne writes the first of some texts, the longest first, that finds a spot.
func (p *Page) LabelOne(r *Room, texts []string, spots []Spot, s Style) bool {
	return slices.ContainsFunc(texts, func(text string) bool { return p.Label(r, text, spots, s) })
}

// Label writes a text at the first of the spots that is free and takes it; it
// says whether there was one.
func (p *Page) Label(r *Room, text string, spots []Spot, s Style) bool {
	for _, spot := range spots {
		s.Anchor = spot.Anchor
		b := TextBox(text, spot.X, spot.Y, s)
		if r.Free(b) {
			r.Take(b)
			p.Write(text, spot.X, spot.Y, s)
			return true
		}
	}
	return false
}

// Scale maps values to places along the sheet. A value outside goes to an end.
type Scale struct {
	Low, High float64 // values
	From, To  float64 // places, in points
}

// At gives the place of a value.
func (s Scale) At(v float64) float64 {
	if !(s.High > s.Low) || math.IsNaN(v) {
		return s.From
	}
	v = min(max(v, s.Low), s.High)
	return s.From + (s.To-s.From)*(v-s.Low)/(s.High-s.Low)
}

// Ticks are round values of a scale, at most so many, in order.
func (s Scale) Ticks(most int) (ticks []float64) {
	step := RoundStep((s.High - s.Low) / float64(max(most, 1)))
	if step == 0 {
		return nil
	}
	for i := math.Ceil(s.Low / step); i*step <= s.High && len(ticks) < most+1; i++ {
		ticks = append(ticks, i*step+0) // + 0: not -0
	}
	return ticks
}

// RoundStep is the least of 1, 2 and 5 times a power of ten that is not under
// the value; 0 when the value is not a positive number.
func RoundStep(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	power := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if v <= m*power*(1+1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// Sound says whether a value is a number that a picture can show.
func Sound(v, most float64) bool { return math.Abs(v) <= most }
