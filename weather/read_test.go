package weather

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, not %v", what, got, want)
	}
}

func given(x float64) Reading { return Reading{x, true} }

// Published examples. Values are the explanations beside them.
func TestRead_PublishedExamples(t *testing.T) {
	for _, c := range []struct {
		source, text string
		want         Report
		ceiling      Reading
	}{
		{
			"FAA Aeronautical Information Manual, figure 7-1-19, key to METAR",
			"METAR KPIT 091955Z COR 22015G25KT 3/4SM R28L/2600FT TSRA OVC010CB 18/16 A2992 RMK SLP045 T01820159",
			Report{
				Station: "KPIT", Time: Time{9, 19, 55}, Corrected: true,
				Wind:       Wind{Given: true, From: 220, Kt: 15, GustKt: 25},
				Visibility: Visibility{Metres: 0.75 * 1609.344, Given: true},
				Kept:       []string{"R28L/2600FT"}, Weather: []string{"TSRA"},
				Clouds:       []Cloud{{"OVC", given(1000), "CB"}},
				TemperatureC: given(18), DewPointC: given(16), QNHhPa: given(1013.2),
				Remarks: "SLP045 T01820159",
			}, given(1000),
		},
		{
			"ICAO Annex 3, appendix 3, example A3-1, from memory",
			"METAR YUDO 221630Z 24004MPS 0600 R12/1000U DZ FG SCT010 OVC020 17/16 Q1018 BECMG TL1700 0800 FG BECMG AT1800 9999 NSW",
			Report{
				Station: "YUDO", Time: Time{22, 16, 30},
				Wind:       Wind{Given: true, From: 240, Kt: 4 * 3600 / 1852.0},
				Visibility: Visibility{Metres: 600, Given: true},
				Kept:       []string{"R12/1000U"}, Weather: []string{"DZ", "FG"},
				Clouds:       []Cloud{{"SCT", given(1000), ""}, {"OVC", given(2000), ""}},
				TemperatureC: given(17), DewPointC: given(16), QNHhPa: given(1018),
				Trend: "BECMG TL1700 0800 FG BECMG AT1800 9999 NSW",
			}, given(2000),
		},
		{
			"ICAO Annex 3, appendix 3, example A3-2, from memory",
			"SPECI YUDO 151115Z 05025G37KT 3000 1200NE +TSRA BKN005CB 25/22 Q1008 TEMPO TL1200 0600 BECMG AT1200 8000 NSW NSC",
			Report{
				Special: true, Station: "YUDO", Time: Time{15, 11, 15},
				Wind:       Wind{Given: true, From: 50, Kt: 25, GustKt: 37},
				Visibility: Visibility{Metres: 3000, Given: true},
				Kept:       []string{"1200NE"}, Weather: []string{"+TSRA"},
				Clouds:       []Cloud{{"BKN", given(500), "CB"}},
				TemperatureC: given(25), DewPointC: given(22), QNHhPa: given(1008),
				Trend: "TEMPO TL1200 0600 BECMG AT1200 8000 NSW NSC",
			}, given(500),
		},
		{
			"dixwx.com, weather decoding: wind varying from 280 to 340",
			"KABQ 100156Z 32010KT 280V340 10SM TS FEW033 BKN075CB OVC100 19/14 A2999 RMK AO2",
			Report{
				Station: "KABQ", Time: Time{10, 1, 56},
				Wind:       Wind{Given: true, From: 320, Kt: 10, Spread: true, Least: 280, Most: 340},
				Visibility: Visibility{Metres: 16093.44, Given: true}, Weather: []string{"TS"},
				Clouds:       []Cloud{{"FEW", given(3300), ""}, {"BKN", given(7500), "CB"}, {"OVC", given(10000), ""}},
				TemperatureC: given(19), DewPointC: given(14), QNHhPa: given(1015.6), Remarks: "AO2",
			}, given(7500),
		},
		{
			"dixwx.com, weather decoding: dew point below zero, automatic",
			"KMEM 230853Z AUTO 18014G18KT 10SM CLR 16/M02 A3008 RMK AO2 SLP117 T01561022 TSNO $",
			Report{
				Station: "KMEM", Time: Time{23, 8, 53}, Automatic: true,
				Wind:         Wind{Given: true, From: 180, Kt: 14, GustKt: 18},
				Visibility:   Visibility{Metres: 16093.44, Given: true},
				TemperatureC: given(16), DewPointC: given(-2), QNHhPa: given(1018.6), Remarks: "AO2 SLP117 T01561022 TSNO $",
			}, Reading{},
		},
		{
			"dixwx.com, weather decoding: one and three quarters of a mile",
			"KGTF 170322Z 33014KT 1 3/4SM -SN BR OVC005 A2991 RMK AO2 RAE17SNB17 P0004",
			Report{
				Station: "KGTF", Time: Time{17, 3, 22},
				Wind:       Wind{Given: true, From: 330, Kt: 14},
				Visibility: Visibility{Metres: 1.75 * 1609.344, Given: true}, Weather: []string{"-SN", "BR"},
				Clouds: []Cloud{{"OVC", given(500), ""}},
				QNHhPa: given(1012.9), Remarks: "AO2 RAE17SNB17 P0004",
				Problems: []Problem{{0, "", "no temperature and dew point: expected a group like 17/M02"}},
			}, given(500),
		},
		{
			"dixwx.com, weather decoding: calm",
			"SVVA 171100Z 00000KT 9999 FEW016 BKN250 21/19 Q1013 NOSIG",
			Report{
				Station: "SVVA", Time: Time{17, 11, 0},
				Wind:         Wind{Given: true},
				Visibility:   Visibility{Metres: 10000, Given: true, OrMore: true},
				Clouds:       []Cloud{{"FEW", given(1600), ""}, {"BKN", given(25000), ""}},
				TemperatureC: given(21), DewPointC: given(19), QNHhPa: given(1013), Trend: "NOSIG",
			}, given(25000),
		},
	} {
		t.Run(c.source, func(t *testing.T) { same(t, Read(c.text), c.want, c.text, c.ceiling) })
	}
}

// same compares reports; pressures to a tenth of a hectopascal.
func same(t *testing.T, got, want Report, text string, ceiling Reading) {
	t.Helper()
	if got.Text != text {
		t.Errorf("text %q", got.Text)
	}
	if got.Station != want.Station || got.Time != want.Time || got.Special != want.Special || got.Automatic != want.Automatic || got.Corrected != want.Corrected {
		t.Errorf("head: %+v", got)
	}
	near(t, "wind", got.Wind.Kt, want.Wind.Kt, 1e-9)
	got.Wind.Kt = want.Wind.Kt
	if got.Wind != want.Wind {
		t.Errorf("wind: %+v, not %+v", got.Wind, want.Wind)
	}
	if got.Visibility != want.Visibility {
		t.Errorf("visibility: %+v, not %+v", got.Visibility, want.Visibility)
	}
	if !slices.Equal(got.Weather, want.Weather) || !slices.Equal(got.Clouds, want.Clouds) || !slices.Equal(got.Kept, want.Kept) {
		t.Errorf("weather %v, clouds %v, kept %v", got.Weather, got.Clouds, got.Kept)
	}
	near(t, "QNH", got.QNHhPa.Value, want.QNHhPa.Value, 0.05)
	if got.TemperatureC != want.TemperatureC || got.DewPointC != want.DewPointC || !got.QNHhPa.Given {
		t.Errorf("temperature %v, dew point %v", got.TemperatureC, got.DewPointC)
	}
	if got.Trend != want.Trend || got.Remarks != want.Remarks || len(got.Unknown) > 0 || !slices.Equal(got.Problems, want.Problems) {
		t.Errorf("trend %q, remarks %q, unknown %q, problems %v", got.Trend, got.Remarks, got.Unknown, got.Problems)
	}
	if got.CeilingFt() != ceiling {
		t.Errorf("ceiling %v", got.CeilingFt())
	}
}

// with puts a group in the place of one of an invented report without faults.
func with(old, group string) Report {
	const sound = "METAR QSKE 221630Z 24015KT 9999 FEW020 17/16 Q1018"
	return Read(strings.Replace(sound, old, group, 1))
}

func TestRead_Winds(t *testing.T) {
	perMPS, perKMH := 3600/1852.0, 1000/1852.0
	for _, c := range []struct {
		group string
		want  Wind
	}{
		{"VRB03KT", Wind{Given: true, Variable: true, Kt: 3}},
		{"36010KT", Wind{Given: true, From: 0, Kt: 10}},
		{"24010G15MPS", Wind{Given: true, From: 240, Kt: 10 * perMPS, GustKt: 15 * perMPS}},
		{"24036KMH", Wind{Given: true, From: 240, Kt: 36 * perKMH}},
		{"240P99KT", Wind{Given: true, From: 240, Kt: 100, OrMore: true}},
		{"24090GP99KT", Wind{Given: true, From: 240, Kt: 90, GustKt: 100, OrMore: true}},
		{"240P49MPS", Wind{Given: true, From: 240, Kt: 50 * perMPS, OrMore: true}},
		{"240120KT", Wind{Given: true, From: 240, Kt: 120}},
		{"///10KT", Wind{Given: true, Variable: true, Kt: 10}},
		{"00000KT", Wind{Given: true}},
		{"/////KT", Wind{}},
	} {
		r := with("24015KT", c.group)
		if r.Wind != c.want || len(r.Problems) > 0 {
			t.Errorf("%s: %+v, %v", c.group, r.Wind, r.Problems)
		}
	}
}

func TestRead_Visibilities(t *testing.T) {
	for _, c := range []struct {
		group string
		want  Visibility
	}{
		{"0000", Visibility{Metres: 50, Given: true, OrLess: true}},
		{"0350NDV", Visibility{Metres: 350, Given: true, NoSides: true}},
		{"M1/4SM", Visibility{Metres: 402.336, Given: true, OrLess: true}},
		{"P6SM", Visibility{Metres: 6 * 1609.344, Given: true, OrMore: true}},
		{"2 1/2SM", Visibility{Metres: 2.5 * 1609.344, Given: true}},
		{"11/2SM", Visibility{Metres: 5.5 * 1609.344, Given: true}},
		{"////", Visibility{}},
	} {
		if r := with("9999", c.group); r.Visibility != c.want || len(r.Problems) > 0 {
			t.Errorf("%s: %+v, %v", c.group, r.Visibility, r.Problems)
		}
	}
	r := with("9999 FEW020", "CAVOK")
	if !r.CAVOK || r.Visibility != (Visibility{Metres: 10000, Given: true, OrMore: true}) || len(r.Problems) > 0 {
		t.Errorf("%+v", r)
	}
}

// A station that cannot tell the amount of a layer gives /// for it (WMO-No. 306,
// 15.9): it may be more than half the sky, and is no temperature.
func TestRead_ALayerOfUnknownAmountCounts(t *testing.T) {
	r := with("FEW020", "///002")
	if r.CeilingFt() != given(200) || r.TemperatureC != given(17) || r.DewPointC != given(16) {
		t.Errorf("ceiling %v, %v, %v", r.CeilingFt(), r.TemperatureC, r.DewPointC)
	}
	if with("FEW020", "SCT001").CeilingFt() != (Reading{}) || with("FEW020", "//////").CeilingFt() != (Reading{}) {
		t.Error("a ceiling without a layer that may be one")
	}
}

func TestRead_CloudsTemperaturesPressures(t *testing.T) {
	for _, c := range []struct {
		group string
		want  []Cloud
	}{
		{"VV002", []Cloud{{"VV", given(200), ""}}},
		{"VV///", []Cloud{{"VV", Reading{}, ""}}},
		{"BKN///", []Cloud{{"BKN", Reading{}, ""}}},
		{"//////CB", []Cloud{{"", Reading{}, "CB"}}},
		{"///002", []Cloud{{"", given(200), ""}}},
		{"///015///", []Cloud{{"", given(1500), ""}}},
		{"SCT030TCU", []Cloud{{"SCT", given(3000), "TCU"}}},
		{"NSC", nil},
		{"NCD", nil},
		{"SKC", nil},
	} {
		if r := with("FEW020", c.group); !slices.Equal(r.Clouds, c.want) || len(r.Problems) > 0 {
			t.Errorf("%s: %+v, %v", c.group, r.Clouds, r.Problems)
		}
	}
	for _, c := range []struct {
		group    string
		air, dew Reading
	}{
		{"M05/M10", given(-5), given(-10)},
		{"M00/M01", given(0), given(-1)},
		{"18///", given(18), Reading{}},
		{"18/", given(18), Reading{}},
		{"/////", Reading{}, Reading{}},
	} {
		if r := with("17/16", c.group); r.TemperatureC != c.air || r.DewPointC != c.dew || len(r.Problems) > 0 {
			t.Errorf("%s: %v %v, %v", c.group, r.TemperatureC, r.DewPointC, r.Problems)
		}
	}
	// 29.92 inches of mercury are 1013.2 hPa (standard atmosphere).
	for _, c := range []struct {
		group string
		want  Reading
	}{{"Q0987", given(987)}, {"A2992", given(1013.21)}, {"Q1013 A2992", given(1013)}, {"Q////", Reading{}}} {
		r := with("Q1018", c.group)
		near(t, c.group, r.QNHhPa.Value, c.want.Value, 0.01)
		if r.QNHhPa.Given != c.want.Given || len(r.Problems) > 0 {
			t.Errorf("%s: %v, %v", c.group, r.QNHhPa, r.Problems)
		}
	}
}

func TestRead_KeepsFurtherGroups(t *testing.T) {
	r := with("Q1018", "Q1018 RERA WS R24 WS ALL RWY W12/S4 R24/010060 R06L/CLRD70 R/SNOCLO 88290592")
	if got := strings.Join(r.RunwayStates, " "); got != "R24/010060 R06L/CLRD70 R/SNOCLO 88290592" {
		t.Errorf("runway states %s", got)
	}
	if got := strings.Join(r.Kept, ", "); got != "RERA, WS R24, WS ALL RWY, W12/S4" || len(r.Problems) > 0 {
		t.Errorf("kept %s, %v", got, r.Problems)
	}
	for _, w := range []string{"-SHRA", "+TSRAGR", "VCSH", "VCTS", "FZFG", "BLSN", "MIFG", "RASN", "+FC", "UP", "PL"} {
		if r := with("FEW020", w+" FEW020"); !slices.Equal(r.Weather, []string{w}) || len(r.Problems) > 0 {
			t.Errorf("%s: %v %v", w, r.Weather, r.Problems)
		}
	}
}

func TestRead_SaysWhatItCannotRead(t *testing.T) {
	for _, c := range []struct{ old, group, want string }{
		{"24015KT", "24O15KT", `group 4, "24O15KT": wind: expected three digits of direction or VRB`},
		{"24015KT", "400015KT", `group 4, "400015KT": wind: expected a direction of at most 360 degrees`},
		{"24015KT", "37015KT", `group 4, "37015KT": wind: expected a direction of at most 360 degrees`},
		{"24015KT", "240400KT", `group 4, "240400KT": wind: expected a wind of at most 199 kt`},
		{"24015KT", "24015G10KT", `group 4, "24015G10KT": the gust is not above the mean wind`},
		{"24015KT", "24015KT 250V300", `group 5, "250V300": the wind direction 240 is not between these`},
		{"24015KT", "24015KT 18V260", `group 5, "18V260": variation of the wind: expected two directions`},
		{"24015KT", "24015KT 24010KT", `group 5, "24010KT": a second wind`},
		{"221630Z", "321630Z", `group 3, "321630Z": time: expected day, hour and minute with Z`},
		{"221630Z", "1630Z", `group 3, "1630Z": time: expected day, hour and minute with Z`},
		{"9999", "1/0SM", `group 5, "1/0SM": visibility: expected four digits of metres`},
		{"9999", "12", `group 5, "12": visibility: expected four digits of metres`},
		{"FEW020", "FEW20", `group 6, "FEW20": cloud: expected FEW, SCT, BKN, OVC or VV, three digits`},
		{"17/16", "7/6", `group 7, "7/6": temperature and dew point: expected two digits each`},
		{"17/16", "M99/M99", `group 7, "M99/M99": temperature and dew point: expected an air temperature of -80 to 60`},
		{"17/16", "16/17", `group 7, "16/17": the dew point is above the temperature`},
		{"Q1018", "Q101", `group 8, "Q101": QNH: expected Q and four digits`},
		{"Q1018", "A1018", `group 8, "A1018": QNH: expected Q and four digits`},
		{"Q1018", "Q2018", `group 8, "Q2018": QNH: expected Q and four digits`},
		{"Q1018", "Q1018 A2992", `group 9, "A2992": it differs from the 1018 hPa`},
		{"Q1018", "Q1018 WS", `group 9, "WS": additional group: expected a runway after WS`},
		{"Q1018", "Q1018 HELLO", `group 9, "HELLO": no group of a report looks like this`},
		{"QSKE", "Q1", `group 2, "Q1": expected a station of four letters`},
		{"FEW020 17/16", "17/16 FEW020", `group 7, "FEW020": cloud stands after temperature`},
		{"24015KT", "", `no wind: expected a group like 24015KT`},
		{"Q1018", "", `no QNH: expected a group like Q1018 or A2992`},
		{"221630Z", "", `no time: expected a group like 221630Z`},
	} {
		r := with(c.old, c.group)
		if len(r.Problems) == 0 || !strings.HasPrefix(r.Problems[0].String(), c.want) {
			t.Errorf("%s: %v, not %s", c.group, r.Problems, c.want)
		}
		if c.old != "17/16" && !strings.Contains(c.old, "17/16") && r.TemperatureC != given(17) {
			t.Errorf("%s: the rest was not read", c.group)
		}
	}
	r := with("Q1018", "Q1018 HELLO")
	if !slices.Equal(r.Unknown, []string{"HELLO"}) {
		t.Errorf("unknown: %q", r.Unknown)
	}
}

func TestRead_EmptyNilAndMany(t *testing.T) {
	if r := Read(" \n"); len(r.Problems) != 1 || r.Problems[0].String() != "the report is empty" {
		t.Errorf("%v", r.Problems)
	}
	if r := Read("METAR QSKE 221630Z NIL="); !r.Missing || len(r.Problems) > 0 {
		t.Errorf("%+v", r)
	}
	text := "metar qske 221630z 24015kt 9999\n few020 17/16 q1018=\nQSVA 221630Z 00000KT CAVOK 10/05 Q1020\nQSLA 221700Z VRB02KT CAVOK 11/05 Q1021 SPECI COR QSGA 221701Z NIL"
	all := ReadAll(text)
	var stations []string
	for _, r := range all {
		stations = append(stations, r.Station)
		if len(r.Problems) > 0 {
			t.Errorf("%s: %v", r.Station, r.Problems)
		}
	}
	if got := strings.Join(stations, " "); got != "QSKE QSVA QSLA QSGA" {
		t.Errorf("stations %s", got)
	}
	if !all[3].Special || !all[3].Corrected || len(ReadAll("")) != 0 {
		t.Errorf("%+v", all[3])
	}
	r := Read(text)
	if r.Station != "QSKE" || len(r.Problems) != 1 || r.Problems[0].String() != `group 9, "QSVA": another report begins: expected one report` {
		t.Errorf("%v", r.Problems)
	}
}

func FuzzRead(f *testing.F) {
	f.Add("METAR YUDO 221630Z 24004MPS 0600 R12/1000U DZ FG SCT010 OVC020 17/16 Q1018 BECMG TL1700 0800 FG")
	f.Add("1 1 1/2SM WS WS ALL RMK = 88 M/ Q A/ ///KT")
	f.Fuzz(func(t *testing.T, text string) {
		for _, r := range ReadAll(text) {
			again := Read(r.Text)
			if len(again.Problems) != len(r.Problems) {
				t.Errorf("%q: %v, then %v", r.Text, r.Problems, again.Problems)
			}
			if c, ok := r.Wind.On(90); ok && !(c.TailKt >= 0 && c.CrossKt >= 0 && c.CrossKt <= 400) {
				t.Errorf("%q: %+v", r.Text, c)
			}
		}
	})
}

// Read reads one report. The code name, the equals sign at the end and line
// breaks are not needed; small letters are as good as capitals. It never fails:
// what could not be read is in Unknown, and Problems says why, in the order of
// the groups, then what is missing. Text after the first report is told there
// too.
func Read(text string) Report {
	all := split(text)
	if len(all) == 0 {
		return read(nil)
	}
	r := read(all[0])
	if len(all) > 1 {
		r.problem(len(all[0])+1, all[1][0], "another report begins: expected one report")
	}
	return r
}
