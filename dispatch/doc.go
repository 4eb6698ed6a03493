// Package dispatch turns what is inoperative before a flight into whether it may
// go: by which deferrals of the book, under which conditions, until when, what is
// then one failure away, and where a deferral breaks the principle that the next
// failure must be survivable (docs/dispatch.md).
//
// Invariant: every loss that it names is one that the ledger of a plain flight
// finds, with the deferral and its conditions, and does not find without; and what
// it could not work out it says.
//
// Start reading at Of (answer.go), then Decide (relief.go).
package dispatch
