// Package proof turns a single failure at a moment into what proves it: the
// smallest set of readings, alerts, lamps and switches that, taken together, no
// other single failure of the book shows then.
//
// Invariant: every failure that is said to be excluded shows something else in at
// least one sign of the set; those that show the same in all signs of the book are
// named. Nobody's hands are on it. Rules: docs/proof.md.
//
// Start reading at Of (proof.go), then signs.go and cover.go.
package proof
