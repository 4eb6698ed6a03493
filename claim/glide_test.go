package claim_test

import (
	"context"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/airfield"
	"knockon/book"
	"knockon/claim"
	"knockon/region"
)

// small is the folder of a small book whose controls outlive its engines.
const small = "testdata/glide"

// glides flies the claims of the small book, with a line otherwise.
func glides(t *testing.T, line, instead string) map[string]claim.Result {
	t.Helper()
	data, err := os.ReadFile(small + "/book.hcl")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	if strings.Count(text, "\n") >= 200 || !strings.Contains(text, line) {
		t.Fatalf("the book has %d lines, or none says %q", strings.Count(text, "\n"), line)
	}
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(strings.Replace(text, line, instead, 1))}})
	if len(diags) > 0 {
		t.Fatal(diags)
	}
	list, problems, err := airfield.ReadFS(os.DirFS(small), "airfields")
	if err != nil || problems.String() != "" {
		t.Fatal(err, problems)
	}
	g, _ := region.New(list, "", "", "")
	r, err := claim.Watch(t.Context(), b, g, claim.All(b), nil)
	if err != nil {
		t.Fatal(err)
	}
	results := map[string]claim.Result{}
	for _, c := range r.Results {
		results[c.Claim.ID] = c
		if text := c.Givens[0].Trouble; text != "" {
			t.Errorf("%s: %s", c.Claim.ID, text)
		}
	}
	return results
}

// TestGlide_TheFieldReachedAndTheOneMissed: all claims of the small book hold, and
// each fails when what it rests on is otherwise.
func TestGlide_TheFieldReachedAndTheOneMissed(t *testing.T) {
	for id, r := range glides(t, "tern", "tern") {
		for _, f := range r.Givens[0].Findings {
			if !f.Holds {
				t.Errorf("%s: %s, got %s", id, f.Expect, f.Got)
			}
		}
	}
	for _, c := range []struct{ claim, line, instead string }{
		{"glide_to_the_nearest", "zero_lift_drag_ratio = 0.021", "zero_lift_drag_ratio = 0.084"},
		{"glide_to_the_nearest", "|| turbine\n", "\n"},
		{"glide_to_the_nearest", `leg     = "land"`, ""},
		{"glide_that_is_too_short", "zero_lift_drag_ratio = 0.021", "zero_lift_drag_ratio = 0.0165"},
		{"glide_that_is_too_short", "zero_lift_drag_ratio = 0.021", "zero_lift_drag_ratio = 0.023"},
		{"no_turbine_no_controls", "works    = pump_left", "works    = true || pump_left"},
	} {
		if r := glides(t, c.line, c.instead)[c.claim]; r.Holds() {
			t.Errorf("%s still holds with %q", c.claim, c.instead)
		}
	}
}
