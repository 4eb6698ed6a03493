package web

import (
	"strings"
	"testing"

	"knockon/ledger"
)

// TestAnswerView_OpensWithWhatForbidsTheFlight: before where it lands; nothing where nothing does.
func TestAnswerView_OpensWithWhatForbidsTheFlight(t *testing.T) {
	for _, x := range []struct{ forbidden, want string }{{"It does not go.", "It does not go. It lands."}, {"", "It lands."}} {
		v := &answerView{}
		v.opens(&ledger.View{Forbidden: x.forbidden, Ends: "It lands.", Hidden: []ledger.Spoken{{}}}, shownRows{})
		if strings.TrimSpace(strings.Join(strings.Fields(v.Lead), " ")) != x.want {
			t.Errorf("%q opens with %q", x.forbidden, v.Lead)
		}
	}
}
