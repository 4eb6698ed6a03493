// Package snapshot turns an answer and a moment into what is so at that moment:
// where the flight is, how it is set, what the weather is, what is told, and what is
// true.
//
// Invariant: everything is read from the two records of the answer and from its
// ledger; nothing is flown. What is said of the moment is so after all that happened
// at it.
//
// Start reading at Of.
package snapshot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/say"
)

// View is a moment of an answer. Text, JSON and page are made from it.
type View struct {
	Heading string   `json:"heading"` // what was asked
	Says    string   `json:"says"`    // the moment's point, in a sentence
	At      Moment   `json:"at"`
	Flight  []Figure `json:"flight"`
	Weather []Figure `json:"weather"`
	Set     []Figure `json:"set"` // how the aircraft is set: slats and flaps, gear, what was moved
	Failed  []string `json:"failed"`
	Told    []Told   `json:"told"` // alerts that stand, the gravest first
	Lost    []Lost   `json:"lost"` // the worst first
	Wrong   []Shown  `json:"shows_wrong"`
	Dark    []string `json:"dark"`
	Caution string   `json:"caution"`
}

// Moment is when it is.
type Moment struct {
	TimeS  float64 `json:"time_s"`
	AfterS float64 `json:"after_s"` // from the failure
	Clock  string  `json:"clock"`   // from the start of the flight
	After  string  `json:"after"`   // from the failure
	Phase  string  `json:"phase"`   // id
	Title  string  `json:"phase_title"`
}

// Figure is a value with its unit; Usually is what it is without the failure, where
// that is otherwise.
type Figure struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Text    string `json:"text"`
	Usually string `json:"without_the_failure,omitempty"`
}

// Told is an alert that stands.
type Told struct {
	ID      string `json:"id"`
	Message string `json:"message"`
	Level   string `json:"level"`
	False   bool   `json:"false"`
	Usual   bool   `json:"without_the_failure"` // it stands then too
}

// Lost is a function that does not work now, and would without the failure.
type Lost struct {
	ID        string      `json:"id"`
	Title     string      `json:"title"`
	Severity  string      `json:"severity,omitempty"`
	CalledFor bool        `json:"called_for"`
	Known     ledger.Word `json:"known,omitempty"` // of this stretch of the loss, as a whole
	ByNow     bool        `json:"known_by_now"`
	Text      string      `json:"text"`
}

// Shown is an indication that is lit and wrong.
type Shown struct {
	ID    string `json:"id"`
	Title string `json:"title"`
}

// When reads a moment of an answer: as everywhere, or with a plus before it, counted
// from the failure, as clocks on the pages are. The error is a *ask.Trouble.
func When(ctx context.Context, a *ask.Answer, text string) (at book.Time, err error) {
	text = strings.TrimSpace(text)
	if after, ok := strings.CutPrefix(text, "+"); ok {
		m, err := book.ParseMoment(after, a.Course.Build)
		if err == nil && m.Phase != "" {
			err = fmt.Errorf("write a time behind the plus, such as +10:00, not %q", text)
		}
		if err != nil {
			return 0, &ask.Trouble{Part: "moment", Text: err.Error()}
		}
		at = a.Ledger.Strike + m.Offset
	} else {
		m, err := book.ParseMoment(text, a.Course.Build)
		if err == nil {
			at, err = a.Course.Resolve(ctx, m)
		}
		if err != nil {
			return 0, &ask.Trouble{Part: "moment", Text: err.Error()}
		}
	}
	if at > a.Here.End {
		return 0, &ask.Trouble{Part: "moment", Text: fmt.Sprintf("this flight ends %s after its start, before that", say.Clock(a.Here.End))}
	}
	return at, nil
}

// maker makes one view.
type maker struct {
	*ask.Answer
	at book.Time
}

// Of says what is so at a moment of an answer's flight.
func Of(a *ask.Answer, at book.Time) *View {
	m := maker{a, at}
	l := a.Ledger.View()
	v := &View{Heading: l.Heading, At: m.moment(), Caution: book.Caution}
	v.Flight = m.quantities("mass_kg", "fuel_kg", "altitude_ft", "height_ft", "airspeed_kt", "mach", "ground_speed_kt", "vertical_speed_ft_per_min", "distance_nm", "to_go_nm", "thrust_pct")
	v.Weather = m.quantities("air_temperature_c", "total_temperature_c", "icing", "headwind_kt", "runway_wet")
	v.Set = append(m.effects(), m.controls()...)
	v.Failed, v.Told, v.Lost = m.failed(), m.told(), m.lost(l)
	v.Wrong, v.Dark = m.wrong(), m.dark()
	v.Says = m.says(v)
	return v
}

func (m maker) moment() Moment {
	phase := m.Here.PhaseAt(m.at)
	after := m.at - m.Ledger.Strike
	return Moment{m.at.Seconds(), after.Seconds(), say.Clock(m.at), say.After(after), phase, m.Course.Build.Title(phase)}
}

// quantities are what the flight gives; both records fly along the same one.
func (m maker) quantities(names ...string) (list []Figure) {
	for _, name := range names {
		i := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == name })
		q := book.Quantities[i]
		list = append(list, Figure{ID: name, Title: say.Capital(q.Title), Text: textOf(q.Type, q.Unit, m.Here.Path().Value(i, m.at))})
	}
	return list
}

func textOf(kind book.Type, unit string, v float64) string {
	if kind == book.YesNo {
		return map[bool]string{true: "yes", false: "no"}[v != 0]
	}
	return say.Quantity(v, unit)
}

// configured are the effects that a person knows as the configuration.
var configured = map[string]string{
	"flap_setting": "Slats and flaps", "gear_out": "Landing gear in the airflow", "gear_locked": "All legs down and locked", "speed_brakes_ratio": "Speed brakes out, share", "ground_spoilers_ratio": "Ground spoilers out, share",
	"engine_left_ratio": "Left engine, share of the wanted thrust", "engine_right_ratio": "Right engine, share of the wanted thrust", "wing_iced": "Ice on the wing", "anti_skid": "Anti-skid works", "brakes_ratio": "Wheel brakes, share of full braking",
	"steering": "Nose wheel steering works",
}

// effects are those of the configuration that the book gives: slats, flaps and gear, and
// what is not as it is where nothing is said, or not as without the failure.
func (m maker) effects() (list []Figure) {
	for _, k := range book.Effects {
		n, ok := m.Here.Circuit().Node(circuit.Value{Item: book.EffectID(k.Name)})
		if title := configured[k.Name]; ok && title != "" {
			f := Figure{ID: k.Name, Title: title, Text: m.effect(k, m.Here.At(n, m.at))}
			if was := m.effect(k, m.There.At(n, m.at)); m.at <= m.There.End && was != f.Text {
				f.Usually = was
			}
			if f.Usually != "" || k.Type == book.Word || k.Name == "gear_out" || m.Here.At(n, m.at) != k.Default {
				list = append(list, f)
			}
		}
	}
	return list
}

func (m maker) effect(k book.EffectKind, v float64) string {
	if k.Type == book.Word {
		return m.Here.Circuit().WordText(v)
	}
	if k.Unit == "ratio" {
		return say.Figures(v)
	}
	return textOf(k.Type, k.Unit, v)
}

// controls are those that stand elsewhere than at first, or than without the failure.
func (m maker) controls() (list []Figure) {
	for _, c := range m.Course.Build.Controls {
		n, ok := m.Here.Circuit().Node(circuit.Value{Item: c.ID})
		if !ok {
			continue
		}
		f := Figure{ID: c.ID, Title: c.Title, Text: m.Here.Circuit().WordText(m.Here.At(n, m.at))}
		if was := m.There.Circuit().WordText(m.There.At(n, m.at)); m.at <= m.There.End && was != f.Text {
			f.Usually = was
		}
		if f.Text != c.Initial || f.Usually != "" {
			list = append(list, f)
		}
	}
	return list
}

// failed are what has failed by now, and what was inoperative from the start.
func (m maker) failed() []string {
	list := []string{}
	for i, s := range m.Here.Struck {
		k := m.Scenario.Strikes[i]
		if !s.Came || s.At > m.at || k.Lasts > 0 && m.at >= s.At+k.Lasts {
			continue
		}
		for _, f := range k.Fail {
			list = append(list, m.Course.Build.FailureTitle(f.String()))
		}
	}
	for _, f := range m.Scenario.Inoperative {
		list = append(list, m.Course.Build.FailureTitle(f.String())+" (inoperative at dispatch)")
	}
	return list
}

// told are the alerts that stand.
func (m maker) told() []Told {
	list := []Told{}
	for _, a := range m.Course.Build.Alerts {
		is := func(of *circuit.Trace, aspect circuit.Aspect) bool {
			n, ok := of.Circuit().Node(circuit.Value{Item: a.ID, Aspect: aspect})
			return ok && m.at <= of.End && of.At(n, m.at) != 0
		}
		if is(m.Here.Trace, circuit.Main) {
			list = append(list, Told{a.ID, a.Message, a.Level, is(m.Here.Trace, circuit.False), is(m.There.Trace, circuit.Main)})
		}
	}
	slices.SortStableFunc(list, func(a, b Told) int { return slices.Index(book.Levels, a.Level) - slices.Index(book.Levels, b.Level) })
	return list
}
