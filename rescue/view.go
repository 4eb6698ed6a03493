package rescue

import (
	"slices"

	"knockon/book"
	"knockon/say"
)

// View is an answer in words and numbers, for text, pages and JSON alike.
// Seconds count from the failure.
type View struct {
	Function string   `json:"function"`
	Flight   bool     `json:"flight,omitempty"` // it is the flight that is asked for
	Title    string   `json:"title"`
	Severity string   `json:"severity,omitempty"`
	Lead     string   `json:"lead"`    // what is lost, and when
	Verdict  string   `json:"verdict"` // how many sets there are, or that there are none
	Tried    string   `json:"tried"`   // what was tried; "" where there was nothing to try
	Crew     string   `json:"crew,omitempty"`
	Worse    []string `json:"worse"` // lines of called lists that make things worse, and what undoing them in time does
	Order    int      `json:"order"`
	None     bool     `json:"none"` // nothing counts, at the moments tried
	Moments  []Moment `json:"moments"`
	Stage    *Stage   `json:"stage,omitempty"` // what the windows are laid on
	Rescues  []Spoken `json:"rescues"`
	Dearer   []Spoken `json:"dearer"` // that cost as much as they save, or more
	Delay    string   `json:"delay,omitempty"`
	More     string   `json:"more,omitempty"` // sets that smaller ones outdo
	Caution  string   `json:"caution"`
}

// Moment is a time of the flight.
type Moment struct {
	S     float64 `json:"s"`
	Clock string  `json:"clock"`
}

// Spoken is one set of moves.
type Spoken struct {
	Moves   []Moved  `json:"moves"`
	Does    string   `json:"does"`  // prevents or ends
	Says    string   `json:"says"`  // the moves, by when, and what they do
	Short   string   `json:"short"` // the moves alone
	Until   string   `json:"until"` // the last moment at which it rescues, or was tried
	Price   string   `json:"price"` // the cost in a few words
	Windows []Stay   `json:"windows"`
	Members []string `json:"members"` // the time for each move
	Parts   []string `json:"parts"`   // what half of it does
	Costs   []Price  `json:"costs"`
	Cost    string   `json:"cost"`
	Without string   `json:"without,omitempty"` // what else a flight that arrives has been without
	Lists   string   `json:"lists"`
	Also    []string `json:"also"`           // moves of it that may be put back 3 s later, which rescues as well
	Crew    string   `json:"crew,omitempty"` // where a crew by the book make something else of it
}

// Moved is one move.
type Moved struct {
	Control  string  `json:"control"`
	Position string  `json:"position"`
	Back     bool    `json:"back_after_3_s"`
	Held     bool    `json:"held,omitempty"`
	AfterS   float64 `json:"after_s"`
}

// Stay is a stretch of time in which the set can be made.
type Stay struct {
	From Moment `json:"from"`
	To   Moment `json:"to"`
	Open bool   `json:"open"` // nothing later was tried
}

// Price is a function that a set costs.
type Price struct {
	Function string `json:"function"`
	Title    string `json:"title"`
	Severity string `json:"severity,omitempty"`
	From     Moment `json:"from"`
}

// View puts an answer into words.
func (a *Answer) View() *View {
	v := &View{Flight: a.f == flight, Title: "The flight", More: a.more(), Stage: a.stage(), Order: a.Order, Caution: book.Caution,
		Lead: a.lead(), Verdict: a.verdict(), Tried: a.tried(), Crew: a.crew(), Worse: a.worse(), Moments: []Moment{}, Rescues: []Spoken{}, Dearer: []Spoken{}}
	if f := a.Function; f != nil {
		v.Function, v.Title, v.Severity = f.ID, f.Title, f.Severity
	}
	for _, t := range a.Moments {
		v.Moments = append(v.Moments, a.moment(t))
	}
	for _, r := range a.listedOnes(true) {
		v.Rescues = append(v.Rescues, a.spoken(r))
	}
	for _, r := range a.listedOnes(false) {
		v.Dearer = append(v.Dearer, a.spoken(r))
	}
	v.None = a.Bites && len(v.Rescues) == 0
	if v.None {
		v.Delay = a.delay()
	}
	return v
}

func (a *Answer) moment(t book.Time) Moment {
	return Moment{(t - a.Strike).Seconds(), say.After(t - a.Strike)}
}

func (a *Answer) spoken(r *Rescue) Spoken {
	s := Spoken{Does: "prevents", Says: a.says(r), Cost: a.cost(r.Costs), Without: a.without(r), Lists: a.lists(r), Crew: a.differs(r),
		Moves: []Moved{}, Windows: []Stay{}, Members: []string{}, Parts: []string{}, Costs: []Price{}, Also: a.also(r)}
	s.Short, s.Until, s.Price = say.Capital(r.Set.words()), a.until(r), a.price(r.Costs)
	if r.Kind == Ends {
		s.Does = "ends"
	}
	for _, m := range r.Set {
		s.Moves = append(s.Moves, Moved{m.Control.ID, m.Position, m.Back, m.Held, m.After.Seconds()})
	}
	for _, w := range r.Windows {
		s.Windows = append(s.Windows, Stay{a.moment(w.From), a.moment(w.To), w.Open})
	}
	for _, m := range r.Members {
		s.Members = append(s.Members, a.member(m))
	}
	for _, p := range r.Parts {
		s.Parts = append(s.Parts, a.part(p))
	}
	for _, c := range r.Costs {
		s.Costs = append(s.Costs, Price{c.Function.ID, c.Function.Title, c.Function.Severity, a.moment(c.From)})
	}
	return s
}

// staying is the set that is as r is but for controls that r puts back and it
// leaves, if that rescues as well; nil if there is none. It stands for both.
func (a *Answer) staying(r *Rescue) *Rescue {
	plain := slices.Clone(r.Set)
	for i := range plain {
		plain[i].Back = false
	}
	if slices.Equal(plain, r.Set) {
		return nil
	}
	i := slices.IndexFunc(a.Rescues, func(o *Rescue) bool { return o.Counts == r.Counts && slices.Equal(o.Set, plain) })
	if i < 0 {
		return nil
	}
	return a.Rescues[i]
}

// also says which moves of a set may be put back.
func (a *Answer) also(r *Rescue) []string {
	list := []string{}
	for _, o := range a.Rescues {
		if a.staying(o) == r {
			list = append(list, "The same with "+o.Set.words()+a.when(o.Windows)+".")
		}
	}
	return list
}
