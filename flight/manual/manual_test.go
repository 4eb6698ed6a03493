package manual

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/flight"
	"knockon/internal/checks"
)

// numbersOf reads the blocks of a performance block. All numbers are invented.
func numbersOf(t testing.TB, tables string) *Numbers {
	t.Helper()
	text := "aircraft \"a\" { title = \"A\" }\nunit \"pump\" {}\nperformance \"manual\" {\n  source = \"invented\"\n" + tables + "\n}\n"
	b, problems := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if b == nil {
		t.Fatalf("%v", problems)
	}
	build, _ := b.Build("")
	return New(build)
}

// table makes a table of one kind.
func table(t testing.TB, kind, columns, rows string) *Table {
	t.Helper()
	n := numbersOf(t, fmt.Sprintf("%s {\n columns = [%s]\n rows = [%s]\n}", kind, columns, rows))
	for _, only := range n.tables {
		return only
	}
	return nil
}

// even are rows that do not change, so that a flight along them can be worked out
// on paper. The highest and the lowest row bound what the manual says.
const even = `
climb {
  columns = ["altitude_ft", "mass_kg", "true_airspeed_kt", "fuel_kg_per_h", "climb_ft_per_min"]
  rows    = [[0, 20000, 300, 3000, 2000], [0, 60000, 300, 3000, 2000], [40000, 20000, 300, 3000, 2000], [40000, 60000, 300, 3000, 2000]]
}
cruise {
  columns = ["altitude_ft", "mass_kg", "true_airspeed_kt", "fuel_kg_per_h"]
  rows    = [[0, 20000, 420, 2400], [0, 60000, 420, 2400], [40000, 20000, 420, 2400], [40000, 60000, 420, 2400]]
}
descent {
  columns = ["altitude_ft", "true_airspeed_kt", "fuel_kg_per_h", "descent_ft_per_min"]
  rows    = [[0, 360, 600, 1500], [40000, 360, 600, 1500]]
}
holding {
  columns = ["altitude_ft", "mass_kg", "true_airspeed_kt", "fuel_kg_per_h"]
  rows    = [[1000, 40000, 220, 1800], [2000, 40000, 220, 2000], [1000, 60000, 220, 2600], [2000, 60000, 220, 2800]]
}
approach {
  columns = ["true_airspeed_kt", "fuel_kg_per_h"]
  rows    = [[140, 1500]]
}
engine_out {
  columns = ["mass_kg", "true_airspeed_kt", "fuel_kg_per_h", "ceiling_ft"]
  rows    = [[20000, 300, 1900, 25000], [60000, 300, 1900, 15000]]
}
glide {
  columns = ["height_ft", "true_airspeed_kt", "distance_nm"]
  rows    = [[10000, 300, 25], [20000, 300, 50], [30000, 300, 75]]
}
landing "full" {
  columns = ["code", "mass_kg", "distance_m"]
  rows    = [[6, 40000, 1200], [6, 60000, 1600], [5, 40000, 1500], [5, 60000, 2000]]
}
landing "half" {
  columns = ["code", "altitude_ft", "mass_kg", "headwind_kt", "distance_m"]
  rows = [
    [6, 0, 50000, -10, 1800], [6, 0, 50000, 0, 1500], [6, 0, 50000, 20, 1200],
    [6, 4000, 50000, -10, 2000], [6, 4000, 50000, 0, 1700],
  ]
}
`

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.6g, want %.6g", what, got, want)
	}
}

var high = State{TimeS: 1000, DistanceM: 50e3, AltitudeFt: 10000, MassKg: 50000, FuelKg: 5000}

// The arithmetic of a flight of 300 NM from 10,000 ft over a cruise at 30,000 ft:
//
//	climb     20,000 ft at 2,000 ft/min  10 min       50 NM at 300 kt       500 kg
//	descent   28,500 ft at 1,500 ft/min  19 min      114 NM at 360 kt       190 kg
//	approach  1,500 ft / tan 3 degrees   8,723.9 m = 4.7105 NM at 140 kt: 121.13 s, 50.47 kg
//	cruise    300 - 50 - 114 - 4.7105 = 131.2895 NM at 420 kt: 1,125.34 s, 750.23 kg
//	together  600 + 1,140 + 121.13 + 1,125.34 = 2,986.47 s; 1,490.70 kg
func TestDivert_OnPaper(t *testing.T) {
	n := numbersOf(t, even)
	p := Divert(n, Intact(), high, Plan{DistanceM: 300 * 1852, CruiseFt: 30000})
	if p.End != Arrived {
		t.Fatalf("it ends %s: %v", p.End, p.Err)
	}
	near(t, "the time", p.Last().TimeS-1000, 2986.47, 0.01)
	near(t, "the fuel", 5000-p.Last().FuelKg, 1490.70, 0.01)
	near(t, "the mass", p.Last().MassKg, 50000-1490.70, 0.01)
	near(t, "the way", p.Last().DistanceM, 50e3+300*1852, 0.01)
	near(t, "the height", p.Last().AltitudeFt, 0, 1e-9)
}

// A headwind of 60 kt leaves 240, 300, 360 and 80 kt over the ground: the climb is
// 40 NM, the descent 95 NM, the approach 4.7105 NM at 80 kt 211.97 s, the cruise
// 160.2895 NM at 360 kt 1,602.895 s: 3,554.87 s, fuel 500 + 190 + 88.32 + 1,068.60.
func TestDivert_AgainstTheWind(t *testing.T) {
	n := numbersOf(t, even)
	p := Divert(n, Intact(), high, Plan{DistanceM: 300 * 1852, CruiseFt: 30000, Wind: func(float64) float64 { return 60 }})
	near(t, "the time", p.Last().TimeS-1000, 3554.87, 0.01)
	near(t, "the fuel", 5000-p.Last().FuelKg, 1846.92, 0.01)
	p = Divert(n, Intact(), high, Plan{DistanceM: 300 * 1852, CruiseFt: 30000, Wind: func(float64) float64 { return 145 }})
	if p.End != NoWay {
		t.Errorf("against 145 kt with an approach at 140 kt it ends %s", p.End)
	}
}

// With the rate of climb falling from 3,000 ft/min at the ground to 1,000 at
// 30,000 ft, dh/dt = 3000 - h/15, so that 15,000 ft take 15 ln(3000/2000) = 6.0820 min.
func TestDivert_RateThatFalls(t *testing.T) {
	n := numbersOf(t, strings.Replace(even, "[[0, 20000, 300, 3000, 2000], [0, 60000, 300, 3000, 2000], [40000, 20000, 300, 3000, 2000], [40000, 60000, 300, 3000, 2000]]",
		"[[0, 20000, 300, 3000, 3000], [0, 60000, 300, 3000, 3000], [30000, 20000, 300, 3000, 1000], [30000, 60000, 300, 3000, 1000]]", 1))
	from := high
	from.AltitudeFt = 0
	p := Divert(n, Intact(), from, Plan{DistanceM: 300 * 1852, CruiseFt: 15000})
	for _, x := range p.pieces {
		if x.to.AltitudeFt == 15000 {
			near(t, "the climb", (x.to.TimeS-1000)/60, 15*math.Log(1.5), 0.002) // 0.1 s
			return
		}
	}
	t.Errorf("it never reaches 15,000 ft: %s", p.End)
}

// With one engine the ceiling at 50,000 kg is 25,000 - 10,000 · 30/40 = 17,500 ft;
// by drift-down from 30,000 ft along the rows of the descent that takes 500 s. There
// are no rows to climb with one engine: from 10,000 ft it stays there.
func TestDivert_OneEngine(t *testing.T) {
	n := numbersOf(t, even)
	one := Intact()
	one.Left = 0
	from := high
	from.AltitudeFt = 30000
	p := Divert(n, one, from, Plan{DistanceM: 400 * 1852, CruiseFt: 30000})
	ft, err := n.CeilingFt(50000)
	near(t, "the ceiling", ft, 17500, 1e-9)
	if p.End != Arrived || err != nil {
		t.Fatalf("%s: %v, %v", p.End, p.Err, err)
	}
	for i, x := range p.pieces {
		if x.to.AltitudeFt > p.pieces[max(i-1, 0)].to.AltitudeFt+2 {
			t.Fatal("it climbs")
		}
	}
	near(t, "the level after the drift-down", levelOf(p), 17500, 25) // the mass has fallen by 83 kg meanwhile
	p = Divert(n, one, high, Plan{DistanceM: 400 * 1852, CruiseFt: 30000})
	near(t, "the level without rows to climb by", levelOf(p), 10000, 1e-9)
	near(t, "the flow there", levelFlow(p), 1900, 0.01)
	one.Right = 0.5
	if p = Divert(n, one, high, Plan{DistanceM: 400 * 1852, CruiseFt: 30000}); p.End != Unsaid || !IsOutside(p.Err) {
		t.Errorf("with a quarter of the thrust it ends %s: %v", p.End, p.Err)
	}
}

// levelOf is the altitude of the first level stretch, levelFlow its fuel flow.
func levelOf(p *Profile) float64 { return level(p).to.AltitudeFt }

func levelFlow(p *Profile) float64 {
	x := level(p)
	return (x.from.FuelKg - x.to.FuelKg) / x.seconds() * 3600
}

func level(p *Profile) (x piece) {
	for _, x = range p.pieces {
		if x.from.AltitudeFt == x.to.AltitudeFt {
			return x
		}
	}
	return piece{}
}

// From 30,000 ft the glide goes 75 NM in 900 s at 300 kt; against 60 kt of wind 15 NM
// less.
func TestDivert_Glide(t *testing.T) {
	n := numbersOf(t, even)
	none := Intact()
	none.Left, none.Right = 0, 0
	from := high
	from.AltitudeFt = 30000
	wind := func(float64) float64 { return 60 }
	for _, c := range []struct {
		nm   float64
		wind func(float64) float64
		end  Ending
	}{{74.99, nil, Arrived}, {75.01, nil, Short}, {59.99, wind, Arrived}, {60.01, wind, Short}, {10, nil, Arrived}} {
		p := Divert(n, none, from, Plan{DistanceM: c.nm * 1852, CruiseFt: 30000, Wind: c.wind})
		if p.End != c.end {
			t.Errorf("%g NM: it ends %s: %v", c.nm, p.End, p.Err)
		}
		near(t, "the time of the glide", p.Last().TimeS-1000, 900, 1e-6)
		near(t, "its fuel", p.Last().FuelKg, 5000, 1e-9)
	}
	for _, c := range [][2]float64{{25000, 62.5}, {5000, 12.5}, {0, 0}} {
		nm, err := n.ReachNM(c[0])
		near(t, fmt.Sprintf("the reach from %g ft (%v)", c[0], err), nm, c[1], 1e-9)
	}
	if _, err := n.ReachNM(30001); !IsOutside(err) {
		t.Errorf("above the rows the reach is said: %v", err)
	}
}

// Factors and limits: with fuel_ratio 2 twice the fuel in the same time; with
// 10,000 ft left the cruise is there; with 200 kt left it is slower, the flow of the
// row stays.
func TestDivert_Systems(t *testing.T) {
	n := numbersOf(t, even)
	plan := Plan{DistanceM: 300 * 1852, CruiseFt: 30000}
	ok := Divert(n, Intact(), high, plan)
	twice := Intact()
	twice.FuelRatio = 2
	p := Divert(n, twice, high, plan)
	near(t, "the fuel with ratio 2", 5000-p.Last().FuelKg, 2*(5000-ok.Last().FuelKg), 1e-6)
	near(t, "its time", p.Last().TimeS, ok.Last().TimeS, 1e-6)
	low := Intact()
	low.MostFt = 8000
	p = Divert(n, low, high, plan)
	near(t, "the level that is left", levelOf(p), 8000, 1e-9)
	slow := Intact()
	slow.MostKt = 200
	p = Divert(n, slow, high, plan)
	near(t, "the flow of the row", levelFlow(p), 2400, 1e-6)
	x := level(p)
	near(t, "the speed that is left", x.overGroundKt(), flight.Air{}.TASOfCAS(200, 30000), 1e-6)
	leak := Intact()
	leak.LeakKgPerH = 3600
	p = Divert(n, leak, high, plan)
	near(t, "the fuel with a leak of 1 kg/s", 5000-p.Last().FuelKg, 1490.70+2986.47, 0.02)
	leak.LeakKgPerH = 7200
	if p = Divert(n, leak, high, plan); p.End != Dry || p.Last().FuelKg != 0 {
		t.Errorf("with a leak of 2 kg/s it ends %s with %g kg", p.End, p.Last().FuelKg)
	}
}

// A way that is too short is lengthened to what the descent takes: 14 min 10 s and
// the approach.
func TestDivert_TooHighAbove(t *testing.T) {
	from := high
	from.AltitudeFt = 23000
	p := Divert(numbersOf(t, even), Intact(), from, Plan{DistanceM: 20 * 1852, CruiseFt: 30000})
	near(t, "the time", p.Last().TimeS-1000, 21500.0/1500*60+121.13, 0.01)
	near(t, "the way", (p.AimM-50e3)/1852, 21500.0/1500/60*360+4.7105, 0.001)
}

// Leaving changes nothing before, and the rest is as from there.
func TestLeave(t *testing.T) {
	n := numbersOf(t, even)
	plan := Plan{DistanceM: 300 * 1852, CruiseFt: 30000}
	whole := Divert(n, Intact(), high, plan)
	low := Intact()
	low.MostFt = 8000
	for _, at := range []float64{1001, 1300, 1600, 1700, 2500, 3000, 3900, 3970} {
		if same := whole.Leave(n, Intact(), at); math.Abs(same.Last().TimeS-whole.Last().TimeS) > 1e-3 || math.Abs(same.Last().FuelKg-whole.Last().FuelKg) > 1e-3 {
			t.Errorf("left at %g s with nothing changed it ends at %+v, not %+v", at, same.Last(), whole.Last())
		}
		p := whole.Leave(n, low, at)
		for i, x := range p.pieces {
			if x.to.TimeS <= at && x != whole.pieces[i] && x.to.TimeS < at {
				t.Errorf("left at %g s it was another at %g s", at, x.to.TimeS)
			}
			if i > 0 && math.Abs(x.from.DistanceM-p.pieces[i-1].to.DistanceM) > 1e-6 {
				t.Errorf("left at %g s it jumps at %g s", at, x.from.TimeS)
			}
		}
		if p.End != Arrived {
			t.Errorf("left at %g s it ends %s: %v", at, p.End, p.Err)
		}
	}
}

// Every way out of the rows is an answer of its own and names the line.
func TestOutside(t *testing.T) {
	n := numbersOf(t, even)
	plan := Plan{DistanceM: 300 * 1852, CruiseFt: 30000}
	heavy, far := high, plan
	heavy.MassKg = 60000.5
	far.CruiseFt = 41000
	for what, p := range map[string]*Profile{"a heavy aircraft": Divert(n, Intact(), heavy, plan), "a level above": Divert(n, Intact(), high, far)} {
		if p.End != Unsaid || !IsOutside(p.Err) || !strings.Contains(p.Err.Error(), "not in the manual's numbers: ") || !strings.Contains(p.Err.Error(), "(book.hcl:") {
			t.Errorf("%s: it ends %s: %v", what, p.End, p.Err)
		}
	}
	for _, c := range []struct {
		setting string
		at      At
		metres  float64
		says    string
	}{
		{"", At{Code: 6, MassKg: 50000}, 1400, ""},
		{"full", At{Code: 5, MassKg: 45000, HeadwindKt: 12, AltitudeFt: 1000}, 1625, ""}, // no credit for the headwind
		{"half", At{Code: 6, MassKg: 50000, HeadwindKt: -4}, 1620, ""},
		{"half", At{Code: 6, MassKg: 50000, HeadwindKt: -5, AltitudeFt: 1000}, 1700, ""}, // 1650 and 1850, a quarter of the way
		{"full", At{Code: 4, MassKg: 50000}, 0, "landing full: condition code 4, and there are rows for condition code 5 and condition code 6"},
		{"full", At{Code: 6, MassKg: 39000}, 0, "landing full, condition code 6: 39,000 kg, and the rows go from 40,000 kg to 60,000 kg"},
		{"full", At{Code: 6, MassKg: 50000, HeadwindKt: -1}, 0, "landing full: tailwind 1 kt; its rows have no headwind_kt"},
		{"full", At{Code: 6, MassKg: 50000, AltitudeFt: 1001}, 0, "landing full: the runway lies at a pressure altitude of 1,001 ft, above the 1,000 ft up to which they are read; its rows have no altitude_ft"},
		{"half", At{Code: 6, MassKg: 50000, AltitudeFt: 2000, HeadwindKt: 15}, 0, "headwind 15 kt, and the rows go from tailwind 10 kt to headwind 0 kt"},
		{"half", At{Code: 6, MassKg: 50001}, 0, "50,001 kg, and there are rows for 50,000 kg"},
		{"none", At{Code: 6, MassKg: 50000}, 0, "a landing needs a table of landing with setting none"},
	} {
		m, err := n.LandingM(c.setting, c.at)
		switch {
		case c.says == "" && (err != nil || math.Abs(m-c.metres) > 1e-9):
			t.Errorf("%s %+v: %g m, %v; want %g m", c.setting, c.at, m, err, c.metres)
		case c.says != "" && (err == nil || m != 0 || !IsOutside(err) || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%s %+v: %g m, %v; want %s", c.setting, c.at, m, err, c.says)
		}
	}
}

func TestHolding(t *testing.T) {
	n := numbersOf(t, even)
	kg, err := n.Holding(50000) // 1,900 and 2,700 at 1,500 ft, half way
	near(t, fmt.Sprintf("the flow (%v)", err), kg, 2300, 1e-9)
	if _, err := numbersOf(t, `glide {
columns = ["height_ft", "mach", "distance_nm"]
rows = [[10000, 0.5, 25]]
}`).Holding(50000); err == nil || !strings.Contains(err.Error(), "the final reserve needs a table of holding") {
		t.Errorf("without a table: %v", err)
	}
}

func TestManual_ValuesFromOutside(t *testing.T) {
	checks.Run(t, "manual", map[string]checks.How{"between two rows": func(v checks.Value) any {
		n := v.Numbers()
		at := table(t, "climb", `"altitude_ft", "airspeed_kt", "fuel_kg_per_h", "climb_ft_per_min"`,
			fmt.Sprintf("[%g, 250, %g, 100], [%g, 250, %g, 100]", n[0], n[1], n[2], n[3]))
		got, err := at.Read(At{AltitudeFt: n[4]})
		if err != nil {
			return err.Error()
		}
		flow, _ := at.Get(&got, "fuel_kg_per_h")
		return flow
	}})
}

// slowly reads a table as one would with a finger: of all rows that agree in the
// keys before, the nearest at or below and the nearest at or above.
func slowly(t *book.Table, rows []book.Row, at At, keys []string, column int) (v float64, ok bool) {
	if len(keys) == 0 {
		return rows[0].Values[column], len(rows) == 1
	}
	k, x := t.Column(keys[0]), at.of(keys[0])
	below, above := math.Inf(-1), math.Inf(1)
	for _, r := range rows {
		if r.Values[k] <= x {
			below = max(below, r.Values[k])
		}
		if r.Values[k] >= x {
			above = min(above, r.Values[k])
		}
	}
	if math.IsInf(below, 0) || math.IsInf(above, 0) || keys[0] == "code" && below != above {
		return 0, false
	}
	with := func(want float64) (v float64, ok bool) {
		var list []book.Row
		for _, r := range rows {
			if r.Values[k] == want {
				list = append(list, r)
			}
		}
		return slowly(t, list, at, keys[1:], column)
	}
	low, ok1 := with(below)
	high, ok2 := with(above)
	if below == above {
		return low, ok1
	}
	return low + (high-low)*(x-below)/(above-below), ok1 && ok2
}

func TestRead_RandomTables(t *testing.T) {
	inside, outside := 0, 0
	for seed := range uint64(400) {
		chance := rand.New(rand.NewPCG(seed, 10))
		from := &book.Table{Kind: "landing", Setting: "full", Columns: []string{"distance_m", "code", "mass_kg", "altitude_ft", "headwind_kt"}}
		for code := range 3 {
			for range 1 + chance.IntN(3) {
				ft := float64(chance.IntN(5) * 1000)
				for range 1 + chance.IntN(3) {
					kg := float64(20+chance.IntN(5)) * 1000
					for range 1 + chance.IntN(3) {
						from.Rows = append(from.Rows, book.Row{Values: []float64{float64(1000 + chance.IntN(1000)), float64(code), kg, ft, float64(chance.IntN(4) * 10)}})
					}
				}
			}
		}
		from.Rows = onlyOnce(from.Rows)
		fast := newTable(from)
		chance.Shuffle(len(from.Rows), func(i, j int) { from.Rows[i], from.Rows[j] = from.Rows[j], from.Rows[i] })
		shuffled := newTable(from)
		for range 50 {
			at := At{Code: float64(chance.IntN(4)), AltitudeFt: float64(chance.IntN(9) * 500), MassKg: float64(20+chance.IntN(6)) * 1000, HeadwindKt: float64(chance.IntN(8) * 5)}
			want, ok := slowly(from, from.Rows, at, from.KeysOf(), 0)
			v, err := fast.Read(at)
			w, again := shuffled.Read(at)
			if (err == nil) != ok || ok && math.Abs(v[0]-want) > 1e-9 {
				t.Fatalf("seed %d, %+v: %g, %v; by hand %g, %v", seed, at, v[0], err, want, ok)
			}
			if v != w || (again == nil) != ok {
				t.Fatalf("seed %d, %+v: the order of the rows matters: %g and %g", seed, at, v[0], w[0])
			}
			if outside++; ok {
				inside, outside = inside+1, outside-1
			}
		}
		for _, r := range from.Rows {
			v, err := fast.Read(At{Code: r.Values[1], MassKg: r.Values[2], AltitudeFt: r.Values[3], HeadwindKt: r.Values[4]})
			if err != nil || v[0] != r.Values[0] {
				t.Fatalf("seed %d: at a row it is %g, %v, not %g", seed, v[0], err, r.Values[0])
			}
		}
	}
	if inside < 500 || outside < 500 {
		t.Errorf("only %d places inside and %d outside were looked at", inside, outside)
	}
}

func onlyOnce(rows []book.Row) (list []book.Row) {
	seen := map[[4]float64]bool{}
	for _, r := range rows {
		if key := [4]float64(r.Values[1:]); !seen[key] {
			seen[key] = true
			list = append(list, r)
		}
	}
	return list
}

func TestCombine(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	f := []*book.Factor{{LandingRatio: 1.4, FuelRatio: 1, AddsM: 100}, {LandingRatio: 1.2, FuelRatio: 1.5, AddsM: 50}}
	for how, want := range map[string]Factors{"product": {1.68, 1.5, 150}, "greatest": {1.4, 1.5, 100}, "sum": {1.6, 1.5, 150}} {
		got := Combine(how, f)
		near(t, how, got.Landing, want.Landing, 1e-12)
		near(t, how+" of fuel", got.Fuel, want.Fuel, 1e-12)
		near(t, how+" of metres", got.AddsM, want.AddsM, 1e-12)
		if none := Combine(how, nil); none != (Factors{1, 1, 0}) {
			t.Errorf("%s of nothing is %+v", how, none)
		}
	}
	for range 500 {
		var list []*book.Factor
		for range 1 + chance.IntN(4) {
			list = append(list, &book.Factor{LandingRatio: 1 + chance.Float64(), FuelRatio: 1 + chance.Float64(), AddsM: 300 * chance.Float64()})
		}
		by := map[string]Factors{}
		for _, how := range book.Combines {
			by[how] = Combine(how, list)
			chance.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
			if again := Combine(how, list); math.Abs(again.Landing-by[how].Landing) > 1e-9 || math.Abs(again.AddsM-by[how].AddsM) > 1e-9 {
				t.Fatalf("%s: the order of the factors matters", how)
			}
			if more := Combine(how, list, 1.3); more.Landing < by[how].Landing-1e-12 {
				t.Fatalf("%s: one more factor makes it shorter", how)
			}
		}
		if p, g, s := by["product"], by["greatest"], by["sum"]; p.Landing < s.Landing-1e-9 || s.Landing < g.Landing-1e-9 || p.Fuel < s.Fuel-1e-9 || s.Fuel < g.Fuel-1e-9 || g.AddsM > s.AddsM {
			t.Fatalf("product %v, sum %v, greatest %v", p, s, g)
		}
	}
}

// uneven are rows that change with level and mass.
const uneven = `
climb {
  columns = ["altitude_ft", "mass_kg", "airspeed_kt", "fuel_kg_per_h", "climb_ft_per_min"]
  rows    = [[0, 20000, 250, 3500, 4000], [0, 36000, 250, 3800, 2500], [20000, 20000, 280, 2600, 2500], [20000, 36000, 280, 2800, 1500], [36000, 20000, 240, 2000, 1000], [36000, 36000, 240, 2100, 400]]
}
cruise {
  columns = ["altitude_ft", "mass_kg", "mach", "fuel_kg_per_h"]
  rows    = [[10000, 20000, 0.45, 2000], [10000, 36000, 0.48, 2600], [36000, 20000, 0.74, 1500], [36000, 36000, 0.76, 2300]]
}
descent {
  columns = ["altitude_ft", "mass_kg", "airspeed_kt", "fuel_kg_per_h", "descent_ft_per_min"]
  rows    = [[0, 20000, 250, 700, 1500], [0, 36000, 250, 700, 1300], [36000, 20000, 270, 400, 2800], [36000, 36000, 270, 400, 2400]]
}
approach {
  columns = ["mass_kg", "airspeed_kt", "fuel_kg_per_h"]
  rows    = [[20000, 115, 1300], [36000, 145, 1900]]
}
`

// byStopwatch flies with a step of a fifth of a second, each at the rates of its
// start: climb, cruise until what is left is what a descent from here would take
// (worked out anew every twenty seconds, near there at every step), descent, approach.
func byStopwatch(n *Numbers, s State, plan Plan) State {
	const dt = 0.2
	rates := func(kind string, s State) (tas, flow, up float64) {
		t := n.tables[kind]
		v, err := t.Read(At{AltitudeFt: s.AltitudeFt, MassKg: s.MassKg})
		if err != nil {
			panic(err)
		}
		flow, _ = t.Get(&v, "fuel_kg_per_h")
		up, _ = t.Get(&v, "climb_ft_per_min")
		if down, ok := t.Get(&v, "descent_ft_per_min"); ok {
			up = -down
		}
		return t.speed(&v, s.AltitudeFt, book.NoLimit, plan.Air), flow, up
	}
	tick := func(kind string, s State) State {
		tas, flow, up := rates(kind, s)
		return State{s.TimeS + dt, s.DistanceM + (tas-plan.Wind(s.AltitudeFt))*1852/3600*dt, s.AltitudeFt + up/60*dt, s.MassKg - flow/3600*dt, s.FuelKg - flow/3600*dt}
	}
	down := func(s State) State {
		for s.AltitudeFt > plan.FieldFt+1500 {
			s = tick("descent", s)
		}
		return s
	}
	to := s.DistanceM + plan.DistanceM
	last := 1500 * 0.3048 / math.Tan(3*math.Pi/180)
	need := 0.0
	for i := 0; ; i++ {
		if i%100 == 0 || to-last-s.DistanceM-need < 8000 {
			if need = down(s).DistanceM - s.DistanceM; s.DistanceM+need+last >= to {
				break
			}
		}
		if s.AltitudeFt < plan.CruiseFt {
			s = tick("climb", s)
		} else {
			s.AltitudeFt = plan.CruiseFt
			s = tick("cruise", s)
		}
	}
	s = down(s)
	for s.DistanceM < to {
		tas, flow, _ := rates("approach", s)
		over := (tas - plan.Wind(s.AltitudeFt)) * 1852 / 3600
		s = State{s.TimeS + dt, s.DistanceM + over*dt, s.AltitudeFt - over*dt*math.Tan(3*math.Pi/180)/0.3048, s.MassKg - flow/3600*dt, s.FuelKg - flow/3600*dt}
	}
	return s
}

func TestDivert_AgainstTheStopwatch(t *testing.T) {
	n := numbersOf(t, uneven)
	chance := rand.New(rand.NewPCG(4, 4))
	for range 4 {
		s := State{AltitudeFt: 2000 + 20000*chance.Float64(), MassKg: 28000 + 7000*chance.Float64(), FuelKg: 6000}
		head := -60 + 120*chance.Float64()
		plan := Plan{DistanceM: (120 + 500*chance.Float64()) * 1852, CruiseFt: 24000 + 12000*chance.Float64(), FieldFt: 3000 * chance.Float64(),
			Air: flight.Air{DeviationC: 10}, Wind: func(ft float64) float64 { return head * ft / 30000 }}
		p := Divert(n, Intact(), s, plan)
		want := byStopwatch(n, s, plan)
		if p.End != Arrived || math.Abs(p.Last().TimeS-want.TimeS) > 0.5 || math.Abs(p.Last().FuelKg-want.FuelKg) > 0.5 {
			t.Errorf("from %+v over %.0f NM at %.0f ft: %s at %.1f s with %.1f kg; by the stopwatch %.1f s, %.1f kg (%v)", s, plan.DistanceM/1852, plan.CruiseFt, p.End, p.Last().TimeS, p.Last().FuelKg, want.TimeS, want.FuelKg, p.Err)
		}
	}
}

// A farther place takes more time and fuel, and a stronger headwind too.
func TestDivert_Monotone(t *testing.T) {
	n := numbersOf(t, uneven)
	s := State{AltitudeFt: 12000, MassKg: 33000, FuelKg: 6000}
	last := [2]float64{}
	for nm := 60.0; nm < 900; nm += 37 {
		p := Divert(n, Intact(), s, Plan{DistanceM: nm * 1852, CruiseFt: 33000})
		now := [2]float64{p.Last().TimeS, 6000 - p.Last().FuelKg}
		if p.End != Arrived || now[0] < last[0] || now[1] < last[1] {
			t.Errorf("%g NM: %s, %v after %v (%v)", nm, p.End, now, last, p.Err)
		}
		last = now
	}
	last = [2]float64{}
	for kt := -80.0; kt <= 80; kt += 20 {
		p := Divert(n, Intact(), s, Plan{DistanceM: 400 * 1852, CruiseFt: 33000, Wind: func(float64) float64 { return kt }})
		now := [2]float64{p.Last().TimeS, 6000 - p.Last().FuelKg}
		if p.End != Arrived || now[0] <= last[0] || now[1] <= last[1] {
			t.Errorf("against %g kt: %s, %v after %v", kt, p.End, now, last)
		}
		last = now
	}
}

// The path is what the circuit sees: continuous, before the turn the flight's own,
// on the ground at its end, and between two knots nothing jumps.
func TestPath(t *testing.T) {
	f := &book.Flight{Head: book.Head{ID: "f"}, Numbers: []book.Named{
		{Name: "takeoff_mass_kg", Value: 34000}, {Name: "fuel_kg", Value: 8000}, {Name: "cruise_altitude_ft", Value: 31000}, {Name: "distance_nm", Value: 600},
		{Name: "rotate_kt", Value: 130}, {Name: "climb_kt", Value: 280}, {Name: "climb_mach", Value: 0.74}, {Name: "descent_kt", Value: 280}, {Name: "approach_kt", Value: 130},
		{Name: "icing_from_ft", Value: 8000}, {Name: "icing_to_ft", Value: 16000},
	}}
	before, err := flight.Plan(f, nil)
	if err != nil {
		t.Fatal(err)
	}
	n := numbersOf(t, uneven)
	since := 2400 * book.Second
	s := StateOf(before, since)
	p := NewPath(before, since, f, Divert(n, Intact(), s, Plan{DistanceM: 300 * 1852, CruiseFt: 31000, FieldFt: 400}))
	if p.Profile.End != Arrived {
		t.Fatalf("%s: %v", p.Profile.End, p.Profile.Err)
	}
	knots := p.Knots()
	for i, k := range knots[1:] {
		if k <= knots[i] {
			t.Fatalf("knot %d is not after the one before", i+1)
		}
	}
	for q, what := range book.Quantities {
		if a, b := p.Value(q, since-book.Second), before.Value(q, since-book.Second); a != b {
			t.Errorf("%s before the turn is %g, not %g", what.Name, a, b)
		}
		if what.Type == book.YesNo {
			for i := 1; i < len(knots); i++ {
				if a, b := p.Value(q, knots[i-1]), p.Value(q, knots[i]-1); a != b && knots[i-1] > since {
					t.Errorf("%s is %g and %g between %d and %d", what.Name, a, b, knots[i-1], knots[i])
				}
			}
		}
	}
	of := func(name string, at book.Time) float64 { return p.Value(quantities[name], at) }
	end, lands := p.Down()
	if stop := p.End(); !lands || of("ground_speed_kt", stop) != 0 || of("on_ground", stop) != 1 || of("braking", stop-2*book.Second) != 1 || of("distance_nm", stop) <= of("distance_nm", end) || stop-end < 20*book.Second {
		t.Errorf("it does not roll to a stop: %g kt after %g s", of("ground_speed_kt", stop), (stop - end).Seconds())
	}
	if of("on_ground", end) != 1 || of("on_ground", end-1) != 0 || of("height_ft", end) != 0 || of("to_go_nm", end) > 1e-6 || of("on_glide_path", end-book.Second) != 1 {
		t.Errorf("it does not end on the ground at the runway: on ground %g, before %g, height %g, to go %g, on the path %g", of("on_ground", end), of("on_ground", end-1), of("height_ft", end), of("to_go_nm", end), of("on_glide_path", end-book.Second))
	}
	for _, name := range []string{"altitude_ft", "fuel_kg", "mass_kg", "distance_nm", "height_ft", "to_go_nm"} {
		for _, k := range knots {
			if a, b := of(name, k-1), of(name, k); k > since+1 && math.Abs(a-b) > 0.01 {
				t.Errorf("%s jumps from %g to %g at %d", name, a, b, k)
			}
		}
	}
	icing := 0.0
	for k := since; k < end; k += book.Second {
		if ft := of("altitude_ft", k); (ft >= 8000 && ft < 16000) != (of("icing", k) == 1) {
			t.Fatalf("at %g ft icing is %g", ft, of("icing", k))
		}
		icing += of("icing", k)
	}
	if icing < 100 {
		t.Errorf("only %g s in icing", icing)
	}
}

// Intact is a flight with nothing failed.
func Intact() Systems {
	return Systems{Left: 1, Right: 1, MostFt: book.NoLimit, MostKt: book.NoLimit, FuelRatio: 1}
}

// IsOutside says that an error means that the manual does not say.
func IsOutside(err error) bool {
	var o *Outside
	var m *Missing
	var u *Uncovered
	return errors.As(err, &o) || errors.As(err, &m) || errors.As(err, &u)
}
