package demo_test

import (
	"context"
	"os"
	"testing"

	"knockon/demo"
	"knockon/internal/mutate"
)

// TestClaims_EachFailsWhenTheLineBehindItIsBroken breaks lines of the book one
// at a time: for every claim there must be one that makes it fail. Where
// KNOCKON_ALL is not set it tries each fourth claim; all of them take minutes.
func TestClaims_EachFailsWhenTheLineBehindItIsBroken(t *testing.T) {
	each := 4
	if os.Getenv("KNOCKON_ALL") != "" {
		each = 1
	}
	verdicts, err := mutate.Claims(context.Background(), demo.Book(), each)
	if err != nil {
		t.Fatal(err)
	}
	weak, expectations, tried := 0, 0, 0
	for _, v := range verdicts {
		if v.Killer == "" {
			t.Errorf("%s: no broken line makes this claim fail", v.Claim.ID)
		}
		weak += len(v.Weak())
		expectations += len(v.Checks)
		tried += v.Tried
		for _, c := range v.Weak() { // where it states what the crew does, nothing in the model can
			t.Logf("%s: nothing makes %s fail", v.Claim.ID, c.Expect)
		}
	}
	t.Logf("%d claims, %d expectations, %d broken books; nothing makes %d expectations fail", len(verdicts), expectations, tried, weak)
	if weak*50 > expectations {
		t.Errorf("%d of %d expectations cannot fail: more than one in fifty", weak, expectations)
	}
}
