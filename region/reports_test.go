package region

import (
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/demo"
	"knockon/flight"
	"knockon/flight/geo"
	"knockon/flight/roll"
)

// fields are the airfields of the demonstration.
func fields(t *testing.T) *airfield.List {
	t.Helper()
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestRegion_TheGroundAsReported: pressure, temperature, wind and rain of the
// report, and the condition of the end; where nobody says, standard and dry.
func TestRegion_TheGroundAsReported(t *testing.T) {
	list := fields(t)
	a, _ := list.Find("QSVA")
	e := a.Runways[0].Ends[0] // 17
	std := flight.Air{DeviationC: 7}
	g, _ := New(list, "", "", "")
	if w := g.ground(a, e, 0, std); w.AltitudeFt != e.ElevationFt || w.Air != std || w.Code != 6 || w.HeadwindKt != 0 || g.surface("QSVA", e.Ident, w) != "code 6, taken as dry" {
		t.Errorf("no report: %+v, %s", w, g.surface("QSVA", e.Ident, w))
	}
	for _, c := range []struct {
		report, condition string
		code              roll.Code
		surface           string
		sign              float64
	}{
		{"METAR QSVA 250950Z 17020KT 9999 RA 09/04 Q0993=", "", 5, "code 5, taken as wet", 1},
		{"METAR QSVA 250950Z 35020KT 9999 VCSH 09/04 Q0993=", "", 6, "code 6, taken as dry", -1},
		{"METAR QSVA 250950Z 35020KT 9999 -SN 09/04 Q0993=", "QSVA,,wet 2 mm\n", 5, "code 5, wet 2 mm", -1},
		{"METAR QSVA 250950Z 35020KT 9999 09/04 Q0993=", "QSVA,17,5/5/3\n", 3, "code 3 of 5/5/3", -1},
		{"METAR QSVA 250950Z 35020KT 9999 09/04 Q0993=", "QSVA,,2/2/2\nQSVA,17,4/4/4\n", 4, "code 4", -1},
	} {
		g, told := New(list, c.report, c.condition, "")
		w := g.ground(a, e, 0, std)
		if len(told) > 0 || w.Code != c.code || g.surface("QSVA", e.Ident, w) != c.surface || w.HeadwindKt*c.sign < 18 || w.AltitudeFt < e.ElevationFt+400 || w.Air == std {
			t.Errorf("%s %s: %v %+v, %s", c.report, c.condition, told, w, g.surface("QSVA", e.Ident, w))
		}
	}
}

// TestWetting: rain and snow on the runway wet it, those in the vicinity do not.
func TestWetting(t *testing.T) {
	for group, want := range map[string]bool{"RA": true, "-DZ": true, "+TSRA": true, "SHSN": true, "VCSH": false, "VCRA": false, "FG": false, "BR": false} {
		if wetting([]string{group}) != want {
			t.Errorf("%s: %v", group, !want)
		}
	}
}

// TestReadLevel: the bounds themselves are taken.
func TestReadLevel(t *testing.T) {
	for line, want := range map[string]Aloft{
		"FL340 250/85":  {34000, geo.Wind{From: 250, Kt: 85}},
		"-1500 0/0":     {-1500, geo.Wind{}},
		"60000 360/300": {60000, geo.Wind{From: 360, Kt: 300}},
		"fl050 10/5":    {5000, geo.Wind{From: 10, Kt: 5}},
	} {
		if a, err := readLevel(line); err != nil || a != want {
			t.Errorf("%s: %+v, %v", line, a, err)
		}
	}
	for _, line := range []string{"60001 0/0", "-1501 0/0", "5000 361/1", "5000 -1/1", "5000 0/301", "5000 0/-1", "5000 10", "5000", "x 10/10", "5000 x/10", "5000 10/x", "5000 1/1 1"} {
		if a, err := readLevel(line); err == nil {
			t.Errorf("%s: %+v", line, a)
		}
	}
	g, _ := New(fields(t), "", "", "FL300 1/1\nFL100 2/2 # note\n\nFL200 3/3\nFL100 4/4")
	var order []float64
	for _, a := range g.Aloft {
		order = append(order, a.AltitudeFt+a.Wind.From)
	}
	if len(order) != 4 || order[0] != 10002 || order[1] != 10004 || order[2] != 20003 || order[3] != 30001 {
		t.Errorf("%v", order)
	}
}

// TestRegion_TwoReports: of two of one airfield the later counts, and it is told;
// names are found without regard to case.
func TestRegion_TwoReports(t *testing.T) {
	g, told := New(fields(t), "METAR QSVA 250950Z 17020KT 9999 09/04 Q0993=\nMETAR QSVA 251020Z 17020KT 9999 09/04 Q0999=", "", "")
	if len(told) != 1 || !strings.Contains(told[0], "report 2: a second report of QSVA") || g.Reports["QSVA"].QNHhPa.Value != 999 {
		t.Errorf("%v, %v", told, g.Reports["QSVA"].QNHhPa)
	}
	a, ok := g.Find("kestrin")
	b, _ := g.Find(a.Ident)
	if _, none := g.Find("nowhere"); !ok || a.Ident != b.Ident || none {
		t.Errorf("%v %s %s %v", ok, a.Ident, b.Ident, none)
	}
}
