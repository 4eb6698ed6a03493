package swept

import (
	"net/http"
	"strings"
	"testing"
)

// TestDispatch_SaysWhatTheCommandSays: the page of an aircraft that goes, of one that
// does not, and the empty one.
func TestDispatch_SaysWhatTheCommandSays(t *testing.T) {
	p := pagesOf(t)
	for address, parts := range map[string][]string{
		"/dispatch?item=tr_left&flight=short_hop&in=lift_off&found=2026-11-25": {"does not pass the check", "until the end of 2026-11-28", "Only if: <code>", "step 2", "Read both DC buses", "/?at=", "91-deferrals.hcl:5", "not for use in flight", "3 days"},
		"/dispatch?item=landing_light_left,+landing_light_right":               {"It does not go.", "and that is not so", "<code>knockon ways --out landing_light_left --out landing_light_right</code>"},
		"/dispatch?item=wing_heat_valve_left&flight=short_hop&in=cruise":       {"may go, under conditions", "so it is flown without here", "stands at “off”", "takes away more, by the end of the flight, than it would"},
		"/dispatch": {"The book has deferrals for:", "item=tr_left", "Say what is inoperative"},
	} {
		code, text := get(t, p, address)
		if code != http.StatusOK {
			t.Fatalf("%s: %d\n%s", address, code, text)
		}
		for _, part := range parts {
			if !strings.Contains(text, part) {
				t.Errorf("%s: %q is missing", address, part)
			}
		}
	}
}

func TestDispatch_SaysWhatIsWrong(t *testing.T) {
	p := pagesOf(t)
	for address, part := range map[string]string{
		"/dispatch?item=tr_lef":                      "did you mean",
		"/dispatch?item=tr_left&found=1":             "is not a day",
		"/dispatch?item=tr_left&in=clim":             "clim",
		"/dispatch?item=tr_left&build=x":             "no build",
		"/dispatch?item=" + strings.Repeat("a", 500): "at most 400 characters",
	} {
		if code, text := get(t, p, address); code < 400 || code > 499 || !strings.Contains(text, part) {
			t.Errorf("%s: %d, %q is missing in\n%s", address, code, part, text)
		}
	}
}
