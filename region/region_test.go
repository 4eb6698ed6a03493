package region

import (
	"math"
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/demo"
)

// TestRegion_BadInput: every line that cannot be used is told with its place, and
// the rest counts.
func TestRegion_BadInput(t *testing.T) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	g, told := New(list, "METAR QSKE 250950Z 21014KT 9999 FEW030 09/04 Q1009=\nMETAR XXXX 250950Z 21014KT 9999=",
		"\ufeffident,runway,condition\nQSVA,17,wet 2 mm\nQSVA,99,wet 2 mm\nNONE,17,wet\nQSVA,17\nQSVA,35,treacle\n", "FL340 250/85\nFL999 250/85\n5000 400/20\n10000 230/400\nupstairs\n-9000 10/10\n# a note\n")
	if len(g.Reports) != 1 || len(g.Conditions["QSVA"]) != 1 || len(g.Aloft) != 1 {
		t.Errorf("kept %d reports, %d conditions, %d levels", len(g.Reports), len(g.Conditions["QSVA"]), len(g.Aloft))
	}
	all := strings.Join(told, "\n")
	for _, part := range []string{
		`weather, report 2: no airfield "XXXX"`, `row 3: QSVA has no runway end "99"; it has 17, 35, 10, 28`, `row 4: no airfield "NONE"`, "row 5: 2 cells", "row 6:",
		"line 2:", "give -1,500 to 60,000", "line 3:", "give 0 to 360", "line 4:", "give 0 to 300", "line 5:", "write a level and a wind", "line 6:",
	} {
		if !strings.Contains(all, part) {
			t.Errorf("not told: %s\n%s", part, all)
		}
	}
}

// TestAlong_BetweenLevels: in proportion between two levels, the nearest beyond.
func TestAlong_BetweenLevels(t *testing.T) {
	levels := []Aloft{{AltitudeFt: 10000}, {AltitudeFt: 30000}}
	levels[0].Wind.From, levels[0].Wind.Kt = 0, 20
	levels[1].Wind.From, levels[1].Wind.Kt = 0, 60
	head := Along(levels, 0)
	for ft, want := range map[float64]float64{0: 20, 10000: 20, 15000: 30, 20000: 40, 30000: 60, 41000: 60} {
		if math.Abs(head(ft)-want) > 1e-9 {
			t.Errorf("at %v ft %v kt, want %v", ft, head(ft), want)
		}
	}
	if kt := Along(levels, 180)(20000); math.Abs(kt+40) > 1e-9 {
		t.Errorf("from behind %v kt", kt)
	}
	if kt := Along(nil, 90)(20000); kt != 0 {
		t.Errorf("no winds: %v kt", kt)
	}
}
