package web

import (
	"context"
	"errors"
	"net/http"
	"sync"
	"time"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/scenario"
)

// crewPage is what a crew by the book do about a question, and what each step is worth.
type crewPage struct {
	Title, Aircraft, Caution, Address, Back, JSON string

	*crew.View
	Most  string // which step matters most; or why nobody knows
	Lists []doneList
}

// doneList are lines of one list that are done one after the other.
type doneList struct {
	Title, Phase string
	Lines        []doneLine
}

// doneLine is a line with its place among all that is done, and what it is worth.
type doneLine struct {
	crew.Spoken
	Place int    // 0: it is no step, as a list that is found
	Worth string // "" where that is not worked out
	Heavy bool   // no other step matters more
	Short string // its number as people read it
}

// worthWithin is how long a page works out what each step is worth.
const worthWithin = 8 * time.Second

// crews answers GET /crew.
func (s *Site) crews(r *http.Request) (reply, error) {
	q, v, w, err := s.crewed(r)
	if err != nil {
		return reply{}, err
	}
	p := &crewPage{Title: "What the crew do", Aircraft: q.shelf.title(), Caution: book.Caution, Address: site(r) + "/crew?" + q.Query(), Back: "/?" + q.Query(), JSON: "/crew.json?" + q.Query(),
		View: v, Most: w.Most, Lists: doneLists(v, w)}
	return s.frame.Page("crew", p)
}

// crewsJSON answers GET /crew.json.
func (s *Site) crewsJSON(r *http.Request) (reply, error) {
	q, v, w, err := s.crewed(r)
	if err != nil {
		return reply{}, err
	}
	return asJSON(struct {
		Question string         `json:"question"`
		Crew     *crew.View     `json:"crew"`
		Worth    *worth.Omitted `json:"worth"`
	}{"/?" + q.Query(), v, w})
}

// crewed is the plan of the answer to a question, whose crew act whatever it says, and
// what its steps are worth.
func (s *Site) crewed(r *http.Request) (*question, *crew.View, *worth.Omitted, error) {
	q, a, err := s.asked(r)
	if err == nil && a.Crew == nil {
		q.Crew = ""
		a, err = q.shelf.kept.answer(r.Context(), q.typed())
	}
	if err != nil {
		return nil, nil, nil, err
	}
	v, err := a.Desk.TeamOf(a.Course, a.Question).View(r.Context(), a.Crew)
	if err != nil {
		return nil, nil, nil, err
	}
	w, err := a.worths.of(r.Context(), a)
	return q, v, w, err
}

// keptWorth is what the steps of an answer are worth, worked out once.
type keptWorth struct {
	sync.Mutex
	done *worth.Omitted
}

func (k *keptWorth) of(ctx context.Context, a *kept) (*worth.Omitted, error) {
	k.Lock()
	defer k.Unlock()
	if k.done != nil {
		return k.done, nil
	}
	short, stop := context.WithTimeout(ctx, worthWithin)
	defer stop()
	list, err := omissions(short, a)
	trouble := (*scenario.Trouble)(nil)
	switch {
	case err == nil:
		k.done = worth.OmittedView(list)
		return k.done, nil
	case ctx.Err() == nil && short.Err() != nil:
		return &worth.Omitted{Most: "Which step matters most was not worked out: it takes longer than a page may.", Steps: []worth.OmittedStep{}}, nil
	case errors.As(err, &trouble):
		k.done = &worth.Omitted{Most: "Which step matters most is not worked out: " + trouble.Text + ".", Steps: []worth.OmittedStep{}}
		return k.done, nil
	}
	return nil, err
}

// omissions flies the same crew on a flight that keeps to its profile.
func omissions(ctx context.Context, a *kept) ([]*worth.Worth, error) {
	team, err := a.Profiled()
	if err != nil {
		return nil, err
	}
	return worth.Omissions(ctx, team, a.Scenario)
}

func doneLists(v *crew.View, w *worth.Omitted) (lists []doneList) {
	place := 0
	for _, l := range v.Lines {
		if n := len(lists); n == 0 || lists[n-1].Title != l.Title {
			lists = append(lists, doneList{Title: l.Title, Phase: l.From.Phase})
		}
		x := doneLine{Spoken: l, Short: worth.Short(l.Number)}
		if l.Number != "" {
			place++
			x.Place = place
		}
		for _, o := range w.Steps {
			if o.Procedure == l.Procedure && o.Number == l.Number {
				x.Worth, x.Heavy = o.Because, o.Most
			}
		}
		to := &lists[len(lists)-1]
		to.Lines = append(to.Lines, x)
	}
	return lists
}
