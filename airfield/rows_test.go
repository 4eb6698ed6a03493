package airfield

import (
	"encoding/csv"
	"errors"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func allRows(text string) (all [][]string, bad []int) {
	r := newRows(strings.NewReader(text))
	r.comma = ','
	for {
		cells, err := r.next()
		var broken errRow
		switch {
		case err == io.EOF:
			return all, bad
		case errors.As(err, &broken):
			bad = append(bad, r.row)
		default:
			all = append(all, slices.Clone(cells))
		}
	}
}

// The standard library's reader is the reference for well-formed text.
func TestRows_AgreeWithTheStandardReader(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		text := wellFormed(chance)
		ref := csv.NewReader(strings.NewReader(text))
		ref.FieldsPerRecord = -1
		want, err := ref.ReadAll()
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		got, bad := allRows(text)
		if len(bad) > 0 || !slices.EqualFunc(got, want, slices.Equal) {
			t.Fatalf("%q: got %q (bad rows %v), want %q", text, got, bad, want)
		}
	}
}

func wellFormed(chance *rand.Rand) string {
	var b strings.Builder
	for range chance.IntN(5) + 1 {
		for i := range chance.IntN(4) + 1 {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(cell(chance))
		}
		b.WriteString([]string{"\n", "\r\n"}[chance.IntN(2)])
	}
	return b.String()
}

func cell(chance *rand.Rand) string {
	if chance.IntN(2) == 0 {
		return []string{"", "a", "12.5", " é "}[chance.IntN(4)]
	}
	inner := ""
	for range chance.IntN(5) {
		inner += []string{"x", `""`, ",", "\n", ";"}[chance.IntN(5)]
	}
	return `"` + inner + `"`
}

func TestRows_AnOpenQuoteCostsOneRow(t *testing.T) {
	text := "a,b\nc,\"d\n" + strings.Repeat("e,f\n", 50) + "g,\"h\ni,\"j\nk,l\n"
	all, bad := allRows(text)
	if len(all) != 52 || !slices.Equal(bad, []int{2, 53, 54}) {
		t.Errorf("%d rows, bad %v", len(all), bad)
	}
}

func TestRows_ALongLineInAQuoteCostsTwoRows(t *testing.T) {
	all, bad := allRows("a,\"b\n" + strings.Repeat("x", 200000) + "\nc,d\n")
	if len(all) != 1 || !slices.Equal(bad, []int{1, 2}) {
		t.Errorf("%d rows, bad %v", len(all), bad)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(oneAirport, runwayHead+openRunway+"09,,,,,,27,,,,,\n")
	f.Add("\ufeffid;ident;latitude_deg;longitude_deg;elevation_ft\n1;\"a\n;;", "airport_ref,length_ft,le_ident,he_ident\n\"")
	f.Fuzz(func(t *testing.T, airports, runways string) {
		l, p, err := Read(strings.NewReader(airports), strings.NewReader(runways))
		if err != nil {
			return
		}
		again, q, _ := Read(strings.NewReader(airports), strings.NewReader(runways))
		if p.String() != q.String() || l.Len() != again.Len() {
			t.Error("not the same twice")
		}
		for a := range l.All() {
			if a.Ident == "" || !(a.Place.Lat >= -90 && a.Place.Lat <= 90) {
				t.Errorf("%+v", a)
			}
			for _, r := range a.Runways {
				for _, e := range r.Ends {
					if !(r.LandingM(e) > 0) || !(e.HeadingTrue >= 0 && e.HeadingTrue < 360) {
						t.Errorf("%+v", r)
					}
				}
			}
		}
	})
}
