package say

import (
	"fmt"
	"strings"
)

// mostListed is how many words a message lists.
const mostListed = 12

// No says that there is no such thing, and what was perhaps meant:
// no unit "pmp"; did you mean "pump"?
func No(kind, word string, known []string) string {
	return fmt.Sprintf("no %s %q", kind, word) + OrNear(word, known)
}

// OrNear ends a message about a word that is not known: with what was perhaps
// meant, or else with what there is.
func OrNear(word string, known []string) string {
	near := Nearest(word, known)
	switch n := len(known); {
	case near != "":
		return fmt.Sprintf("; did you mean %q?", near)
	case n == 0:
		return ""
	case n == 1:
		return "; there is only " + known[0]
	case n <= mostListed:
		return "; there are: " + strings.Join(known, ", ")
	}
	return fmt.Sprintf("; there are %d, such as %s", len(known), And(known[:3]))
}

// DidYouMean asks for what was perhaps meant, if anything was; else it says
// otherwise.
func DidYouMean(near, otherwise string) string {
	if near == "" {
		return otherwise
	}
	return fmt.Sprintf("Did you mean %q?", near)
}

// Nearest gives the candidate that a person who wrote word most likely meant,
// or "" if none is near. Of equally near ones the first wins.
func Nearest(word string, candidates []string) string {
	most := 3
	switch {
	case len(word) < 4:
		most = 1
	case len(word) < 7:
		most = 2
	}
	best, bestDistance := "", most+1
	folded := fold(word)
	for _, c := range candidates {
		if c == word || abs(len(c)-len(word)) >= bestDistance {
			continue
		}
		if d := distance(folded, fold(c), bestDistance); d < bestDistance {
			best, bestDistance = c, d
		}
	}
	return best
}

// fold makes words equal that differ in what people mix up most.
func fold(s string) string { return strings.ToLower(strings.ReplaceAll(s, "-", "_")) }

// distance counts the letters to insert, drop, replace or swap with their
// neighbour to get from a to b (optimal string alignment); limit if it is
// limit or more.
func distance(a, b string, limit int) int {
	if len(a) > 64 || len(b) > 64 {
		return limit
	}
	var rows [3][65]int
	before, last, now := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+differs(a[i-1], b[j-1]))
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
			least = min(least, now[j])
		}
		if least >= limit {
			return limit
		}
		before, last, now = last, now, before
	}
	return min(last[len(b)], limit)
}

func differs(a, b byte) int {
	if a == b {
		return 0
	}
	return 1
}

func abs(n int) int { return max(n, -n) }
