package oracle

import (
	"slices"
	"sort"

	"knockon/book"
)

// moments are all moments at which any of some traces changes, and the end: between
// two of them no yes/no and no word changes.
type moments []book.Time

func newMoments(end book.Time, traces ...*Trace) moments {
	all := moments{0, end}
	for _, t := range traces {
		for _, h := range t.Histories {
			for _, c := range h.Changes {
				if !h.IsNumber() && c.At < end {
					all = append(all, c.At)
				}
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// stretch is a time in which something is so; To is not part of it.
type stretch struct{ From, To book.Time }

func (s stretch) long() book.Time { return s.To - s.From }

// stretches are the longest ones in which so holds at every moment, of some duration.
func (m moments) stretches(so func(at book.Time) bool) (list []stretch) {
	for i, at := range m[:len(m)-1] {
		switch n := len(list); {
		case !so(at):
		case n > 0 && list[n-1].To == at:
			list[n-1].To = m[i+1]
		default:
			list = append(list, stretch{at, m[i+1]})
		}
	}
	return list
}

// settled is what a yes/no or a word is when all at a moment is over.
func (h *History) settled(at book.Time) Val {
	after := sort.Search(len(h.Changes), func(i int) bool { return h.Changes[i].At > at })
	return h.Changes[after-1].Value
}

// is tells whether a yes/no is yes when all at a moment is over. What there is no
// history of is no.
func (t *Trace) is(item, of string, at book.Time) bool {
	h := t.History(item, of)
	return h != nil && h.settled(at).Number == 1
}
