package drill

import (
	"context"
	"errors"
	"fmt"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/scenario"
)

// Deck is the flight deck of one build on one flight: what all drills of it
// share. It may be used from many goroutines.
type Deck struct {
	team        *crew.Team
	gauge       *circuit.Gauge
	alerts      []circuit.Node
	indications map[string]shown
	controls    map[string]*book.Control
	positions   []circuit.Node // by control
	lists       map[string]*book.Procedure
	phases      []circuit.Node
}

// shown is an indication as it is read.
type shown struct {
	of         *book.Indication
	shows, lit circuit.Node
}

// NewDeck lays out a build and a flight ("" for the first of each) over the ground
// that a router knows; nil: none, and the flight can be turned to no other field.
func NewDeck(b *book.Book, build, flight string, over run.Router) (*Deck, error) {
	k, err := b.BuildNamed(build)
	if err != nil {
		return nil, refuse(Garbage, "%v", err)
	}
	f, err := k.FlightNamed(flight)
	if err != nil {
		return nil, refuse(Garbage, "%v", err)
	}
	team, err := crew.NewTeam(k, f, crew.Setting{Run: run.Setting{Router: over}})
	if err != nil {
		return nil, err
	}
	d := &Deck{team: team, indications: map[string]shown{}, controls: map[string]*book.Control{}, lists: map[string]*book.Procedure{}}
	d.lay(k)
	return d, nil
}

func (d *Deck) lay(b *book.Build) {
	c := d.Course().Circuit()
	node := func(id string, a circuit.Aspect) circuit.Node {
		n, ok := c.Node(circuit.Value{Item: id, Aspect: a})
		if !ok {
			return circuit.None
		}
		return n
	}
	var read []circuit.Node
	for _, a := range b.Alerts {
		d.alerts = append(d.alerts, node(a.ID, circuit.Main))
	}
	for _, i := range b.Indications {
		s := shown{i, node(i.ID, circuit.Main), node(i.ID, circuit.Lit)}
		d.indications[i.ID] = s
		read = append(read, s.shows, s.lit)
	}
	for _, x := range b.Controls {
		d.controls[x.ID] = x
		d.positions = append(d.positions, node(x.ID, circuit.Main))
	}
	for _, p := range b.Procedures {
		d.lists[p.ID] = p
	}
	for _, p := range b.Phases {
		d.phases = append(d.phases, node(p.ID, circuit.Main))
	}
	d.gauge = circuit.NewGauge(c, read)
}

// Course is the course that the drills of this deck are flown on.
func (d *Deck) Course() *run.Course { return d.team.Course() }

// Build is the build of this deck.
func (d *Deck) Build() *book.Build { return d.team.Build() }

// read reads a script.
func (d *Deck) read(s Script) (run.Scenario, error) {
	if len(s.Sets)+len(s.Acts) > 0 {
		return run.Scenario{}, refuse(Garbage, "nothing is set or moved before a drill begins: leave out set and act")
	}
	for i := range s.Fail {
		if _, err := d.strike(&s.Fail[i]); err != nil {
			return run.Scenario{}, err
		}
	}
	if len(s.Out) > MostText {
		return run.Scenario{}, refuse(Garbage, "too many failures at once")
	}
	sc, err := s.Read(d.Build())
	return sc, garbage(err)
}

func (d *Deck) strike(k *Strike) (run.Strike, error) {
	switch {
	case len(k.What) == 0:
		return run.Strike{}, refuse(Garbage, "nothing is named that fails")
	case len(k.What) > MostText:
		return run.Strike{}, refuse(Garbage, "too many failures at once")
	case k.When != "":
		return run.Strike{}, refuse(Garbage, "the failures of a drill come at a moment: give at, not when")
	}
	at := *k
	at.At = "" // is read with the script; that of an input does not count
	s, err := at.Read(d.Build())
	return s, garbage(err)
}

// garbage refuses what a script says that cannot be.
func garbage(err error) error {
	var t *scenario.Trouble
	if errors.As(err, &t) {
		return refuse(Garbage, "%s", t.Text)
	}
	return err
}

// Open starts a drill. The error is a *Refusal where the script is at fault.
func (d *Deck) Open(ctx context.Context, s Script) (*Session, error) {
	sc, err := d.read(s)
	if err != nil {
		return nil, err
	}
	x := &Session{deck: d, script: s, asked: sc, sent: map[string][]int{}, by: map[Role][]int{}}
	if err := x.rebuild(ctx, 0); err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		return nil, refuse(Garbage, "%v", err)
	}
	return x, nil
}

func (d *Deck) phaseTitle(v func(circuit.Node) float64) string {
	for i, n := range d.phases {
		if v(n) != 0 {
			return d.Build().Phases[i].Title
		}
	}
	return ""
}

// Inventory is what does not change: what there is to look at, to move and to
// call for.
type Inventory struct {
	Aircraft    string  `json:"aircraft"`
	Flight      string  `json:"flight"`
	Indications []Thing `json:"indications"`
	Controls    []Thing `json:"controls"`
	Lists       []Thing `json:"lists"`
	Caution     string  `json:"caution"`
}

// Thing is something on the flight deck.
type Thing struct {
	ID        string   `json:"id"`
	Title     string   `json:"title"`
	Place     string   `json:"place,omitempty"`
	Positions []string `json:"positions,omitempty"`
}

// Inventory lists what there is, in the order of the book.
func (d *Deck) Inventory() Inventory {
	b := d.Build()
	v := Inventory{Aircraft: b.Aircraft.Title, Flight: d.Course().Flight.Title, Caution: book.Caution}
	for _, i := range b.Indications {
		v.Indications = append(v.Indications, Thing{ID: i.ID, Title: i.Title, Place: i.Place})
	}
	for _, c := range b.Controls {
		v.Controls = append(v.Controls, Thing{ID: c.ID, Title: c.Title, Place: c.Place, Positions: c.Positions})
	}
	for _, p := range b.Procedures {
		v.Lists = append(v.Lists, Thing{ID: p.ID, Title: p.Title})
	}
	return v
}

func (i Input) String() string {
	return fmt.Sprintf("%s %d: %s %s %s at %.3f s", i.Client, i.Number, i.Who, i.Do, i.ID, i.At.Seconds())
}
