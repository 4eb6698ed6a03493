package dispatch_test

import (
	"strings"
	"testing"

	"knockon/dispatch"
	"knockon/scenario"
)

// TestAdvise: an item that is catastrophic alone is advised of at the deferral's line,
// one that is not is not, nor one that its conditions make survivable.
func TestAdvise(t *testing.T) {
	const text = `
unit "fin" { title = "Fin" }
unit "pump" {}
unit "heat" {}
function "control" {
  works    = fin && (heat || !real.icing)
  severity = "catastrophic"
}
function "flow" {
  works    = pump
  severity = "hazardous"
}
deferral "fin_out" {
  items    = [fin, pump]
  category = "C"
}
deferral "heat_out" {
  items    = [heat]
  category = "C"
  no_icing = true
}
`
	for _, x := range []struct{ old, new, want string }{
		{"", "", "fin_out"},
		{"  no_icing = true\n", "", "fin_out heat_out"},
		{"[fin, pump]", "[pump]", ""},
	} {
		list, err := dispatch.Advise(t.Context(), scenario.NewCourses(bookOf(t, strings.Replace(text, x.old, x.new, 1))))
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, d := range list {
			for _, id := range []string{"fin_out", "heat_out"} {
				if strings.Contains(d.Summary, id) {
					got = append(got, id)
				}
			}
			if d.Subject.Line < 40 || !strings.Contains(d.Detail, "catastrophic, with nothing more failed") || strings.Contains(d.Summary, "pump") {
				t.Errorf("%s", d)
			}
		}
		if strings.Join(got, " ") != x.want {
			t.Errorf("%q for %q: %v, want %s", x.new, x.old, list, x.want)
		}
	}
}
