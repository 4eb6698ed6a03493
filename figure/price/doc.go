// Package price turns what a failure costs into pictures as SVG text: the fuel
// (fuel on board over the time of a diversion) and the waterfall (what each lost
// function adds).
//
// Invariant: a picture is a pure function of its input, and any input gives a
// sound picture: valid XML, no number that is not finite, no two texts over
// each other. A number that the input does not have is said to be missing.
//
// Start reading at Fuel and Waterfall (input.go); each has Wide and Narrow
// (parts of a page), SVG (a document of its own), Caption and Words.
package price
