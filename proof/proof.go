package proof

import (
	"context"

	"knockon/book"
	"knockon/run"
)

// Question asks what proves a failure.
type Question struct {
	Course  *run.Course
	Fail    book.FailureRef
	At      book.Moment
	After   book.Time         // when people look, from the failure on
	Out     []book.FailureRef // inoperative from the start
	Workers int               // 0: one
	Rivals  []book.FailureRef // nil: all single failures of the build
}

// Proof is what a crew that looks can conclude, and from what.
type Proof struct {
	Question Question
	Strike   book.Time
	Look     book.Time   // when they look
	Ended    *run.Ending // the flight is over by then; nil: it is not

	Signs    []Sign            // of the smallest set
	Proven   bool              // that none is smaller
	Abnormal int               // signs of the whole book that are not as without the failure
	Same     []book.FailureRef // rivals that show the same in every sign
	Rivals   int               // others that were looked at
	Unknown  []book.FailureRef // rivals whose flight is over by then, so that nothing is compared
}

// Sign is a sign of a proof.
type Sign struct {
	ID, Title string
	Kind      Kind
	Shows     string // as a person reads it; "dark", "given", "not given"
	Normal    bool   // it is as without the failure
}

// Of works it out. Told is called as it goes on; it may be nil.
func Of(ctx context.Context, q Question, told func(done, of int)) (*Proof, error) {
	at, err := q.Course.Resolve(ctx, q.At)
	if err != nil {
		return nil, err
	}
	p := &Proof{Question: q, Strike: at, Look: at + q.After}
	healthy, err := q.Course.Fly(ctx, run.Scenario{Inoperative: q.Out})
	if err != nil {
		return nil, err
	}
	w := &watch{q: q, healthy: healthy, signs: signsOf(q.Course.Build, q.Course.Circuit()), at: at, look: p.Look}
	own, err := w.fly(ctx, q.Fail)
	if err != nil {
		return nil, err
	}
	if own == nil || healthy.End < p.Look {
		e := w.ending
		p.Ended = &e
		return p, nil
	}
	rivals := q.rivals()
	looks, err := w.flyAll(ctx, rivals, told)
	if err != nil {
		return nil, err
	}
	w.conclude(p, own, rivals, looks)
	return p, nil
}

// rivals are the failures that it could be instead.
func (q Question) rivals() (list []book.FailureRef) {
	all := q.Rivals
	if all == nil {
		all = q.Course.Build.Failures()
	}
	for _, f := range all {
		if f.String() != q.Fail.String() {
			list = append(list, f)
		}
	}
	return list
}

// watch looks at one failure after the other.
type watch struct {
	q        Question
	healthy  *run.Record
	signs    []sign
	at, look book.Time
	ending   run.Ending // of the failure in question, where its flight is over too early
}

// fly looks at the signs of one failure; nil where its flight is over by then.
func (w *watch) fly(ctx context.Context, f book.FailureRef) ([]seen, error) {
	r, err := w.healthy.With(ctx, []run.Put{{Way: &f, From: w.at, To: book.Never}}, w.look)
	if err != nil {
		return nil, err
	}
	if r.End < w.look {
		if f.String() == w.q.Fail.String() {
			w.ending = r.Ending()
		}
		return nil, nil
	}
	return look(r, w.signs, w.look), nil
}

// flyAll looks at many, several at a time; the looks are in their order.
func (w *watch) flyAll(ctx context.Context, list []book.FailureRef, told func(done, of int)) ([][]seen, error) {
	looks := make([][]seen, len(list))
	err := run.Many(ctx, len(list), w.q.Workers, told, func(ctx context.Context, i int) (err error) {
		looks[i], err = w.fly(ctx, list[i])
		return err
	})
	return looks, err
}

// conclude finds the smallest set.
func (w *watch) conclude(p *Proof, own []seen, rivals []book.FailureRef, looks [][]seen) {
	normal := look(w.healthy, w.signs, w.look)
	var known []book.FailureRef
	var shown [][]seen
	for i, l := range looks {
		if l == nil {
			p.Unknown = append(p.Unknown, rivals[i])
		} else {
			known, shown = append(known, rivals[i]), append(shown, l)
		}
	}
	// That nothing has failed is a rival too.
	excludes := w.excludes(own, append(shown, normal))
	p.Rivals = len(known)
	for r := range known {
		if !excluded(excludes, r) {
			p.Same = append(p.Same, known[r])
		}
	}
	for i := range w.signs {
		if excludes[i][len(shown)] {
			p.Abnormal++
		}
	}
	if p.Abnormal == 0 { // what shows nothing is proven by nothing
		return
	}
	set, proven := cover(excludes, len(shown)+1)
	p.Proven = proven
	for _, i := range set {
		p.Signs = append(p.Signs, w.signed(i, own[i], !excludes[i][len(shown)]))
	}
}

func excluded(excludes [][]bool, r int) bool {
	for _, row := range excludes {
		if row[r] {
			return true
		}
	}
	return false
}

// excludes says for each sign which looks it tells from the own one.
func (w *watch) excludes(own []seen, others [][]seen) [][]bool {
	table := make([][]bool, len(w.signs))
	for i, s := range w.signs {
		number := w.healthy.Circuit().Type(s.node) == book.Number
		table[i] = make([]bool, len(others))
		for r, l := range others {
			table[i][r] = s.differ(number, own[i], l[i])
		}
	}
	return table
}

// signed puts a sign into words.
func (w *watch) signed(i int, v seen, normal bool) Sign {
	s := w.signs[i]
	return Sign{ID: s.id, Title: s.title, Kind: s.kind, Normal: normal, Shows: s.text(w.healthy.Circuit(), v)}
}
