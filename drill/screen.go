package drill

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/say"
)

// Screen is what one person of a drill has in front of them.
type Screen struct {
	AtUS      book.Time `json:"at_us"`
	Clock     string    `json:"clock"` // minutes and seconds since the start
	Phase     string    `json:"phase"`
	Rate      int       `json:"rate"`
	Held      bool      `json:"held"`  // by the instructor
	Ended     bool      `json:"ended"` // the flight
	Over      bool      `json:"over"`  // the drill: nothing more can be done in it
	Situation []Fact    `json:"situation"`
	Alerts    []Alarm   `json:"alerts"`   // given now: the highest level first, then the latest
	Looked    []Reading `json:"looked"`   // what this person looked at, the latest of each
	Controls  []Set     `json:"controls"` // where they stand
	Lists     []List    `json:"lists"`    // in hand

	// The instructor's, and nobody else's.
	Failed []string  `json:"failed,omitempty"`
	Truth  []Reading `json:"truth,omitempty"` // every indication as it is, looked at or not
	Inputs int       `json:"inputs,omitempty"`
	Notes  []Noted   `json:"notes,omitempty"`
}

// Fact is a part of the situation that pilots know without an instrument.
type Fact struct {
	Title string `json:"title"`
	Text  string `json:"text"`
}

// Alarm is an alert that is given.
type Alarm struct {
	ID      string    `json:"id"`
	Level   string    `json:"level"`
	Message string    `json:"message"`
	SinceUS book.Time `json:"since_us"`
	SoundUS book.Time `json:"sound_us"` // when it sounded last
}

// Reading is an indication as it was read.
type Reading struct {
	ID    string    `json:"id"`
	Title string    `json:"title"`
	AtUS  book.Time `json:"at_us"`
	Ready bool      `json:"ready"` // looking takes a moment
	Lit   bool      `json:"lit"`
	Text  string    `json:"text,omitempty"`
}

// Set is a control and where it stands.
type Set struct {
	ID string `json:"id"`
	To string `json:"to"`
}

// List is a checklist in hand.
type List struct {
	ID    string    `json:"id"`
	Title string    `json:"title"`
	AtUS  book.Time `json:"at_us"`
	Lines []Row     `json:"lines"`
}

// Row is a line of a list: those behind a decision are there when it is taken.
type Row struct {
	Number string `json:"number"`
	Do     string `json:"do"`
	Says   string `json:"says"`
	Set    string `json:"set,omitempty"` // the control that it is about
	By     string `json:"by,omitempty"`
	In     string `json:"in,omitempty"`    // the phase that it is left for
	Whom   string `json:"whom,omitempty"`  // who is told
	GoTo   string `json:"go_to,omitempty"` // the list that it sends to
	Memory bool   `json:"memory,omitempty"`
	Leg    string `json:"leg,omitempty"` // where the flight goes when it is finished
	Sensed bool   `json:"sensed,omitempty"`
	Done   bool   `json:"done"`
	Way    string `json:"way,omitempty"`
}

// Screen gives what a person sees at the present moment.
func (s *Session) Screen(who Role) Screen {
	v := Screen{
		AtUS: s.now, Clock: say.Clock(s.now), Phase: s.deck.phaseTitle(s.flying.Value), Rate: s.rate, Held: s.held, Ended: s.Ended(), Over: s.Over(),
		Situation: s.situation(), Alerts: s.alarms(), Looked: s.looked(who), Controls: s.controls(), Lists: s.lists(),
	}
	if who == Instructor {
		v.Failed, v.Truth, v.Inputs, v.Notes = s.failed(), s.truth(), len(s.log), s.notes()
	}
	return v
}

// situation is what can be told by looking out, from the chart and the clock.
// Speeds and heights are not: those are read off instruments that may be wrong.
func (s *Session) situation() []Fact {
	yes := func(name string) bool { return s.real(name) != 0 }
	where := "in the air"
	if yes("on_ground") {
		where = "on the ground"
	}
	facts := append([]Fact{{"Where", where}, {"To go", say.Quantity(s.real("to_go_nm"), "nm")}}, s.going()...)
	if yes("icing") {
		facts = append(facts, Fact{"Weather", "in cloud or rain cold enough for ice"})
	}
	return facts
}

func (s *Session) real(name string) float64 {
	return s.flying.Real(slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == name }))
}

func (s *Session) alarms() []Alarm {
	list := []Alarm{}
	for i, g := range s.alerts {
		if !g.on {
			continue
		}
		a := s.deck.Build().Alerts[i]
		sound := g.since
		if every := book.AtSeconds(a.RepeatsS); every > 0 {
			sound += (s.now - g.since) / every * every
		}
		list = append(list, Alarm{a.ID, a.Level, a.Message, g.since, sound})
	}
	slices.SortStableFunc(list, func(x, y Alarm) int {
		if l := slices.Index(book.Levels, x.Level) - slices.Index(book.Levels, y.Level); l != 0 {
			return l
		}
		return int(min(max(y.SinceUS-x.SinceUS, -1), 1))
	})
	return list
}

func (s *Session) looked(who Role) []Reading {
	list := []Reading{}
	for _, g := range s.glances {
		if g.who != who {
			continue
		}
		i := s.deck.indications[g.id].of
		r := Reading{ID: i.ID, Title: i.Title, AtUS: g.at, Ready: g.read, Lit: g.read && g.lit}
		if r.Lit {
			r.Text = s.text(i, g.shows)
		}
		list = append(list, r)
	}
	return list
}

func (s *Session) text(i *book.Indication, v float64) string {
	switch i.Shows.Type {
	case book.Number:
		return say.Quantity(v, i.Shows.Unit)
	case book.Word:
		return s.deck.Course().Circuit().WordText(v)
	}
	if v != 0 {
		return "on"
	}
	return "off"
}

func (s *Session) controls() []Set {
	var list []Set
	for i, c := range s.deck.Build().Controls {
		list = append(list, Set{c.ID, s.deck.Course().Circuit().WordText(s.flying.Value(s.deck.positions[i]))})
	}
	return list
}

func (s *Session) lists() []List {
	list := []List{}
	for _, h := range s.hands {
		l := List{ID: h.list.ID, Title: h.list.Title, AtUS: h.at}
		s.rows(&l, h, s.deck.team.Steps(h.list), map[*book.Step]string{}, true)
		list = append(list, l)
	}
	return list
}

// rows adds the lines that are to be seen.
func (s *Session) rows(l *List, h hand, steps []*book.Step, numbers map[*book.Step]string, outermost bool) {
	if outermost {
		crew.Walk(steps, func(x *book.Step, n string) { numbers[x] = n })
	}
	for _, x := range steps {
		t, ticked := h.ticks[numbers[x]]
		if !ticked && !s.deck.team.Belongs(x, s.flying.Value) {
			continue
		}
		r := Row{Number: numbers[x], Do: x.Kind, Says: s.says(x), Set: x.Set, By: x.By, In: x.In, Whom: x.Whom, GoTo: x.GoTo, Memory: x.FromMemory, Sensed: x.Sensed, Done: ticked, Way: t.way, Leg: x.Leg}
		r.Done = ticked || x.Sensed && x.Leg == "" && s.sensed(x) // where it goes is for somebody to say
		l.Lines = append(l.Lines, r)
		switch {
		case x.Kind == "later" || x.Kind == "decide" && t.way == "yes":
			s.rows(l, h, x.Then, numbers, false)
		case x.Kind == "tell" && ticked && !s.deck.team.Hears(x.Whom, s.flying.Value):
			s.rows(l, h, x.Else, numbers, false)
		case x.Kind == "decide" && t.way == unseen && len(x.Unknown) > 0:
			s.rows(l, h, x.Unknown, numbers, false)
		case x.Kind == "decide" && (t.way == "no" || t.way == unseen):
			s.rows(l, h, x.Else, numbers, false)
		}
	}
}

func (s *Session) says(x *book.Step) string {
	switch q := crew.Question(x); {
	case x.Says != "" || x.Set == "" && q == nil:
		return x.Says
	case q != nil:
		return q.String()
	}
	return s.deck.controls[x.Set].Title + ": " + x.To
}

// sensed says whether a line goes out by itself now.
func (s *Session) sensed(x *book.Step) bool {
	if x.Set != "" {
		i := slices.Index(s.deck.Build().Controls, s.deck.controls[x.Set])
		return s.deck.Course().Circuit().WordText(s.flying.Value(s.deck.positions[i])) == x.To
	}
	return s.deck.team.Looks(x, s.flying.Value) == crew.Yes
}

// failed lists what has failed, in the order of the book.
func (s *Session) failed() (list []string) {
	c := s.deck.Course().Circuit()
	for _, w := range c.Ways() {
		aspect := circuit.Failed
		if w.Fault != "" {
			aspect = circuit.Aspect(w.Fault)
		}
		if n, ok := c.Node(circuit.Value{Item: w.Unit, Aspect: aspect}); ok && s.flying.Value(n) != 0 {
			list = append(list, w.String())
		}
	}
	return list
}

// truth reads every indication, looked at or not.
func (s *Session) truth() (list []Reading) {
	for _, i := range s.deck.Build().Indications {
		x := s.deck.indications[i.ID]
		r := Reading{ID: i.ID, Title: i.Title, AtUS: s.now, Ready: true, Lit: s.flying.Read(s.deck.gauge, x.lit) != 0}
		if r.Lit {
			r.Text = s.text(i, s.flying.Read(s.deck.gauge, x.shows))
		}
		list = append(list, r)
	}
	return list
}
