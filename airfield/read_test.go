package airfield

import (
	"errors"
	"io"
	"math"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"testing/iotest"
)

const (
	airportHead = "id,ident,type,name,latitude_deg,longitude_deg,elevation_ft\n"
	runwayHead  = "id,airport_ref,airport_ident,length_ft,width_ft,surface,closed,le_ident,le_latitude_deg,le_longitude_deg,le_elevation_ft,le_heading_degT,le_displaced_threshold_ft,he_ident,he_latitude_deg,he_longitude_deg,he_elevation_ft,he_heading_degT,he_displaced_threshold_ft\n"
	oneAirport  = airportHead + "1,QAAA,small_airport,One,10,20,300\n"
	openRunway  = "1,1,QAAA,5000,98,ASP,0,"
)

func load(t *testing.T, airports, runways string) (*List, Problems) {
	t.Helper()
	l, p, err := Read(strings.NewReader(airports), strings.NewReader(runways))
	if err != nil {
		t.Fatal(err)
	}
	return l, p
}

func find(t *testing.T, l *List, ident string) Airfield {
	t.Helper()
	a, ok := l.Find(ident)
	if !ok {
		t.Fatalf("no airfield %s", ident)
	}
	return a
}

func TestReadFS_DemonstrationRegion(t *testing.T) {
	l, p, err := ReadFS(os.DirFS("../demo"), "region")
	if err != nil || len(p.List) > 0 {
		t.Fatal(err, p)
	}
	if l.Len() != 14 {
		t.Fatalf("%d airfields, not 14", l.Len())
	}
	a := find(t, l, "qske")
	if a.Name != "Kestrin" || a.ElevationFt != 60 || len(a.Runways) != 2 || a.Place.Lat != -50.1 {
		t.Errorf("%+v", a)
	}
	if got := strings.Join(a.Notes, "; "); got != "runway 12/30 is closed" {
		t.Errorf("notes: %s", got)
	}
	r := a.Runways[1]
	if r.Name() != "03/21" || r.Ends[1].HeadingTrue != 214 || r.Ends[1].DisplacedFt != 330 || r.Surface != "ASP" || r.WidthFt != 148 {
		t.Errorf("%+v", r)
	}
	closed := find(t, l, "QSEL")
	if !closed.Closed() || len(closed.Runways) != 0 || len(closed.Notes) != 2 {
		t.Errorf("%+v", closed)
	}
}

func TestRunway_LengthsAndSlope(t *testing.T) {
	l, _ := load(t, oneAirport, runwayHead+openRunway+"09,,,100,90,,27,,,150,270,1000\n")
	a := find(t, l, "QAAA")
	r := a.Runways[0]
	east, west := r.Ends[0], r.Ends[1]
	for _, c := range []struct {
		what      string
		got, want float64
	}{ // a foot is 0.3048 m exactly
		{"landing to the east", r.LandingM(east), 1524},
		{"landing to the west", r.LandingM(west), 4000 * 0.3048},
		{"slope to the east", r.SlopePct(east), 1},
		{"slope to the west", r.SlopePct(west), -1},
	} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%s: %v, not %v", c.what, c.got, c.want)
		}
	}
	if (Runway{}).Name() != "" || (Runway{LengthFt: 1, Ends: r.Ends[:1]}).SlopePct(east) != 0 {
		t.Error("nothing is not nothing")
	}
}

func TestRead_SaysWhatItLeavesOut(t *testing.T) {
	good := "9,QZZZ,small_airport,Last,1,2,3\n"
	for _, c := range []struct{ name, row, want string }{
		{"latitude beyond the pole", "1,QAAA,x,A,90.5,20,300\n", `row 2, column latitude_deg: "90.5" is no latitude: expected -90 to 90 degrees`},
		{"longitude beyond the date line", "1,QAAA,x,A,10,-180.1,300\n", `row 2, column longitude_deg: "-180.1" is no longitude`},
		{"no elevation", "1,QAAA,x,A,10,20,\n", `row 2, column elevation_ft: no elevation; the row is left out`},
		{"elevation above all mountains", "1,QAAA,x,A,10,20,30000\n", `row 2, column elevation_ft: "30000" is no elevation: expected -1500 to 20000 ft`},
		{"no latitude", "1,QAAA,x,A,,20,300\n", `row 2, column latitude_deg: no latitude`},
		{"latitude in words", "1,QAAA,x,A,ten,20,300\n", `row 2, column latitude_deg: "ten" is not a number`},
		{"not a number", "1,QAAA,x,A,NaN,20,300\n", `"NaN" is not a number`},
		{"infinite", "1,QAAA,x,A,10,1e999,300\n", `"1e999" is not a number`},
		{"no ident", "1,,x,A,10,20,300\n", `row 2, column ident: no ident`},
		{"no id", ",QAAA,x,A,10,20,300\n", `row 2, column id: no id`},
		{"comma in a name", "1,QAAA,x,A,B,10,20,300\n", `row 2: 8 cells where the header has 7`},
		{"short row", "1,QAAA,x\n", `row 2, column latitude_deg: no latitude`},
		{"open quote", "1,QAAA,x,\"A,10,20,300\n", `row 2: a quote is opened and not closed`},
		{"zero bytes", "1,QAAA,x,\x00A,10,20,300\n", `row 2: the row has zero bytes`},
		{"long row", "1,QAAA,x," + strings.Repeat("A", 70000) + ",10,20,300\n", `row 2: the row is longer than`},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := load(t, airportHead+c.row+good, runwayHead+openRunway+"09,,,,,,27,,,,,\n")
			if len(p.List) == 0 || !strings.Contains(p.List[0].String(), "airports.csv "+c.want) && !strings.Contains(p.List[0].String(), c.want) {
				t.Errorf("got %v, want %s", p, c.want)
			}
			if _, ok := l.Find("QZZZ"); !ok || l.Len() != 1 {
				t.Error("the other row did not load, or the bad one did")
			}
		})
	}
}

func TestRead_SaysWhatRunwaysItLeavesOut(t *testing.T) {
	for _, c := range []struct{ name, row, want string }{
		{"length of zero", "1,1,QAAA,0,98,ASP,0,09,,,,,,27,,,,,", `column length_ft: "0" is no runway length: expected 1 to 60000 ft`},
		{"negative length", "1,1,QAAA,-5,98,ASP,0,09,,,,,,27,,,,,", `column length_ft: "-5" is no runway length`},
		{"no length", "1,1,QAAA,,98,ASP,0,09,,,,,,27,,,,,", `column length_ft: no runway length`},
		{"unknown airfield", "1,7,QAAA,5000,98,ASP,0,09,,,,,,27,,,,,", `column airport_ref: no airfield has "7"`},
		{"unknown ident", "1,,QXXX,5000,98,ASP,0,09,,,,,,27,,,,,", `column airport_ident: no airfield has "QXXX"`},
		{"no airfield", "1,,,5000,98,ASP,0,09,,,,,,27,,,,,", `column airport_ident: no airfield; the row`},
		{"heading of 400", openRunway + "09,,,,400,,27,,,,,", `column le_heading_degT: "400" is no true heading`},
		{"headings not opposite", openRunway + "09,,,,90,,27,,,,250,", `column he_heading_degT: headings 90 and 250 are not opposite`},
		{"no heading to be had", openRunway + "H1,,,,,,,,,,,", `column le_heading_degT: no heading for runway "H1"`},
		{"no names", openRunway + ",,,,90,,,,,,,", `column le_ident: neither end has a name`},
		{"displaced beyond the end", openRunway + "09,,,,,5000,27,,,,,", `column le_displaced_threshold_ft: displaced by 5000 ft on a runway of 5000 ft`},
		{"end in the sky", openRunway + "09,,,300,,,27,,,3000,,", `column he_elevation_ft: the ends' elevations make a slope of 54 percent`},
		{"end beyond the pole", openRunway + "09,99,20,,,,27,,,,,", `column le_latitude_deg: "99" is no latitude`},
		{"closed perhaps", "1,1,QAAA,5000,98,ASP,maybe,09,,,,,,27,,,,,", `column closed: "maybe" is neither 1 nor 0`},
		{"width in words", "1,1,QAAA,5000,wide,ASP,0,09,,,,,,27,,,,,", `column width_ft: "wide" is not a number`},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := load(t, oneAirport, runwayHead+c.row+"\n2,1,QAAA,4000,98,ASP,0,18,,,,,,36,,,,,\n")
			if len(p.List) != 1 || !strings.HasPrefix(p.List[0].String(), "runways.csv row 2, "+c.want) {
				t.Errorf("got %v, want %s", p, c.want)
			}
			if r := find(t, l, "QAAA").Runways; len(r) != 1 || r[0].Name() != "18/36" {
				t.Errorf("runways: %v", r)
			}
		})
	}
}

func TestRead_Duplicates(t *testing.T) {
	l, p := load(t, oneAirport+"1,QBBB,x,Two,11,20,300\n2,qaaa,x,Three,12,20,300\n3,QCCC,x,Four,13,20,300\n",
		runwayHead+openRunway+"09,,,,,,27,,,,,\n"+openRunway+"18,,,,,,36,,,,,\n3,2,QAAA,3000,98,ASP,0,09,,,,,,27,,,,,\n")
	want := `airports.csv row 3, column id: "1" is already in row 2; the row is left out
airports.csv row 4, column ident: "qaaa" is already in row 2; the row is left out
runways.csv row 3, column id: "1" is already in row 2; the row is left out
`
	if p.String() != want {
		t.Errorf("got\n%swant\n%s", p, want)
	}
	if a := find(t, l, "QAAA"); l.Len() != 2 || a.Name != "One" || len(a.Runways) != 1 {
		t.Errorf("%d airfields, first %+v", l.Len(), a)
	}
}

func TestRead_IsTolerant(t *testing.T) {
	for _, c := range []struct{ name, airports, runways string }{
		{"byte-order mark", "\ufeff" + oneAirport, "\ufeff" + runwayHead + openRunway + "09,,,,,,27,,,,,\n"},
		{"carriage returns", strings.ReplaceAll(oneAirport, "\n", "\r\n"), strings.ReplaceAll(runwayHead+openRunway+"09,,,,,,27,,,,,\n", "\n", "\r\n")},
		{"semicolons", strings.ReplaceAll(oneAirport, ",", ";"), strings.ReplaceAll(runwayHead+openRunway+"09,,,,,,27,,,,,\n", ",", ";")},
		{"semicolons and decimal commas", strings.ReplaceAll(airportHead, ",", ";") + "1;QAAA;x;One;10,0;20,0;300,0\n", strings.ReplaceAll(runwayHead+openRunway+"09,,,,,,27,,,,,\n", ",", ";")},
		{"tabs", strings.ReplaceAll(oneAirport, ",", "\t"), runwayHead + openRunway + "09,,,,,,27,,,,,\n"},
		{"quotes", `"id","ident","type","name","latitude_deg","longitude_deg","elevation_ft"` + "\n" + `"1","QAAA","x","One","10","20","300"`, runwayHead + openRunway + "\"09\",,,,,,27,,,,,"},
		{"columns in capitals, spaces, more columns", "Extra, ID,IDENT,Type,name ,latitude_deg,longitude_deg,elevation_ft,more\n,1,QAAA,x,One, 10 ,20,300,x\n", runwayHead + openRunway + "09,,,,,,27,,,,,,,,\n"},
		{"empty lines", strings.ReplaceAll(oneAirport, "\n", "\n\n"), runwayHead + "\n\n" + openRunway + "09,,,,,,27,,,,,\n\n"},
		{"a name over two lines", airportHead + "0,QQQQ,x,\"Two\nlines\",0,0,0\n1,QAAA,x,One,10,20,300", runwayHead + openRunway + "09,,,,,,27,,,,,\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := load(t, c.airports, c.runways)
			if len(p.List) > 0 {
				t.Error(p)
			}
			a := find(t, l, "QAAA")
			if a.Name != "One" || a.Place.Lat != 10 || a.Place.Lon != 20 || a.ElevationFt != 300 || len(a.Runways) != 1 {
				t.Errorf("%+v", a)
			}
		})
	}
}

func TestRead_NamesMissingColumns(t *testing.T) {
	_, _, err := Read(strings.NewReader("id,ident,name,longitude_deg\n"), strings.NewReader(runwayHead))
	if err == nil || err.Error() != "airports.csv: the header lacks latitude_deg, elevation_ft; it has id, ident, name, longitude_deg" {
		t.Error(err)
	}
	_, _, err = Read(strings.NewReader(airportHead), strings.NewReader("id;airport_ref\n"))
	if err == nil || !strings.HasPrefix(err.Error(), "runways.csv: the header lacks length_ft, le_ident, he_ident") {
		t.Error(err)
	}
	_, p := load(t, "id,ident,latitude_deg,longitude_deg,elevation_ft\n", "airport_ref,length_ft,le_ident,he_ident\n")
	if len(p.List) != 17 || p.List[0].String() != "airports.csv row 1, column type: the column is missing: no airfield counts as closed" {
		t.Errorf("%d: %s", len(p.List), p)
	}
}

func TestRead_FailsWhereNothingCanBeRead(t *testing.T) {
	broken := errors.New("pulled out")
	for _, c := range []struct {
		name, want        string
		airports, runways io.Reader
	}{
		{"empty", "airports.csv: the file is empty", strings.NewReader(""), strings.NewReader("")},
		{"UTF-16", "airports.csv: the file is in UTF-16", strings.NewReader("\xff\xfei\x00d\x00"), strings.NewReader("")},
		{"broken reader", "airports.csv: pulled out", iotest.ErrReader(broken), strings.NewReader("")},
		{"broken in the middle", "runways.csv: row 2: pulled out", strings.NewReader(airportHead), io.MultiReader(strings.NewReader(runwayHead), iotest.ErrReader(broken))},
		{"broken in a quote", "runways.csv: row 3: pulled out", strings.NewReader(airportHead), io.MultiReader(strings.NewReader(runwayHead+"\"a\n"), iotest.ErrReader(broken))},
		{"quote open in the header", "airports.csv: a quote is opened", strings.NewReader("id,\"ident\n"), strings.NewReader("")},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := Read(c.airports, c.runways)
			if err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("%v, not %s", err, c.want)
			}
		})
	}
	if _, _, err := ReadFS(fstest.MapFS{"airports.csv": {Data: []byte(oneAirport)}}, "."); err == nil || !strings.Contains(err.Error(), "runways.csv") {
		t.Error(err)
	}
	if _, _, err := ReadFS(fstest.MapFS{}, "."); err == nil {
		t.Error("no table, no error")
	}
}

func TestRead_CutsTheMessages(t *testing.T) {
	_, p := load(t, airportHead+strings.Repeat("1,QAAA,x,A,10,20,\n", 250), runwayHead+strings.Repeat("1,7,,0,,,,,,,,,,,,,,,\n", 103))
	if len(p.List) != 2*MostProblems || p.More != 153 || !strings.HasSuffix(p.String(), "\nand 153 more\n") {
		t.Errorf("%d and %d", len(p.List), p.More)
	}
}

func TestRead_Headings(t *testing.T) {
	for _, c := range []struct {
		name, ends   string
		first, other float64
		fromName     bool
	}{
		{"as given", "09,,,,92,,27,,,,272,", 92, 272, false},
		{"north as 360", "36,,,,360,,18,,,,180,", 0, 180, false},
		{"from the other end", "09,,,,,,27,,,,275,", 95, 275, false},
		{"from where the ends lie", "09,0,20,,,,27,0,20.01,,,", 90, 270, false},
		{"over the date line", "09,0,179.995,,,,27,0,-179.995,,,", 90, 270, false},
		{"from the name", "09L,,,,,,27R,,,,,", 90, 270, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, p := load(t, oneAirport, runwayHead+openRunway+c.ends+"\n")
			a := find(t, l, "QAAA")
			if len(a.Runways) != 1 {
				t.Fatal(p)
			}
			e := a.Runways[0].Ends
			if math.Abs(e[0].HeadingTrue-c.first) > 1e-6 || math.Abs(e[1].HeadingTrue-c.other) > 1e-6 || e[0].FromName != c.fromName {
				t.Errorf("%+v", e)
			}
			if got := len(a.Notes) == 2; got != c.fromName {
				t.Errorf("notes: %q", a.Notes)
			}
		})
	}
}

func TestRead_ElevationsOfEnds(t *testing.T) {
	for _, c := range []struct {
		name, ends   string
		first, other float64
	}{
		{"both", "09,,,310,,,27,,,290,,", 310, 290},
		{"the other end's", "09,,,,,,27,,,290,,", 290, 290},
		{"the airfield's", "09,,,,,,27,,,,,", 300, 300},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, _ := load(t, oneAirport, runwayHead+openRunway+c.ends+"\n")
			e := find(t, l, "QAAA").Runways[0].Ends
			if e[0].ElevationFt != c.first || e[1].ElevationFt != c.other {
				t.Errorf("%+v", e)
			}
		})
	}
}

func TestRead_RunwaysByIdentAndWithOneEnd(t *testing.T) {
	l, p := load(t, oneAirport, runwayHead+"1,,qaaa,5000,98,ASP,,09,,,,,,,,,,,\n")
	if len(p.List) > 0 {
		t.Fatal(p)
	}
	if r := find(t, l, "QAAA").Runways; len(r) != 1 || r[0].Name() != "09" || len(r[0].Ends) != 1 {
		t.Errorf("%+v", r)
	}
}
