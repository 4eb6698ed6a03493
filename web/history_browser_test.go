package web

import (
	"context"
	"net"
	"net/http"
	"sync/atomic"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/internal/browser"
)

// agree is what form, answer, address, mark and title say when they say the same moment.
func (b *tab) agree(at, typed string) {
	b.Helper()
	b.Until("document.getElementById('at').value === " + browser.Quote(typed) + " && new URLSearchParams(document.getElementById('answer').dataset.query).get('at') === " + browser.Quote(typed) +
		" && new URLSearchParams(location.search).get('at').replace(/\\s+/g, '') === " + browser.Quote(at) +
		" && document.querySelector('svg.line.wide .mark').getAttribute('aria-valuetext') === " + browser.Quote(typed) +
		" && document.getElementById('address').textContent.includes('at=')")
}

// TestBrowser_BackAndForward: each question is a step; back and forth form, answer,
// mark and address say the same, also where a failure was taken out on the way, and
// what is asked from there on is asked of what is shown.
func TestBrowser_BackAndForward(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?fail=brake_box&fail=fan&build=plain&at=climb")
	b.agree("climb", "climb")
	for _, at := range []string{"climb + 10 s", "climb + 20 s"} {
		b.Do(chromedp.Focus("svg.line.wide .mark"))
		b.Press(kb.ArrowRight)
		b.Until("new URLSearchParams(location.search).get('at') === " + browser.Quote(at))
	}
	b.Do(chromedp.Click("#chosen a.less[data-ref=fan]"))
	b.Until("!location.search.includes('fail=fan') && !document.getElementById('chosen').textContent.includes('Cabin fan')")
	walk := func(to string) { b.Do(chromedp.Evaluate[chromedp.Void]("history." + to + "()")) }
	walk("back")
	b.Until("location.search.includes('fail=fan') && document.querySelector('#chosen [data-ref=fan]') && document.querySelector('main > h1').textContent.includes('abin fan')")
	b.agree("climb+20s", "climb + 20 s")
	walk("back")
	b.agree("climb+10s", "climb + 10 s")
	walk("back")
	b.agree("climb", "climb")
	walk("forward")
	b.agree("climb+10s", "climb + 10 s")

	// From here on it is asked of what is shown, and what was ahead is gone.
	b.Do(chromedp.SetValue("#at", "cruise"), chromedp.Click("button.answer"))
	b.Until("new URLSearchParams(location.search).get('at') === 'cruise'")
	b.agree("cruise", "cruise")
	walk("back")
	b.agree("climb+10s", "climb + 10 s")

	// An open row is no step.
	b.Do(chromedp.Evaluate[chromedp.Void]("window.steps = history.length"), chromedp.Click("#row-loss-brakes > summary"))
	b.Until("location.search.includes('why=loss-brakes') && document.querySelector('#row-loss-brakes .chain-words')")
	if !browser.Eval[bool](b, "history.length === window.steps") {
		t.Error("an open row made a step")
	}
}

// TestBrowser_PageThatWasKept: a page that the browser kept is made that of its
// address, whatever stood in its form or its answer; and one from elsewhere comes back
// as it was.
func TestBrowser_PageThatWasKept(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?fail=brake_box&build=plain&at=climb")
	b.agree("climb", "climb")
	b.Do(chromedp.Evaluate[chromedp.Void](`document.getElementById('at').value = 'cruise'; document.querySelector('main > h1').textContent = 'of before';
		dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))`))
	b.agree("climb", "climb")
	b.Until("document.querySelector('main > h1').textContent.includes('Climb')")
	b.Do(chromedp.SetValue("#at", "descent"), chromedp.Click("button.answer"))
	b.agree("descent", "descent")
	b.Do(chromedp.Evaluate[chromedp.Void]("location.assign('/find?q=fan')"))
	b.Until("location.pathname === '/find'")
	b.Do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	b.Until("location.pathname === '/'")
	b.agree("descent", "descent")
	b.Do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	b.agree("climb", "climb")
}

// startable is a server that can be stopped and started at one address.
type startable struct {
	t       *testing.T
	at      string
	handler http.Handler
	server  *http.Server
}

func (s *startable) start() {
	s.t.Helper()
	l, err := net.Listen("tcp", s.at)
	if err != nil {
		s.t.Fatal(err)
	}
	s.at = l.Addr().String()
	s.server = &http.Server{Handler: s.handler}
	go s.server.Serve(l)
}

func (s *startable) stop() { s.server.Close() }

const (
	troubled = "document.getElementById('trouble') && document.body.classList.contains('old')"
	well     = "!document.getElementById('trouble') && !document.body.classList.contains('old')"
)

// TestBrowser_ServerThatIsGone: the page says so at the top and dims what is old; when
// the server is there again, the last question is answered, and nothing is said any more.
func TestBrowser_ServerThatIsGone(t *testing.T) {
	s := &startable{t: t, at: "127.0.0.1:0", handler: ternSite(t)}
	s.start()
	t.Cleanup(func() { s.stop() })
	b := &tab{browser.Open(t, 1440, 900, "http://"+s.at+"/?fail=brake_box&build=plain&at=climb"), "http://" + s.at}
	b.agree("climb", "climb")
	s.stop()
	for range 3 {
		b.Do(chromedp.Focus("svg.line.wide .mark"))
		b.Press(kb.ArrowRight)
	}
	b.Until(troubled)
	b.Until("document.getElementById('trouble').textContent.includes('tries again by itself') && document.getElementById('trouble').getBoundingClientRect().top >= 0 && document.getElementById('trouble').getBoundingClientRect().bottom < innerHeight")
	b.Shoot("gone")
	if at := browser.Eval[string](b, "new URLSearchParams(location.search).get('at')"); at != "climb" {
		t.Errorf("the address is that of a question without an answer: %q", at)
	}
	s.start()
	b.Until(well)
	b.Until("new URLSearchParams(location.search).get('at') === 'climb + 30 s'")
	b.agree("climb+30s", "climb + 30 s")

	// Gone while one goes back.
	s.stop()
	b.Do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	b.Until(troubled)
	s.start()
	b.Until(well)
	b.agree("climb", "climb")
}

// TestBrowser_ServerThatIsBusy: its own sentence is shown, and the question is asked
// again.
func TestBrowser_ServerThatIsBusy(t *testing.T) {
	var busy atomic.Bool
	site := ternSite(t)
	handler := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if busy.Load() && r.URL.Path == "/answer" {
			site.frame.Handle(func(*http.Request) (reply, error) { return reply{}, context.DeadlineExceeded })(w, r)
			return
		}
		site.ServeHTTP(w, r)
	})
	s := &startable{t: t, at: "127.0.0.1:0", handler: handler}
	s.start()
	t.Cleanup(func() { s.stop() })
	b := &tab{browser.Open(t, 390, 844, "http://"+s.at+"/?fail=brake_box&build=plain&at=climb"), "http://" + s.at}
	b.agree("climb", "climb")
	busy.Store(true)
	b.Do(chromedp.Evaluate[chromedp.Void]("document.getElementById('at').value = 'cruise'; ask()"))
	b.Until(troubled)
	b.Until("document.getElementById('trouble').textContent.startsWith('The answer took too long.')")
	busy.Store(false)
	b.Until(well)
	b.agree("cruise", "cruise")
}

// TestBrowser_EveryPageNoticesThatTheServerIsGone: also one that asks nothing.
func TestBrowser_EveryPageNoticesThatTheServerIsGone(t *testing.T) {
	s := &startable{t: t, at: "127.0.0.1:0", handler: ternSite(t)}
	s.start()
	t.Cleanup(func() { s.stop() })
	b := &tab{browser.Open(t, 1440, 900, "http://"+s.at+"/find?q=fan"), "http://" + s.at}
	b.Until("document.querySelector('.parts-of-it')")
	s.stop()
	b.Do(chromedp.Evaluate[chromedp.Void]("live.look()"))
	b.Until(troubled)
	s.start()
	b.Until(well)
}
