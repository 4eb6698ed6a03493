package ask_test

import (
	"context"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// TestDeceived: an answer with a crew says where a gauge that lies led them; hands
// off nobody looks.
func TestDeceived(t *testing.T) {
	d := ask.NewDesk(corvane.Book(t))
	q := ask.Question{Fail: []scenario.Strike{{What: []string{"gen_left"}, At: "cruise"}}, Out: []string{"static_left.blocked"}, Flight: "northern_link"}
	for conduct, want := range map[string]string{
		"":              `+0:39, Left generator off line: "Below 25,000 ft?": the crew saw Left altitude at 60 ft, while 34,000 ft was true: they answered yes`,
		scenario.Nobody: "",
	} {
		q.Crew = conduct
		a, err := d.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		got := a.Deceived()
		if (want == "") != (len(got) == 0) || want != "" && !strings.HasPrefix(got[0], want) {
			t.Errorf("%q: %q", conduct, got)
		}
	}
}
