// Package roll turns a landing (an aircraft over the threshold, a runway, and
// the moments at which spoilers, brakes and reversers come) into the distance
// it takes, with every event on the way. Distances run from the threshold
// unless a name says otherwise. The same landing always gives the same roll;
// how finely it is stepped moves the result by less than a millimetre per
// kilometre.
//
// Start reading at Landing (landing.go) and Roll (stop.go). How much a wheel
// can brake is in wet.go and code.go, the rules' factors are in factor.go.
//
// The figures are for training and study, not for use in flight.
package roll
