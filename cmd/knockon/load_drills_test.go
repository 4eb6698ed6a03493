package main

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"knockon/book"
	"knockon/drill"
	"knockon/logbook"
)

// drillsOf keeps drills of many moves each, as a server that ran before would have
// left them, and gives the addresses of those who flew them.
func drillsOf(t *testing.T, folder string, l load) (seats []string) {
	t.Helper()
	shelf, err := logbook.Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	for i := range l.drills {
		id, word := fmt.Sprintf("drill%d", i), fmt.Sprintf("wordofdrill%d", i)
		fails := drill.Strike{What: []string{nth(fails, i)}, At: "climb + 30 s"}
		w, err := shelf.Begin(id, drill.Script{Flight: "northern_link", Fail: []drill.Strike{fails}})
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range movesOf(l.moves) {
			if err := w.Append(in); err != nil {
				t.Fatal(err)
			}
		}
		text, _ := json.Marshal(map[drill.Role]string{drill.Alone: word})
		if err := shelf.PutSeats(id, text); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		seats = append(seats, "/drill/of/"+id+"/"+word)
	}
	return seats
}

// movesOf are moves to and fro, over an hour and a half of the flight.
func movesOf(n int) (all []drill.Input) {
	controls := []string{"gen_left_switch", "gen_right_switch"}
	for i := range n {
		to := "off"
		if i/len(controls)%2 == 1 {
			to = "on"
		}
		at := 600*book.Second + book.Time(i)*5400*book.Second/book.Time(n)
		all = append(all, drill.Input{Client: "a", Number: i + 1, At: at, Who: drill.Alone, Do: drill.Move, ID: nth(controls, i), To: to})
	}
	return all
}

// debrief ends a drill, and waits for what came of it.
func (s *pressed) debrief(seat string) {
	for code := 0; code != http.StatusSeeOther; time.Sleep(time.Second) {
		if code, _ = s.post(seat+"/debrief", "end=yes"); code != http.StatusSeeOther && code != http.StatusServiceUnavailable {
			return
		}
	}
	for end := time.Now().Add(20 * time.Minute); time.Now().Before(end); time.Sleep(2 * time.Second) {
		code, text := s.get(seat + "/debrief")
		if code == http.StatusOK && !strings.Contains(text, `id="working"`) {
			if !strings.Contains(text, "not for use in flight") || !strings.Contains(text, "<h2>Told, done, true</h2>") {
				s.Errorf("%s: this is no debrief: %.500s", seat, text)
			}
			return
		}
	}
	s.Errorf("%s: no debrief in 20 minutes", seat)
}
