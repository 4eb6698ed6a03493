// Package say is the house's voice: it turns moments, lengths, numbers and
// lists into the words that every text, page and picture uses.
//
// Two zeros, told apart by the sign: a clock without a sign counts from the
// start of the flight (9:12), one with a sign from the failure (+0:42, −0:05).
// A length of time is never written as a clock but in words (42 s, 3 min 05 s).
// Every clock goes to the nearest second, so that one moment reads the same
// wherever it stands.
//
// Invariant: the same value gives the same words everywhere; nothing here
// depends on the machine. The package knows nothing of the house.
//
// Start reading at clock.go; text.go sets paragraphs to a width.
package say
