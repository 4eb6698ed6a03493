package oracle

import (
	"errors"
	"slices"

	"knockon/book"
)

// knower holds the three runs against each other.
type knower struct {
	Question
	here, there, told *Trace
	end               book.Time
	toldEnd           book.Time // where the told run ends before the others
	moments           moments
	w, v              book.Time
	held              []Hold
}

const (
	leastRight  = book.Second / 2   // an alert tells nothing in a shorter time
	seenThrough = 120 * book.Second // a lie that lasts no longer before it is noticed denies nothing
)

// Know answers the question.
func (q Question) Know() (*Known, error) {
	k := &knower{Question: q, end: min(q.Until, q.Path.End()), w: book.AtSeconds(10), v: book.AtSeconds(2)}
	if a := q.Build.Aircraft; a != nil {
		k.w, k.v = book.AtSeconds(a.ToldWithinS), book.AtSeconds(a.WrongAfterS)
	}
	var err error
	if k.here, _, err = k.fly(q.Here, SampleEvery); err != nil {
		return nil, err
	}
	if k.there, _, err = k.fly(q.There, 0); err != nil {
		return nil, err
	}
	k.moments = newMoments(k.end, k.here, k.there)
	k.hold()
	told := q.There
	told.Held, told.Actions = k.held, q.Here.Actions
	if k.told, k.toldEnd, err = k.fly(told, 0); err != nil {
		return nil, err
	}
	k.moments = newMoments(k.end, k.here, k.there, k.told)
	return k.answer(), nil
}

// fly gives a run and where it ends: a loop ends it.
func (k *knower) fly(s Scenario, every book.Time) (*Trace, book.Time, error) {
	t, err := fly(k.Build, k.Flight, k.Path, s, k.Step, every)
	var loop *LoopError
	if errors.As(err, &loop) {
		return t, loop.At, nil
	}
	return t, book.Never, err
}

// newly tells whether a yes/no is yes here and not there.
func (k *knower) newly(item, of string, at book.Time) bool {
	return k.here.is(item, of, at) && !k.there.is(item, of, at)
}

// right are the times in which an alert tells something.
func (k *knower) right(a *book.Alert) []stretch {
	list := k.moments.stretches(func(at book.Time) bool {
		return k.newly(a.ID, Given, at) && !k.here.is(a.ID, False, at)
	})
	return slices.DeleteFunc(list, func(s stretch) bool { return s.long() < leastRight })
}

// hold works out what is held and when.
func (k *knower) hold() {
	said := map[claim][]stretch{}
	var order []claim
	for _, a := range k.Build.Alerts {
		right := k.right(a)
		for _, c := range claims(k.Build, a) {
			if _, ok := said[c]; !ok {
				order = append(order, c)
			}
			said[c] = append(said[c], right...)
		}
	}
	for _, c := range order {
		k.holdClaim(c, said[c])
	}
}

// holdClaim holds what is claimed in these stretches: while it is so here and has
// been claimed since it is, and while it is not so there.
func (k *knower) holdClaim(c claim, said []stretch) {
	so := k.moments.stretches(func(at book.Time) bool { return k.here.is(c.Item, c.Of, at) == c.yes })
	held := k.moments.stretches(func(at book.Time) bool {
		since, ok := begun(so, at)
		heard := slices.ContainsFunc(said, func(s stretch) bool { return s.From <= at && s.To > since })
		return ok && heard && k.there.is(c.Item, c.Of, at) != c.yes
	})
	for _, s := range held {
		if s.To == k.end {
			s.To = book.Never
		}
		k.held = append(k.held, Hold{c.Aspect, c.yes, s.From, s.To})
	}
}

// begun is when the stretch began in which a moment lies, if it lies in one.
func begun(list []stretch, at book.Time) (from book.Time, ok bool) {
	for _, s := range list {
		if s.From <= at && at < s.To {
			return s.From, true
		}
	}
	return 0, false
}

func (k *knower) answer() *Known {
	out := &Known{Held: k.held}
	for _, f := range k.Build.Functions {
		if x := k.loss(f); len(x.Spans) > 0 {
			out.Losses = append(out.Losses, x)
		}
		for _, s := range k.toldStretches(f, func(at book.Time) bool { return k.here.is(f.ID, Works, at) }) {
			if s.long() > k.v {
				out.Concluded = append(out.Concluded, Concluded{f.ID, s.From, s.To})
			}
		}
	}
	return out
}

// toldStretches are the times in which a function works there and not in the told
// run, as far as that goes, and something else is so.
func (k *knower) toldStretches(f *book.Function, also func(at book.Time) bool) []stretch {
	return k.moments.stretches(func(at book.Time) bool {
		return at < k.toldEnd && k.there.is(f.ID, Works, at) && !k.told.is(f.ID, Works, at) && also(at)
	})
}

// loss gives each span of a loss its word, and the row that of the heaviest.
func (k *knower) loss(f *book.Function) KnownLoss {
	x, mattered, heaviest := KnownLoss{Function: f.ID}, false, -1.0
	for _, s := range k.lost(f) {
		x.Spans = append(x.Spans, k.span(f, s))
		mattered = mattered || x.Spans[len(x.Spans)-1].Mattered
	}
	for _, s := range x.Spans {
		if w := s.weight(); s.Mattered == mattered && w > heaviest {
			heaviest, x.Word = w, s.Word
		}
	}
	return x
}

// lost are the spans of a loss: those less than v apart are one.
func (k *knower) lost(f *book.Function) (spans []stretch) {
	for _, s := range k.moments.stretches(func(at book.Time) bool {
		return k.there.is(f.ID, Works, at) && !k.here.is(f.ID, Works, at)
	}) {
		if n := len(spans); n > 0 && s.From-spans[n-1].To < k.v {
			spans[n-1].To = s.To
		} else {
			spans = append(spans, s)
		}
	}
	return spans
}

func (s KnownSpan) weight() float64 {
	switch s.Word {
	case wordHidden, wordDenied:
		return 4
	case wordInUse:
		return 3
	case wordLate:
		t := s.LateBy.Seconds()
		return 2 * t / (t + 60)
	case wordFollow:
		if s.Follows.Distant {
			return 2
		}
		return 1
	}
	return 0.25
}

// span gives a span its word.
func (k *knower) span(f *book.Function, s stretch) KnownSpan {
	x := KnownSpan{From: s.From, To: s.To, Follows: k.follows(f, s), Noticed: k.notices(f, s)}
	m := s.From
	wanted := within(k.moments.stretches(func(at book.Time) bool { return k.here.is(f.ID, Wanted, at) }), s)
	wanted = slices.DeleteFunc(wanted, func(w stretch) bool { return w.long() <= book.Second/1000 })
	if x.Wanted = len(wanted) > 0; x.Wanted && (s.long() > k.v || s.To == k.end) {
		x.Mattered = true
		m = wanted[0].From
	}
	tells, follows := k.tells(f, s), book.Time(book.Never)
	if x.Follows != nil {
		follows = x.Follows.At
	}
	late := func(at book.Time) bool { return at < book.Never && at > m+k.w }
	x.choose(map[string]bool{
		wordTold:   tells <= m+k.w,
		wordDenied: k.denied(f, s, tells, x.Noticed),
		wordFollow: follows <= m+k.w,
		wordAtOnce: x.Noticed != nil && x.Noticed.AtOnce,
		wordLate:   late(tells) || late(follows),
		wordInUse:  x.Noticed != nil && !x.Noticed.AtOnce,
	})
	if x.Word == wordLate {
		x.LateBy, x.ByAlert = min(tells, follows)-m, tells <= follows
	}
	return x
}

// choose takes the first word that fits, and notes the others.
func (x *KnownSpan) choose(fits map[string]bool) {
	for _, word := range knownWords {
		switch {
		case !fits[word]:
		case x.Word == "":
			x.Word = word
		default:
			x.Also = append(x.Also, word)
		}
	}
	if x.Word == "" {
		x.Word = wordHidden
	}
}

// within cuts stretches to the part that lies in another.
func within(list []stretch, in stretch) (cut []stretch) {
	for _, s := range list {
		if s = (stretch{max(s.From, in.From), min(s.To, in.To)}); s.To > s.From {
			cut = append(cut, s)
		}
	}
	return cut
}

// tells is when the first stretch of an alert that tells a span began; never if none.
func (k *knower) tells(f *book.Function, s stretch) (first book.Time) {
	first = book.Never
	for _, a := range k.Build.Alerts {
		if !slices.Contains(a.Tells, f.ID) {
			continue
		}
		for _, r := range k.right(a) {
			stands := r.From <= s.From && s.From < r.To
			ended := r.To <= s.From && s.From-r.To <= k.w
			later := r.From > s.From && r.From < s.To
			if stands || ended || later {
				first = min(first, r.From)
			}
		}
	}
	return first
}

// denied: an indication that covers the function is wrong while it is wanted, before
// anything tells of it and before people notice, and is so for longer than they take
// to see through it where they do.
func (k *knower) denied(f *book.Function, s stretch, tells book.Time, n *KnownNoticing) bool {
	open, long := stretch{s.From, min(s.To, tells)}, k.v
	if n != nil {
		open.To = min(open.To, n.At)
		if n.At <= tells {
			long = seenThrough
		}
	}
	return slices.ContainsFunc(k.Build.Indications, func(i *book.Indication) bool {
		lies := k.moments.stretches(func(at book.Time) bool {
			return k.newly(i.ID, Wrong, at) && k.here.is(f.ID, Wanted, at)
		})
		return covers(i, f.ID) && slices.ContainsFunc(within(lies, open), func(l stretch) bool { return l.long() > long })
	})
}

func covers(i *book.Indication, id string) bool {
	covers := slices.Contains(i.Tells, id)
	i.Means.Walk(func(e *book.Expr) { covers = covers || e.Op == book.OpRef && e.ID == id })
	return covers
}

func (k *knower) notices(f *book.Function, s stretch) *KnownNoticing {
	switch {
	case f.Noticed == nil:
		return nil
	case f.Noticed.AtOnce:
		return &KnownNoticing{s.From, true}
	}
	for _, p := range k.moments.stretches(func(at book.Time) bool { return k.newly(f.ID, Noticeable, at) }) {
		at := max(s.From, p.From+k.v)
		if at < s.To && at <= p.To {
			return &KnownNoticing{at, at <= s.From+k.w}
		}
	}
	return nil
}

// follows is when a span follows from what is told, if there is a way to it.
func (k *knower) follows(f *book.Function, s stretch) *KnownFollowing {
	gone := within(k.toldStretches(f, func(book.Time) bool { return true }), s)
	if len(gone) == 0 {
		return nil
	}
	x, ok := k.way(f, gone[0].From)
	if !ok {
		return nil
	}
	x.Distant = x.Steps >= 3 || x.At-x.Since > 60*book.Second
	return &x
}
