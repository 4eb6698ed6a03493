package ledger_test

import (
	"strings"
	"testing"
)

// What reaches the crew by one way only is said so, and nothing sounds on a dead box.
func TestView_SaysByWhichWayAnAlertReachesTheCrew(t *testing.T) {
	const text = `# aircraft: telling "caution" { text = screen; sound = horn }
unit "pump" {}
unit "screen" {}
unit "horn" {}
function "brakes" { works = pump }
alert "low" {
  level   = "caution"
  message = "LOW"
  when    = !pump
  tells   = [brakes]
}`
	ways := strings.Replace(text, `{ text = screen; sound = horn }`, "{; text = screen; sound = horn; }", 1)
	for fails, want := range map[string]string{
		"pump@120":                      "brakes: told; low by [text sound], 1 sounds: ",
		"pump@120 screen@110":           "brakes: told; low by [sound], 1 sounds: Heard, not shown.",
		"pump@120 horn@110":             "brakes: told; low by [text], 0 sounds: By text, not by sound.",
		"pump@120 horn@110 screen@110":  "brakes: not told",
		"pump@120 horn@110+20":          "brakes: told; low by [text sound], 1 sounds: ",
		"pump@120 screen@110 horn@130":  "brakes: told; low by [sound], 1 sounds: Heard, not shown.",
		"pump@120 screen@110+50 horn@0": "brakes: told late; low by [text], 0 sounds: By text, not by sound.",
	} {
		l := answer(t, course(t, ways), failing(t, fails))
		got := "brakes: " + l.Loss("brakes").Class.String()
		for _, g := range l.View().Groups {
			for _, r := range g.Rows {
				if g.ID == "announced" {
					s := r.Spans[0]
					got += "; " + r.ID + " by " + strings.ReplaceAll(strings.Join(append([]string{"["}, s.ByWays...), " "), "[ ", "[") + "], " + string(rune('0'+s.Sounds)) + " sounds: " + s.Text
				}
			}
		}
		if got != want {
			t.Errorf("%s\ngot  %s\nwant %s", fails, got, want)
		}
	}
}

func TestLedger_QuietConditions(t *testing.T) {
	check(t, []rule{
		{"held back by a condition of its own", `
			unit "pump" {}
			function "brakes" { works = pump }
			alert "low" {
			  level      = "caution"
			  message    = "LOW"
			  when       = !pump
			  quiet_when = real.time_s < 150
			  tells      = [brakes]
			}`, "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 150, late 30, held in climb
			given low: 150-end
			held low: 120-150, in climb, given at 150`},
	})
}
