package door_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"knockon/web/door"
)

func TestDo_NeverMoreThanItsPlaces(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := door.New(door.Setting{AtWork: 2, Waiting: 3})
		var now, most, done atomic.Int32
		open := make(chan struct{})
		for range 5 {
			go func() {
				err := d.Do(t.Context(), func(context.Context) error {
					most.Store(max(most.Load(), now.Add(1)))
					<-open
					now.Add(-1)
					return nil
				})
				if err == nil {
					done.Add(1)
				}
			}()
		}
		synctest.Wait()
		err := d.Do(t.Context(), func(context.Context) error { return nil })
		text, after, ok := door.Status(err)
		if r := (*door.Refusal)(nil); !errors.As(err, &r) || !ok || after <= 0 || !strings.Contains(text, "2 such questions at one time and lets 3 wait") {
			t.Errorf("a sixth: %v; status %q, %d, %v", err, text, after, ok)
		}
		close(open)
		synctest.Wait()
		if most.Load() != 2 || done.Load() != 5 {
			t.Errorf("at most %d at work, %d done", most.Load(), done.Load())
		}
		if err := d.Do(t.Context(), func(context.Context) error { return nil }); err != nil {
			t.Errorf("the places were not given back: %v", err)
		}
	})
}

func TestDo_PatienceAndLimit(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := door.New(door.Setting{AtWork: 1, Waiting: 1, Patience: 5 * time.Second, Limit: 20 * time.Second})
		long := func(ctx context.Context) error { <-ctx.Done(); return ctx.Err() }
		first := make(chan error)
		began := time.Now()
		go func() { first <- d.Do(t.Context(), long) }()
		synctest.Wait()
		err := d.Do(t.Context(), long)
		if r := (*door.Refusal)(nil); !errors.As(err, &r) || time.Since(began) != 5*time.Second || !strings.Contains(r.Text, "within 5 seconds") {
			t.Errorf("after %v: %v", time.Since(began), err)
		}
		err = <-first
		if s := (*door.Slow)(nil); !errors.As(err, &s) || time.Since(began) != 20*time.Second || !strings.Contains(err.Error(), "20 seconds") {
			t.Errorf("after %v: %v", time.Since(began), err)
		}
	})
}

// TestDo_WhoLeavesGivesTheirPlaceBack: a reader who leaves is no refusal, whether
// they wait or are being worked for.
func TestDo_WhoLeavesGivesTheirPlaceBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := door.New(door.Setting{AtWork: 1, Waiting: 1, Patience: time.Minute, Limit: time.Minute})
		ctx, leave := context.WithCancel(t.Context())
		errs := make(chan error, 2)
		for range 2 {
			go func() { errs <- d.Do(ctx, func(ctx context.Context) error { <-ctx.Done(); return ctx.Err() }) }()
		}
		synctest.Wait()
		leave()
		for range 2 {
			if err := <-errs; !errors.Is(err, context.Canceled) {
				t.Errorf("left: %v", err)
			}
		}
		if err := d.Do(t.Context(), func(context.Context) error { return nil }); err != nil {
			t.Errorf("the places were not given back: %v", err)
		}
	})
}

// TestPlace_IsTakenBeforeTheWork: a work that goes on in the background is
// refused when it is begun, not later.
func TestPlace_IsTakenBeforeTheWork(t *testing.T) {
	d := door.New(door.Setting{AtWork: 1})
	p, err := d.Enter()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.Enter(); err == nil {
		t.Error("two places behind a door of one")
	}
	if err := p.Turn(t.Context()); err != nil {
		t.Fatal(err)
	}
	p.Leave()
	q, err := d.Enter()
	if err != nil {
		t.Fatal(err)
	}
	over, cancel := context.WithCancel(t.Context())
	cancel()
	if err := q.Turn(over); err == nil {
		t.Error("one who has left comes to a turn")
	}
	q.Leave()
}

func plain(w http.ResponseWriter, r *http.Request, status int, text string) {
	w.WriteHeader(status)
	fmt.Fprint(w, "PAGE: ", text)
}

func TestCaught_APanicIsAPageAndIsLogged(t *testing.T) {
	var log bytes.Buffer
	mux := http.NewServeMux()
	mux.HandleFunc("/", func(http.ResponseWriter, *http.Request) { panic("the cause of it") })
	mux.HandleFunc("/begun", func(w http.ResponseWriter, _ *http.Request) {
		io.WriteString(w, strings.Repeat("part ", 4000))
		panic("in the middle")
	})
	server := httptest.NewServer(door.Caught(slog.New(slog.NewTextHandler(&log, nil)), plain, mux))
	defer server.Close()
	reply, err := http.Get(server.URL)
	if err != nil {
		t.Fatal(err)
	}
	text, _ := io.ReadAll(reply.Body)
	if reply.StatusCode != http.StatusInternalServerError || string(text) != "PAGE: "+door.OurFault {
		t.Errorf("%d %q", reply.StatusCode, text)
	}
	if !strings.Contains(log.String(), "the cause of it") || !strings.Contains(log.String(), "door_test.go") {
		t.Errorf("the log says %q", log.String())
	}
	reply, err = http.Get(server.URL + "/begun")
	if err == nil {
		if _, err = io.ReadAll(reply.Body); err == nil {
			t.Error("half a reply looks like a whole one")
		}
	}
}

func TestFramed_WhatTheMuxRefusesIsAPage(t *testing.T) {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /here", func(w http.ResponseWriter, r *http.Request) { fmt.Fprint(w, "here") })
	mux.HandleFunc("POST /here/begin", func(w http.ResponseWriter, r *http.Request) { fmt.Fprint(w, "begun") })
	h := door.Framed(plain, mux)
	for _, c := range []struct {
		method, path string
		status       int
		allow, text  string
	}{
		{"GET", "/here", 200, "", "here"},
		{"HEAD", "/here", 200, "", "here"}, // the server drops the text
		{"GET", "/there", 404, "", "PAGE: There is no page"},
		{"POST", "/here", 405, "GET, HEAD", "PAGE: This address takes GET, HEAD, not POST."},
		{"GET", "/here/begin", 405, "POST", "PAGE: This address takes POST, not GET."},
		{"GET", "/a/../here", 307, "", ""},
	} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(c.method, c.path, nil))
		if w.Code != c.status && !(c.status == 307 && w.Code == 301) || w.Header().Get("Allow") != c.allow || !strings.HasPrefix(w.Body.String(), c.text) {
			t.Errorf("%s %s: %d, Allow %q, %q", c.method, c.path, w.Code, w.Header().Get("Allow"), w.Body)
		}
	}
}

func TestSlip_MakesAnErrorOfAPanic(t *testing.T) {
	work := func(slip bool) (err error) {
		defer door.Slip(&err)
		if slip {
			panic("out of step")
		}
		return nil
	}
	if err := work(true); err == nil || !strings.Contains(err.Error(), "out of step") || !strings.Contains(err.Error(), "door_test.go") {
		t.Errorf("a panic becomes %v", err)
	}
	if err := work(false); err != nil {
		t.Errorf("no panic becomes %v", err)
	}
}
