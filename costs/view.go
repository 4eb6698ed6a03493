package costs

import (
	"fmt"
	"math"
	"strings"

	"knockon/book"
	"knockon/say"
)

// View is the price of a scenario in words and rounded numbers. Text, JSON and the
// page are all made from it, so that they say the same.
type View struct {
	Heading  string    `json:"heading"`
	Summary  string    `json:"summary"`
	Turn     string    `json:"turn,omitempty"`     // why the crew turn then, where nobody said when
	Supposed string    `json:"supposed,omitempty"` // where what is supposed of wind and runway counts
	TimeS    float64   `json:"time_s"`
	AltFt    float64   `json:"altitude_ft"`
	MassKg   float64   `json:"mass_kg"`
	FuelKg   float64   `json:"fuel_kg"`
	Lat      float64   `json:"latitude_deg"`
	Lon      float64   `json:"longitude_deg"`
	CourseT  float64   `json:"course_deg_true"`
	Rule     string    `json:"reserve_rule"`
	RuleIs   string    `json:"reserve_rule_title"`
	RuleFrom string    `json:"reserve_rule_source"`
	Rows     []RowView `json:"airfields"`
	Notes    []string  `json:"notes"`
	Caution  string    `json:"caution"`
}

// RowView is an airfield.
type RowView struct {
	Ident   string   `json:"ident"`
	Name    string   `json:"name"`
	NM      float64  `json:"distance_nm"`
	Bearing float64  `json:"bearing_deg_true"`
	Own     bool     `json:"destination"`
	Changed bool     `json:"verdict_changes"`
	Failed  SideView `json:"failed"`
	Healthy SideView `json:"healthy"`
}

// SideView is what it takes to go to an airfield.
type SideView struct {
	Good      bool         `json:"good"`
	Verdict   string       `json:"verdict"`
	Binding   string       `json:"binding"` // kind of the reason that binds; "" for none
	Reasons   []string     `json:"reasons"`
	Kinds     []string     `json:"kinds"` // of the reasons, in their order
	Arrives   bool         `json:"arrives"`
	Reached   bool         `json:"reached_all_the_same"` // no good, and only for what is gone at the turn already
	Minutes   float64      `json:"time_min"`
	FuelKg    float64      `json:"fuel_used_kg"`
	LandsKg   float64      `json:"fuel_at_touchdown_kg"`
	MassKg    float64      `json:"mass_at_touchdown_kg"`
	ReserveKg float64      `json:"final_reserve_kg"`
	CeilingFt float64      `json:"approach_needs_ceiling_ft"`
	SeeingM   float64      `json:"approach_needs_visibility_m"`
	RunsOut   []string     `json:"runs_out"`
	Lost      []string     `json:"lost_catastrophic"`        // called for before touchdown
	Lacking   []string     `json:"not_worked_out,omitempty"` // what effects do, for want of a number
	Runways   []RunwayView `json:"runways"`
}

// RunwayView is a runway end.
type RunwayView struct {
	End        string  `json:"end"`
	Surface    string  `json:"surface"`
	AvailableM float64 `json:"landing_distance_available_m"`
	Stops      bool    `json:"stops"`
	DistanceM  float64 `json:"landing_distance_m"`
	RequiredM  float64 `json:"landing_distance_required_m"`
	MarginM    float64 `json:"margin_m"`
	DispatchM  float64 `json:"dispatch_distance_m"`
	ManualM    float64 `json:"manual_distance_m,omitempty"` // by the manual, with the margin
	Decides    string  `json:"decides,omitempty"`           // "manual" or "forces", where both say
	ByRows     bool    `json:"by_manual_rows,omitempty"`    // there are no forces: landing_distance_m is the manual's
	Unsaid     string  `json:"manual_does_not_say,omitempty"`
	HeadKt     float64 `json:"headwind_kt"`
	CrossKt    float64 `json:"crosswind_kt"`
	MostCross  float64 `json:"most_crosswind_kt,omitempty"`
	TailKt     float64 `json:"tailwind_kt"`
	MostTail   float64 `json:"most_tailwind_kt,omitempty"`
}

// View puts the costs into words. heading says what was asked.
func (c *Costs) View(heading string) *View {
	v := &View{
		Heading: c.heading(heading), Turn: c.Why, Supposed: c.supposed(), TimeS: c.At.Seconds(), AltFt: round(c.State.AltitudeFt, -2), MassKg: round(c.State.MassKg, 0), FuelKg: round(c.State.FuelKg, 0),
		Lat: round(c.Position.Lat, 4), Lon: round(c.Position.Lon, 4), CourseT: round(c.Course, 0),
		Rule: c.Rule.Name, RuleIs: c.Rule.Title, RuleFrom: c.Rule.Source, Caution: book.Caution, Notes: c.notes(),
	}
	good, near, lacking := [2]int{}, 0, 0
	for i := range c.Places {
		row := c.Places[i].view()
		v.Rows = append(v.Rows, row)
		if row.Failed.Binding == Near {
			near++
		}
		if row.Failed.Binding == Lacking {
			lacking++
		}
		for k, s := range []*SideView{&row.Failed, &row.Healthy} {
			if s.Good {
				good[k]++
			}
		}
	}
	v.Summary = summary(len(v.Rows), good[0], good[1], near) + v.reached()
	if lacking > 0 {
		v.Summary += " " + say.Capital(say.Counted(lacking, "of them is", "of them are")) + " not worked out for want of a number."
	}
	return v
}

// reached names the airfields at which it lands all the same, where none is good: what
// speaks against them is gone already and does not come back for another choice.
func (v *View) reached() string {
	var at []string
	for _, r := range v.Rows {
		if r.Failed.Good {
			return ""
		}
		if r.Failed.Reached {
			at = append(at, r.Name)
		}
	}
	more := len(at) - mostNamed
	switch {
	case len(at) == 0:
		return ""
	case more > 0:
		at = append(at[:mostNamed:mostNamed], say.Counted(more, "other airfield"))
	}
	return " It lands and stops all the same at " + say.And(at) + ": what speaks against them is lost by the turn, wherever it goes."
}

func summary(all, failed, healthy, near int) string {
	switch {
	case all == near && all > 0:
		return "Not worked out: too near to fly an approach from here."
	case near > 0:
		return fmt.Sprintf("Of %d airfields %s left; with nothing failed %s; %s too near to be worked out.", all, count(failed), count(healthy), count(near))
	case all == 1:
		return fmt.Sprintf("The one runway looked at is %s; with nothing failed it is %s.", still(failed), still(healthy))
	}
	return fmt.Sprintf("Of %d airfields %s left; with nothing failed %s.", all, count(failed), count(healthy))
}

func still(good int) string {
	if good > 0 {
		return "good"
	}
	return "no good"
}

func count(n int) string {
	switch n {
	case 0:
		return "none is"
	case 1:
		return "one is"
	}
	return fmt.Sprintf("%d are", n)
}

// notes say what the numbers rest on.
func (c *Costs) notes() []string {
	list := []string{"The crew turn at once and fly on as the systems let them, at the speeds of the flight; who acts beside is said in the heading."}
	if c.desk.rows != nil {
		list = append(list, c.desk.rows.notes(c.desk)...)
	} else {
		list = append(list, "Landing distance: the air distance of AC 25-32, then forces on the wheels with each device when the model says that it comes, full braking, and 15 percent on top.")
	}
	if c.desk.home != "" {
		list = append(list, "The wind on the way to "+c.desk.home+", and the wind and the wetness on its runway, are those that the flight gives, as for its own landing"+c.calm()+"; crosswind, cloud and visibility, and all of the other airfields, are as reported.")
	}
	if c.Landing {
		list = append(list, "The approach has begun: only the runway ahead is looked at.")
	}
	if text := c.overweight(); text != "" {
		list = append(list, text)
	}
	list = append(list, c.unmodelled()...)
	if c.Left > 0 {
		list = append(list, say.Counted(c.Left, "airfield farther away was", "airfields farther away were")+" not looked at.")
	}
	return list
}

// unmodelled is what the book does not work out about the aircraft and what fails.
func (c *Costs) unmodelled() (list []string) {
	if c.desk.whole == nil || c.desk.course.Build == nil { // nothing was flown yet
		return nil
	}
	var ids []string
	for _, k := range c.desk.whole.Scenario.Strikes {
		for _, f := range k.Fail {
			ids = append(ids, f.Unit)
		}
	}
	for _, l := range c.desk.course.Build.NotModelled(ids...) {
		list = append(list, "Not worked out: "+say.Sentence(l.String()))
	}
	return list
}

// overweight says where the failed aircraft lands above its greatest landing mass.
func (c *Costs) overweight() string {
	var at []string
	most, worst := 0.0, 0.0
	for i := range c.Places {
		s := &c.Places[i].Failed
		if !s.Arrives {
			continue
		}
		if most = c.desk.limit("max_landing_mass_kg"); s.MassKg > most {
			at, worst = append(at, c.Places[i].Airfield.Name), max(worst, s.MassKg-most)
		}
	}
	by := "by"
	switch {
	case len(at) == 0:
		return ""
	case len(at) > mostNamed:
		at = append(at[:mostNamed:mostNamed], say.Counted(len(at)-mostNamed, "other airfield"))
	}
	if len(at) > 1 {
		by = "by up to"
	}
	return fmt.Sprintf("The landing is above the greatest landing mass of %s kg at %s, "+by+" %s kg.", say.Whole(most), say.And(at), say.Whole(worst))
}

// mostNamed is how many airfields a sentence names before it counts.
const mostNamed = 4

func (p *Place) view() RowView {
	return RowView{
		Ident: p.Airfield.Ident, Name: p.Airfield.Name, NM: round(p.Line.NM(), 0), Bearing: round(p.Line.Start, 0), Own: p.Own, Changed: p.Changed(),
		Failed: p.Failed.view(), Healthy: p.Healthy.view(),
	}
}

func (s *Side) view() SideView {
	v := SideView{
		Good: s.Good(), Verdict: "yes", Arrives: s.Arrives, Minutes: round(s.Minutes, 0), FuelKg: round(s.FuelKg, 0), LandsKg: round(s.LandsKg, 0), MassKg: round(s.MassKg, 0),
		ReserveKg: round(s.ReserveKg, 0), CeilingFt: round(s.Ceiling.Least, 0), SeeingM: round(s.Seeing.Least, 0),
	}
	for _, r := range s.Reasons {
		v.Reasons, v.Kinds = append(v.Reasons, r.Text), append(v.Kinds, r.Kind)
	}
	if len(s.Reasons) > 0 {
		v.Binding, v.Verdict = s.Reasons[0].Kind, "no: "+s.Reasons[0].Text
	}
	if v.Reached = s.Reached(); v.Reached {
		v.Verdict += "; reached all the same"
	}
	if v.Lacking = s.Lacking; v.Binding == Lacking {
		v.Verdict = "not worked out: " + s.Reasons[0].Text
	}
	if v.Binding == Near { // what was flown is no approach, so it has no price
		return SideView{Verdict: "not worked out: " + s.Reasons[0].Text, Binding: Near, Reasons: v.Reasons, Kinds: v.Kinds, ReserveKg: v.ReserveKg}
	}
	for _, l := range s.Lapses {
		text := l.Function.Title + ": " + l.when()
		if l.Fatal {
			v.Lost = append(v.Lost, text)
		}
		if l.What != "" {
			v.RunsOut = append(v.RunsOut, text+" ("+l.What+")")
		}
	}
	for i := range s.Landings {
		v.Runways = append(v.Runways, s.Landings[i].view())
	}
	return v
}

func (l *Landing) view() RunwayView {
	v := RunwayView{
		End: l.End, Surface: l.Surface, AvailableM: round(l.AvailableM, 0), Stops: l.Stops, DistanceM: round(l.DistanceM, 0), RequiredM: round(l.RequiredM, 0),
		MarginM: round(l.MarginM(), 0), DispatchM: round(l.DispatchM, 0), ManualM: round(l.ManualM, 0), HeadKt: round(l.HeadKt, 0), CrossKt: round(l.CrossKt, 0), TailKt: round(l.TailKt, 0),
	}
	if l.MostCrossKt < book.NoLimit {
		v.MostCross = round(l.MostCrossKt, 0)
	}
	if v.ByRows = l.ByRows; !l.ByRows && l.ManualM > 0 {
		v.Decides = map[bool]string{true: "manual", false: "forces"}[l.ManualM > l.RequiredM]
	}
	if l.Unsaid != nil {
		v.Unsaid = l.Unsaid.Error()
	}
	if l.MostTailKt < book.NoLimit {
		v.MostTail = round(l.MostTailKt, 0)
	}
	return v
}

// PartView is one part of an attribution, rounded.
type PartView struct {
	ID        string   `json:"id"`
	Title     string   `json:"title"`
	Functions []string `json:"functions"` // lost functions behind it
	Back      Amounts  `json:"given_back_alone"`
	Alone     Amounts  `json:"taken_alone"`
}

// Amounts are what something adds. Where a flight does not arrive or does not stop
// they count what there is, and Trouble says so.
type Amounts struct {
	FuelKg    float64 `json:"fuel_kg"`
	Minutes   float64 `json:"time_min"`
	RequiredM float64 `json:"landing_distance_required_m"`
}

// AttributionView is an attribution, rounded.
type AttributionView struct {
	Ident       string     `json:"ident"`
	Name        string     `json:"name"`
	End         string     `json:"end"`
	Healthy     Amounts    `json:"healthy"`
	Failed      Amounts    `json:"failed"`
	Interaction Amounts    `json:"interaction"` // failed less healthy less all that is given back
	Parts       []PartView `json:"parts"`
	Trouble     string     `json:"trouble,omitempty"`
	Caution     string     `json:"caution"`
}

func (t Totals) less(u Totals) Amounts {
	return Amounts{round(t.FuelKg-u.FuelKg, 0), round(t.Minutes-u.Minutes, 1), round(t.RequiredM-u.RequiredM, 0)}
}

// View puts an attribution into rounded numbers. The interaction is that of the
// rounded ones, so that they add up.
func (a *Attribution) View() *AttributionView {
	v := &AttributionView{
		Ident: a.Place.Airfield.Ident, Name: a.Place.Airfield.Name, End: a.End, Caution: book.Caution,
		Healthy: a.Healthy.less(Totals{}), Failed: a.Failed.less(Totals{}),
	}
	v.Interaction = v.Failed.less(v.Healthy)
	for _, p := range a.Parts {
		q := PartView{ID: p.ID, Title: p.Title, Back: a.Failed.less(p.Back), Alone: p.Alone.less(a.Healthy)}
		if q.Back == (Amounts{}) && q.Alone == (Amounts{}) {
			continue // less than the last figure shows
		}
		for _, f := range p.Functions {
			q.Functions = append(q.Functions, f.Title)
		}
		v.Interaction = v.Interaction.less(q.Back)
		v.Parts = append(v.Parts, q)
	}
	switch {
	case a.Unparted:
		v.Trouble = "On a manual's numbers what each thing adds is not worked out: the difference is all of it together."
	case !a.Failed.Arrives:
		v.Trouble = "The failed aircraft does not arrive: its fuel and time count to its end."
	case !a.Failed.Stops:
		v.Trouble = "The failed aircraft does not stop: its landing distance counts to where the roll was given up."
	}
	return v
}

func (m Amounts) less(n Amounts) Amounts {
	return Amounts{round(m.FuelKg-n.FuelKg, 0), round(m.Minutes-n.Minutes, 1), round(m.RequiredM-n.RequiredM, 0)}
}

// title is a name cut to a width.
func title(s string, width int) string {
	r := []rune(s)
	if len(r) > width {
		return strings.TrimSpace(string(r[:width-1])) + "…"
	}
	return s + strings.Repeat(" ", width-len(r))
}

// UntilView is until when each airfield is good.
type UntilView struct {
	Heading string     `json:"heading"`
	Rows    []UntilRow `json:"airfields"`
	Caution string     `json:"caution"`
}

// UntilRow is an airfield and its last good moment.
type UntilRow struct {
	Ident  string  `json:"ident"`
	Name   string  `json:"name"`
	Ever   bool    `json:"ever"`
	Always bool    `json:"always"`
	TimeS  float64 `json:"time_s"`
	AfterS float64 `json:"after_turn_s"`
	Then   string  `json:"then,omitempty"`

	near bool
}

// UntilView puts last moments into words.
func (c *Costs) UntilView(heading string, list []Latest) *UntilView {
	v := &UntilView{Heading: c.heading(heading), Caution: book.Caution}
	for _, l := range list {
		row := UntilRow{Ident: l.Airfield.Ident, Name: l.Airfield.Name, Ever: l.Ever, Always: l.Always, Then: l.Then.Text, near: l.Then.Kind == Near || l.Then.Kind == Lacking}
		if l.Ever {
			row.TimeS, row.AfterS = l.At.Seconds(), (l.At - c.At).Seconds()
		}
		v.Rows = append(v.Rows, row)
	}
	return v
}

// round brings a number to n decimals, so that no output shows the noise of the
// last digits.
func round(v float64, n int) float64 {
	p := math.Pow(10, float64(n))
	return math.Round(v*p)/p + 0 // no minus before a zero
}
