package crew

import (
	"fmt"
	"math"
	"strings"

	"knockon/book"
)

// Pace is how fast a crew works. All times are in seconds.
type Pace struct {
	WarningS     float64 // from a warning to the first move
	CautionS     float64
	AdvisoryS    float64
	RollS        float64 // from a warning to the first move, rolling fast or about to
	AloudPerMin  float64 // words read aloud in a minute
	MindS        float64 // to look at something, or to make up one's mind
	ReachS       float64 // to bring the hand to a control and find it
	PressS       float64 // to move it
	ListS        float64 // to find the list and begin it
	RadioS       float64 // one radio call, after the procedure of a warning, or a line that tells somebody
	BriefS       float64 // the briefing before what was left for a phase
	ReadAboveFt  float64 // in the air: no list is read below this height
	ReadBelowKt  float64 // on the ground: none above this speed
	BeginAboveFt float64 // coming down: nothing that can wait is begun below this height
	MostCalls    int     // so often one alert has its procedure done in a flight
}

// Figure is one number of the pace with where it is from.
type Figure struct {
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Is     string  `json:"is"`
	Source string  `json:"source"`
}

const (
	keystrokes = "keystroke-level model: Card, Moran, Newell, Communications of the ACM 23(7), 1980, 396-410"
	aloud      = "reading aloud, English: Brysbaert, Journal of Memory and Language 109, 2019, 104047"
	autopilots = "three seconds after recognition in climb, cruise and descent: flight test guide, FAA AC 25-7, autopilot malfunctions (from memory)"
	roll       = "recognition takes 1 s at least, and both pilots wait for it: 14 CFR 25.107(a), flight test guide, FAA AC 25-7 (from memory)"
	assumed    = "assumption"
	custom     = "common practice"
	stable     = "common practice; at 140 kt on 3 degrees a briefing of 60 s begun there is over at 1,000 ft, and two minutes are left to touchdown"
)

// DefaultPace is the pace that is used when nothing is said. Figures gives the
// source of each number.
func DefaultPace() Pace {
	return Pace{
		WarningS: 3, CautionS: 5, AdvisoryS: 15, RollS: 1, AloudPerMin: 183, MindS: 1.35, ReachS: 1.5, PressS: 0.2,
		ListS: 10, RadioS: 20, BriefS: 60, ReadAboveFt: 400, ReadBelowKt: 60, BeginAboveFt: 1750, MostCalls: 3,
	}
}

// Slower is a pace at which everything takes so many times as long: noticing, finding,
// reading, speaking, moving. Where the crew read and begin, and how often, stays.
func (p Pace) Slower(times float64) Pace {
	for _, s := range []*float64{&p.WarningS, &p.CautionS, &p.AdvisoryS, &p.RollS, &p.MindS, &p.ReachS, &p.PressS, &p.ListS, &p.RadioS, &p.BriefS} {
		*s *= times
	}
	p.AloudPerMin /= times
	return p
}

// Figures lists the numbers of a pace. The sources are those of DefaultPace.
func (p Pace) Figures() []Figure {
	return []Figure{
		{"warning_s", p.WarningS, "s", "from a warning to the first move", autopilots},
		{"caution_s", p.CautionS, "s", "from a caution to the first move", assumed},
		{"advisory_s", p.AdvisoryS, "s", "from an advisory to the first move", assumed},
		{"roll_s", p.RollS, "s", "from a warning to the first move on the ground, too fast for reading or with take-off thrust set", roll},
		{"aloud_per_min", p.AloudPerMin, "words", "words read aloud in a minute", aloud},
		{"mind_s", p.MindS, "s", "looking at something, or making up one's mind (M)", keystrokes},
		{"reach_s", p.ReachS, "s", "bringing the hand to a control and pointing at it (H and P)", keystrokes},
		{"press_s", p.PressS, "s", "moving a control (K)", keystrokes},
		{"list_s", p.ListS, "s", "finding a list", assumed},
		{"radio_s", p.RadioS, "s", "a radio call after the procedure of a warning, and telling the cabin, control or the company", assumed},
		{"brief_s", p.BriefS, "s", "the briefing before what was left for a phase", assumed},
		{"read_above_ft", p.ReadAboveFt, "ft", "in the air no list is read below this height", custom},
		{"read_below_kt", p.ReadBelowKt, "kt", "on the ground no list is read above this speed", custom},
		{"begin_above_ft", p.BeginAboveFt, "ft", "coming down, no briefing and no list of a caution or an advisory is begun below this height", stable},
		{"most_calls", float64(p.MostCalls), "", "so often one alert has its procedure done in a flight", assumed},
	}
}

func (p Pace) check() error {
	for _, f := range p.Figures() {
		if math.IsNaN(f.Value) || f.Value < 0 || f.Value > 1e5 || f.Value == 0 && f.Name == "aloud_per_min" {
			return fmt.Errorf("the crew's %s is %g, which makes no sense", f.Name, f.Value)
		}
	}
	if p.PressS+p.MindS <= 0 {
		return fmt.Errorf("the crew's mind_s and press_s are both 0: nothing happens in no time")
	}
	return nil
}

// low is the condition in which the crew only fly.
func (p Pace) low() string {
	return fmt.Sprintf("(!real.on_ground && real.height_ft < %g) || (real.on_ground && real.ground_speed_kt > %g)", p.ReadAboveFt, p.ReadBelowKt)
}

// late is the condition in which nothing is begun any more that can wait until the
// aircraft is down.
func (p Pace) late() string {
	return fmt.Sprintf("!real.on_ground && real.height_ft < %g && real.vertical_speed_ft_per_min < -200", p.BeginAboveFt)
}

// fast is the condition in which both pilots sit ready, hands on the levers.
func (p Pace) fast() string {
	return fmt.Sprintf("real.on_ground && (real.ground_speed_kt > %g || real.thrust_pct > 60)", p.ReadBelowKt)
}

// reaction is how long after an alert the crew begin with it.
func (p Pace) reaction(level int, fast bool) book.Time {
	if fast && level == 0 {
		return book.AtSeconds(p.RollS)
	}
	return book.AtSeconds([]float64{p.WarningS, p.CautionS, p.AdvisoryS}[level])
}

// length is how long a line takes.
func (p Pace) length(s *book.Step, says string) book.Time {
	seconds := 0.0
	if s.Kind == "tell" {
		return max(book.AtSeconds(p.RadioS), 1)
	}
	if !s.FromMemory {
		seconds += 60 * float64(len(strings.Fields(says))) / p.AloudPerMin
	}
	switch s.Kind {
	case "do":
		seconds += p.MindS
		if s.Set != "" {
			seconds += p.ReachS + p.PressS
		}
	case "check", "later":
		seconds += p.MindS
	case "decide":
		seconds += 2 * p.MindS
	}
	if s.By == "both" && s.Kind != "note" {
		seconds += p.MindS
	}
	return max(book.AtSeconds(seconds), 1)
}

// With is the pace with one of its numbers changed, by the name that Figures
// gives it. The error names what there is.
func (p Pace) With(name string, value float64) (Pace, error) {
	fields := map[string]*float64{
		"warning_s": &p.WarningS, "caution_s": &p.CautionS, "advisory_s": &p.AdvisoryS, "roll_s": &p.RollS, "aloud_per_min": &p.AloudPerMin,
		"mind_s": &p.MindS, "reach_s": &p.ReachS, "press_s": &p.PressS, "list_s": &p.ListS, "radio_s": &p.RadioS,
		"brief_s": &p.BriefS, "read_above_ft": &p.ReadAboveFt, "read_below_kt": &p.ReadBelowKt, "begin_above_ft": &p.BeginAboveFt,
	}
	switch f, ok := fields[name]; {
	case ok:
		*f = value
	case name == "most_calls":
		p.MostCalls = int(value)
	default:
		var names []string
		for _, f := range p.Figures() {
			names = append(names, f.Name)
		}
		return p, fmt.Errorf("the crew's pace has no %q; it has %s", name, strings.Join(names, ", "))
	}
	return p, p.check()
}
