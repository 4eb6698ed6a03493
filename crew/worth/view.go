package worth

import (
	"context"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/say"
)

// View is a worth, or a study, for a machine. Times are seconds of the flight.
type View struct {
	Procedure string     `json:"procedure"`
	Title     string     `json:"title"`
	Build     string     `json:"build"`
	Flight    string     `json:"flight"`
	Tried     int        `json:"failures_tried,omitempty"`
	Failures  []FailView `json:"failures"`
	Steps     []StepView `json:"steps"`
	Traps     []TrapView `json:"traps"`
	Pairs     []PairView `json:"left_out_together"`
	PairsOf   int        `json:"pairs_flown"`
	PairsLeft int        `json:"pairs_not_flown"`
	Caution   string     `json:"caution"`
}

// FailView is a failure that the procedure was assessed with.
type FailView struct {
	Fail    []string `json:"fail"`
	Moved   []string `json:"moved"` // by hand before: control=position
	AtS     float64  `json:"at_s"`
	Reset   bool     `json:"a_reset_clears_it,omitempty"`
	Flights int      `json:"flights"`

	Unanswered string `json:"unanswered,omitempty"` // why the flight on which all is done right has no full answer
}

// StepView is a step. Failure is the place in Failures of the one in which
// leaving the step out does most, -1 where none comes to the step.
type StepView struct {
	Number  string      `json:"step"`
	Kind    string      `json:"kind"`
	Says    string      `json:"says"`
	By      string      `json:"by,omitempty"`
	Book    string      `json:"because_book,omitempty"`
	Because string      `json:"because"`
	Nothing bool        `json:"nothing_in_this_model"`
	Failure int         `json:"failure"`
	AtS     float64     `json:"at_s,omitempty"`
	Answer  string      `json:"answer,omitempty"`
	Price   *PriceView  `json:"price,omitempty"`
	Trials  []TrialView `json:"trials"`
	Where   string      `json:"where"`
}

// PriceView is what leaving the step out costs on a flight that feels it.
type PriceView struct {
	FuelKg      float64 `json:"fuel_at_end_kg"`
	RightFuelKg float64 `json:"fuel_at_end_done_right_kg"`
	EndS        float64 `json:"end_s"`
	RightEndS   float64 `json:"end_done_right_s"`
	Ended       string  `json:"ended"`
	RightEnded  string  `json:"ended_done_right"`
	StopM       float64 `json:"stop_behind_threshold_m,omitempty"`
	RightStopM  float64 `json:"stop_behind_threshold_done_right_m,omitempty"`
}

// TrialView is one wrong way to do a step.
type TrialView struct {
	How      string     `json:"how"`
	LateS    float64    `json:"late_s,omitempty"`
	Control  string     `json:"control,omitempty"`
	Position string     `json:"position,omitempty"`
	Harms    []HarmView `json:"harms"`
}

// HarmView is one difference from the flight with the procedure done right.
type HarmView struct {
	Kind     string  `json:"kind"`
	Item     string  `json:"item"`
	Better   bool    `json:"better,omitempty"`
	FromS    float64 `json:"from_s"`
	BitesS   float64 `json:"bites_s"`
	LastsS   float64 `json:"lasts_s"`
	Mattered bool    `json:"mattered,omitempty"`
	Told     string  `json:"told,omitempty"`
	Says     string  `json:"says"`
}

// PairView is two steps that bring something together which neither brings alone.
type PairView struct {
	Steps   [2]string  `json:"steps"`
	Failure int        `json:"failure"`
	Harms   []HarmView `json:"harms"`
}

// TrapView is a trap, the one that hides best first.
type TrapView struct {
	Procedure string   `json:"procedure"`
	Step      string   `json:"step"`
	AfterS    float64  `json:"after_s"`
	Harm      HarmView `json:"harm"`
}

// View of a study for a machine.
func (s *Study) View(b *book.Build, f *book.Flight) *View {
	v := &View{Procedure: s.Procedure.ID, Title: s.Procedure.Title, Build: b.Variant, Flight: f.ID, Tried: s.Tried,
		Failures: []FailView{}, Steps: []StepView{}, Traps: TrapViews(s.Traps()), Pairs: []PairView{}, Caution: book.Caution}
	for i, w := range s.Worths {
		v.Failures = append(v.Failures, failView(w))
		v.PairsOf, v.PairsLeft = v.PairsOf+len(w.Pairs), v.PairsLeft+w.PairsLeft
		for _, p := range w.Together() {
			x := PairView{Steps: [2]string{p.First.Number, p.Second.Number}, Failure: i, Harms: []HarmView{}}
			for _, h := range p.Harms {
				x.Harms = append(x.Harms, w.harmView(h))
			}
			v.Pairs = append(v.Pairs, x)
		}
	}
	for i, n := range s.listed {
		v.Steps = append(v.Steps, s.stepView(b, n, s.Best[i]))
	}
	return v
}

func failView(w *Worth) FailView {
	v := FailView{Fail: []string{}, Flights: w.Flights + 1, Unanswered: w.Right.Ledger.Unanswered()}
	for _, k := range w.Right.Plan.Asked.Strikes {
		for _, f := range k.Fail {
			v.Fail = append(v.Fail, f.String())
		}
		v.Reset = v.Reset || k.Resettable
	}
	plan := w.Right.Plan
	for _, a := range plan.Asked.Actions {
		v.Moved = append(v.Moved, a.Control+"="+a.Position)
		v.AtS = movedAt(plan.Record, a).Seconds()
	}
	if at, ok := plan.Record.FirstStrike(); ok {
		v.AtS = at.Seconds()
	}
	return v
}

// movedAt is when an action was taken: at its moment, or when the control first
// came to be where it puts it.
func movedAt(r *run.Record, a run.Action) book.Time {
	if a.When == nil {
		at, _ := r.Course.Resolve(context.Background(), a.At)
		return at
	}
	n, _ := r.Circuit().Node(circuit.Value{Item: a.Control})
	for _, ch := range r.History(n) {
		if ch.At > 0 && r.Circuit().WordText(ch.To) == a.Position {
			return ch.At
		}
	}
	return 0
}

func (s *Study) stepView(b *book.Build, n numbered, f *Finding) StepView {
	v := StepView{Number: n.number, Kind: n.step.Kind, Says: Words(b, n.step), By: n.step.By, Book: n.step.Because,
		Failure: -1, Trials: []TrialView{}, Where: n.step.Range.String()}
	if f.Worth == nil {
		v.Because, v.Nothing = s.notCalled(), s.Broken == 0
		return v
	}
	v.Because, v.Nothing = f.Step.Because, f.Step.Nothing
	if !f.Step.Reached {
		return v
	}
	v.Failure, v.AtS, v.Answer = s.place(f.Worth), f.Step.At.Seconds(), string(f.Step.Answer)
	if p := f.Step.Price; p != nil {
		v.Price = &PriceView{p.FuelKg, p.RightKg, p.End.Seconds(), p.RightEnd.Seconds(), p.Ended, p.Right, p.StopM, p.RightStopM}
	}
	for _, t := range f.Step.Trials {
		v.Trials = append(v.Trials, f.Worth.trialView(t))
	}
	return v
}

// notCalled is the reason of steps to which nothing leads.
func (s *Study) notCalled() string {
	return "No failure that was tried calls for the procedure" + s.limited() + "."
}

// limited says of how many flights of a study the end is not known.
func (s *Study) limited() string {
	if s.Broken == 0 {
		return ""
	}
	return ", as far as they were flown: " + say.Counted(s.Broken, "of the flights breaks", "of the flights break") + " off, and what would come after is not known"
}

func (s *Study) place(w *Worth) int {
	for i := range s.Worths {
		if s.Worths[i] == w {
			return i
		}
	}
	return -1
}

func (w *Worth) trialView(t *Trial) TrialView {
	v := TrialView{How: string(t.Change.Kind), LateS: t.Change.By.Seconds(), Control: t.Change.Control, Position: t.Change.Position, Harms: []HarmView{}}
	for _, h := range t.Harms {
		v.Harms = append(v.Harms, w.harmView(h))
	}
	return v
}

func (w *Worth) harmView(h Harm) HarmView {
	v := HarmView{Kind: string(h.Kind), Item: h.Item, Better: h.Better, FromS: h.From.Seconds(), BitesS: h.Bites.Seconds(),
		LastsS: h.Lasts.Seconds(), Mattered: h.Mattered, Says: w.Say(h)}
	if h.Kind == Loss || h.Kind == Worse {
		v.Told = h.Class.String()
	}
	return v
}

// TrapViews are traps for a machine.
func TrapViews(traps []Trap) []TrapView {
	list := []TrapView{}
	for _, t := range traps {
		list = append(list, TrapView{t.Worth.Procedure.ID, t.Step.Number, t.After.Seconds(), t.Worth.harmView(t.Harm)})
	}
	return list
}

// Alone assesses a procedure with one scenario, as a study of that alone.
func Alone(w *Worth) *Study {
	s := &Study{Procedure: w.Procedure, Worths: []*Worth{w}, Tried: 1, listed: w.listed}
	s.best()
	return s
}

// Traps of all failures of a study: for each step the one that hides best.
func (s *Study) Traps() []Trap { return OnePerStep(Traps(s.Worths...)) }
