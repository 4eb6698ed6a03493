package costs

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/run"
)

// good is a side against which nothing speaks.
func good() Side {
	return Side{Arrives: true, LandsKg: 2000, ReserveKg: 1200, record: &run.Record{},
		Landings: []Landing{{End: "17", Code: 6, AvailableM: 2000, DistanceM: 1300, RequiredM: 1500, Stops: true, CrossKt: 10, MostCrossKt: 25, TailKt: 5, MostTailKt: 10}}}
}

// TestWeigh_EachReasonAtItsBound (docs/costs.md, "The verdict"): what is just
// enough is good, and what is a little less is named.
func TestWeigh_EachReasonAtItsBound(t *testing.T) {
	f := &book.Function{}
	f.Title = "Wing"
	for name, c := range map[string]struct {
		change func(*Side)
		want   string
	}{
		"nothing":              {func(*Side) {}, ""},
		"the reserve itself":   {func(s *Side) { s.LandsKg = 1200 }, ""},
		"below the reserve":    {func(s *Side) { s.LandsKg = 1199 }, "reserve: lands with 1,199 kg; the final reserve is 1,200 kg"},
		"the crosswind itself": {func(s *Side) { s.Landings[0].CrossKt = 25 }, ""},
		"crosswind":            {func(s *Side) { s.Landings[0].CrossKt = 26 }, "crosswind: runway 17: crosswind 26 kt; 25 kt are left"},
		"the tailwind itself":  {func(s *Side) { s.Landings[0].TailKt = 10 }, ""},
		"tailwind":             {func(s *Side) { s.Landings[0].TailKt = 11 }, "tailwind: runway 17: tailwind 11 kt; 10 kt are left"},
		"all of the runway":    {func(s *Side) { s.Landings[0].RequiredM = 2000 }, ""},
		"too short":            {func(s *Side) { s.Landings[0].RequiredM = 2001 }, "runway: runway 17: needs 2,001 m with the margin, has 2,000 m"},
		"too short by little":  {func(s *Side) { s.Landings[0].RequiredM = 2000.31 }, "runway: runway 17: needs 2,000.4 m with the margin, has 2,000 m"},
		"does not stop":        {func(s *Side) { s.Landings[0].Stops = false }, "runway: runway 17: it does not stop"},
		"code 0": {func(s *Side) { s.Landings[0].Code, s.Landings[0].CrossKt = 0, 40 },
			"surface: runway 17: condition code 0, on which no landing is made"},
		"code 1":           {func(s *Side) { s.Landings[0].Code = 1 }, ""},
		"gear":             {func(s *Side) { s.GearUp = true }, "gear: the gear is not out at touchdown"},
		"a leg":            {func(s *Side) { s.LegUp = true }, "gear: the gear is not all down and locked at touchdown"},
		"the base itself":  {func(s *Side) { s.Ceiling = Need{600, 600, true} }, ""},
		"the base":         {func(s *Side) { s.Ceiling = Need{600, 500, true} }, "approach: cloud base 500 ft; the approach that is left needs 600 ft"},
		"no base is known": {func(s *Side) { s.Ceiling = Need{600, 0, false} }, ""},
		"visibility":       {func(s *Side) { s.Seeing = Need{1500, 800, true} }, "approach: visibility 800 m; the approach that is left needs 1,500 m"},
		"no landing":       {func(s *Side) { s.Landings = nil }, ""},
		"a grave function": {func(s *Side) {
			s.Minutes, s.Lapses = 30, []Lapse{{Function: f, Minutes: 8, Needed: 25, Fatal: true}, {Function: f, Minutes: 9, Needed: 10, Fatal: true}, {Function: f, Minutes: 1, Needed: 1}}
		}, "time: Wing: gone after 9 min, called for after 10 min, 20 min before touchdown"},
		"several bind in their order": {func(s *Side) {
			s.GearUp, s.LandsKg, s.Landings[0].TailKt, s.Landings[0].CrossKt = true, 0, 50, 50
		}, "gear: the gear is not out at touchdown|crosswind: runway 17: crosswind 50 kt; 25 kt are left|tailwind: runway 17: tailwind 50 kt; 10 kt are left|reserve: lands with 0 kg; the final reserve is 1,200 kg"},
		"brakes":             {func(s *Side) { s.BrakesMJ, s.MostMJ = 80, 75 }, "brakes: the brakes take up 80 MJ to the stop, more than the 75 MJ that they can"},
		"brakes at the most": {func(s *Side) { s.BrakesMJ, s.MostMJ = 75, 75 }, ""},
		"it does not arrive": {func(s *Side) { s.Arrives, s.GearUp, s.Ending, s.ShortNM = false, true, energy.Dry, 0 }, "arrival: runs out of fuel 0 NM short of it"},
	} {
		s := good()
		c.change(&s)
		s.weigh()
		var got []string
		for _, r := range s.Reasons {
			got = append(got, r.Kind+": "+r.Text)
		}
		if strings.Join(got, "|") != c.want || s.Good() != (c.want == "") {
			t.Errorf("%s: %q, good %v; want %q", name, got, s.Good(), c.want)
		}
	}
}

// TestLapse_When: from the turn, before and after it; when it is called for is
// said where that is half a minute later or more, and only of what counts.
func TestLapse_When(t *testing.T) {
	for want, l := range map[string]Lapse{
		"gone at the turn":                           {},
		"gone after 12 min":                          {Minutes: 12, Needed: 12.4, Fatal: true},
		"gone after 3 min":                           {Minutes: 3, Needed: 9},
		"gone after 12 min, called for after 12 min": {Minutes: 12, Needed: 12.5, Fatal: true},
		"gone 4 min before the turn":                 {Minutes: -4, Needed: -4, Fatal: true},
		"gone 4 min before the turn, called for from 2 min before the turn": {Minutes: -4, Needed: -2, Fatal: true},
		"gone 4 min before the turn, called for after 2 min":                {Minutes: -4, Needed: 2, Fatal: true},
	} {
		if got := l.when(); got != want {
			t.Errorf("%+v: %s, want %s", l, got, want)
		}
	}
}

// TestLanding_Better: one that nothing speaks against, then one that stops, then
// the greater margin, by more than a metre.
func TestLanding_Better(t *testing.T) {
	l := func(change func(*Landing)) Landing {
		x := good().Landings[0]
		change(&x)
		return x
	}
	usual := l(func(*Landing) {})
	windy, stopless := l(func(x *Landing) { x.CrossKt, x.RequiredM = 50, 100 }), l(func(x *Landing) { x.Stops, x.RequiredM = false, 100 })
	for i, c := range []struct {
		a, b Landing
		want bool
	}{
		{usual, windy, true}, {windy, usual, false}, {usual, stopless, true}, {windy, stopless, true}, {stopless, windy, false},
		{l(func(x *Landing) { x.RequiredM = 1498 }), usual, true}, {l(func(x *Landing) { x.RequiredM = 1499.5 }), usual, false}, {usual, usual, false},
		{l(func(x *Landing) { x.AvailableM = 2002 }), usual, true}, {l(func(x *Landing) { x.AvailableM = 2001 }), usual, false},
	} {
		if got := c.a.better(&c.b); got != c.want {
			t.Errorf("case %d: %v", i, got)
		}
	}
}

// TestView_OfASide: rounded, with every reason, what is lost and what runs out;
// what is too near has no price; limits that are none are left out.
func TestView_OfASide(t *testing.T) {
	f := &book.Function{}
	f.Title = "Power"
	s := good()
	s.Minutes, s.FuelKg, s.Ceiling.Least, s.Seeing.Least = 12.4, 812.6, 299.7, 799.6
	s.Lapses = []Lapse{{Function: f, Minutes: 30, What: "Battery"}, {Function: f, Minutes: 5, Needed: 5, Fatal: true}}
	s.Landings[0].MostTailKt, s.Landings[0].ManualM, s.Landings[0].Surface, s.Landings[0].DispatchM = book.NoLimit, 1800.2, "code 6", 2166.7
	v := s.view()
	if !v.Good || v.Verdict != "yes" || v.Binding != "" || v.Minutes != 12 || v.FuelKg != 813 || v.CeilingFt != 300 || v.SeeingM != 800 || v.LandsKg != 2000 || v.ReserveKg != 1200 {
		t.Errorf("%+v", v)
	}
	if len(v.RunsOut) != 1 || v.RunsOut[0] != "Power: gone after 30 min (Battery)" || len(v.Lost) != 1 || v.Lost[0] != "Power: gone after 5 min" {
		t.Errorf("runs out %q, lost %q", v.RunsOut, v.Lost)
	}
	if r := v.Runways[0]; r.MarginM != 200 || r.Decides != "manual" || r.MostCross != 25 || r.MostTail != 0 || r.ManualM != 1800 || r.DispatchM != 2167 || r.RequiredM != 1500 || !r.Stops || r.TailKt != 5 {
		t.Errorf("%+v", v.Runways[0])
	}
	s.Landings[0].ManualM = 1
	if r := s.view().Runways[0]; r.Decides != "forces" || r.ManualM != 1 || r.MarginM != 500 {
		t.Errorf("by the manual a metre: %+v", r)
	}
	s.Landings[0].ManualM = 0
	if r := s.view().Runways[0]; r.Decides != "" || r.ManualM != 0 || r.MarginM != 500 {
		t.Errorf("without a manual: %+v", r)
	}
	s.Landings[0].CrossKt, s.LandsKg, s.Lapses = 26, 100, nil
	s.weigh()
	if v := s.view(); v.Good || v.Binding != Crosswind || v.Verdict != "no: "+s.Reasons[0].Text || len(v.Reasons) != 2 || v.Kinds[1] != Reserve {
		t.Errorf("%+v", v)
	}
	s.Reasons = []Reason{{Near, "too near"}}
	if v := s.view(); v.Verdict != "not worked out: too near" || v.Binding != Near || v.Minutes != 0 || v.FuelKg != 0 || len(v.Runways) != 0 || v.ReserveKg != 1200 || v.Good {
		t.Errorf("%+v", v)
	}
}

// TestView_ReachedAllTheSame: a place that only what is gone at the turn speaks against
// is landed at all the same, and said to be where no place is good; not one that is lost
// on the way, has something else against it, or is not reached.
func TestView_ReachedAllTheSame(t *testing.T) {
	f := &book.Function{}
	f.Title = "Thrust"
	lost := func(minutes float64, change func(*Side)) Place {
		s := good()
		s.Minutes, s.Arrives, s.Lapses = 20, true, []Lapse{{Function: f, Minutes: minutes, Needed: 0, Fatal: true}}
		change(&s)
		s.weigh()
		return Place{Airfield: airfield.Airfield{Name: "Field"}, Failed: s, Healthy: good()}
	}
	as := func(*Side) {}
	short := func(s *Side) { s.Landings[0].CrossKt = 40 }
	away := func(s *Side) { s.Arrives = false }
	for _, c := range []struct {
		places []Place
		want   bool
	}{
		{[]Place{lost(0, as)}, true},
		{[]Place{lost(-3, as), lost(0, short)}, true},
		{[]Place{lost(0, as), {Failed: good(), Healthy: good()}}, false},
		{[]Place{lost(4, as)}, false},
		{[]Place{lost(0, short)}, false},
		{[]Place{lost(0, away)}, false},
	} {
		v := (&Costs{Places: c.places, desk: &desk{course: &run.Course{Flight: &book.Flight{}}, facts: &book.Aircraft{}}}).View("")
		const says = "It lands and stops all the same at Field: what speaks against them is lost by the turn, wherever it goes."
		if got := strings.Contains(v.Summary, says); got != c.want {
			t.Errorf("%v of %+v", v.Summary, c.places)
		}
		if r := v.Rows[0].Failed; r.Reached != strings.HasSuffix(r.Verdict, "; reached all the same") || c.want && !r.Reached {
			t.Errorf("%+v", r)
		}
	}
}

// TestView_Rounds: feet to hundreds, degrees of place to four figures, the rest to
// whole numbers; and the verdict has changed where one side is good and one is not.
func TestView_Rounds(t *testing.T) {
	bad, lacks := good(), good()
	bad.Reasons, lacks.Reasons = []Reason{{Length, "too short"}}, []Reason{{Lacking, "no number"}}
	at := func(failed, healthy Side) Place {
		return Place{Airfield: airfield.Airfield{Ident: "X"}, Line: geo.Line{Metres: 31.46 * 1852, Start: 123.4}, Failed: failed, Healthy: healthy}
	}
	wind := good()
	wind.Landings[0].HeadKt, wind.Landings[0].CrossKt, wind.Landings[0].TailKt = 7.4, 8.6, 0.4
	c := &Costs{At: 90 * book.Second, State: energy.State{AltitudeFt: 12345.6, MassKg: 30000.4, FuelKg: 4999.6}, Position: geo.Place{Lat: 12.345678, Lon: -23.456789}, Course: 271.6,
		Places: []Place{at(wind, good()), at(bad, good()), at(bad, bad), at(lacks, good())}, desk: &desk{course: &run.Course{Flight: &book.Flight{}}, facts: &book.Aircraft{}}}
	v := c.View("H")
	if v.TimeS != 90 || v.AltFt != 12300 || v.MassKg != 30000 || v.FuelKg != 5000 || v.Lat != 12.3457 || v.Lon != -23.4568 || v.CourseT != 272 {
		t.Errorf("%+v", v)
	}
	if r := v.Rows[0]; r.NM != 31 || r.Bearing != 123 || r.Failed.Runways[0].HeadKt != 7 || r.Failed.Runways[0].CrossKt != 9 || r.Failed.Runways[0].TailKt != 0 {
		t.Errorf("%+v", r)
	}
	for i, changed := range []bool{false, true, false, true} {
		if v.Rows[i].Changed != changed {
			t.Errorf("row %d: the verdict changes: %v", i, v.Rows[i].Changed)
		}
	}
	if v.Summary != "Of 4 airfields one is left; with nothing failed 3 are. 1 of them is not worked out for want of a number." {
		t.Error(v.Summary)
	}
	if s := v.Rows[3].Failed; s.Verdict != "not worked out: no number" || s.Good {
		t.Errorf("%+v", s)
	}
}

// TestSummary_CountsInWords, and never counts what was not worked out.
func TestSummary_CountsInWords(t *testing.T) {
	for want, n := range map[string][4]int{
		"Of 13 airfields 2 are left; with nothing failed 13 are.":                                    {13, 2, 13, 0},
		"Of 13 airfields none is left; with nothing failed one is.":                                  {13, 0, 1, 0},
		"Of 13 airfields one is left; with nothing failed 11 are; one is too near to be worked out.": {13, 1, 11, 1},
		"The one runway looked at is no good; with nothing failed it is good.":                       {1, 0, 1, 0},
		"The one runway looked at is good; with nothing failed it is good.":                          {1, 1, 1, 0},
		"Not worked out: too near to fly an approach from here.":                                     {1, 0, 0, 1},
		"Of 2 airfields none is left; with nothing failed none is.":                                  {2, 0, 0, 0},
		"Of 0 airfields none is left; with nothing failed none is.":                                  {0, 0, 0, 0},
	} {
		if got := summary(n[0], n[1], n[2], n[3]); got != want {
			t.Errorf("%v: %s", n, got)
		}
	}
}

// TestWriteText_SaysWhatTheViewSays: one line a side, with a dash for what is not
// there, what the manual gives, and all other reasons.
func TestWriteText_SaysWhatTheViewSays(t *testing.T) {
	healthy, failed, near := good(), good(), good()
	failed.Landings[0].CrossKt, failed.LandsKg, failed.Landings[0].ManualM = 40, 100, 1900
	dry := Side{Ending: energy.Dry, ShortNM: 12, record: &run.Record{}, Minutes: 44, FuelKg: 2100}
	failed.weigh()
	dry.weigh()
	healthy.Landings[0].Stops = false
	near.Reasons = []Reason{{Near, "too near"}}
	v := &View{Heading: "H", Summary: "S", Turn: "T", AltFt: 12000, MassKg: 60000, FuelKg: 5000, RuleIs: "R", RuleFrom: "F", Caution: book.Caution, Notes: []string{"one note"},
		Rows: []RowView{
			{Name: "Kestrin", NM: 0, Own: true, Failed: failed.view(), Healthy: healthy.view()},
			{Name: "A name that is far too long", NM: 31, Failed: dry.view(), Healthy: near.view()},
		}}
	var b bytes.Buffer
	if err := WriteText(&b, v); err != nil {
		t.Fatal(err)
	}
	lines := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	got := lines(b.String())
	for _, want := range []string{
		"H S T At 12,000 ft, 60,000 kg with 5,000 kg of fuel. Final reserve: R (F).",
		"Kestrin (dest.) 0 0 0 100 17 1,500 2,000 no: runway 17: crosswind 40 kt; 25 kt are left by the manual 1,900 and lands with 100 kg; the final reserve is 1,200 kg nothing failed 0 0 2,000 17 no stop 2,000 yes",
		"A name that is far… 31 44 2,100 - - - - no: runs out of fuel 12 NM short of it nothing failed - - - - - - not worked out: too near",
		"one note " + lines(book.Caution),
	} {
		if !strings.Contains(got, want) {
			t.Errorf("not there: %s\n%s", want, got)
		}
	}
	v.Turn = ""
	b.Reset()
	if _ = WriteText(&b, v); strings.Contains(b.String(), "S\n\nAt") {
		t.Error("an empty line where nobody says why the crew turn then")
	}
}

// TestWriteUntil_SaysUntilWhen: never, always, until when and why not longer, and
// what was not worked out.
func TestWriteUntil_SaysUntilWhen(t *testing.T) {
	at := func(name string) airfield.Airfield { return airfield.Airfield{Ident: name, Name: name} }
	c := &Costs{desk: &desk{course: &run.Course{Flight: &book.Flight{}}}, At: 600 * book.Second}
	v := c.UntilView("H", []Latest{
		{Airfield: at("One"), Ever: true, At: 1230 * book.Second, Then: Reason{Time, "gone"}},
		{Airfield: at("Two"), Ever: true, Always: true, At: 1800 * book.Second},
		{Airfield: at("Three"), Then: Reason{Reserve, "dry"}},
		{Airfield: at("Four"), Then: Reason{Near, "too near"}},
	})
	if r := v.Rows[0]; r.TimeS != 1230 || r.AfterS != 630 || v.Rows[2].TimeS != 0 || v.Rows[2].AfterS != 0 {
		t.Errorf("%+v", v.Rows)
	}
	var b bytes.Buffer
	if err := WriteUntil(&b, v); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, line := range strings.Split(b.String(), "\n")[3:7] {
		got = append(got, strings.Join(strings.Fields(line), " "))
	}
	want := []string{"One for 10 min 30 s, until 20:30 then gone", "Two until the approach", "Three never good dry", "Four not worked out too near"}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%q, want %q", got[i], want[i])
		}
	}
}

// TestWriteParts_AddsUpInText: what each gives back beside what it takes alone,
// the functions behind it, the rest; what is less than a figure shows is left out;
// and where the totals mean less, it is said.
func TestWriteParts_AddsUpInText(t *testing.T) {
	f := &book.Function{}
	f.Title = "Brakes left"
	healthy, failed := Totals{1000, 20, 1500, true, true}, Totals{1300, 25.5, 2100, true, true}
	a := &Attribution{Place: Place{Airfield: airfield.Airfield{Ident: "X", Name: "Vardholm"}}, End: "17", Healthy: healthy, Failed: failed, Parts: []Part{
		{ID: "b", Title: "Brakes", Functions: []*book.Function{f}, Back: Totals{1290, 25, 1700, true, true}, Alone: Totals{1005, 20.2, 1800, true, true}},
		{ID: "n", Title: "Nothing to see", Back: Totals{1300.2, 25.52, 2100.3, true, true}, Alone: healthy},
	}}
	v := a.View()
	if len(v.Parts) != 1 || v.Parts[0].Back != (Amounts{10, 0.5, 400}) || v.Parts[0].Alone != (Amounts{5, 0.2, 300}) || v.Interaction != (Amounts{290, 5, 200}) || v.Trouble != "" {
		t.Fatalf("%+v", v)
	}
	var b bytes.Buffer
	if err := WriteParts(&b, v); err != nil {
		t.Fatal(err)
	}
	got := strings.Join(strings.Fields(b.String()), " ")
	for _, want := range []string{"nothing failed 1,000 20.0 1,500", "+ Brakes 10 (5) 0.5 (0.2) 400 (300) Brakes left", "+ together more (or less) 290 5.0 200", "all of it 1,300 25.5 2,100"} {
		if !strings.Contains(got, want) {
			t.Errorf("not there: %s\n%s", want, got)
		}
	}
	ends := map[int]bool{} // where the fuel figures of the lines end
	for _, line := range strings.Split(b.String(), "\n") {
		for _, fuel := range []string{" 1,000 ", " 10 ", " 290 ", " 1,300 "} {
			if i := strings.Index(line, fuel); i > 0 {
				ends[i+len(fuel)] = true
			}
		}
	}
	if len(ends) != 1 {
		t.Errorf("the figures do not stand under each other:\n%s", b.String())
	}
	for says, change := range map[string]func(*Totals){"does not arrive": func(t *Totals) { t.Arrives, t.Stops = false, false }, "does not stop": func(t *Totals) { t.Stops = false }} {
		a.Failed = failed
		change(&a.Failed)
		b.Reset()
		if _ = WriteParts(&b, a.View()); !strings.Contains(b.String(), "The failed aircraft "+says) {
			t.Errorf("not said: %s", says)
		}
	}
}

// TestBoundary_Within: in proportion between two bearings, all round.
func TestBoundary_Within(t *testing.T) {
	b := Boundary{Metres: []float64{100, 200, 300, 400}}
	for _, c := range []struct {
		bearing, m float64
		want       bool
	}{
		{0, 100, true}, {0, 101, false}, {90, 200, true}, {45, 150, true}, {45, 151, false}, {22.5, 125, true}, {22.5, 126, false}, {270, 400, true}, {315, 250, true}, {315, 251, false},
		{360, 100, true}, {360, 101, false}, {-45, 250, true}, {-45, 251, false},
	} {
		if got := b.Within(c.bearing, c.m); got != c.want {
			t.Errorf("%v degrees, %v m: %v", c.bearing, c.m, got)
		}
	}
	if (&Boundary{}).Within(0, 0) {
		t.Error("inside of no boundary")
	}
}

// TestRound: to so many decimals, without a minus before a zero.
func TestRound(t *testing.T) {
	for _, c := range [][3]float64{{1.25, 1, 1.3}, {-0.2, 0, 0}, {12345, -2, 12300}, {2.5, 0, 3}, {-7.06, 1, -7.1}} {
		if got := round(c[0], int(c[1])); got != c[2] || math.Signbit(got) != (c[2] < 0) {
			t.Errorf("%v to %v: %v", c[0], c[1], got)
		}
	}
	if title("short", 8) != "short   " || title("exactly8", 8) != "exactly8" || title("far too long", 8) != "far too…" {
		t.Errorf("%q %q %q", title("short", 8), title("exactly8", 8), title("far too long", 8))
	}
}

// TestOverweight_SaysWhereAndByHowMuch, of the failed aircraft where it arrives.
func TestOverweight_SaysWhereAndByHowMuch(t *testing.T) {
	facts := &book.Aircraft{Numbers: []book.Named{{Name: "max_landing_mass_kg", Value: 30000}}}
	for want, masses := range map[string][]float64{
		"": {29000, 30000, -31000},
		"The landing is above the greatest landing mass of 30,000 kg at B, by 1,000 kg.":                                    {30000, 31000},
		"The landing is above the greatest landing mass of 30,000 kg at A and C, by up to 2,000 kg.":                        {32000, 30000, 30001},
		"The landing is above the greatest landing mass of 30,000 kg at A, B, C, D and 2 other airfields, by up to 600 kg.": {30100, 30200, 30300, 30400, 30500, 30600},
	} {
		c := &Costs{desk: &desk{course: &run.Course{Flight: &book.Flight{}}, facts: facts}}
		for i, kg := range masses {
			p := Place{Airfield: airfield.Airfield{Name: string(rune('A' + i))}, Failed: Side{Arrives: kg > 0, MassKg: math.Abs(kg)}, Healthy: Side{Arrives: true, MassKg: 40000}}
			c.Places = append(c.Places, p)
		}
		if got := c.overweight(); got != want {
			t.Errorf("%v: %q, want %q", masses, got, want)
		}
	}
}
