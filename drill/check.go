package drill

import (
	"context"
	"slices"
	"strings"

	"knockon/book"
)

// plausible checks what can be seen of an input alone.
func plausible(in Input) error {
	for _, text := range []string{in.Client, in.ID, in.To, in.Step} {
		if len(text) > MostText {
			return refuse(Garbage, "a name is longer than %d bytes", MostText)
		}
	}
	switch {
	case in.Client == "":
		return refuse(Garbage, "an input says which client sends it")
	case in.Number < 1:
		return refuse(Garbage, "the inputs of a client are numbered from 1; this one is %d", in.Number)
	case !slices.Contains([]Role{PilotFlying, PilotMonitoring, Alone, Instructor}, in.Who):
		return refuse(Garbage, "nobody is called %q: say PF, PM, both or instructor", in.Who)
	case in.At < 0:
		return refuse(Garbage, "a moment lies before the flight")
	case len(in.Says) > MostNote:
		return refuse(Garbage, "a note is longer than %d bytes", MostNote)
	case in.Says != "" && in.Do != Note:
		return refuse(Garbage, "only a note says something")
	case in.Do == Note && strings.TrimSpace(in.Says) == "":
		return refuse(Garbage, "the note is empty")
	}
	return nil
}

// check refuses what does not fit the drill as it stands.
func (s *Session) check(ctx context.Context, in Input) error {
	if n := len(s.sent[in.Client]) + 1; in.Number != n {
		return refuse(OutOfOrder, "the next input of %s is number %d, not %d", in.Client, n, in.Number)
	}
	if err := s.checkMany(in); err != nil {
		return err
	}
	if in.Do == Inject || in.Do == Clock || in.Do == Rewind || in.Do == Finish || in.Do == Note {
		return s.checkInstructor(ctx, in)
	}
	switch {
	case s.over:
		return refuse(Over, "the drill has ended")
	case s.Ended():
		return refuse(Over, "the flight has ended")
	case s.held:
		return refuse(Frozen, "the instructor holds the drill")
	case in.At < s.now:
		return refuse(Late, "the drill is at %.3f s, the input is for %.3f s", s.now.Seconds(), in.At.Seconds())
	case s.endsBefore(ctx, in.At):
		return refuse(Over, "the flight ends before that")
	case s.tooFast(in):
		return refuse(TooMany, "more than %d inputs of one seat in a second of the flight", MostPerSecond)
	}
	return s.checkTrainee(in)
}

// endsBefore says that the flight ends before a moment. What is under way may yet
// lengthen it, so it is flown on as far as that takes.
func (s *Session) endsBefore(ctx context.Context, at book.Time) bool {
	for at > s.flying.End() && !s.Ended() {
		if s.Advance(ctx, s.flying.End()) != nil {
			return true
		}
	}
	return at > s.flying.End()
}

// fliesAnew says whether an input has the whole flight flown again.
func (i Input) fliesAnew() bool { return i.Do == Inject || i.Do == Rewind }

// checkMany holds the bounds of a drill. They count by role: a client can take
// any number of names.
func (s *Session) checkMany(in Input) error {
	switch {
	case len(s.log) >= MostInputs:
		return refuse(TooMany, "a drill takes %d inputs", MostInputs)
	case s.read:
		return nil
	case len(s.by[in.Who]) >= MostOfSeat && in.Do != Finish:
		return refuse(TooMany, "one seat of a drill takes %d inputs", MostOfSeat)
	case in.Do == TurnTo && s.turned >= MostTurns:
		return refuse(TooMany, "a drill takes %d turns of the flight", MostTurns)
	case in.fliesAnew() && s.anew >= MostAnew:
		return refuse(TooMany, "a drill takes %d failures and rewinds of its instructor", MostAnew)
	}
	return nil
}

// tooFast counts the inputs of a role in the second before this one.
func (s *Session) tooFast(in Input) bool {
	mine := s.by[in.Who]
	if s.read || len(mine) < MostPerSecond {
		return false
	}
	last := s.log[mine[len(mine)-MostPerSecond]]
	return last.At <= in.At && in.At-last.At < book.Second
}

func (s *Session) checkTrainee(in Input) error {
	switch in.Do {
	case Move:
		if c, ok := s.deck.controls[in.ID]; !ok || !slices.Contains(c.Positions, in.To) {
			return refuse(Garbage, "there is no control %q with a position %q", in.ID, in.To)
		}
	case Look:
		if _, ok := s.deck.indications[in.ID]; !ok {
			return refuse(Garbage, "there is no indication %q", in.ID)
		}
	case Call:
		if _, ok := s.deck.lists[in.ID]; !ok {
			return refuse(Garbage, "there is no procedure %q", in.ID)
		}
	case Tick:
		return s.checkTick(in)
	case TurnTo:
		_, err := s.deck.leg(in.To)
		return err
	default:
		return refuse(Garbage, "no input does %q", in.Do)
	}
	return nil
}

func (s *Session) checkTick(in Input) error {
	h := s.handOf(in.ID)
	if h == nil {
		return refuse(Garbage, "the list %q is not in hand", in.ID)
	}
	step := s.deck.step(h.list, in.Step)
	switch {
	case step == nil:
		return refuse(Garbage, "the list %q has no line %q", in.ID, in.Step)
	case step.Kind == "decide" && !slices.Contains([]string{"yes", "no", unseen}, in.To):
		return refuse(Garbage, "line %s asks: answer yes or no, or unseen where it cannot be seen", in.Step)
	}
	return nil
}

// checkNote lets notes be made while the clock stands and after the end too.
func (s *Session) checkNote(in Input) error {
	made := 0
	for _, i := range s.by[in.Who] {
		if s.log[i].Do == Note {
			made++
		}
	}
	switch {
	case made >= MostNotes:
		return refuse(TooMany, "a drill takes %d notes", MostNotes)
	case in.At < s.now:
		return refuse(Late, "the drill is at %.3f s, the input is for %.3f s", s.now.Seconds(), in.At.Seconds())
	case in.At > s.flying.End() && !s.Ended():
		return refuse(Over, "the flight ends before that")
	}
	return nil
}

func (s *Session) checkInstructor(ctx context.Context, in Input) error {
	switch {
	case in.Who != Instructor && !(in.Who == Alone && !in.fliesAnew() && !s.held):
		return refuse(NotAllowed, "only the instructor may do that")
	case in.Do == Rewind && (in.Back < 0 || in.Back > max(s.now, in.At)): // a log that is read again comes from the last input
		return refuse(Garbage, "the drill is at %.3f s and cannot be wound back to %.3f s", max(s.now, in.At).Seconds(), in.Back.Seconds())
	case in.Do == Rewind:
		return nil
	case in.Do == Note:
		return s.checkNote(in)
	case s.over:
		return refuse(Over, "the drill has ended")
	case in.At < s.now:
		return refuse(Late, "the drill is at %.3f s, the input is for %.3f s", s.now.Seconds(), in.At.Seconds())
	case s.endsBefore(ctx, in.At):
		return refuse(Over, "the flight ends before that")
	case s.tooFast(in) && in.Do != Finish && !(in.Do == Clock && in.Rate != s.rate): // or a clock that stands could never go again
		return refuse(TooMany, "more than %d inputs of one seat in a second of the flight", MostPerSecond)
	case in.Do == Clock && !slices.Contains([]int{0, 1, 2, 4}, in.Rate):
		return refuse(Garbage, "a drill runs at 0 (frozen), 1, 2 or 4 times the clock")
	case in.Do == Inject && in.Strike == nil:
		return refuse(Garbage, "nothing is named that fails")
	case in.Do == Inject:
		_, err := s.deck.strike(in.Strike)
		return err
	}
	return nil
}
