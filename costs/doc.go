// Package costs turns a run that is held at a moment, and the airfields round it,
// into the price of its failures: for each airfield the time and the fuel that it
// takes to go there now, the runway that it takes to stop, what runs out on the
// way, and a verdict with its binding reason, beside those of the same aircraft
// in the same place with nothing failed.
//
// Invariant: nothing here knows a system. Every diversion is a run of the circuit
// along a flight that feels it (run.Held.Divert): what the systems leave in the
// approach, when the spoilers come, whether the brakes do, is what the model says
// happens there. The definitions are in docs/costs.md.
//
// The figures are for training and study, not for use in flight. Start reading at
// Of (costs.go); a place is judged in place.go and runway.go.
package costs
