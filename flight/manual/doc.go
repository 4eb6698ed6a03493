// Package manual turns the rows of a manual, as a book gives them, into flights
// and landing distances: between the rows in a straight line and never beyond
// them. What is outside is an error of its own, an *Outside or a *Missing; it is
// never zero and never cut to the nearest row.
//
// Invariant: the order of the rows changes nothing, and at a row the answer is
// that row. Failures act through Systems alone: engines that stand, factors, and
// the level and the airspeed that are left.
//
// The figures are for training and study, not for use in flight. Start reading at
// Table.Read (table.go), then Divert (fly.go); Path lets a circuit fly along.
package manual
