package web_test

import (
	"encoding/json"
	"maps"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/ask"
	"knockon/internal/browser"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/logbook"
	"knockon/run"
	"knockon/web"
	"knockon/web/drilling"
	"knockon/web/swept"

	"knockon/region"
)

// whole is all of the site, as knockon demo serves it: one for all tasks.
func whole(t *testing.T) *httptest.Server {
	t.Helper()
	b, ground := corvane.Book(t), islands.Region(t)
	desk := ask.NewDesk(b)
	more := map[string]http.Handler{}
	sweeps, err := swept.New(desk, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(sweeps.Close)
	maps.Copy(more, sweeps.Mounts())
	shelf, err := logbook.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	var over run.Router = region.Router{Region: ground}
	hall, err := drilling.New(drilling.Setting{Book: b, Shelf: shelf, Over: over})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = hall.Close() })
	more["/drill/"] = hall
	s, err := web.New(web.Setting{Opening: "fail=tr_right&out=tr_left&at=climb+%2B+120+s", Region: ground, More: more}, desk)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return server
}

// person does a task: by mouse, or by the keyboard alone. An action is a click, or what
// is typed into one field with Enter behind it; by the keyboard it is a way by Tab to one
// place with what is pressed there.
type person struct {
	*browser.Tab
	keys    bool
	actions int
}

func (p *person) press(selector string) {
	p.Helper()
	p.actions++
	p.Until("document.querySelector(" + browser.Quote(selector) + ")?.checkVisibility()")
	if !p.keys {
		p.Do(chromedp.Click(selector))
		return
	}
	p.tabTo(selector)
	p.Press(kb.Enter)
}

func (p *person) types(selector, text string) {
	p.Helper()
	p.actions++
	if p.keys {
		p.tabTo(selector)
	} else {
		p.Do(chromedp.Click(selector))
	}
	p.Do(chromedp.KeyEvent(text), chromedp.KeyEvent(kb.Enter))
}

func (p *person) tabTo(selector string) {
	p.Helper()
	for range 400 {
		if browser.Eval[bool](p, "!!document.activeElement?.matches("+browser.Quote(selector)+")") {
			return
		}
		p.Press(kb.Tab)
	}
	p.Fatalf("Tab never comes to %s", selector)
}

// text is what a place of the page says when it says something.
func (p *person) text(selector string) string {
	p.Helper()
	p.Until("document.querySelector(" + browser.Quote(selector) + ")?.innerText.trim()")
	return browser.Eval[string](p, "document.querySelector("+browser.Quote(selector)+").innerText")
}

// asks types a question of one's own on the front page.
func (p *person) asks(question string) {
	p.Helper()
	p.types("#find", question)
	p.Until("location.pathname === '/find' && document.querySelector('#case')")
}

const (
	single = "right generator control unit in the cruise"
	pair   = "both generators in the climb"
	alone  = "both generators in the climb, hands off"
	told   = "right dc source in the climb with left dc source deferred"
)

// tasks are what somebody comes for, and how it is done from the front page. To run a
// drill with an instructor to its debrief is the twelfth (web/drilling).
var tasks = map[string]func(p *person){
	"ask your own double failure": func(p *person) {
		p.asks(pair)
		p.press("#case a")
		if h := p.text("main > h1"); !strings.Contains(h, "Left generator") || !strings.Contains(strings.ToLower(h), "right generator") {
			p.Errorf("it answers %q", h)
		}
	},
	"which loss is hidden": func(p *person) {
		p.asks(told)
		p.press("#case a")
		lead := strings.ToLower(p.text("#lead")) // the page is there
		if hidden := p.ledger("hidden", "denied"); len(hidden) == 0 || !strings.Contains(lead, strings.ToLower(hidden[0])) {
			p.Errorf("of %v it says %q", hidden, lead)
		}
	},
	"what the crew do third": func(p *person) {
		p.asks(single)
		p.press("main a[href^='/crew?']")
		third := "[...document.querySelectorAll('.done-list li')].find(l => l.querySelector('.n').textContent === '3')"
		p.Until(third + "?.querySelector('.says').textContent.length > 5")
	},
	"which step matters most": func(p *person) {
		p.asks(single)
		p.press("main a[href^='/crew?']")
		if most := p.text("#most"); !strings.Contains(most, "Most hangs on step") {
			p.Errorf("it says %q", most)
		}
	},
	"what could save it, and until when": func(p *person) {
		p.asks(alone)
		p.press("#case a")
		p.press("#varied-rescue a")
		if ways := p.text("main.rescue"); !strings.Contains(ways, "until ") {
			p.Errorf("it says %q", ways)
		}
	},
	"where can they land": func(p *person) {
		p.asks(single)
		p.press("#case a")
		p.press("a[href='#costs']")
		p.press("#costs-table > summary")
		if fields := p.text("#costs table.airfields"); !strings.Contains(fields, "Kestrin") || !strings.Contains(fields, "yes") {
			p.Errorf("it says %q", fields)
		}
	},
	"which build differs": func(p *person) {
		p.asks(single)
		p.press("#case a")
		p.Until("document.querySelector('#varied li[data-axis=build]')?.innerText.length > 10")
		if text := strings.ToLower(p.text("#varied li[data-axis=build]")); !strings.Contains(text, "series") && !strings.Contains(text, "build") {
			p.Errorf("it says %q", text)
		}
	},
	"which single failure looks the same": func(p *person) {
		p.asks(single)
		p.press("main a[href^='/alike?']")
		if lead := p.text("main .lead"); !strings.Contains(lead, "show the same in every sign") {
			p.Errorf("it says %q", lead)
		}
	},
	"may it be dispatched": func(p *person) {
		p.press("nav.contents a[href='/dispatch']")
		p.press("main a[href*='item=tr_left']")
		if lead := p.text("main .lead"); !strings.Contains(lead, "By the book it may go") {
			p.Errorf("it says %q", lead)
		}
	},
	"share": func(p *person) {
		p.asks(pair)
		p.press("#case a")
		p.actions++ // its address is copied
		said := p.text("#lead")
		other := browser.Open(p.T, 390, 844, p.text("#address"))
		other.Until("document.getElementById('lead')?.innerText === " + browser.Quote(said))
	},
	"print": func(p *person) {
		p.asks(pair)
		p.press("#case a")
		p.text("#lead")
		p.actions++ // the browser's own print
		if _, err := chromedp.Call(p.Ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
			p.Fatal(err)
		}
		for selector, shown := range map[string]bool{"#lead": true, "main > h1": true, ".running .caution": true, "#question": false, "nav.contents": false} {
			if got := browser.Eval[bool](p, "document.querySelector("+browser.Quote(selector)+").getClientRects().length > 0"); got != shown {
				p.Errorf("%s on paper: %v", selector, got)
			}
		}
	},
}

// ledger is the titles of the losses of the page's question in some groups.
func (p *person) ledger(groups ...string) (titles []string) {
	p.Helper()
	text := browser.Eval[string](p, "fetch('/answer.json' + location.search).then(r => r.text())")
	var v struct {
		Ledger struct {
			Groups []struct {
				ID   string
				Rows []struct{ Title string }
			}
		}
	}
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		p.Fatal(err)
	}
	for _, want := range groups {
		for _, g := range v.Ledger.Groups {
			for _, r := range g.Rows {
				if g.ID == want {
					titles = append(titles, r.Title)
				}
			}
		}
	}
	return titles
}

// TestBrowser_TwelveTasks: each from the front page in at most six actions, and in at
// most eight by the keyboard alone.
func TestBrowser_TwelveTasks(t *testing.T) {
	browser.Path(t)
	server := whole(t)
	for name, task := range tasks {
		for how, most := range map[string]int{"by mouse": 6, "by keyboard": 8} {
			t.Run(name+" "+how, func(t *testing.T) {
				size := map[string][2]int64{"by mouse": {1440, 900}, "by keyboard": {390, 844}}[how]
				p := &person{Tab: browser.Open(t, size[0], size[1], server.URL+"/"), keys: how == "by keyboard"}
				task(p)
				if p.actions > most {
					t.Errorf("%d actions", p.actions)
				}
				t.Logf("%d actions", p.actions)
			})
		}
	}
}
