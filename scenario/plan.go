package scenario

import (
	"knockon/book"
	"knockon/run"
)

// legs reads the plan (book.ParseLeg). A leg without a moment begins when the first
// of the failures comes.
func (t Typed) legs(b *book.Build, first []run.Strike) (list []run.Leg, err error) {
	for _, text := range t.Plan {
		l, err := book.ParseLeg(text, b)
		if err != nil {
			return nil, trouble("plan", "%v", err)
		}
		list = append(list, run.LegOf(l, first))
	}
	return list, nil
}
