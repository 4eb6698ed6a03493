// Package energy turns the coefficients of an aircraft, what its systems do to
// the flight, and a state into the flight that follows: a point mass that
// trades height, speed and fuel in real air.
//
// Invariant: a flight is a pure function of its inputs. It never fails for what
// an aircraft cannot do: an aircraft that cannot climb, cannot stay up or runs
// dry ends its profile with that event.
//
// The lift is taken as the weight and the way over the ground as that through the
// air (small path angles), the wind as steady along
// the track at each level. Inside, all is SI; altitudes are pressure altitudes.
// The figures are for training and study, not for use in flight.
//
// Start reading at Divert (divert.go), then law.go for the equations of motion
// and integrate.go for the method.
package energy
