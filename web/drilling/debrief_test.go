package drilling_test

import (
	"strings"
	"testing"
	"time"

	"knockon/drill"
)

// debrief has a debrief worked out and gives its page.
func (r *room) debrief(seat, form string) string {
	r.Helper()
	if status, text := r.ask("POST", seat+"/debrief", "form:"+form); status != 303 {
		r.Fatalf("%d %s", status, text)
	}
	for deadline := time.Now().Add(5 * time.Minute); ; time.Sleep(20 * time.Millisecond) {
		status, text := r.get(seat + "/debrief")
		if status != 200 || time.Now().After(deadline) {
			r.Fatalf("%d %s", status, text)
		}
		if !strings.Contains(text, `id="working"`) {
			return text
		}
	}
}

// TestDebrief_IsTheInstructorsUntilTheEnd: pilots are refused it and learn nothing;
// after the end they have it, and the log is still not theirs.
func TestDebrief_IsTheInstructorsUntilTheEnd(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	pf, in := seats[drill.PilotFlying], seats[drill.Instructor]
	r.watch.pass(60 * time.Second)
	for _, method := range []string{"GET", "POST"} {
		if status, text := r.ask(method, pf+"/debrief", ""); status != 403 || !strings.Contains(text, "until the drill has ended") {
			t.Errorf("%s: %d %s", method, status, text)
		}
	}
	if status, _ := r.ask("POST", pf+"/debrief", "form:end=yes"); status != 400 {
		t.Errorf("a pilot ends the drill: %d", status)
	}
	if text := r.debrief(in, ""); !strings.Contains(text, "Left generator fails") {
		t.Errorf("the instructor's: %s", text)
	}
	if status, _ := r.get(pf + "/debrief"); status != 403 {
		t.Errorf("the instructor's debrief shows to a pilot: %d", status)
	}
	r.watch.pass(30 * time.Second)
	r.debrief(in, "end=yes")
	if status, text := r.get(pf + "/debrief"); status != 200 || !strings.Contains(text, "Left generator fails") || strings.Contains(text, `href="log"`) {
		t.Errorf("after the end: %d %s", status, text)
	}
	if status, _ := r.get(pf + "/log"); status != 403 {
		t.Errorf("the log after the end: %d", status)
	}
	number := 1
	r.send(seats, drill.Input{Client: "i", Number: number, Who: drill.Instructor, Do: drill.Rewind, Back: 0})
	if status, _ := r.get(pf + "/debrief"); status != 403 {
		t.Errorf("after a rewind it goes on: %d", status)
	}
}

// TestDebrief_Alone: who is alone ends the drill, and then has the debrief and the
// log; not before.
func TestDebrief_Alone(t *testing.T) {
	r := enter(t, t.TempDir())
	me := r.begun(left, "alone")[drill.Alone]
	r.watch.pass(60 * time.Second)
	for _, what := range []string{"/log", "/debrief", "/people"} {
		if status, text := r.get(me + what); status != 403 || strings.Contains(text, "gen_left") {
			t.Errorf("%s: %d %s", what, status, text)
		}
	}
	if text := r.debrief(me, "end=yes"); !strings.Contains(text, "Left generator fails") || !strings.Contains(text, `href="log"`) {
		t.Errorf("%s", text)
	}
	if status, text := r.get(me + "/log"); status != 200 || !strings.Contains(text, `"do":"finish"`) {
		t.Errorf("%d %s", status, text)
	}
	if status, text := r.get(me + "/now"); status != 200 || !strings.Contains(text, `"over":true`) {
		t.Errorf("%d %s", status, text)
	}
}

// TestDebrief_IsWorkedOutOnce: a second request gets the one there is, to the byte,
// and no other is begun until the drill has gone on.
func TestDebrief_IsWorkedOutOnce(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	in := seats[drill.Instructor]
	if status, text := r.get(in + "/debrief"); status != 200 || !strings.Contains(text, "Work it out") {
		t.Fatalf("a GET begins nothing: %d %s", status, text)
	}
	r.watch.pass(60 * time.Second)
	first := r.debrief(in, "")
	if status, _ := r.ask("POST", in+"/debrief", ""); status != 303 {
		t.Fatal(status)
	}
	if _, again := r.get(in + "/debrief"); again != first {
		t.Errorf("it is begun again:\n%s", again)
	}
	r.watch.pass(30 * time.Second)
	if _, older := r.get(in + "/debrief"); !strings.Contains(older, "Work it out anew") || strings.Contains(first, "Work it out anew") {
		t.Errorf("the drill has gone on, and nothing says so:\n%s", older)
	}
	if text := r.debrief(in, ""); strings.Contains(text, "Work it out anew") {
		t.Errorf("still the old one:\n%s", text)
	}
}

// TestDebrief_BeginsForNobodyElsesPage: a page of another site cannot begin one, nor
// anything else here.
func TestDebrief_BeginsForNobodyElsesPage(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	for _, header := range [][2]string{{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "http://elsewhere.example"}} {
		for _, address := range []string{seats[drill.Instructor] + "/debrief", seats[drill.Instructor] + "/input", seats[drill.Instructor] + "/people", "/drill/new"} {
			if status := r.from(header, address); status != 403 {
				t.Errorf("%v: %s: %d", header, address, status)
			}
		}
	}
	if status := r.from([2]string{"Sec-Fetch-Site", "same-origin"}, seats[drill.Instructor]+"/debrief"); status != 303 {
		t.Errorf("from our own page: %d", status)
	}
}
