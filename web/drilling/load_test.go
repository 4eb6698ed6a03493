package drilling_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/logbook"
	"knockon/web/drilling"
)

// crowd is many drills at once over HTTP, each with streams that are listened to.
type crowd struct {
	*testing.B
	url  string
	mu   sync.Mutex
	sent map[string]time.Time // "drill move": when it was sent
	took []time.Duration      // from an input to a screen that shows it
	seen int                  // screens received
}

const drillsAtOnce = 200

// BenchmarkTwoHundredOverHTTP keeps 200 drills live with one or two screens each,
// sends an input to each every two seconds or so, and tells how long it takes until
// each screen shows it. A stream has an update every 250 ms. One operation is a
// second of all that. The hall, its clients and the logs are on one machine.
func BenchmarkTwoHundredOverHTTP(b *testing.B) {
	for _, people := range [][]drill.Role{{drill.PilotMonitoring}, {drill.PilotFlying, drill.PilotMonitoring}} {
		b.Run(fmt.Sprintf("screens=%d", len(people)), func(b *testing.B) { loadWith(b, people) })
	}
}

func loadWith(b *testing.B, people []drill.Role) {
	book, err := corvane.Load()
	if err != nil {
		b.Fatal(err)
	}
	shelf, err := logbook.Open(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	hall, err := drilling.New(drilling.Setting{Book: book, Shelf: shelf})
	if err != nil {
		b.Fatal(err)
	}
	server := httptest.NewServer(hall)
	b.Cleanup(server.Close)
	b.Cleanup(func() { _ = hall.Close() })
	c := &crowd{B: b, url: server.URL, sent: map[string]time.Time{}}
	warm := beginLoad(b, server.URL) // the deck is laid out
	before := heap()
	drills := []of{warm}
	for len(drills) < drillsAtOnce {
		drills = append(drills, beginLoad(b, server.URL))
	}
	each := float64(heap()-before) / float64(drillsAtOnce-1) / (1 << 20)
	ctx, stop := context.WithCancel(b.Context())
	var wait sync.WaitGroup
	for _, seats := range drills {
		for _, who := range people {
			wait.Go(func() { c.listen(ctx, seats, who) })
		}
	}
	time.Sleep(2 * time.Second)
	b.ResetTimer()
	for i := range drills {
		wait.Go(func() { c.play(ctx, drills[i], rand.New(rand.NewPCG(1, uint64(i)))) })
	}
	time.Sleep(time.Duration(b.N) * time.Second)
	b.StopTimer()
	stop()
	wait.Wait()
	b.ReportMetric(each, "MB/drill")
	c.tell(len(people))
}

func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

func beginLoad(b *testing.B, at string) of {
	seats, err := beginAt(at, left, "crew")
	if err != nil {
		b.Fatal(err)
	}
	return seats
}

// listen takes down when a screen first shows each input.
func (c *crowd) listen(ctx context.Context, seats of, who drill.Role) {
	ask, _ := http.NewRequestWithContext(ctx, "GET", c.url+seats[who]+"/stream", nil)
	reply, err := http.DefaultClient.Do(ask)
	if err != nil {
		return
	}
	defer reply.Body.Close()
	lines := bufio.NewScanner(reply.Body)
	lines.Buffer(nil, 1<<20)
	shown := 0
	for lines.Scan() {
		text, ok := bytes.CutPrefix(lines.Bytes(), []byte("data: "))
		if !ok {
			continue
		}
		at := time.Now()
		// Lists are counted in the bytes: a client that reads all of it would be
		// what is measured.
		n := bytes.Count(text, []byte(`"id":"left_generator_off"`))
		c.mu.Lock()
		c.seen++
		for shown < n {
			shown++
			if sent, ok := c.sent[fmt.Sprint(seats[drill.PilotMonitoring], shown)]; ok {
				c.took = append(c.took, at.Sub(sent))
			}
		}
		c.mu.Unlock()
	}
}

// play takes the list in hand again and again.
func (c *crowd) play(ctx context.Context, seats of, chance *rand.Rand) {
	for n := 1; ; n++ {
		select {
		case <-ctx.Done():
			return
		case <-time.After(time.Duration(chance.IntN(4000)) * time.Millisecond):
		}
		line, _ := json.Marshal(drill.Input{Client: "a", Number: n, Do: drill.Call, ID: "left_generator_off"})
		c.mu.Lock()
		c.sent[fmt.Sprint(seats[drill.PilotMonitoring], n)] = time.Now()
		c.mu.Unlock()
		reply, err := http.Post(c.url+seats[drill.PilotMonitoring]+"/input", "application/json", bytes.NewReader(line))
		if err != nil {
			c.Error(err)
			return
		}
		reply.Body.Close()
		if reply.StatusCode != http.StatusOK {
			c.Errorf("input %d: %s", n, reply.Status)
			return
		}
	}
}

func (c *crowd) tell(screens int) {
	slices.Sort(c.took)
	if len(c.took) == 0 {
		c.Fatal("no input came to a screen")
	}
	part := func(p float64) float64 { return float64(c.took[int(p*float64(len(c.took)-1))].Microseconds()) / 1000 }
	c.ReportMetric(part(0.5), "ms-median")
	c.ReportMetric(part(0.99), "ms-99th")
	c.ReportMetric(part(1), "ms-worst")
	c.ReportMetric(float64(c.seen)/float64(c.N)/drillsAtOnce/float64(screens), "screens/s/stream")
	c.Logf("%d inputs came to a screen", len(c.took))
}
