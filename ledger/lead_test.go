package ledger_test

import "testing"

// The lead names what is hidden and denied with its time, then the gravest of the rest
// from hazardous on, with its end where it has one; where nothing is hidden or denied
// it says how all is known.
func TestView_Lead(t *testing.T) {
	const text = `
unit "pump" {}
unit "lamp" {}
function "brakes" {
  title    = "Wheel brakes"
  works    = pump
  wanted   = landing
  severity = "catastrophic"
}
function "steering" {
  works    = pump
  severity = "hazardous"
}
function "light" {
  works    = lamp
  severity = "major"
}
alert "low" {
  level   = "warning"
  message = "Low"
  when    = !pump
  tells   = [brakes, steering]
}
alert "dark" {
  level   = "advisory"
  message = "Dark"
  when    = !lamp && climb
  tells   = [light]
}`
	c := course(t, text)
	for question, want := range map[string]string{
		"pump@120":                "Nothing that is lost when it is called for is hidden: 2 told. Gravest of what is told or can be known: wheel brakes (+3:00).",
		"pump@120+30":             "Nothing that is lost when it is called for is hidden: 1 told. Gravest of what is told or can be known: steering (+0:00 to +0:30).",
		"pump@120+30 pump@200+20": "Nothing that is lost when it is called for is hidden: 1 told. Gravest of what is told or can be known: steering (+0:00 to +0:30, again from +1:20 to +1:40).",
		"pump@120+30 pump@150+20": "Nothing that is lost when it is called for is hidden: 1 told. Gravest of what is told or can be known: steering (+0:00 to +0:50).",
		"lamp@250":                "Lost, and hidden: light (+0:00).",
		"lamp@120":                "Nothing that is lost when it is called for is hidden: 1 told.",
		"lamp@250 pump@310":       "Lost, and hidden: light (+0:00). Gravest of what is told or can be known: wheel brakes (+1:00).",
		"pump@310+5 lamp@305":     "Lost, and hidden: light (+0:00). Gravest of what is told or can be known: wheel brakes (+0:05 to +0:10).",
	} {
		if got := answer(t, c, failing(t, question)).View().Lead; got != want {
			t.Errorf("%s\ngot  %s\nwant %s", question, got, want)
		}
	}
}

// TestLoss_SeverityOfWhatNobodyKnows: a loss that is told is graded as it is, the same
// loss unknown as the book says for that, and then stands before a graver one that is
// told.
func TestLoss_SeverityOfWhatNobodyKnows(t *testing.T) {
	c := course(t, `
unit "tube" {}
unit "box" {}
function "speed" {
  works              = tube
  severity           = "minor"
  severity_if_hidden = "hazardous"
}
function "other" {
  works    = tube
  severity = "major"
}
alert "differ" {
  level   = "caution"
  message = "Differ"
  when    = !tube && box
  tells   = [speed]
}`)
	for question, want := range map[string]string{"tube@120": "minor", "tube@120 box@60": "hazardous"} {
		l := answer(t, c, failing(t, question))
		for _, x := range l.Losses {
			if x.Function.ID == "speed" && x.Severity() != want {
				t.Errorf("%s: %s, want %s", question, x.Severity(), want)
			}
		}
		if first := l.Losses[0].Function.ID; want == "hazardous" && first != "speed" {
			t.Errorf("%s: %s comes first", question, first)
		}
	}
}
