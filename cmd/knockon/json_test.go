package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// printing are command lines of every command that prints JSON.
func printing() map[string]string {
	return map[string]string{
		"check":     "check --json --book testdata/small",
		"errors":    "check --json --book testdata/faulty",
		"fail":      "fail pump_1 --at early --json --book testdata/small",
		"why":       "why brakes --fail pump_1,pump_2 --at early --json --book testdata/small",
		"crew":      "crew pump_1 --at early --json --book testdata/small",
		"worth":     "worth pump_list --fail pump_1 --at early --json --book testdata/small",
		"traps":     "worth --all --json --book testdata/small",
		"conflicts": "conflicts --more 0 --json --book testdata/small",
		"ways":      "ways brakes --json --book testdata/small",
		"dispatch":  "ways --out pump_1 --json --book testdata/small",
		"sweep":     "sweep --json --book testdata/small",
		"assess":    "assess --json --book testdata/small",
		"cell":      "sweep --of pump_1 --json --book testdata/small",
		"costs":     "costs tr_right --at cruise --most 1 --json",
		"parts":     "costs tr_right --at cruise --most 1 --to QSTO --json",
		"until":     "costs tr_right --at cruise --most 1 --until --json",
	}
}

// TestJSON_OneStyle: names are small letters and underlines, a list without
// entries is [], and the caution is there.
func TestJSON_OneStyle(t *testing.T) {
	for name, line := range printing() {
		t.Run(name, func(t *testing.T) {
			var stdout, stderr bytes.Buffer
			if code := run(strings.Fields(line), &stdout, &stderr); code > exitFinding {
				t.Fatalf("exit %d: %s", code, &stderr)
			}
			var v any
			if err := json.Unmarshal(stdout.Bytes(), &v); err != nil {
				t.Fatal(err)
			}
			style(t, name, v)
			if name != "why" && !strings.Contains(stdout.String(), `"caution": "For training and study only`) {
				t.Error("the caution is missing")
			}
		})
	}
}

func style(t *testing.T, path string, v any) {
	switch v := v.(type) {
	case nil:
		t.Errorf("%s is null", path)
	case []any:
		for i, x := range v {
			style(t, fmt.Sprintf("%s[%d]", path, i), x)
		}
	case map[string]any:
		for name, x := range v {
			if strings.ToLower(name) != name || strings.ContainsAny(name, " -") {
				t.Errorf("%s has a field %q", path, name)
			}
			style(t, path+"."+name, x)
		}
	}
}
