package drilling_test

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"net/http/httptest"
	"os"
	"strings"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/logbook"
	"knockon/say"
	"knockon/web/drilling"
)

// failing is a shelf whose disk does not do what it is told to.
type failing struct {
	*logbook.Shelf
	begin, take, seats, aside error
}

func (f *failing) Begin(id string, s drill.Script) (*logbook.Writer, error) {
	if f.begin != nil {
		return nil, &fs.PathError{Op: "open", Path: f.Path(id), Err: f.begin}
	}
	return f.Shelf.Begin(id, s)
}

func (f *failing) Continue(id string) (*logbook.Writer, error) {
	if f.take != nil {
		return nil, &fs.PathError{Op: "open", Path: f.Path(id), Err: f.take}
	}
	return f.Shelf.Continue(id)
}

func (f *failing) PutSeats(id string, text []byte) error {
	if f.seats != nil {
		return f.seats
	}
	return f.Shelf.PutSeats(id, text)
}

func (f *failing) SetAside(id string, w *logbook.Writer, lines int) (string, error) {
	if f.aside != nil {
		return "", f.aside
	}
	return f.Shelf.SetAside(id, w, lines)
}

// enterFailing is a room on such a shelf.
func enterFailing(t *testing.T, dir string) (*room, *failing) {
	t.Helper()
	shelf, err := logbook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	f := &failing{Shelf: shelf}
	r := &room{TB: t, dir: dir, watch: &watch{at: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)}, shelf: f}
	r.open()
	return r, f
}

func (r *room) notice(seat string) string {
	r.Helper()
	var v struct{ Notice string }
	r.json(seat+"/now", &v)
	return v.Notice
}

// TestKept_NotBegunOnAFullDisk: a drill goes on without a log; the instructor is told
// what is not kept, where, why and how to save it, and saves it; the others are told
// that it is so. When there is space the log is caught up with, and the notice goes.
func TestKept_NotBegunOnAFullDisk(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	f.begin, f.seats = syscall.ENOSPC, syscall.ENOSPC
	seats := r.begin(left)
	_, told := r.sent(seats, drill.Input{Client: "a", Number: 1, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
	if want := "This drill is not being kept on the disk. The instructor is told why."; told != want || r.notice(seats[drill.PilotMonitoring]) != want {
		t.Errorf("the pilots are told: %q", told)
	}
	id := strings.Split(seats[drill.Instructor], "/")[3]
	if got, want := r.notice(seats[drill.Instructor]), "Not kept: all of this drill. "+f.Path(id)+" cannot be written (no space left on device). The drill goes on in the memory of the server and is lost when that stops, so save the log before. The server tries again by itself."; got != want {
		t.Errorf("the instructor is told: %q", got)
	}
	if left, _ := os.ReadDir(r.dir); len(left) > 0 {
		t.Errorf("there is %v", left)
	}
	saved := r.log(seats)
	if !strings.Contains(saved, `"left_generator_off"`) || strings.Count(saved, "\n") != 3 {
		t.Errorf("saved: %s", saved)
	}
	f.begin, f.seats = nil, nil
	r.watch.pass(11 * time.Second) // a mark of the clock
	if got := r.notice(seats[drill.Instructor]); got != "" {
		t.Errorf("with space again: %q", got)
	}
	if kept, err := os.ReadFile(f.Path(id)); err != nil || string(kept) != r.log(seats) || !strings.HasPrefix(string(kept), saved) {
		t.Errorf("%v: %s", err, kept)
	}
	before := r.screens(seats)
	r.shut()
	r.open()
	if r.screens(seats) != before {
		t.Error("another drill after the server was started again")
	}
}

func (r *room) log(seats of) string {
	r.Helper()
	status, text := r.get(seats[drill.Instructor] + "/log")
	if status != 200 {
		r.Fatalf("%d %s", status, text)
	}
	return text
}

// TestKept_ShutWithoutALog: a server that stops says which drill is lost.
func TestKept_ShutWithoutALog(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	f.begin = syscall.EROFS
	r.begun(left, "alone")
	err := r.hall.Close()
	if err == nil || !strings.Contains(err.Error(), ": not kept: all of this drill: ") || !strings.Contains(err.Error(), "read-only file system") {
		t.Errorf("%v", err)
	}
}

// TestKept_AloneOnAFullDisk: who is alone is told all, and has the log after the end.
func TestKept_AloneOnAFullDisk(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	f.begin = syscall.ENOSPC
	me := r.begun(left, "alone")[drill.Alone]
	if got := r.notice(me); !strings.HasPrefix(got, "Not kept: all of this drill. ") {
		t.Errorf("%q", got)
	}
	if page := r.debrief(me, "end=yes"); !strings.Contains(page, "Not kept: all of this drill. ") {
		t.Errorf("%s", page)
	}
	if status, text := r.get(me + "/log"); status != 200 || !strings.Contains(text, `"do":"finish"`) {
		t.Errorf("%d %s", status, text)
	}
	f.begin = nil // it is shut without a complaint
}

// TestKept_AReadOnlyDisk: a drill is taken up from a log that cannot be written, and
// says from when on it is not kept; where the disk can be written again, it is.
func TestKept_AReadOnlyDisk(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	seats := r.begin(left)
	before := r.screens(seats)
	r.shut()
	f.take = syscall.EROFS
	r.open()
	if after := r.screens(seats); !strings.Contains(after, `"notice":"Not kept: what comes from now on. `) || withoutNotices(after) != before {
		t.Errorf("%s\n%s", before, after)
	}
	r.watch.pass(4 * time.Second)
	_, told := r.sent(seats, drill.Input{Client: "i", Number: 1, Who: drill.Instructor, Do: drill.Move, ID: "gen_left_switch", To: "off"})
	if at := say.Clock(r.inputs(seats)[0].At); !strings.HasPrefix(told, "Not kept: what was done from "+at+" on. ") || !strings.Contains(told, "(read-only file system)") {
		t.Errorf("%q", told)
	}
	f.take = nil
	if _, told := r.sent(seats, drill.Input{Client: "i", Number: 2, Who: drill.Instructor, Do: drill.Move, ID: "gen_left_switch", To: "on"}); told != "" {
		t.Errorf("with a disk again: %q", told)
	}
	if kept, _ := os.ReadFile(f.Path(r.id(seats))); string(kept) != r.log(seats) {
		t.Errorf("%s", kept)
	}
}

// TestKept_AnotherProcessHasGoneOn: a log that grew meanwhile is not written over.
func TestKept_AnotherProcessHasGoneOn(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	seats := r.begin(left)
	r.shut()
	f.take = syscall.EROFS
	r.open()
	r.screens(seats)
	f.take = nil
	w, err := f.Continue(r.id(seats))
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(w.Append(drill.Input{Client: "x", Number: 1, Who: drill.Alone, Do: drill.Call, ID: "left_generator_off", At: 1 << 40}), w.Close()); err != nil {
		t.Fatal(err)
	}
	was, _ := os.ReadFile(f.Path(r.id(seats)))
	if _, told := r.sent(seats, drill.Input{Client: "i", Number: 1, Who: drill.Instructor, Do: drill.Move, ID: "gen_left_switch", To: "off"}); !strings.Contains(told, "another process has gone on with it") {
		t.Errorf("%q", told)
	}
	if is, _ := os.ReadFile(f.Path(r.id(seats))); string(is) != string(was) {
		t.Errorf("written over: %s", is)
	}
	_ = r.hall.Close() // says that it is not kept
}

// TestKept_ASpoiledLog: what stands before the spoiled line is taken up; people are
// told which line, what is missing and where the whole is; and nothing is lost.
func TestKept_ASpoiledLog(t *testing.T) {
	for name, c := range map[string]struct {
		aside, take error
		says        string
	}{
		"":                       {nil, nil, " The whole log, as it was, is kept in "},
		"on a full disk":         {syscall.ENOSPC, nil, ""},
		"on a disk only to read": {nil, syscall.EROFS, ""},
	} {
		r, f := enterFailing(t, t.TempDir())
		seats := r.begin(left)
		for n := range 3 {
			r.watch.pass(2 * time.Second)
			r.send(seats, drill.Input{Client: "a", Number: n + 1, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
		}
		r.shut()
		path := f.Path(r.id(seats))
		whole, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.SplitAfter(string(whole), "\n")
		lines[3] = strings.Replace(lines[3], "call", "c\x00ll", 1)
		spoiled := strings.Join(lines, "")
		if err := os.WriteFile(path, []byte(spoiled), 0o600); err != nil {
			t.Fatal(err)
		}
		f.aside, f.take = c.aside, c.take
		r.open()
		if n := len(r.inputs(seats)); n != 1 {
			t.Errorf("%s: %d inputs of three, of which the second is spoiled", name, n)
		}
		told := r.notice(seats[drill.Instructor])
		if c.says != "" && (!strings.HasPrefix(told, "Line 4 of the log of this drill cannot be read (") || !strings.Contains(told, c.says) || !strings.Contains(told, "stands where the lines before left it, at "+say.Clock(r.inputs(seats)[0].At))) {
			t.Errorf("%s: the instructor is told: %q", name, told)
		}
		if c.says == "" && (!strings.HasPrefix(told, "Not kept: what comes from now on. ") || !strings.Contains(told, "Line 4 of the log")) {
			t.Errorf("%s: the instructor is told: %q", name, told)
		}
		if got := r.notice(seats[drill.PilotFlying]); got == "" || strings.Contains(got, r.dir) {
			t.Errorf("%s: the pilots are told: %q", name, got)
		}
		r.send(seats, drill.Input{Client: "a", Number: 2, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
		kept := path + ".spoiled-1"
		if c.says == "" {
			kept = path
		}
		if text, err := os.ReadFile(kept); err != nil || string(text) != spoiled {
			t.Errorf("%s: the spoiled log is not what it was: %v", name, err)
		}
		if c.says != "" {
			before := r.screens(seats)
			r.shut()
			r.open()
			if withoutNotices(before) != r.screens(seats) {
				t.Errorf("another drill after one more start")
			}
		}
		_ = r.hall.Close()
	}
}

// TestKept_ASpoiledScript: of a log whose first line is spoiled nothing can be shown;
// it is said, tells a pilot nothing, and the file stays.
func TestKept_ASpoiledScript(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	seats := r.begin(left)
	r.shut()
	path := f.Path(r.id(seats))
	whole, _ := os.ReadFile(path)
	for _, c := range []struct {
		text   string
		status int
		says   string
	}{{strings.Replace(string(whole), "gen_left", "gen_l\x00ft", 1), 500, "spoiled in line 1, and nothing of the drill can be shown"}, {strings.Replace(string(whole), `{"flight"`, `"flight"`, 1), 500, "spoiled in line 1"}, {"", 404, "was never begun"}} {
		if err := os.WriteFile(path, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		r.open()
		if status, text := r.get(seats[drill.PilotFlying] + "/"); status != c.status || !strings.Contains(text, c.says) || strings.Contains(text, "gen_") {
			t.Errorf("%q: %d %s", c.text, status, text)
		}
		if is, _ := os.ReadFile(path); string(is) != c.text {
			t.Errorf("changed to %q", is)
		}
		r.shut()
	}
}

// TestKept_ACutLog: a half last line is left out, and the instructor is told.
func TestKept_ACutLog(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	seats := r.begin(left)
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
	r.shut()
	path := f.Path(r.id(seats))
	whole, _ := os.ReadFile(path)
	if err := os.Truncate(path, int64(len(whole)-5)); err != nil {
		t.Fatal(err)
	}
	r.open()
	if told := r.notice(seats[drill.Instructor]); !strings.HasPrefix(told, "The log of this drill ended in the middle of its line 3, which is left out: "+path+".") {
		t.Errorf("%q", told)
	}
	if n := len(r.inputs(seats)); n != 0 {
		t.Errorf("%d inputs", n)
	}
}

// TestHall_LetsGoByATimer: a drill that nobody looks at is let go of though nobody
// asks for anything else, and goes on from its log; one without a log is kept longer;
// one that is looked at stays.
func TestHall_LetsGoByATimer(t *testing.T) {
	dir := t.TempDir()
	b, err := corvane.Load()
	if err != nil {
		t.Fatal(err)
	}
	synctest.Test(t, func(t *testing.T) {
		shelf, err := logbook.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		f := &failing{Shelf: shelf}
		hall, err := drilling.New(drilling.Setting{Book: b, Shelf: f})
		if err != nil {
			t.Fatal(err)
		}
		begin := func() (seat, id string) {
			w := httptest.NewRecorder()
			ask := httptest.NewRequest("POST", "/drill/new", strings.NewReader("for=alone&script="+`{"fail":[{"what":["gen_left"],"at":"climb"}]}`))
			ask.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			hall.ServeHTTP(w, ask)
			seat = w.Header().Get("Location")
			return seat, strings.Split(seat, "/")[3]
		}
		get := func(ctx context.Context, address string) int {
			w := httptest.NewRecorder()
			hall.ServeHTTP(w, httptest.NewRequestWithContext(ctx, "GET", address, nil))
			return w.Code
		}
		free := func(id string) bool {
			w, err := shelf.Continue(id)
			if err == nil {
				_ = w.Close()
			}
			return err == nil
		}
		seat, id := begin()
		watchedSeat, watchedID := begin()
		watching, stop := context.WithCancel(t.Context())
		go get(watching, watchedSeat+"stream")
		f.begin = syscall.ENOSPC
		unkeptSeat, _ := begin()
		time.Sleep(9 * time.Minute)
		if free(id) {
			t.Error("let go of after nine minutes")
		}
		time.Sleep(2 * time.Minute)
		if !free(id) || free(watchedID) {
			t.Errorf("after eleven minutes: let go of %v, and of the one that is looked at %v", free(id), free(watchedID))
		}
		if status := get(t.Context(), seat); status != 200 || free(id) {
			t.Errorf("it does not go on: %d", status)
		}
		time.Sleep(time.Hour)
		if status := get(t.Context(), unkeptSeat); status != 200 {
			t.Errorf("one without a log after an hour: %d", status)
		}
		time.Sleep(2*time.Hour + time.Minute)
		if status := get(t.Context(), unkeptSeat); status != 404 {
			t.Errorf("and after two more: %d", status)
		}
		stop()
		if err := hall.Close(); err != nil {
			t.Error(err)
		}
	})
}

// TestHall_HoldsSoMany: one drill more than the hall holds is refused with a sentence,
// and there is room when one was let go of; those that are there go on.
func TestHall_HoldsSoMany(t *testing.T) {
	r := &room{TB: t, dir: t.TempDir(), watch: &watch{at: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)}, most: 2}
	r.open()
	first, second := r.begin(left), r.begin(left)
	status, text := r.ask("POST", "/drill/new", "form:for=crew")
	if status != 503 || !strings.Contains(text, "2 drills are under way on this server, and it holds no more. One that nobody looks at is let go of after 10 minutes; try again then.") {
		t.Errorf("%d %s", status, text)
	}
	if entries, _ := os.ReadDir(r.dir); len(entries) != 4 { // a log and its seats each
		t.Errorf("%v", entries)
	}
	for _, seats := range []of{first, second} {
		if status, _ := r.get(seats[drill.PilotFlying] + "/now"); status != 200 {
			t.Errorf("one that is there: %d", status)
		}
	}
}

// TestHall_PagesOfASeat: so many pages of a seat follow a drill, and the other seats
// are not disturbed.
func TestHall_PagesOfASeat(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	for range 8 {
		reply, lines := r.listen(t.Context(), seats[drill.PilotFlying])
		defer reply.Body.Close()
		event(t, lines)
	}
	if status, text := r.get(seats[drill.PilotFlying] + "/stream"); status != 429 || !strings.Contains(text, "8 pages of this seat are open already") {
		t.Errorf("%d %s", status, text)
	}
	reply, lines := r.listen(t.Context(), seats[drill.PilotMonitoring])
	defer reply.Body.Close()
	event(t, lines)
}

// TestHall_ResumesFromALogAlone: a log without links, as of an older program or when
// all links are lost, is taken up by who has the folder.
func TestHall_ResumesFromALogAlone(t *testing.T) {
	r, f := enterFailing(t, t.TempDir())
	seats := r.begin(left)
	before := r.screens(seats)
	r.shut()
	if err := os.Remove(strings.TrimSuffix(f.Path(r.id(seats)), ".drill") + ".seats"); err != nil {
		t.Fatal(err)
	}
	r.open()
	if status, _ := r.get(seats[drill.Instructor] + "/"); status != 404 {
		t.Errorf("a link that is not kept: %d", status)
	}
	to, err := r.hall.Resume(t.Context(), r.id(seats))
	if err != nil {
		t.Fatal(err)
	}
	again, err := peopleOf(r.server.URL + to + "people")
	if err != nil {
		t.Fatal(err)
	}
	if r.screens(again) != before {
		t.Error("another drill")
	}
	if _, err := r.hall.Resume(t.Context(), "nowhere"); err == nil || !strings.Contains(err.Error(), "give the name of a file of that folder") {
		t.Errorf("%v", err)
	}
}

// slowShelf is a folder whose logs are read only when it is let go.
type slowShelf struct {
	drilling.Shelf
	let chan struct{}
}

func (s slowShelf) Read(id string) (io.ReadCloser, error) {
	<-s.let
	return s.Shelf.Read(id)
}

// A drill whose log takes long to read is asked for again: who comes meanwhile is
// told so, and finds it when it is there.
func TestVisit_ALogThatTakesLongToRead(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	r.shut()
	folder, err := logbook.Open(r.dir)
	if err != nil {
		t.Fatal(err)
	}
	let := make(chan struct{})
	r.shelf, r.waits = slowShelf{folder, let}, 50*time.Millisecond
	r.open()
	for range 3 {
		if status, text := r.get(seats[drill.Alone] + "/"); status != 503 || !strings.Contains(text, "is being read") || !strings.Contains(text, "not for use in flight") {
			t.Errorf("%d %s", status, text)
		}
	}
	close(let)
	for status, end := 0, time.Now().Add(time.Minute); status != 200; time.Sleep(10 * time.Millisecond) {
		if status, _ = r.get(seats[drill.Alone] + "/"); time.Now().After(end) {
			t.Fatalf("%d", status)
		}
	}
}
