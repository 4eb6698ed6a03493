package drilling_test

import (
	"net/url"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/drill"
	"knockon/internal/browser"
)

// rowOf is what the debrief says of a step.
func (b *tab) rowOf(step string) string {
	b.Helper()
	return browser.Eval[string](b, "[...document.querySelectorAll('.steps-done tbody tr')].find(r => r.cells[0].textContent.includes("+browser.Quote(step)+")).innerText")
}

// TestBrowser_DoneRightThenWrong: who does the list right is told so; who leaves
// a step out is told which, and what followed.
func TestBrowser_DoneRightThenWrong(t *testing.T) {
	r := ticking(t)
	for name, apu := range map[string]bool{"right": true, "wrong": false} {
		t.Run(name, func(t *testing.T) {
			b := begins(t, r, 1440, 900)
			r.watch.pass(50 * time.Second)
			b.told("Left generator off line")
			r.watch.pass(5 * time.Second)
			b.takes("Left generator off line")
			b.moves("gen_left_switch", "off")
			r.watch.pass(4 * time.Second)
			b.moves("gen_left_switch", "on")
			r.watch.pass(4 * time.Second)
			b.ticks("3", "no")
			b.moves("gen_left_switch", "off")
			b.ticks("3.else.2", "no")
			b.Shoot(name + "-list")
			r.watch.pass(61 * time.Minute) // to 25,000 ft in the descent, where it lights
			b.Until("document.getElementById('phase').textContent === 'Descent'")
			if apu {
				b.moves("apu_switch", "run")
			}
			r.watch.pass(35 * time.Minute)
			b.Until("document.getElementById('state').textContent.includes('ended')")
			b.Do(chromedp.Click("#leave"))
			b.Until("document.querySelector('main.debrief')")
			b.Shoot(name + "-debrief")
			b.Do(chromedp.Click(".rest > summary"))
			b.debriefed(apu)
			text := browser.Eval[string](b, "document.querySelector('.steps-done').innerText")
			if done := strings.Count(text, "done in time"); apu && (done != 4 || strings.Contains(text, "left out")) || !apu && done != 3 {
				t.Errorf("the steps: %s", text)
			}
			row := b.rowOf("APU switch: run")
			if !apu && (!strings.Contains(row, "never") || !strings.Contains(row, "left out: Water for galley and lavatories lost")) {
				t.Errorf("the step that was left out: %s", row)
			}
		})
	}
}

// debriefed holds the first thing that a debrief says against what was done.
func (b *tab) debriefed(apu bool) {
	b.Helper()
	well := browser.Eval[string](b, "document.querySelector('.well').innerText")
	improve := browser.Eval[string](b, "document.querySelector('.improve')?.innerText ?? ''")
	if cost := "Approach to low minima lost when it was called for, at 95:25"; apu && (!strings.Contains(well, cost) || improve != "") || !apu && (strings.Contains(well, cost) || !strings.Contains(improve, "“APU switch: run” was left out") || !strings.Contains(improve, cost)) {
		b.Errorf("with the APU %v:\n%s\n%s", apu, well, improve)
	}
}

// common is what all people of a drill see alike.
const common = `({alerts: [...document.querySelectorAll('#alerts li')].map(e => e.textContent),
	controls: [...document.querySelectorAll('.positions button[aria-pressed=true]')].map(e => e.dataset.control + '=' + e.value),
	lists: [...document.querySelectorAll('.list')].map(e => e.querySelector('h3').textContent + [...e.querySelectorAll('li')].map(l => l.querySelector('.text').textContent + l.className + l.querySelector('.mark').textContent)),
	state: document.getElementById('state').textContent})`

// TestBrowser_TwoDevicesAndTheInstructorStayInStep: whoever does something, all
// three show the same alerts, controls and lists.
func TestBrowser_TwoDevicesAndTheInstructorStayInStep(t *testing.T) {
	r := ticking(t)
	seats := r.begin(left)
	pf, pm, in := device(t, r, 1440, 900, seats[drill.PilotFlying]+"/"), device(t, r, 390, 844, seats[drill.PilotMonitoring]+"/"), device(t, r, 1440, 900, seats[drill.Instructor]+"/")
	all := []*tab{pf, pm, in}
	for _, b := range all {
		b.Until(live)
	}
	same := func(after string) {
		t.Helper()
		var seen [3]string
		for deadline := time.Now().Add(browser.Patience); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
			for i, b := range all {
				seen[i] = browser.Eval[string](b, "JSON.stringify("+common+")")
			}
			if seen[0] == seen[1] && seen[1] == seen[2] {
				return
			}
		}
		t.Fatalf("after %s:\n%s\n%s\n%s", after, seen[0], seen[1], seen[2])
	}
	r.watch.pass(50 * time.Second)
	for _, b := range all {
		b.told("Left generator off line")
	}
	pf.takes("Left generator off line")
	same("a list")
	moves := [][2]string{{"gen_left_switch", "off"}, {"apu_switch", "run"}, {"gen_left_switch", "on"}, {"apu_switch", "off"}}
	for i := range 20 {
		r.watch.pass(time.Second)
		m := moves[i%4]
		all[i%2].moves(m[0], m[1])
		for _, b := range all {
			b.Until("document.querySelector('button[data-control=" + m[0] + "][value=" + m[1] + "]').getAttribute('aria-pressed') === 'true'")
		}
		same(m[0] + " " + m[1])
	}
	pm.ticks("3", "no")
	pf.Until("document.querySelector('#lists li[data-key=\"3\"].done')")
	same("an answer")

	in.Shoot("instructor")
	in.Do(chromedp.Focus("#fail-find"), chromedp.KeyEvent("right generator"), chromedp.KeyEvent(kb.Enter))
	in.Until("document.querySelectorAll('#failed li').length === 2")
	r.watch.pass(3 * time.Second)
	for _, b := range all {
		b.told("No generator on line")
	}
	same("a failure")
	in.Do(chromedp.Evaluate[chromedp.Void]("document.querySelector('#clock-buttons button[value=\"0\"]').click()"))
	for _, b := range all {
		b.Until("document.getElementById('state').textContent.includes('holds')")
	}
	pf.Do(chromedp.Evaluate[chromedp.Void]("document.querySelector('button[data-control=apu_switch][value=run]').click()"))
	pf.Until("document.getElementById('message').textContent.includes('the instructor holds the drill')")
	same("a hold")
	in.Do(chromedp.Focus("#back"), chromedp.KeyEvent("20:12"))
	in.Do(chromedp.Click("#back-go"))
	for _, b := range all {
		b.Until("document.getElementById('time').textContent === '20:12' && document.querySelectorAll('#alerts li').length === 1")
	}
	same("a rewind")
	in.Do(chromedp.Evaluate[chromedp.Void]("document.querySelector('#clock-buttons button[value=\"1\"]').click()"))
	in.Until("document.getElementById('state').textContent === ''")
	r.watch.pass(10 * time.Second)
	for _, b := range all {
		b.Until("document.getElementById('time').textContent === '20:22' && document.getElementById('state').textContent === ''")
	}
	same("letting go")
	if n := len(r.inputs(seats)); n < 26 {
		t.Errorf("%d inputs", n)
	}
}

// tabTo presses Tab until what has the focus fits.
func (b *tab) tabTo(condition string) {
	b.Helper()
	for range 200 {
		if browser.Eval[bool](b, "(e => !!e && !!("+condition+"))(document.activeElement)") {
			return
		}
		b.Press(kb.Tab)
	}
	b.Fatalf("Tab never comes to %s", condition)
}

// TestBrowser_TheKeyboardAlone: a drill from its beginning to the debrief without
// a mouse.
func TestBrowser_TheKeyboardAlone(t *testing.T) {
	r := ticking(t)
	b := device(t, r, 1440, 900, "/drill/?"+url.Values{"fail": left.Fail[0].What, "at": {left.Fail[0].At}, "flight": {left.Flight}}.Encode())
	b.tabTo("e.value === 'alone'")
	b.Press(kb.Enter)
	b.Until(live)
	r.watch.pass(50 * time.Second)
	b.told("Left generator off line")
	b.tabTo("e.id === 'take-find'")
	b.Do(chromedp.KeyEvent("generator off"))
	b.Press(kb.ArrowDown, kb.Enter) // the first that is found
	b.Until("document.querySelector('#lists .list')?.contains(document.activeElement)")
	b.tabTo("e.textContent === 'to the switch'")
	b.Press(kb.Enter)
	b.Until("document.activeElement.dataset.control === 'gen_left_switch'")
	b.Press(kb.ArrowRight, kb.Enter)
	pressed := func(to string) {
		b.Until("document.querySelector('button[data-control=gen_left_switch][value=" + to + "]').getAttribute('aria-pressed') === 'true'")
	}
	pressed("off")
	r.watch.pass(4 * time.Second)
	b.Press(kb.ArrowLeft, kb.Enter)
	pressed("on")
	b.Press(kb.Escape)
	b.Until("document.querySelector('#lists .list').contains(document.activeElement)")
	b.tabTo("e.textContent === 'no'")
	b.Press(kb.Enter)
	b.Until("document.querySelector('#lists li[data-key=\"3\"].done')")
	b.Until("document.querySelector('#lists .list').contains(document.activeElement)") // the focus is not lost with the line
	b.tabTo("e.id === 'look-find'")
	b.Do(chromedp.KeyEvent("generator"))
	b.Press(kb.Enter)
	b.Until("document.querySelector('#looked li')")
	r.watch.pass(2 * time.Second)
	b.Until("document.querySelector('#looked .says').textContent !== '…'")
	b.tabTo("e.textContent === '4 times'")
	b.Press(kb.Enter)
	b.Until("document.getElementById('state').textContent === '4 times as fast'")
	b.tabTo("e.id === 'leave'")
	b.Press(kb.Enter)
	b.Until("document.querySelector('main.debrief')")
	if text := browser.Eval[string](b, "document.querySelector('.lanes').innerText"); !strings.Contains(text, "Left generator switch to off") || !strings.Contains(text, "looks at") {
		t.Errorf("the debrief: %s", text)
	}
}

// TestBrowser_AScreenReaderHears: warnings go to a live region that interrupts,
// all else to one that waits.
func TestBrowser_AScreenReaderHears(t *testing.T) {
	r := ticking(t)
	seats := r.begin(left)
	b := device(t, r, 1440, 900, seats[drill.Alone]+"/")
	b.Until(live)
	if !browser.Eval[bool](b, "document.getElementById('how').open") {
		t.Error("the help is folded before anything is told")
	}
	b.Until("document.querySelector('#warned[role=alert]') && document.querySelector('#heard[role=status]')")
	r.watch.pass(50 * time.Second)
	b.Until("document.getElementById('heard').textContent === 'caution: Left generator off line'")
	b.Until("!document.getElementById('how').open && document.getElementById('told-count').checkVisibility() && document.getElementById('told-count').textContent === '(1)'")
	if text := browser.Eval[string](b, "document.getElementById('warned').textContent"); text != "" {
		t.Errorf("a caution interrupts: %q", text)
	}
	r.send(seats, drill.Input{Client: "i", Number: 1, Who: drill.Instructor, Do: drill.Inject, Strike: &drill.Strike{What: []string{"nacelle_left.burns"}}})
	r.watch.pass(20 * time.Second)
	b.Until("document.getElementById('warned').textContent.startsWith('warning: ')")
}

// TestBrowser_EveryPageAtBothWidths: the checker finds nothing, and nothing hangs
// out of the page.
func TestBrowser_EveryPageAtBothWidths(t *testing.T) {
	r := ticking(t)
	seats := r.begin(left)
	r.watch.pass(50 * time.Second)
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.Alone, Do: drill.Call, ID: "left_generator_off"})
	r.send(seats, drill.Input{Client: "a", Number: 2, Who: drill.Alone, Do: drill.Look, ID: "gen_left_lamp"})
	r.send(seats, drill.Input{Client: "a", Number: 3, Who: drill.Alone, Do: drill.Tick, ID: "left_generator_off", Step: "3", To: "no"})
	r.watch.pass(5 * time.Second)
	other := r.begin(left)
	r.debrief(seats[drill.Instructor], "")
	for size, width := range map[string]int64{"wide": 1440, "narrow": 390} {
		height := map[string]int64{"wide": 900, "narrow": 844}[size]
		for page, address := range map[string]string{"start": "/drill/", "people": seats[drill.Instructor] + "/people", "trainee": seats[drill.Alone] + "/", "instructor": seats[drill.Instructor] + "/", "debrief": seats[drill.Instructor] + "/debrief", "no-debrief": other[drill.Instructor] + "/debrief"} {
			t.Run(page+" "+size, func(t *testing.T) {
				b := device(t, r, width, height, address)
				if page == "trainee" || page == "instructor" {
					b.Until(live)
				}
				b.Shoot(page + "-" + size)
				b.Axe()
				if page == "trainee" {
					b.Do(chromedp.Focus("#move-find"), chromedp.KeyEvent("left"))
					b.Until("document.querySelector('#move-count').textContent.includes('found')")
					b.Shoot(page + "-" + size + "-search")
					b.Axe()
				}
				if is := browser.Eval[float64](b, "document.documentElement.scrollWidth"); is > float64(width) {
					t.Errorf("the page is %v points wide", is)
				}
			})
		}
	}
}

// TestBrowser_ANoticeAndALinkThatDies: who flies is told that the drill is not kept,
// and by an open page that its link leads nowhere any more.
func TestBrowser_ANoticeAndALinkThatDies(t *testing.T) {
	browser.Path(t)
	r, f := enterFailing(t, t.TempDir())
	f.begin = syscall.ENOSPC
	seats := r.begin(left)
	pf, in := device(t, r, 390, 844, seats[drill.PilotFlying]+"/"), device(t, r, 1440, 900, seats[drill.Instructor]+"/")
	says := "document.getElementById('notice').checkVisibility() && document.getElementById('notice').textContent.startsWith("
	in.Until(says + "'Not kept: all of this drill.')")
	pf.Until(says + "'This drill is not being kept on the disk. The instructor is told why.')")
	if browser.Eval[bool](in, "(n => n.scrollWidth > n.clientWidth)(document.getElementById('notice'))") {
		t.Error("the notice hangs out of its frame")
	}
	in.Shoot("not-kept")
	pf.Shoot("not-kept-narrow")
	pf.Axe()
	f.begin = nil
	r.watch.pass(11 * time.Second)
	for _, b := range []*tab{pf, in} {
		b.Until("document.getElementById('notice').hidden")
	}
	if browser.Eval[bool](pf, "document.getElementById('leave').checkVisibility()") {
		t.Error("a pilot is offered the debrief before the end")
	}
	people := device(t, r, 1440, 900, seats[drill.Instructor]+"/people")
	people.Do(chromedp.Click("button[aria-label='New link: Pilot flying']"))
	pf.Until(says + "'This link leads to no seat any more') && document.getElementById('message').textContent === ''")
	pf.Shoot("link-dead")
	again, err := peopleOf(r.server.URL + seats[drill.Instructor] + "/people")
	if err != nil {
		t.Fatal(err)
	}
	anew := device(t, r, 390, 844, again[drill.PilotFlying]+"/")
	anew.Until(live)
	in.Do(chromedp.Click("#leave"))
	in.Until("document.querySelector('main.debrief')")
	anew.Until("document.getElementById('state').textContent === 'The drill has ended.' && document.getElementById('leave').checkVisibility()")
	anew.Do(chromedp.Click("#leave"))
	anew.Until("document.querySelector('main.debrief')")
}
