package costs

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"reflect"
	"testing"

	"knockon/book"
	"knockon/run"
)

// TestOf_NoMoreThanIsRead: what is said of fields is the same where all of the build
// is worked out on every way, to the last letter.
func TestOf_NoMoreThanIsRead(t *testing.T) {
	ctx := context.Background()
	course, g := courseOf(t, ""), islands(t)
	rng := rand.New(rand.NewPCG(9, 10))
	ways, priced, lapsed := course.Circuit().Ways(), 0, 0
	for i := range 16 {
		k := run.Strike{At: book.Moment{Offset: book.AtSeconds(450 + rng.Float64()*4000)}}
		for range 1 + rng.IntN(4) {
			k.Fail = append(k.Fail, ways[rng.IntN(len(ways))])
		}
		if i%4 == 3 { // something runs out
			k.Fail = append(k.Fail, onBattery().Strikes[0].Fail...)
		}
		q := Question{Scenario: run.Scenario{Strikes: []run.Strike{k}}, At: k.At.Offset + book.AtSeconds(rng.Float64()*600), Most: 4}
		if i%4 == 3 {
			q.Most = 0
		}
		fast, fastErr := Of(ctx, course, g, q)
		if 2*q.narrow(course).Circuit().Size() > course.Circuit().Size() {
			t.Fatal("most of the book is read")
		}
		q.entirely = true
		slow, slowErr := Of(ctx, course, g, q)
		if fastErr != nil || slowErr != nil {
			if fastErr == nil || slowErr == nil || fastErr.Error() != slowErr.Error() {
				t.Errorf("%v: %v and %v", k.Fail, fastErr, slowErr)
			}
			continue
		}
		if q.narrow(course) != course || fast.desk.here.Path().End() != slow.desk.here.Path().End() {
			t.Fatal("not the whole course, or another way")
		}
		a, _ := json.Marshal(fast.View("random"))
		b, _ := json.Marshal(slow.View("random"))
		if string(a) != string(b) {
			t.Errorf("%v at %v:\n%s\n%s", k.Fail, q.At, a, b)
		}
		for j := range fast.Places {
			priced++
			lapsed += len(fast.Places[j].Failed.Lapses)
		}
		if i%4 == 0 {
			sameAttribution(t, fast, slow)
		}
	}
	if priced < 20 || lapsed < 5 {
		t.Errorf("%d fields, %d lapses: the test shows little", priced, lapsed)
	}
}

func sameAttribution(t *testing.T, fast, slow *Costs) {
	t.Helper()
	ident := fast.Places[0].Airfield.Ident
	a, _, err := fast.Attribute(t.Context(), ident)
	b, _, slowErr := slow.Attribute(t.Context(), ident)
	if err != nil || slowErr != nil {
		t.Fatal(err, slowErr)
	}
	if a.Failed != b.Failed || a.Healthy != b.Healthy || !reflect.DeepEqual(a.Parts, b.Parts) {
		t.Errorf("%+v\n%+v", a.Parts, b.Parts)
	}
}
