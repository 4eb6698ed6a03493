// Package known turns a ledger into how people can know of each loss: that it is
// told, follows from what is told, is noticed, is denied, or is hidden.
//
// Invariant: what it says is a function of the ledger's two records and of one run
// more, the told run, in which all that alerts claim is held so and the crew move
// what they move; nothing else is flown. Rules: docs/meaning.md, section 5a.
//
// The word itself is chosen by Facts.Known (word.go), to which package sweep brings the
// same facts from its lanes.
//
// Start reading at Judge (judge.go), then claims.go and told.go.
package known
