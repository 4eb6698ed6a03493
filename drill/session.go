package drill

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// Session is one drill under way. It is not safe for concurrent use.
type Session struct {
	deck   *Deck
	script Script
	asked  run.Scenario

	log    []Input
	sent   map[string][]int // client: where its inputs are in the log
	by     map[Role][]int   // role: the same
	anew   int              // injections and rewinds in the log
	turned int              // turns of the flight in it
	read   bool             // from a log: what was accepted once is not too fast now

	// What follows is worked out from the script and the log.
	valid   []int // inputs that no rewind has undone: indices into the log
	now     book.Time
	rate    int
	held    bool // by the instructor: nobody else does anything
	over    bool // finished
	flying  *run.Flying
	alerts  []given
	glances []glance
	hands   []hand
}

// given is how an alert stands.
type given struct {
	on    bool
	since book.Time
}

// glance is a look at an indication: asked for, and read a moment later.
type glance struct {
	id    string
	who   Role
	at    book.Time // when it is read
	read  bool
	lit   bool
	shows float64
}

// hand is a list that is in hand.
type hand struct {
	list  *book.Procedure
	at    book.Time
	ticks map[string]tick
}

type tick struct {
	at  book.Time
	way string // yes, no or unseen of a decision
}

// Now is the moment of the drill.
func (s *Session) Now() book.Time { return s.now }

// Rate is how fast the drill runs: 0 when it is frozen, 1, 2 or 4. Whoever keeps
// the clock asks for Advance accordingly.
func (s *Session) Rate() int { return s.rate }

// Ended says that the flight is over.
func (s *Session) Ended() bool { return s.flying.Ended() }

// Over says that nothing more can be done in the drill: it was finished, or the
// flight has ended. A rewind makes it undone.
func (s *Session) Over() bool { return s.over || s.Ended() }

// Script is what the drill began from.
func (s *Session) Script() Script { return s.script }

// Log lists the inputs accepted. The caller must not change it.
func (s *Session) Log() []Input { return s.log }

// Advance lets the drill go on to a moment. Looking ahead changes nothing but
// that inputs before it are late.
func (s *Session) Advance(ctx context.Context, to book.Time) error {
	for {
		until := to
		for _, g := range s.glances {
			if !g.read {
				until = min(until, g.at)
			}
		}
		if err := s.flying.Until(ctx, until, s.notice); err != nil {
			return err
		}
		s.now = max(s.now, min(until, s.flying.Now()))
		s.readAll()
		if until >= to || s.flying.Ended() {
			return nil
		}
	}
}

// notice takes down alerts that have come or gone.
func (s *Session) notice(v run.View) {
	for i, n := range s.deck.alerts {
		if on := v.Value(n) != 0; on != s.alerts[i].on {
			s.alerts[i] = given{on, v.Now()}
		}
	}
}

// readAll reads what was to be read now.
func (s *Session) readAll() {
	for i := range s.glances {
		g := &s.glances[i]
		if g.read || g.at > s.now && !s.flying.Ended() {
			continue
		}
		x := s.deck.indications[g.id]
		g.read, g.lit = true, s.flying.Read(s.deck.gauge, x.lit) != 0
		g.shows = s.flying.Read(s.deck.gauge, x.shows)
	}
}

// Ack says that an input has been taken.
type Ack struct {
	Number int       `json:"number"` // the client's own
	Place  int       `json:"place"`  // in the log, from 1
	At     book.Time `json:"at_us"`
	Again  bool      `json:"again,omitempty"` // it had been taken before; nothing has changed
}

// Accept takes an input, or refuses it with a *Refusal, and then nothing has
// changed. An input that was taken before is acknowledged again.
func (s *Session) Accept(ctx context.Context, in Input) (Ack, error) {
	if err := plausible(in); err != nil {
		return Ack{}, err
	}
	if n := in.Number - 1; n < len(s.sent[in.Client]) {
		return s.again(in, s.sent[in.Client][n])
	}
	was := s.now
	if err := s.check(ctx, in); err != nil {
		return Ack{}, s.backTo(ctx, was, err)
	}
	if in.Do != Rewind {
		if err := s.Advance(ctx, in.At); err != nil {
			return Ack{}, err
		}
	}
	if err := s.apply(ctx, in); err != nil {
		return Ack{}, s.backTo(ctx, was, err)
	}
	s.sent[in.Client] = append(s.sent[in.Client], len(s.log))
	s.by[in.Who] = append(s.by[in.Who], len(s.log))
	if in.fliesAnew() {
		s.anew++
	}
	if in.Do == TurnTo {
		s.turned++
	}
	s.log = append(s.log, in)
	return Ack{Number: in.Number, Place: len(s.log), At: in.At}, nil
}

// backTo gives the refusal of an input that could be judged at its moment only; the
// drill stands where it stood before.
func (s *Session) backTo(ctx context.Context, was book.Time, refusal error) error {
	if s.now > was {
		if err := s.rebuild(ctx, was); err != nil {
			return err
		}
	}
	return refusal
}

// again acknowledges an input that came before, unless it was another.
func (s *Session) again(in Input, place int) (Ack, error) {
	if !sameInput(in, s.log[place]) {
		return Ack{}, refuse(OutOfOrder, "input %d of %s was another one", in.Number, in.Client)
	}
	return Ack{Number: in.Number, Place: place + 1, At: s.log[place].At, Again: true}, nil
}

// sameInput compares what was meant; the moment is the receiver's.
func sameInput(a, b Input) bool {
	x, y := a.Strike, b.Strike
	a.Strike, b.Strike, a.At, b.At = nil, nil, 0, 0
	if a != b || (x == nil) != (y == nil) {
		return false
	}
	return x == nil || x.At == y.At && x.ForS == y.ForS && x.Resettable == y.Resettable && slices.Equal(x.What, y.What)
}

// apply does what an input says, the drill being at its moment.
func (s *Session) apply(ctx context.Context, in Input) error {
	switch in.Do {
	case Inject:
		return s.inject(ctx, in)
	case Rewind:
		return s.rewind(ctx, in)
	case Clock:
		s.rate, s.held = in.Rate, in.Rate == 0 && in.Who == Instructor
		return nil
	case Note:
		return nil
	case Finish:
		s.rate, s.held, s.over = 0, false, true
		return nil
	}
	if err := s.act(in); err != nil {
		return err
	}
	s.valid = append(s.valid, len(s.log))
	return nil
}

// act does what an input says that needs no other flight.
func (s *Session) act(in Input) error {
	switch in.Do {
	case Move:
		if err := s.flying.Move(in.ID, in.To, in.At+1); err != nil {
			return refuse(Garbage, "%v", err)
		}
	case Look:
		s.glances = slices.DeleteFunc(s.glances, func(g glance) bool { return g.id == in.ID && g.who == in.Who })
		s.glances = append(s.glances, glance{id: in.ID, who: in.Who, at: in.At + LookTakes})
	case Call:
		s.hands = append(s.hands, hand{s.deck.lists[in.ID], in.At, map[string]tick{}})
	case Tick:
		h := s.handOf(in.ID)
		if _, again := h.ticks[in.Step]; !again {
			s.lead(s.deck.step(h.list, in.Step), in.At+1)
		}
		h.ticks[in.Step] = tick{in.At, in.To}
		s.send(s.deck.step(h.list, in.Step), in.At)
	case TurnTo:
		return s.turn(in)
	}
	return nil
}

// send takes the list in hand that a finished line sends to, if it is not there yet.
func (s *Session) send(step *book.Step, at book.Time) {
	if step.GoTo != "" && s.handOf(step.GoTo) == nil {
		s.hands = append(s.hands, hand{s.deck.lists[step.GoTo], at, map[string]tick{}})
	}
}

// handOf is the list of a procedure that was called for last; nil if none was.
func (s *Session) handOf(id string) *hand {
	for i := len(s.hands) - 1; i >= 0; i-- {
		if s.hands[i].list.ID == id {
			return &s.hands[i]
		}
	}
	return nil
}

// inject flies again with one failure more.
func (s *Session) inject(ctx context.Context, in Input) error {
	if s.Ended() {
		return refuse(Over, "the flight has ended")
	}
	s.valid = append(s.valid, len(s.log))
	s.log = append(s.log, in)
	err := s.rebuild(ctx, s.now)
	s.log = s.log[:len(s.log)-1]
	if err != nil {
		s.valid = s.valid[:len(s.valid)-1]
	}
	return err
}

// rewind forgets what was done from a moment on.
func (s *Session) rewind(ctx context.Context, in Input) error {
	kept := s.valid
	s.valid = nil
	for _, i := range kept {
		if s.log[i].At < in.Back {
			s.valid = append(s.valid, i)
		}
	}
	if err := s.rebuild(ctx, in.Back); err != nil {
		s.valid = kept
		return err
	}
	s.rate, s.held, s.over = 0, true, false
	return nil
}

// rebuild works the drill out anew from the script and the valid inputs, up to a
// moment. What it finds replaces what there was only if all goes well.
func (s *Session) rebuild(ctx context.Context, to book.Time) error {
	sc := s.asked
	sc.Strikes = slices.Clone(sc.Strikes)
	for _, i := range s.valid {
		if in := s.log[i]; in.Do == Inject {
			k, err := s.deck.strike(in.Strike)
			if err != nil {
				return err
			}
			k.At = book.Moment{Offset: in.At + 1}
			sc.Strikes = append(sc.Strikes, k)
		}
	}
	flying, err := s.deck.Course().Begin(ctx, sc)
	if err != nil {
		return err
	}
	n := *s
	n.flying, n.now, n.alerts, n.glances, n.hands = flying, 0, make([]given, len(s.deck.alerts)), nil, nil
	n.notice(start{flying})
	for _, i := range s.valid {
		if err := n.Advance(ctx, s.log[i].At); err != nil {
			return err
		}
		if err := n.act(s.log[i]); err != nil {
			return err
		}
	}
	if err := n.Advance(ctx, to); err != nil {
		return err
	}
	*s = n
	return nil
}

// start is the first moment of a flight.
type start struct{ *run.Flying }

func (start) Now() book.Time                 { return 0 }
func (v start) Value(n circuit.Node) float64 { return v.Flying.Value(n) }

// Flown is the scenario of the flight as the drill has it now: all failures and
// all that was moved.
func (s *Session) Flown() run.Scenario { return s.flying.Scenario() }
