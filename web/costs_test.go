package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"knockon/ask"
	"knockon/book"
	"knockon/costs"
	"knockon/internal/corvane/islands"
	"knockon/say"
	"knockon/scenario"
	"knockon/web/door"
)

// overIslands is the demonstration with its airfields; all tests share it, so that
// a price is worked out once.
var overIslands = sync.OnceValues(func() (*Site, error) {
	desk, _ := demoDesk()
	region, err := islands.Read()
	if err != nil {
		return nil, err
	}
	s, err := New(Setting{Opening: demoOpening, Region: region, Log: quiet()}, desk)
	if err == nil { // a machine on which much runs at once is slow, and proves nothing
		patient := pricing
		patient.Patience, patient.Limit = 5*time.Minute, 5*time.Minute
		s.pricing = door.New(patient)
	}
	return s, err
})

func costsSite(t testing.TB) *Site {
	t.Helper()
	s, err := overIslands()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// pricedAs is what a file of prices says.
type pricedAs struct {
	Question string
	Costs    costs.View
	Parts    *costs.AttributionView `json:"attribution"`
}

func getPrice(t *testing.T, query string) (p pricedAs) {
	t.Helper()
	w := get(costsSite(t), "/costs.json?"+demoOpening+query)
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	return p
}

// fuelOut is every reason for which fuel speaks against an airfield.
var fuelOut = []string{costs.Reserve, costs.NoArrival}

// The opening failure changes verdicts for all reasons but one: without generators
// the battery runs out as well.
func TestCosts_VerdictsChangeForEveryKindOfReason(t *testing.T) {
	changed := map[string]string{}
	dark := getPrice(t, "&fail=gen_left&fail=gen_right&fail=apu_gen&fail=ram_gen&crew=none").Costs
	for _, row := range append(getPrice(t, "").Costs.Rows, dark.Rows...) {
		if !row.Healthy.Good || row.Failed.Good {
			continue
		}
		for _, kind := range row.Failed.Kinds {
			if slices.Contains(fuelOut, kind) {
				kind = "fuel"
			}
			changed[kind] += " " + row.Ident
		}
	}
	for _, kind := range []string{"fuel", costs.Length, costs.Crosswind, costs.Approach, costs.Time} {
		if changed[kind] == "" {
			t.Errorf("no airfield changes its verdict for: %s", kind)
		}
		t.Logf("%s:%s", kind, changed[kind])
	}
}

func TestCosts_PageSaysWhatTheFileSays(t *testing.T) {
	v := getPrice(t, "&to=QSTO")
	w := get(costsSite(t), "/costs?"+demoOpening+"&to=QSTO")
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	body := html.UnescapeString(w.Body.String())
	want := []string{v.Costs.Summary, book.Caution, `aria-labelledby="map-wide-title"`, `class="roll wide"`, `class="fuel narrow"`, `class="waterfall wide"`}
	for _, row := range v.Costs.Rows {
		want = append(want, ">"+row.Name+"</a>", say.Whole(row.Failed.FuelKg), say.Whole(row.Healthy.FuelKg))
		want = append(want, row.Failed.Reasons...)
	}
	for _, part := range v.Parts.Parts {
		want = append(want, part.Title, say.Whole(part.Back.RequiredM), "("+say.Tenths(part.Alone.Minutes)+")")
	}
	for _, text := range want {
		if !strings.Contains(body, text) {
			t.Errorf("the page does not say %q", text)
		}
	}
	if n := strings.Count(body, `class="verdict `); n != 2*len(v.Costs.Rows) {
		t.Errorf("%d verdicts for %d airfields", n, len(v.Costs.Rows))
	}
	if strings.Contains(body, ">yes.") || regexp.MustCompile(`<td class="n">-?\d{4}`).MatchString(body) {
		t.Error("a sentence without its capital letter, or a number without its comma")
	}
	for _, bad := range []string{" style=", "<style", " onclick=", "<script>", "https://"} {
		if strings.Contains(body, bad) {
			t.Errorf("the page has %q in it, which its own policy forbids", bad)
		}
	}
}

func TestCosts_SaysWhatCannotBePriced(t *testing.T) {
	for _, c := range []struct {
		name, query, says string
		page, file        int
	}{
		{"unknown phase", "&turn=cruize", `There is no phase called "cruize"`, 400, 400},
		{"a turn before the flight", "&turn=-5+min", "turn", 400, 400},
		{"a turn after the flight", "&turn=100+h", "outside", 400, 400},
		{"a turn on the ground", "&turn=taxi_out", "the aircraft is on the ground at this moment", 400, 400},
		{"unknown rule", "&reserve=eurpean", `did you mean "european"?`, 400, 400},
		{"unknown airfield", "&to=ZZZZ", `"ZZZZ" is not among the airfields that were looked at`, 400, 404},
		{"an airfield that is code", "&to=%3Cscript%3E", `is not among the airfields`, 400, 404},
		{"the approach has begun", "&turn=approach+%2B+60+s", "The one runway looked at is", 200, 200},
		{"very long", "&to=" + strings.Repeat("x", 5000), "is not among the airfields", 400, 404},
		{"bad bytes", "&turn=%ff%00%3Cscript%3E", "turn", 400, 400},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := get(costsSite(t), "/costs?"+demoOpening+c.query)
			body := w.Body.String()
			if w.Code != c.page || !strings.Contains(html.UnescapeString(body), c.says) {
				t.Errorf("status %d; the page does not say %q", w.Code, c.says)
			}
			if !utf8.ValidString(body) || strings.Contains(body, "<script>") || len(body) > 500_000 {
				t.Errorf("%d bytes that are no page of ours", len(body))
			}
			if !strings.Contains(body, `name="fail" value="tr_right"`) || !strings.Contains(body, "Back to what is lost and told") {
				t.Error("the question is not kept")
			}
			if got := get(costsSite(t), "/costs.json?"+demoOpening+c.query).Code; got != c.file {
				t.Errorf("as JSON: status %d", got)
			}
			if got := get(costsSite(t), "/costs/part?"+demoOpening+c.query).Code; got != http.StatusOK {
				t.Errorf("as a part of the answer: status %d", got)
			}
		})
	}
}

func TestCosts_RefusesWhatIsNoQuestion(t *testing.T) {
	for address, want := range map[string]int{
		"/costs?at=climb": 400, "/costs?fail=nothing": 400, "/costs/part?fail=nothing": 400, "/costs.json?fail=tr_right&at=1e300+h": 400,
		"/costs?fail=tr_right":      200, // the turn is then the first that can be priced
		"/costs/until?fail=nothing": 400, "/costs/nothing": 404, "/costs/nothing.svg?" + demoOpening: 404, "/costs/map.gif?" + demoOpening: 404,
		"/costs/map?" + demoOpening: 404, "/costs/steps.svg?" + demoOpening: 404, "/costs/steps.svg?" + demoOpening + "&adding=luck": 404,
		"/costs/roll.svg?" + demoOpening + "&to=ZZZZ": 404, "/costs/map.svg?fail=nothing": 400, "/costs/": 404,
		"/costs": 200, // the opening question
	} {
		if got := get(costsSite(t), address).Code; got != want {
			t.Errorf("%s: status %d, want %d", address, got, want)
		}
	}
}

func TestCosts_TheCrewTurnLaterOnAnotherRule(t *testing.T) {
	now, later := getPrice(t, "").Costs, getPrice(t, "&turn=cruise+%2B+10+min&reserve=us-flag").Costs
	if later.TimeS <= now.TimeS || later.FuelKg >= now.FuelKg || later.Rule != "us-flag" || later.Rule == now.Rule {
		t.Errorf("at %v s with %v kg, rule %s; later at %v s with %v kg, rule %s", now.TimeS, now.FuelKg, now.Rule, later.TimeS, later.FuelKg, later.Rule)
	}
	body := get(costsSite(t), "/costs?"+demoOpening+"&turn=cruise+%2B+10+min&reserve=us-flag").Body.String()
	for _, want := range []string{`value="cruise &#43; 10 min"`, `<option value="us-flag" selected>`, "turn=cruise"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
}

func TestCosts_NoAirfieldsNoPrice(t *testing.T) {
	s := demoSite(t)
	for _, address := range []string{"/costs", "/costs/part", "/costs.json", "/costs/until", "/costs/until.json", "/costs/map.svg"} {
		if got := get(s, address+"?"+demoOpening).Code; got != http.StatusNotFound {
			t.Errorf("%s: status %d", address, got)
		}
	}
	if strings.Contains(get(s, "/?"+demoOpening).Body.String(), "What it costs") {
		t.Error("the answer offers a price")
	}
	if !strings.Contains(get(costsSite(t), "/?"+demoOpening).Body.String(), "What it costs") {
		t.Error("with airfields it offers none")
	}
}

func TestCosts_HeadAndTheSameAgain(t *testing.T) {
	s := costsSite(t)
	for _, address := range []string{"/costs?", "/costs/part?", "/costs.json?", "/costs/map.svg?", "/costs/until?"} {
		first := get(s, address+demoOpening)
		r := httptest.NewRequest(http.MethodHead, address+demoOpening, nil)
		r.Host = "127.0.0.1:8765"
		head := httptest.NewRecorder()
		s.ServeHTTP(head, r)
		if head.Code != http.StatusOK || head.Body.Len() != 0 || head.Header().Get("ETag") != first.Header().Get("ETag") || head.Header().Get("ETag") == "" {
			t.Errorf("HEAD %s: status %d, %d bytes, %v", address, head.Code, head.Body.Len(), head.Header())
		}
		r = httptest.NewRequest(http.MethodGet, address+demoOpening, nil)
		r.Host = "127.0.0.1:8765"
		r.Header.Set("If-None-Match", first.Header().Get("ETag"))
		again := httptest.NewRecorder()
		s.ServeHTTP(again, r)
		if again.Code != http.StatusNotModified || again.Body.Len() != 0 {
			t.Errorf("%s again: status %d, %d bytes", address, again.Code, again.Body.Len())
		}
		post := httptest.NewRecorder()
		r = httptest.NewRequest(http.MethodPost, address+demoOpening, nil)
		r.Host = "127.0.0.1:8765"
		if s.ServeHTTP(post, r); post.Code != http.StatusMethodNotAllowed {
			t.Errorf("POST %s: status %d", address, post.Code)
		}
	}
}

func TestCosts_FilesCarryTheCautionAndTheQuestion(t *testing.T) {
	s := costsSite(t)
	for address, file := range map[string]string{
		"map.svg?":                       "northern_link-map.svg",
		"roll.svg?":                      "northern_link-roll-qske.svg",
		"fuel.svg?to=QSTO&":              "northern_link-fuel-qsto.svg",
		"steps.svg?adding=runway&":       "northern_link-steps-qske-runway.svg",
		"steps.svg?adding=time&to=QSBR&": "northern_link-steps-qsbr-time.svg",
	} {
		w := get(s, "/costs/"+address+demoOpening)
		if w.Code != http.StatusOK || w.Header().Get("Content-Disposition") != `attachment; filename="`+file+`"` || w.Header().Get("Content-Type") != "image/svg+xml" {
			t.Errorf("%s: status %d, %v", address, w.Code, w.Header())
		}
		words := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html.UnescapeString(w.Body.String()), " ")
		for _, want := range []string{"For training and study only", "/costs?fail=tr_right"} {
			if !strings.Contains(words, want) {
				t.Errorf("%s does not say %q", address, want)
			}
		}
	}
	w := get(s, "/costs/map.png?"+demoOpening)
	if !bytes.HasPrefix(w.Body.Bytes(), []byte("\x89PNG\r\n")) || w.Header().Get("Content-Type") != "image/png" {
		t.Errorf("no PNG: %v", w.Header())
	}
	v := getPrice(t, "&to=QSTO")
	if v.Costs.Caution != book.Caution || v.Parts == nil || v.Parts.Caution != book.Caution || v.Parts.Ident != "QSTO" {
		t.Errorf("as JSON: %+v", v.Parts)
	}
	if again := get(s, v.Question); again.Code != http.StatusOK {
		t.Errorf("the question %q does not lead back: %d", v.Question, again.Code)
	}
}

// A turn just before the moment that is given still finds the airfield good, and
// one a minute after it does not.
func TestUntil_AgreesWithPricesAtThatMoment(t *testing.T) {
	w := get(costsSite(t), "/costs/until.json?"+demoOpening)
	var got struct{ Until costs.UntilView }
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("status %d: %v", w.Code, err)
	}
	now := getPrice(t, "").Costs
	if got.Until.Caution != book.Caution || len(got.Until.Rows) != len(now.Rows) {
		t.Fatalf("got %+v", got)
	}
	body := html.UnescapeString(get(costsSite(t), "/costs/until?"+demoOpening).Body.String())
	checked := 0
	for i, row := range got.Until.Rows {
		if !strings.Contains(body, row.Name) || !strings.Contains(body, row.Then) {
			t.Errorf("the page does not say %s: %s", row.Name, row.Then)
		}
		if now.Rows[i].Failed.Good && !row.Ever {
			t.Errorf("%s is good now, and is called never good", row.Ident)
		}
		if !row.Ever || row.Always {
			continue
		}
		checked++
		for shift, good := range map[float64]bool{-1: true, 60: false} {
			later := getPrice(t, "&turn="+url.QueryEscape(fmt.Sprintf("%.0f s", row.TimeS+shift))).Costs
			j := slices.IndexFunc(later.Rows, func(r costs.RowView) bool { return r.Ident == row.Ident })
			if j < 0 || later.Rows[j].Failed.Good != good {
				t.Errorf("%s at %.0f s: want good %v, got %+v", row.Ident, row.TimeS+shift, good, later.Rows)
			}
		}
	}
	if checked == 0 {
		t.Error("no airfield stops being good on the way: nothing was checked")
	}
}

func TestUntil_NothingToPutOffOnTheApproach(t *testing.T) {
	query := demoOpening + "&turn=approach+%2B+60+s"
	for _, address := range []string{"/costs/until?", "/costs/until.json?"} {
		w := get(costsSite(t), address+query)
		if w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), "the approach has begun") {
			t.Errorf("%s: status %d", address, w.Code)
		}
	}
	if strings.Contains(get(costsSite(t), "/costs?"+query).Body.String(), "/costs/until") {
		t.Error("the page offers it all the same")
	}
	if !strings.Contains(get(costsSite(t), "/costs/until?"+demoOpening+"&turn=nowhere").Body.String(), "There is no phase") {
		t.Error("a wrong turn is not said")
	}
}

func TestPrices_AreKeptApartAndLetGo(t *testing.T) {
	s := costsSite(t)
	a, err := s.shelves[0].kept.answer(t.Context(), ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}})
	if err != nil {
		t.Fatal(err)
	}
	k := newPriceKeeper()
	price := func(book, rule string) *priced {
		p, err := k.price(t.Context(), &question{shelf: &shelf{id: book}}, a, s.setting.Region, ask.Price{Rule: rule, Most: 1})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	first := price("one", "icao")
	if price("one", "icao") != first {
		t.Error("the same price was worked out again")
	}
	if price("two", "icao") == first || price("one", "us-ifr") == first {
		t.Error("another book or another rule has the same price")
	}
	large := func(name string, places int) { k.keep(name, &costs.Costs{Places: make([]costs.Place, places)}) }
	for i := range 3 {
		large(fmt.Sprint("more ", i), mostPlaces*5/12)
	}
	if len(k.byKey) != 2 || len(k.order) != 2 || k.places > mostPlaces || price("one", "icao") == first {
		t.Errorf("%d prices are kept", len(k.byKey))
	}
	if large("larger than all", 5*mostPlaces); len(k.byKey) != 1 || k.places != 5*mostPlaces {
		t.Errorf("%d prices are kept", len(k.byKey))
	}
}

func TestNumbers(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 999: "999", 1000: "1,000", -1801: "−1,801", 1234567: "1,234,567", -0.2: "0", 999.6: "1,000"} {
		if got := say.Whole(v); got != want {
			t.Errorf("say.Whole(%v) = %q, want %q", v, got, want)
		}
	}
	for v, want := range map[float64]string{0: "0.0", -1.3: "−1.3", 12.55: "12.6", -0.04: "0.0", 100: "100.0"} {
		if got := say.Tenths(v); got != want {
			t.Errorf("say.Tenths(%v) = %q, want %q", v, got, want)
		}
	}
	for s, want := range map[string]string{"": "", "yes": "Yes.", "no: it ends.": "No: it ends.", "über": "Über.", "Is it?": "Is it?"} {
		if got := say.Sentence(s); got != want {
			t.Errorf("say.Sentence(%q) = %q, want %q", s, got, want)
		}
	}
}

// FuzzPrice asks whatever one can write behind the question: a part of a page
// comes back that is text, and that says what was wrong instead of failing.
func FuzzPrice(f *testing.F) {
	for _, seed := range []string{
		"turn=cruise", "turn=climb+%2B+3+min&reserve=us-ifr", "turn=taxi_in", "turn=approach", "turn=1e300+h", "turn=-1+s", "turn=NaN+s", "reserve=%ff%00", "reserve=icao&reserve=x",
		"to=QSKE&adding=fuel", "to=%3Cscript%3E", "adding=%22%3E", ";&&==%zz", "turn=" + strings.Repeat("9", 300), "turn=final+-+30+s", "turn=lift_off",
	} {
		f.Add(seed)
	}
	s := costsSite(f)
	f.Fuzz(func(t *testing.T, query string) {
		u := url.URL{Path: "/costs/part", RawQuery: demoOpening + "&" + query}
		if _, err := url.ParseRequestURI(u.String()); err != nil || strings.ContainsAny(query, " \r\n\x7f") || len(query) > 1000 {
			return // no address that a server is given
		}
		w := get(s, u.String())
		if w.Code != http.StatusOK && w.Code != http.StatusBadRequest {
			t.Errorf("status %d", w.Code)
		}
		if body := w.Body.String(); !utf8.ValidString(body) || strings.Contains(body, "<script") || !strings.Contains(body, "<") {
			t.Errorf("not a page of ours: %q", body)
		}
	})
}

// TestCosts_FullIsNoFaultOfTheQuestion: as for the answers.
func TestCosts_FullIsNoFaultOfTheQuestion(t *testing.T) {
	s := costsSite(t)
	for range pricing.AtWork + pricing.Waiting {
		place, err := s.pricing.Enter()
		if err != nil {
			t.Fatal(err)
		}
		defer place.Leave()
	}
	for _, address := range []string{"/costs?", "/costs/part?", "/costs.json?", "/costs/until?", "/costs/map.png?"} {
		if w := get(s, address+demoOpening); w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" || !strings.Contains(w.Body.String(), "Nothing is wrong with the question") {
			t.Errorf("%s: %d %v", address, w.Code, w.Header())
		}
	}
}

// TestCosts_ThePageKeepsWhatIsSetAndDone: the heading names both, and asking for
// another price on the page does not lose them.
func TestCosts_ThePageKeepsWhatIsSetAndDone(t *testing.T) {
	body := html.UnescapeString(get(costsSite(t), "/costs?fail=engine_left&at=climb%2B130s&set=mask_switch%3Ddrop&act=engine_right_switch%3Doff%40climb%2B140s").Body.String())
	for _, want := range []string{"the crew: Right engine switch to off at climb + 140 s;", "; set, whatever fails: ", `name="set" value="mask_switch=drop"`} {
		if !strings.Contains(body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
}
