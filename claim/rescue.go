package claim

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/rescue"
	"knockon/say"
)

// rescue answers what a claim asks of moves that save a function (docs/rescue.md).
// The run of the search is the given's, with nobody's hands.
func (f *finder) rescue(e *book.Expr) (float64, error) {
	if e.Word == "no_rescue" {
		return f.noRescue(int(e.Args[0].Num), e.Args[1].ID)
	}
	moves, text := f.moves(e.Args[1:])
	r, err := f.rescuing(e.Args[0].ID, moves)
	if err != nil {
		return 0, err
	}
	if r == nil {
		if e.Word == "rescued" {
			return f.note(0, text+" rescues it at none of the moments tried, or costs as much as it saves, or a part of it does as well"), nil
		}
		return 0, fmt.Errorf("%s does not rescue it", text)
	}
	until := r.Windows[len(r.Windows)-1].To
	switch e.Word {
	case "rescue_until":
		return f.note((until - f.strike).Seconds(), text+" until "+f.clock(until)), nil
	case "listed":
		return f.listed(r, text), nil
	}
	return f.note(1, text+" until "+f.clock(until)), nil
}

// moves are those that a claim names; the text says them.
func (f *finder) moves(args []*book.Expr) (list []rescue.Move, text string) {
	var texts []string
	for _, a := range args {
		id, position, _ := strings.Cut(a.Word, "=")
		for _, c := range f.a.Course.Build.Controls {
			if c.ID == id {
				list = append(list, rescue.Move{Control: c, Position: position})
			}
		}
		texts = append(texts, a.Word)
	}
	return list, say.And(texts)
}

// rescuing is the rescue that consists of just these moves; nil where they are none.
func (f *finder) rescuing(function string, moves []rescue.Move) (*rescue.Rescue, error) {
	key := function + fmt.Sprint(moves)
	if f.rescues[key] == nil {
		a, err := f.searched(rescue.Question{Function: function, Order: len(moves), Only: moves})
		if err != nil {
			return nil, err
		}
		if f.rescues == nil {
			f.rescues = map[string]*rescue.Answer{}
		}
		f.rescues[key] = a
	}
	for _, r := range f.rescues[key].Rescues {
		if r.Counts && len(r.Set) == len(moves) {
			return r, nil
		}
	}
	return nil, nil
}

// searched looks for rescues, and what a crew by the book make of them.
func (f *finder) searched(q rescue.Question) (*rescue.Answer, error) {
	if byTheBook(f.given) {
		return nil, errors.New("what rescues is looked for with nobody's hands: leave crew out of this given")
	}
	q.Scenario, q.Workers = f.a.Scenario, 1
	a, err := rescue.Of(f.ctx, f.a.Course, q, nil)
	if err != nil {
		return nil, err
	}
	if !a.Bites {
		return nil, fmt.Errorf("%s is not lost while it is wanted, from ten seconds after the failure on", q.Function)
	}
	return a, a.WithCrew(f.ctx, f.a.Desk.Team(f.a.Course), f.a.Scenario, 1)
}

// listed says whether a list that is called moves all of a rescue.
func (f *finder) listed(r *rescue.Rescue, text string) float64 {
	whole := func(l rescue.Listing) bool { return l.Called && len(l.Moves) == len(r.Set) }
	if i := slices.IndexFunc(r.Lists, whole); i >= 0 {
		return f.note(1, text+" is in "+r.Lists[i].Procedure.ID)
	}
	return f.note(0, text+" is in no list that is called")
}

// noRescue says whether no set of up to so many moves rescues a function.
func (f *finder) noRescue(order int, function string) (float64, error) {
	a, err := f.searched(rescue.Question{Function: function, Order: order})
	if err != nil {
		return 0, err
	}
	counting := slices.ContainsFunc(a.Rescues, func(r *rescue.Rescue) bool { return r.Counts })
	return f.note(yes(!counting), a.View().Verdict), nil
}
