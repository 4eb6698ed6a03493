package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// load is how hard the server is pressed. The small one is part of every test
// run; KNOCKON_LOAD=1 takes the whole one, which docs/limits.md has the figures of.
type load struct {
	clients, ways int
	drills, moves int           // debriefs at once, and of how many moves each
	pressed       time.Duration // how long all ask at once
	sweeps        time.Duration // how long a sweep of three together is waited for
}

var (
	smallLoad = load{clients: 16, ways: 6, drills: 3, moves: 60, pressed: 3 * time.Second}
	wholeLoad = load{clients: 200, ways: 24, drills: 20, moves: 3000, pressed: 60 * time.Second, sweeps: 8 * time.Minute}
)

// mostMemory is what the server may take at most, whatever is asked.
const mostMemory = 1500 << 20

// TestServer_UnderLoad presses a server in a process of its own: every reply has a
// text, none is a slip of the program, and the memory stays within its bound.
func TestServer_UnderLoad(t *testing.T) {
	l := smallLoad
	if os.Getenv("KNOCKON_LOAD") != "" {
		l = wholeLoad
	}
	shelf := t.TempDir()
	seats := drillsOf(t, shelf, l)
	s := startServer(t, shelf)
	s.sixSweeps()
	var wait sync.WaitGroup
	for _, seat := range seats {
		wait.Go(func() { s.debrief(seat) })
	}
	for i := range l.ways {
		wait.Go(func() {
			s.get(fmt.Sprintf("/ways?function=%s&in=%s", nth(functions, i), nth(phases, i/len(functions))))
		})
	}
	end := time.Now().Add(l.pressed)
	for c := range l.clients {
		wait.Go(func() {
			for i := 0; time.Now().Before(end); i++ {
				s.get(addressOf(c, i))
			}
		})
	}
	wait.Wait()
	t.Logf("%d clients for %v: %s; memory at most %d MB", l.clients, l.pressed, s.told(), s.peak()>>20)
	if l.sweeps > 0 {
		s.oneAfterTheOther(l)
	}
	s.end()
}

var (
	functions = []string{"brakes_normal", "gear_extension", "flaps", "vital_dc_power", "autopilot_flying", "hydraulics_any", "shaped_control", "cabin_pressure"}
	phases    = []string{"climb", "cruise", "landing_roll"}
	fails     = []string{"tr_right", "gen_left", "gen_right", "drive_left", "pump_right", "radio_alt_1"}
)

func nth(list []string, i int) string { return list[i%len(list)] }

// addressOf is what a client asks next: mostly a question that nobody has asked,
// at a moment before the flight is over.
func addressOf(client, i int) string {
	question := fmt.Sprintf("fail=%s&at=%s", nth(fails, client), url.QueryEscape(fmt.Sprintf("climb + %d s", 10+(client+211*i)%5600)))
	kinds := []string{"/?" + question, "/answer?" + question, "/costs/part?" + question, "/sweep?order=3", "/answer.json?" + question,
		"/?" + question + "&why=all", "/costs?" + question, "/nowhere", "/line.svg?" + question, "/ways?order=0&function=" + nth(functions, client)}
	return nth(kinds, client+i)
}

// pressed is a server in a process of its own.
type pressed struct {
	*testing.T
	base   string
	cmd    *exec.Cmd
	client *http.Client
	stderr bytes.Buffer
	done   chan struct{}

	mu     sync.Mutex
	status map[int]int
}

func startServer(t *testing.T, drills string) *pressed {
	t.Helper()
	s := &pressed{T: t, status: map[int]int{}, done: make(chan struct{}), client: &http.Client{
		Timeout:       3 * time.Minute,
		Transport:     &http.Transport{MaxIdleConnsPerHost: 256},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}}
	s.cmd = exec.Command(os.Args[0], "serve", "--address", "127.0.0.1:0", "--drills", drills)
	s.cmd.Env = append(os.Environ(), "KNOCKON_AS_COMMAND=1", "GOGC=") // as it is run, whatever the tests have
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	s.cmd.Stderr = &s.stderr
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { _ = s.cmd.Wait(); close(s.done) }()
	t.Cleanup(func() { _ = s.cmd.Process.Kill(); <-s.done })
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("the server says nothing: %v", err)
	}
	_, rest, _ := strings.Cut(line, "http://")
	s.base = "http://" + strings.TrimSuffix(strings.Fields(rest)[0], "/")
	return s
}

func (s *pressed) get(address string) (int, string) {
	reply, err := s.client.Get(s.base + address)
	return s.took("GET "+address, reply, err)
}

func (s *pressed) post(path, form string) (int, string) {
	reply, err := s.client.Post(s.base+path, "application/x-www-form-urlencoded", strings.NewReader(form))
	return s.took("POST "+path+"?"+form, reply, err)
}

// took holds a reply to what every reply must be.
func (s *pressed) took(what string, reply *http.Response, err error) (int, string) {
	if err != nil {
		s.Errorf("%s: no reply: %v", what, err)
		return 0, ""
	}
	defer reply.Body.Close()
	text, err := io.ReadAll(reply.Body)
	switch code := reply.StatusCode; {
	case err != nil:
		s.Errorf("%s: a reply that breaks off: %v", what, err)
	case len(text) == 0 && code != http.StatusSeeOther:
		s.Errorf("%s: %d, and nothing else", what, code)
	case code == http.StatusServiceUnavailable && !bytes.Contains(text, []byte(`class="problem"`)):
		s.Errorf("%s: 503 without a sentence: %.300s", what, text)
	case code != http.StatusOK && code != http.StatusServiceUnavailable && code != http.StatusSeeOther && !(code == http.StatusNotFound && strings.Contains(what, "/nowhere")):
		s.Errorf("%s: %d %.300s", what, code, text)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.status[reply.StatusCode]++
	return reply.StatusCode, string(text)
}

// sixSweeps begins six sweeps of three together at once: one has room.
func (s *pressed) sixSweeps() {
	var begun, told atomic.Int32
	var wait sync.WaitGroup
	for _, build := range []string{"first_series", "second_series", "island_kit"} {
		for _, flight := range []string{"northern_link", "short_hop"} {
			wait.Go(func() {
				switch code, text := s.post("/sweep/begin", "order=3&build="+build+"&flight="+flight); {
				case code == http.StatusSeeOther:
					begun.Add(1)
				case code == http.StatusServiceUnavailable && strings.Contains(text, "Only one sweep of three"):
					told.Add(1)
				}
				s.get("/sweep?order=3&build=" + build + "&flight=" + flight)
			})
		}
	}
	wait.Wait()
	if begun.Load() != 1 || told.Load() != 5 {
		s.Errorf("of six sweeps of three together %d were begun and %d told that there is one", begun.Load(), told.Load())
	}
}

// oneAfterTheOther waits for the sweep that is there, has all clients look at it
// at once, and lets it go for another, of which it waits for a part.
func (s *pressed) oneAfterTheOther(l load) {
	address := "/sweep?" + s.theSweep()
	began := time.Now()
	for ; time.Since(began) < l.sweeps; time.Sleep(2 * time.Second) {
		if _, text := s.get(address); !strings.Contains(text, `id="working"`) {
			break
		}
	}
	s.Logf("the sweep took %v more; memory at most %d MB", time.Since(began).Round(time.Second), s.peak()>>20)
	var wait sync.WaitGroup
	for range l.clients {
		wait.Go(func() {
			if _, text := s.get(address); !strings.Contains(text, "Worse together") {
				s.Errorf("no findings at %s", address)
			}
		})
	}
	wait.Wait()
	s.Logf("%d readers of it at once: memory at most %d MB", l.clients, s.peak()>>20)
	other := "order=3&build=island_kit&flight=northern_link"
	if strings.Contains(address, "island_kit") {
		other = "order=3&build=first_series&flight=northern_link"
	}
	if code, _ := s.post("/sweep/begin", other+"&instead=yes"); code != http.StatusSeeOther {
		s.Errorf("a sweep that is done does not give way: %d", code)
	}
	time.Sleep(l.pressed)
	s.Logf("another in its place, after %v: memory at most %d MB", l.pressed, s.peak()>>20)
}

// theSweep finds which of the six was begun.
func (s *pressed) theSweep() string {
	for _, build := range []string{"first_series", "second_series", "island_kit"} {
		for _, flight := range []string{"northern_link", "short_hop"} {
			q := "order=3&build=" + build + "&flight=" + flight
			if _, text := s.get("/sweep?" + q); !strings.Contains(text, "Only one sweep of three") {
				return q
			}
		}
	}
	s.Fatal("none of the sweeps is there")
	return ""
}

// peak is the most memory that the process has had; 0 where the system does not say.
func (s *pressed) peak() int64 {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.cmd.Process.Pid))
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(text), "VmHWM:")
	kb, _ := strconv.ParseInt(strings.Fields(rest + " 0")[0], 10, 64)
	return kb << 10
}

func (s *pressed) told() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return fmt.Sprintf("%d answers, %d told to come again", s.status[http.StatusOK], s.status[http.StatusServiceUnavailable])
}

// end holds the server to what must be so in the end, and stops it.
func (s *pressed) end() {
	if peak := s.peak(); peak > mostMemory {
		s.Errorf("the server has taken %d MB", peak>>20)
	}
	_ = s.cmd.Process.Signal(syscall.SIGINT)
	select {
	case <-s.done:
	case <-time.After(30 * time.Second):
		s.Error("the server does not stop")
		return
	}
	if strings.Contains(s.stderr.String(), "panic") {
		s.Errorf("the server says: %.2000s", s.stderr.String())
	}
}
