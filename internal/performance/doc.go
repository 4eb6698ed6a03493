// Package performance turns speeds, masses and angles into the plain figures
// of flight mechanics: climb gradients and the rules' minima, reference speed,
// turns, the glide path, range. Closed forms only; what needs stepping is
// elsewhere. A sensible argument gives a finite result.
//
// Start reading anywhere: the functions do not build on each other.
//
// The figures are for training and study, not for use in flight.
package performance
