package figure

import (
	"math"
	"sort"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/figure/sheet"
)

// axis maps time to the sheet. Time runs evenly within a phase, but a phase of
// seconds is given room beside one of an hour: what matters most happens in
// the short ones.
type axis struct {
	t []book.Time // where phases begin, and the end
	x []float64
}

// evenShare is the part of the sheet that all phases share alike; the rest
// goes by the square root of how long they last.
const evenShare = 0.70

func newAxis(phases []Phase, left, right float64) axis {
	a := axis{x: []float64{left}}
	if len(phases) == 0 {
		return axis{[]book.Time{0, 1}, []float64{left, right}}
	}
	sum := 0.0
	for _, p := range phases {
		sum += math.Sqrt(float64(p.To - p.From))
	}
	x := left
	for _, p := range phases {
		a.t = append(a.t, p.From)
		part := evenShare / float64(len(phases))
		if sum > 0 {
			part += (1 - evenShare) * math.Sqrt(float64(p.To-p.From)) / sum
		}
		x += part * (right - left)
		a.x = append(a.x, x)
	}
	last := len(phases)
	a.t = append(a.t, phases[last-1].To)
	a.x[last] = right
	return a
}

func (a axis) end() book.Time { return a.t[len(a.t)-1] }

// at gives the place of a moment.
func (a axis) at(t book.Time) float64 {
	t = min(max(t, a.t[0]), a.end())
	i := sort.Search(len(a.t)-1, func(i int) bool { return a.t[i] > t }) - 1
	i = min(max(i, 0), len(a.t)-2)
	if a.t[i+1] == a.t[i] {
		return a.x[i]
	}
	return a.x[i] + (a.x[i+1]-a.x[i])*float64(t-a.t[i])/float64(a.t[i+1]-a.t[i])
}

// moment gives the moment of a place.
func (a axis) moment(x float64) book.Time {
	x = min(max(x, a.x[0]), a.x[len(a.x)-1])
	i := sort.SearchFloat64s(a.x, x) - 1
	i = min(max(i, 0), len(a.x)-2)
	return a.t[i] + book.Time(float64(a.t[i+1]-a.t[i])*(x-a.x[i])/(a.x[i+1]-a.x[i]))
}

// xText and tText give the axis to a script: places in points, times in seconds.
func (a axis) xText() string {
	parts := make([]string, len(a.x))
	for i, x := range a.x {
		parts[i] = sheet.Number(x)
	}
	return strings.Join(parts, ",")
}

func (a axis) tText() string {
	parts := make([]string, len(a.t))
	for i, t := range a.t {
		parts[i] = seconds(t)
	}
	return strings.Join(parts, ",")
}

// seconds writes a moment to the microsecond: a tenth too early is another phase.
func seconds(t book.Time) string { return strconv.FormatFloat(t.Seconds(), 'f', -1, 64) }
