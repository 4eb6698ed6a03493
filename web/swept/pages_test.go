package swept

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/demo"
)

func pagesOf(t *testing.T) *Pages {
	t.Helper()
	b, diags := book.Load(t.Context(), demo.Book())
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	p, err := New(ask.NewDesk(b))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

func get(t *testing.T, p *Pages, address string) (int, string) {
	t.Helper()
	w := httptest.NewRecorder()
	p.ServeHTTP(w, httptest.NewRequest(http.MethodGet, address, nil))
	text, _ := io.ReadAll(w.Result().Body)
	if to := w.Result().Header.Get("Location"); to != "" {
		return w.Code, to
	}
	return w.Code, string(text)
}

// swept asks for a sweep until it is done.
func swept(t *testing.T, p *Pages, address string) string {
	t.Helper()
	for range 300 {
		code, text := get(t, p, address)
		if code != http.StatusOK {
			t.Fatalf("%s: %d %s", address, code, text)
		}
		if !strings.Contains(text, `id="working"`) {
			return text
		}
		if !strings.Contains(text, "http-equiv=\"refresh\"") {
			t.Fatal("a page that is not done does not ask again")
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatal("the sweep does not end")
	return ""
}

func TestSweep_FindsAndDraws(t *testing.T) {
	p := pagesOf(t)
	text := swept(t, p, "/sweep?order=1")
	for _, want := range []string{"Traps", "Worse together", "The pair map", "not for use in flight", `class="s5"`, "/?at="} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	text = swept(t, p, "/sweep?order=1&phase=cruise&layer=whole&a=24&b=32")
	if !strings.Contains(text, "/sweep/cell?") || !strings.Contains(text, "Units of chapter 24 by units of chapter 32") {
		t.Error("two chapters do not open their units")
	}
	code, to := get(t, p, "/sweep/cell?order=1&phase=cruise&a=gen_left&b=gen_right")
	q, err := url.Parse(to)
	if code != http.StatusSeeOther || err != nil || q.Path != "/" || q.Query().Get("at") != "cruise + 5 s" || len(q.Query()["fail"]) != 2 {
		t.Errorf("a cell leads to %d %s", code, to)
	}
}

func TestSweep_StoppedAndGoneOn(t *testing.T) {
	p := pagesOf(t)
	get(t, p, "/sweep?order=3")
	post := func(what string) {
		w := httptest.NewRecorder()
		r := httptest.NewRequest(http.MethodPost, "/sweep/"+what, strings.NewReader("order=3"))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		p.ServeHTTP(w, r)
		if w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d %s", what, w.Code, w.Body)
		}
	}
	post("stop")
	code, text := get(t, p, "/sweep?order=3")
	if code != http.StatusOK || !strings.Contains(text, "Go on") || !strings.Contains(text, "stopped") {
		t.Errorf("stopped: %d, no way to go on", code)
	}
	post("go")
	if _, text := get(t, p, "/sweep?order=3"); !strings.Contains(text, `id="working"`) {
		t.Error("it does not go on")
	}
	post("stop")
}

func TestPages_SayWhatIsWrong(t *testing.T) {
	p := pagesOf(t)
	for address, want := range map[string]string{
		"/sweep?build=first_serie":              "Did you mean &#34;first_series&#34;?",
		"/sweep?order=9":                        "order is a number from 1 to 3",
		"/sweep?flight=none":                    "no flight",
		"/sweep?layer=x":                        "layer is",
		"/ways?function=brakes_norml":           "did you mean",
		"/ways?function=brakes_normal&told=x":   "say not, wrong",
		"/ways?when=1%2B":                       "Missing expression",
		"/ways?out=nothing_such":                "nothing that can fail",
		"/ways?function=brakes_normal&in=crois": "no phase called",
	} {
		code, text := get(t, p, address)
		if code != http.StatusBadRequest || !strings.Contains(text, want) {
			t.Errorf("%s: %d, does not say %q", address, code, want)
		}
	}
	if code, text := get(t, p, "/sweep/cell?phase=none&a=x&b=<script>"); code != http.StatusBadRequest || strings.Contains(text, "<script>") {
		t.Errorf("a wrong cell: %d %s", code, text)
	}
}

func TestWays_ListsSetsByOrder(t *testing.T) {
	p := pagesOf(t)
	code, text := get(t, p, "/ways?function=brakes_normal&in=landing_roll")
	if code != http.StatusOK {
		t.Fatalf("%d %s", code, text)
	}
	for _, want := range []string{"Either one of these alone", "or both of", "a flight", "/?at=landing_roll", "Complete up to 3"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if _, few := get(t, p, "/ways?function=brakes_normal&in=landing_roll&unit=dc_right"); strings.Count(few, "<li>") >= strings.Count(text, "<li>") {
		t.Error("a unit does not narrow the list")
	}
	for _, want := range []string{"How likely", "Birnbaum", "The failures that matter most"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if _, blank := get(t, p, "/ways"); !strings.Contains(blank, "Choose a function") {
		t.Error("the bare page says nothing")
	}
}

func TestWays_MoreThanOneFunctionAndWhatIsDeferred(t *testing.T) {
	p := pagesOf(t)
	for address, want := range map[string]string{
		"/ways?function=both_ac_sides&also=shaped_control":                                      "are both lost",
		"/ways?function=brakes_normal&told=wrong":                                               "shows it shows wrong",
		"/ways?when=" + url.QueryEscape(`gear_lever == "down" && !brakes_normal`) + "&in=final": "One of these alone",
		"/ways?out=tr_left":                        "one failure",
		"/ways?out=tr_left&function=brakes_normal": "tr_left",
	} {
		code, text := get(t, p, address)
		if code != http.StatusOK || !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
			t.Errorf("%s: %d, no %q", address, code, want)
		}
	}
	_, text := get(t, p, "/ways?out=tr_left")
	for _, want := range []string{"Hazardous", "Both main DC buses", "fail=tr_right", "out=tr_left"} {
		if !strings.Contains(text, want) {
			t.Errorf("what a deferral leaves has no %q", want)
		}
	}
}
