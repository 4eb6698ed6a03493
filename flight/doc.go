// Package flight turns a flight as the book gives it into a flight as flown:
// the value of every real.* quantity at every moment. The same flight always
// gives the same values, and a value depends on nothing but its moment: no
// step size enters, so that a threshold crossing can be located exactly.
//
// Start reading at Plan (plan.go). The air is in air.go and speed.go, the
// profile is drawn in departure.go and arrival.go as legs (leg.go), which
// path.go's interface then reads through flown.go.
//
// Beside it stand places and courses (flight/geo), landing rolls (flight/roll)
// and fuel rules (flight/fuel).
//
// Altitudes are pressure altitudes in feet, speeds are in knots unless a name
// says otherwise.
package flight
