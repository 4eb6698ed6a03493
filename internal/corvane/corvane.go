// Package corvane turns the demonstration book into what tests begin with: the
// book, a build of it, a flight on it. It is read once for all tests of a
// package, so none may change it: a test that does reads a book of its own with
// book.Load. Start reading at Load.
package corvane

import (
	"context"
	"errors"
	"sync"
	"testing"

	"knockon/book"
	"knockon/demo"
)

// Load reads the book once.
var Load = sync.OnceValues(func() (*book.Book, error) {
	b, diags := book.Load(context.Background(), demo.Book())
	if diags.HasErrors() {
		return nil, errors.New("the demonstration book does not load: " + diags[0].String())
	}
	return b, nil
})

// Book is the demonstration book.
func Book(tb testing.TB) *book.Book {
	tb.Helper()
	b, err := Load()
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// Build is a build of it; "" is the first.
func Build(tb testing.TB, variant string) *book.Build {
	tb.Helper()
	b, ok := Book(tb).Build(variant)
	if !ok {
		tb.Fatalf("no build %q", variant)
	}
	return b
}

// Flight is a flight on a build.
func Flight(tb testing.TB, b *book.Build, id string) *book.Flight {
	tb.Helper()
	for _, f := range b.Flights {
		if f.ID == id {
			return f
		}
	}
	tb.Fatalf("no flight %q", id)
	return nil
}
