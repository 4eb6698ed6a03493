package drill_test

import (
	"context"
	"encoding/json"
	"io/fs"
	"runtime"
	"slices"
	"testing"
	"time"

	"knockon/book"
	"knockon/demo"
	"knockon/drill"
)

func bookOf(testing.TB) fs.FS { return demo.Book() }

// BenchmarkUpdate is a quarter of a second of one drill and what three people see
// of it, written out. 200 drills with 4 updates a second take 800 of these each
// second.
func BenchmarkUpdate(b *testing.B) {
	d, ctx := deck(b, "northern_link"), context.Background()
	fresh := func() *drill.Session {
		return open(b, d, drill.Script{Fail: []drill.Strike{{What: []string{"dc_left"}, At: "climb + 60 s"}}})
	}
	s := fresh()
	for b.Loop() {
		if s.Ended() {
			s = fresh()
		}
		if err := s.Advance(ctx, s.Now()+book.Second/4); err != nil {
			b.Fatal(err)
		}
		for _, who := range []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Instructor} {
			if _, err := json.Marshal(s.Screen(who)); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkRewind winds a drill of about 100 minutes back to near its end.
func BenchmarkRewind(b *testing.B) {
	d, ctx := deck(b, "northern_link"), context.Background()
	s := open(b, d, drill.Script{Fail: []drill.Strike{{What: []string{"dc_left"}, At: "climb + 60 s"}}})
	if err := s.Advance(ctx, 6000*book.Second); err != nil {
		b.Fatal(err)
	}
	number := 0
	for b.Loop() {
		number++
		in := drill.Input{Client: "i", Number: number, Who: drill.Instructor, Do: drill.Rewind, Back: 5900 * book.Second}
		if _, err := s.Accept(ctx, in); err != nil {
			b.Fatal(err)
		}
		if number == drill.MostAnew {
			b.Fatal("more rewinds than a drill takes")
		}
	}
}

// TestMemory_OfALiveDrill: a drill near its end takes less than 2 MB.
func TestMemory_OfALiveDrill(t *testing.T) {
	d, ctx := deck(t, "northern_link"), context.Background()
	const n = 12
	var before, after runtime.MemStats
	open(t, d, drill.Script{})
	runtime.GC()
	runtime.ReadMemStats(&before)
	var live []*drill.Session
	for range n {
		s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"dc_left"}, At: "climb + 60 s"}}})
		if err := s.Advance(ctx, 6000*book.Second); err != nil {
			t.Fatal(err)
		}
		live = append(live, s)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	each := float64(after.HeapAlloc-before.HeapAlloc) / n / 1e6
	t.Logf("%.2f MB a drill", each)
	if each > 2 {
		t.Errorf("%.2f MB a drill", each)
	}
	runtime.KeepAlive(live)
}

// BenchmarkTwoHundred is one round of 200 live drills of about 100 minutes: each
// goes on by a quarter of a second and is written out for three people. Four
// rounds are due each second. p99-ms is the longest update but one in a hundred.
func BenchmarkTwoHundred(b *testing.B) {
	d, ctx := deck(b, "northern_link"), context.Background()
	units := d.Build().Units
	var live []*drill.Session
	for i := range 200 {
		s := open(b, d, drill.Script{Fail: []drill.Strike{{What: []string{units[i%len(units)].ID}, At: "climb + 60 s"}}})
		if err := s.Advance(ctx, book.Time(600+20*i)*book.Second); err != nil {
			b.Fatal(err)
		}
		live = append(live, s)
	}
	var took []time.Duration
	for b.Loop() {
		for _, s := range live {
			from := time.Now()
			if err := s.Advance(ctx, s.Now()+book.Second/4); err != nil {
				b.Fatal(err)
			}
			for _, who := range []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Instructor} {
				if _, err := json.Marshal(s.Screen(who)); err != nil {
					b.Fatal(err)
				}
			}
			took = append(took, time.Since(from))
		}
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "p99-ms")
}

// BenchmarkDebriefOfAnHour is the debrief of a drill of an hour: eight controls are moved
// that no list asks for, four as the list asks, twelve indications looked at, the flight
// turned once.
func BenchmarkDebriefOfAnHour(b *testing.B) {
	d, ctx := deck(b, "northern_link"), context.Background()
	s := open(b, d, drill.Script{Fail: []drill.Strike{{What: []string{"gen_left"}, At: "cruise + 60 s"}}})
	number, at := 0, 1215*book.Second
	do := func(in drill.Input) {
		number, at = number+1, at+10*book.Second
		in.Client, in.Number, in.Who, in.At = "a", number, drill.Alone, at
		if _, err := s.Accept(ctx, in); err != nil {
			b.Fatal(err)
		}
	}
	do(drill.Input{Do: drill.Call, ID: "left_generator_off"})
	for _, to := range []string{"off", "on", "off", "on"} {
		do(move("gen_left_switch", to))
	}
	for _, i := range d.Build().Indications[:12] {
		do(drill.Input{Do: drill.Look, ID: i.ID})
	}
	for _, c := range d.Build().Controls[:8] {
		do(move(c.ID, c.Positions[1]))
	}
	do(drill.Input{Do: drill.TurnTo, To: "return"})
	if err := s.Advance(ctx, 1215*book.Second+3600*book.Second); err != nil {
		b.Fatal(err)
	}
	flights := 0
	for b.Loop() {
		if _, err := s.Debrief(ctx, func(_, all int) { flights = all }); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(flights), "flights")
}
