package oracle

import (
	"knockon/book"
	"knockon/flight"
)

// Question is a flight with failures and the same flight without: how can people
// know of what is lost (docs/meaning.md, section 5a)?
type Question struct {
	Build       *book.Build
	Flight      *book.Flight
	Path        flight.Path
	Here, There Scenario
	Step        book.Time
	Until       book.Time // as far as both runs went; what comes later is not looked at
}

// Known is the answer.
type Known struct {
	Held      []Hold
	Losses    []KnownLoss // in the order of the book
	Concluded []Concluded
}

// KnownLoss is a function that is lost, and the word of its row.
type KnownLoss struct {
	Function string
	Word     string
	Spans    []KnownSpan
}

// KnownSpan is one span of it.
type KnownSpan struct {
	From, To book.Time
	Wanted   bool // at some moment of it
	Mattered bool
	Word     string
	Also     []string // the others that fit, in the order in which they are tried
	LateBy   book.Time
	ByAlert  bool // of late: an alert tells it no later than it follows
	Follows  *KnownFollowing
	Noticed  *KnownNoticing
}

// KnownFollowing is when a loss follows, and from what.
type KnownFollowing struct {
	At      book.Time
	From    string    // the item at the other end
	Since   book.Time // when that began to be held
	Steps   int
	Distant bool
}

// KnownNoticing is when a loss is noticed.
type KnownNoticing struct {
	At     book.Time
	AtOnce bool
}

// Concluded is a false conclusion.
type Concluded struct {
	Function string
	From, To book.Time
}

// The words of a span, in the order in which they are tried.
const (
	wordTold   = "told"
	wordDenied = "denied"
	wordFollow = "follows"
	wordAtOnce = "noticed at once"
	wordLate   = "late"
	wordInUse  = "found when used"
	wordHidden = "hidden"
)

var knownWords = []string{wordTold, wordDenied, wordFollow, wordAtOnce, wordLate, wordInUse}
