package book

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"
)

// TestSuggest_PrefersTheChapter: of ids that are equally near, one of the chapter in
// which the wrong one is written; of one that is nearer, that one, wherever it is.
func TestSuggest_PrefersTheChapter(t *testing.T) {
	const units = `
unit "pump_a" { chapter = 28 }
unit "pump_b" { chapter = 29 }
unit "pump_c" {}
unit "valve_a1" { chapter = 29 }
unit "valve_a" { chapter = 28 }
`
	for item, want := range map[string]string{
		"signal \"s\" {\n chapter = 28\n value = pump_x\n}\n":   "pump_a",
		"signal \"s\" {\n chapter = 29\n value = pump_x\n}\n":   "pump_b",
		"signal \"s\" {\n value = pump_x\n}\n":                  "pump_c",
		"signal \"s\" {\n chapter = 30\n value = pump_x\n}\n":   "pump_a",
		"signal \"s\" {\n chapter = 29\n value = valve_aa\n}\n": "valve_a1",
		"signal \"s\" {\n chapter = 29\n value = valv_a\n}\n":   "valve_a",
		"event \"e\" {\n chapter = 29\n fails = [pump_x]\n}\n":  "pump_b",
	} {
		_, diags := Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(units + item)}})
		var said []string
		for _, d := range diags {
			said = append(said, d.Detail)
		}
		if all := strings.Join(said, " "); !strings.Contains(all, "Did you mean \""+want+"\"") {
			t.Errorf("%s: %q, want %s", item, all, want)
		}
	}
}
