package drilling_test

import (
	"net/url"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/drill"
)

// rowOf is what the debrief says of a step.
func (b *tab) rowOf(step string) string {
	b.Helper()
	return eval[string](b, "[...document.querySelectorAll('.steps-done tbody tr')].find(r => r.cells[0].textContent.includes("+quote(step)+")).innerText")
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
			b.shoot(name + "-list")
			r.watch.pass(75*time.Minute + 25*time.Second) // to the approach
			b.until("document.getElementById('phase').textContent === 'Approach'")
			if apu {
				b.moves("apu_switch", "run")
			}
			r.watch.pass(20 * time.Minute)
			b.until("document.getElementById('state').textContent.includes('ended')")
			b.do(chromedp.Click("#leave"))
			b.until("document.querySelector('main.debrief')")
			b.shoot(name + "-debrief")
			text := eval[string](b, "document.querySelector('.steps-done').innerText")
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
		b.until(live)
	}
	same := func(after string) {
		t.Helper()
		var seen [3]string
		for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
			for i, b := range all {
				seen[i] = eval[string](b, "JSON.stringify("+common+")")
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
			b.until("document.querySelector('button[data-control=" + m[0] + "][value=" + m[1] + "]').getAttribute('aria-pressed') === 'true'")
		}
		same(m[0] + " " + m[1])
	}
	pm.ticks("3", "no")
	pf.until("document.querySelector('#lists li[data-key=\"3\"].done')")
	same("an answer")

	in.shoot("instructor")
	in.do(chromedp.Focus("#fail-find"), chromedp.KeyEvent("right generator"), chromedp.KeyEvent(kb.Enter))
	in.until("document.querySelectorAll('#failed li').length === 2")
	r.watch.pass(3 * time.Second)
	for _, b := range all {
		b.told("Too fast")
	}
	same("a failure")
	in.do(chromedp.Evaluate[chromedp.Void]("document.querySelector('#clock-buttons button[value=\"0\"]').click()"))
	for _, b := range all {
		b.until("document.getElementById('state').textContent.includes('holds')")
	}
	pf.do(chromedp.Evaluate[chromedp.Void]("document.querySelector('button[data-control=apu_switch][value=run]').click()"))
	pf.until("document.getElementById('message').textContent.includes('the instructor holds the drill')")
	same("a hold")
	in.do(chromedp.Focus("#back"), chromedp.KeyEvent("20:12"))
	in.do(chromedp.Click("#back-go"))
	for _, b := range all {
		b.until("document.getElementById('time').textContent === '20:12' && document.querySelectorAll('#alerts li').length === 1")
	}
	same("a rewind")
	in.do(chromedp.Evaluate[chromedp.Void]("document.querySelector('#clock-buttons button[value=\"1\"]').click()"))
	in.until("document.getElementById('state').textContent === ''")
	r.watch.pass(10 * time.Second)
	for _, b := range all {
		b.until("document.getElementById('time').textContent === '20:22' && document.getElementById('state').textContent === ''")
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
		if eval[bool](b, "(e => !!e && !!("+condition+"))(document.activeElement)") {
			return
		}
		b.press(kb.Tab)
	}
	b.Fatalf("Tab never comes to %s", condition)
}

// TestBrowser_TheKeyboardAlone: a drill from its beginning to the debrief without
// a mouse.
func TestBrowser_TheKeyboardAlone(t *testing.T) {
	r := ticking(t)
	b := device(t, r, 1440, 900, "/drill/?"+url.Values{"fail": left.Fail[0].What, "at": {left.Fail[0].At}, "flight": {left.Flight}}.Encode())
	b.tabTo("e.value === 'alone'")
	b.press(kb.Enter)
	b.until(live)
	r.watch.pass(50 * time.Second)
	b.told("Left generator off line")
	b.tabTo("e.id === 'take-find'")
	b.do(chromedp.KeyEvent("generator off"))
	b.press(kb.ArrowDown, kb.Enter) // the first that is found
	b.until("document.querySelector('#lists .list')?.contains(document.activeElement)")
	b.tabTo("e.textContent === 'to the switch'")
	b.press(kb.Enter)
	b.until("document.activeElement.dataset.control === 'gen_left_switch'")
	b.press(kb.ArrowRight, kb.Enter)
	pressed := func(to string) {
		b.until("document.querySelector('button[data-control=gen_left_switch][value=" + to + "]').getAttribute('aria-pressed') === 'true'")
	}
	pressed("off")
	r.watch.pass(4 * time.Second)
	b.press(kb.ArrowLeft, kb.Enter)
	pressed("on")
	b.press(kb.Escape)
	b.until("document.querySelector('#lists .list').contains(document.activeElement)")
	b.tabTo("e.textContent === 'no'")
	b.press(kb.Enter)
	b.until("document.querySelector('#lists li[data-key=\"3\"].done')")
	b.until("document.querySelector('#lists .list').contains(document.activeElement)") // the focus is not lost with the line
	b.tabTo("e.id === 'look-find'")
	b.do(chromedp.KeyEvent("generator"))
	b.press(kb.Enter)
	b.until("document.querySelector('#looked li')")
	r.watch.pass(2 * time.Second)
	b.until("document.querySelector('#looked .says').textContent !== '…'")
	b.tabTo("e.textContent === '4 times'")
	b.press(kb.Enter)
	b.until("document.getElementById('state').textContent === '4 times as fast'")
	b.tabTo("e.id === 'leave'")
	b.press(kb.Enter)
	b.until("document.querySelector('main.debrief')")
	if text := eval[string](b, "document.querySelector('.events').innerText"); !strings.Contains(text, "Left generator switch to off") || !strings.Contains(text, "looks at") {
		t.Errorf("the debrief: %s", text)
	}
}

// TestBrowser_AScreenReaderHears: warnings go to a live region that interrupts,
// all else to one that waits.
func TestBrowser_AScreenReaderHears(t *testing.T) {
	r := ticking(t)
	seats := r.begin(left)
	b := device(t, r, 1440, 900, seats[drill.Alone]+"/")
	b.until(live)
	b.until("document.querySelector('#warned[role=alert]') && document.querySelector('#heard[role=status]')")
	r.watch.pass(50 * time.Second)
	b.until("document.getElementById('heard').textContent === 'caution: Left generator off line'")
	if text := eval[string](b, "document.getElementById('warned').textContent"); text != "" {
		t.Errorf("a caution interrupts: %q", text)
	}
	r.send(seats, drill.Input{Client: "i", Number: 1, Who: drill.Instructor, Do: drill.Inject, Strike: &drill.Strike{What: []string{"nacelle_left.burns"}}})
	r.watch.pass(20 * time.Second)
	b.until("document.getElementById('warned').textContent.startsWith('warning: ')")
}

// axe runs the accessibility checker, which must find nothing.
func (b *tab) axe() {
	b.Helper()
	source, err := os.ReadFile("../testdata/axe/axe.min.js")
	if err != nil {
		b.Fatal(err)
	}
	b.do(chromedp.Evaluate[chromedp.Void](string(source)))
	b.do(chromedp.Evaluate[chromedp.Void]("scrollTo(0, 0)")) // what is scrolled under the strip is no fault
	for _, v := range eval[[]string](b, `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r =>
		r.violations.map(v => v.impact + " " + v.id + ": " + v.help + " " + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " " + (n.any[0]?.message ?? "")).join(" | ")))`) {
		b.Errorf("axe: %s", v)
	}
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
					b.until(live)
				}
				b.shoot(page + "-" + size)
				b.axe()
				if page == "trainee" {
					b.do(chromedp.Focus("#move-find"), chromedp.KeyEvent("left"))
					b.until("document.querySelector('#move-count').textContent.includes('found')")
					b.shoot(page + "-" + size + "-search")
					b.axe()
				}
				if is := eval[float64](b, "document.documentElement.scrollWidth"); is > float64(width) {
					t.Errorf("the page is %v points wide", is)
				}
			})
		}
	}
}

// TestBrowser_ANoticeAndALinkThatDies: who flies is told that the drill is not kept,
// and by an open page that its link leads nowhere any more.
func TestBrowser_ANoticeAndALinkThatDies(t *testing.T) {
	chromium(t)
	r, f := enterFailing(t, t.TempDir())
	f.begin = syscall.ENOSPC
	seats := r.begin(left)
	pf, in := device(t, r, 390, 844, seats[drill.PilotFlying]+"/"), device(t, r, 1440, 900, seats[drill.Instructor]+"/")
	says := "document.getElementById('notice').checkVisibility() && document.getElementById('notice').textContent.startsWith("
	in.until(says + "'Not kept: all of this drill.')")
	pf.until(says + "'This drill is not being kept on the disk. The instructor is told why.')")
	if eval[bool](in, "(n => n.scrollWidth > n.clientWidth)(document.getElementById('notice'))") {
		t.Error("the notice hangs out of its frame")
	}
	in.shoot("not-kept")
	pf.shoot("not-kept-narrow")
	pf.axe()
	f.begin = nil
	r.watch.pass(11 * time.Second)
	for _, b := range []*tab{pf, in} {
		b.until("document.getElementById('notice').hidden")
	}
	if eval[bool](pf, "document.getElementById('leave').checkVisibility()") {
		t.Error("a pilot is offered the debrief before the end")
	}
	people := device(t, r, 1440, 900, seats[drill.Instructor]+"/people")
	people.do(chromedp.Click("button[aria-label='New link: Pilot flying']"))
	pf.until(says + "'This link leads to no seat any more') && document.getElementById('message').textContent === ''")
	pf.shoot("link-dead")
	again, err := peopleOf(r.server.URL + seats[drill.Instructor] + "/people")
	if err != nil {
		t.Fatal(err)
	}
	anew := device(t, r, 390, 844, again[drill.PilotFlying]+"/")
	anew.until(live)
	in.do(chromedp.Click("#leave"))
	in.until("document.querySelector('main.debrief')")
	anew.until("document.getElementById('state').textContent === 'The drill has ended.' && document.getElementById('leave').checkVisibility()")
	anew.do(chromedp.Click("#leave"))
	anew.until("document.querySelector('main.debrief')")
}
