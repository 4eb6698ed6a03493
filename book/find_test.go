package book_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/demo"
)

// TestFind_SaysWhatWasMeant: a build, a flight and any item are found by their
// ids, and what is not there is refused with what was probably meant.
func TestFind_SaysWhatWasMeant(t *testing.T) {
	loaded, diags := book.Load(t.Context(), demo.Book())
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	b, err := loaded.BuildNamed("")
	if err != nil || b.Variant != loaded.Variants[0].ID {
		t.Fatalf("the first build: %v, %v", b, err)
	}
	f, err := b.FlightNamed("")
	if err != nil || f != b.Flights[0] {
		t.Errorf("the first flight: %v, %v", f, err)
	}
	if f, err = b.FlightNamed("short_hop"); err != nil || f.ID != "short_hop" {
		t.Errorf("a flight by its id: %v, %v", f, err)
	}
	first := b.Functions[0]
	if x, err := book.Find("function", first.ID, b.Functions); err != nil || x != first {
		t.Errorf("a function by its id: %v, %v", x, err)
	}
	_, noBuild := loaded.BuildNamed(loaded.Variants[0].ID + "x")
	_, noFlight := b.FlightNamed("short_hopp")
	_, noFunction := book.Find("function", first.ID+"x", b.Functions)
	_, none := (&book.Build{}).FlightNamed("")
	for want, err := range map[string]error{
		"no build \"" + loaded.Variants[0].ID + "x\"; did you mean": noBuild,
		"no flight \"short_hopp\"; did you mean \"short_hop\"?":     noFlight,
		"no function \"" + first.ID + "x\"; did you mean":           noFunction,
		"no flight in the book":                                     none,
	} {
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// TestFailures_AreWhatCanFail: all that is listed can be read as a failure, and
// nothing stands twice.
func TestFailures_AreWhatCanFail(t *testing.T) {
	loaded, _ := book.Load(t.Context(), demo.Book())
	b, _ := loaded.Build("")
	list := b.Failures()
	for i, f := range list {
		if read, err := book.ParseFailure(f.String(), b); err != nil || read != f || slices.Contains(list[:i], f) {
			t.Errorf("%v: %v, %v", f, read, err)
		}
	}
	if len(list) < 300 {
		t.Errorf("only %d failures", len(list))
	}
}
