package known

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/span"
)

// A lie that is seen through so soon denies nothing (assumption).
const seenThrough = 120 * book.Second

// Facts is what the word of one stretch of a loss hangs on, whoever worked it out.
type Facts struct {
	Due     book.Time // when somebody should know: the later of its start and when the function is first wanted
	Within  book.Time // so much later is still in time
	Tells   book.Time // when the first alert that tells it was right; Never where none does
	Denied  bool      // see Denies
	Follows *ledger.Following
	Noticed *ledger.Noticing // see Notices
}

// Known chooses the first word that fits, and notes the others (docs/meaning.md, 5a).
func (f Facts) Known() ledger.Known {
	k := ledger.Known{Follows: f.Follows, Noticed: f.Noticed}
	due := f.Due + f.Within
	late := f.Tells > due && f.Tells < book.Never
	fits := []struct {
		word ledger.Word
		fits bool
	}{
		{ledger.IsTold, f.Tells <= due},
		{ledger.Denied, f.Denied},
		{ledger.Follows, f.Follows != nil && f.Follows.At <= due},
		{ledger.AtOnce, f.Noticed != nil && f.Noticed.AtOnce},
		{ledger.Late, late || f.Follows != nil && f.Follows.At > due},
		{ledger.InUse, f.Noticed != nil && !f.Noticed.AtOnce},
		{ledger.Hidden, true},
	}
	for _, w := range fits {
		switch {
		case !w.fits || w.word == ledger.Hidden && k.Word != "":
		case k.Word == "":
			k.Word = w.word
		default:
			k.Also = append(k.Also, w.word)
		}
	}
	if k.ByAlert = late; late {
		k.LateBy = f.Tells - f.Due
	}
	if k.Follows != nil && k.Follows.At > due && (!late || k.Follows.At < f.Tells) {
		k.LateBy, k.ByAlert = k.Follows.At-f.Due, false
	}
	return k
}

// Weight is how much a way of knowing leaves to teach.
func Weight(k ledger.Known) float64 {
	return WeightOf(k.Word, k.LateBy.Seconds(), k.Follows != nil && k.Follows.Distant)
}

// WeightOf is Weight of a word, so many seconds late, distant or not (docs/meaning.md,
// section 5a; assumption).
func WeightOf(w ledger.Word, late float64, distant bool) float64 {
	switch w {
	case ledger.Hidden, ledger.Denied:
		return 4
	case ledger.InUse:
		return 3
	case ledger.Late:
		return 2 * late / (late + 60)
	case ledger.Follows:
		if distant {
			return 2
		}
		return 1
	}
	return 0.25
}

// Denies says that an indication lies about a loss for long enough, before anything
// tells it and before people see through it. lies is when it is wrong here and not
// there while the function is wanted.
func Denies(lies span.Set, p circuit.Span, f Facts, wrong book.Time) bool {
	open, least := circuit.Span{From: p.From, To: min(p.To, f.Tells)}, wrong
	if f.Noticed != nil && f.Noticed.At <= open.To {
		open.To, least = f.Noticed.At, seenThrough
	}
	return open.From < open.To && len(lies.Within(open).Longer(least)) > 0
}

// Notices is when a loss is noticed, nil where it is not. signs gives when what it is
// noticed by is so here and not there.
func Notices(how *book.Noticed, signs func() span.Set, p circuit.Span, within, wrong book.Time) *ledger.Noticing {
	if how.AtOnce {
		return &ledger.Noticing{At: p.From, By: how.By, AtOnce: true, Source: how.Source}
	}
	for _, s := range signs() {
		if t := max(p.From, s.From+wrong); t < p.To && t <= s.To {
			return &ledger.Noticing{At: t, By: how.By, AtOnce: t-p.From <= within, Source: how.Source}
		}
	}
	return nil
}

// Distant says that what follows is far from what it follows from.
func Distant(steps int, after book.Time) bool { return steps >= distantSteps || after > distantAfter }
