package proof

import "slices"

// mostProven is the largest set of which it is proven that none is smaller.
const mostProven = 5

// cover finds the smallest set of signs that between them exclude all rivals that
// any sign excludes; of several the first in the order of the signs. excludes[i]
// says which rivals sign i excludes. proven is false where only a set was found that
// may not be the smallest.
func cover(excludes [][]bool, rivals int) (set []int, proven bool) {
	left := make([]bool, rivals)
	for _, row := range excludes {
		for r, yes := range row {
			left[r] = left[r] || yes
		}
	}
	for size := range mostProven + 1 {
		if set, ok := search(excludes, left, size, nil); ok {
			slices.Sort(set)
			return set, true
		}
	}
	return greedy(excludes, left), false
}

// search tries the signs against the rival that fewest of them exclude.
func search(excludes [][]bool, left []bool, size int, set []int) (found []int, ok bool) {
	r := hardest(excludes, left)
	if r < 0 {
		return slices.Clone(set), true
	}
	if size == 0 || count(left) > size*most(excludes, left) {
		return nil, false
	}
	for i, row := range excludes {
		if !row[r] {
			continue
		}
		if found, ok := search(excludes, without(left, row), size-1, append(set, i)); ok {
			return found, true
		}
	}
	return nil, false
}

// hardest is the rival left that fewest signs exclude; -1 if none is left.
func hardest(excludes [][]bool, left []bool) (r int) {
	r, fewest := -1, len(excludes)+1
	for i, open := range left {
		if !open {
			continue
		}
		n := 0
		for _, row := range excludes {
			if row[i] {
				n++
			}
		}
		if n < fewest {
			r, fewest = i, n
		}
	}
	return r
}

func without(left, row []bool) []bool {
	next := make([]bool, len(left))
	for i := range left {
		next[i] = left[i] && !row[i]
	}
	return next
}

func count(list []bool) (n int) {
	for _, yes := range list {
		if yes {
			n++
		}
	}
	return n
}

// most is how many of those left one sign excludes at most.
func most(excludes [][]bool, left []bool) (n int) {
	for _, row := range excludes {
		k := 0
		for i := range left {
			if left[i] && row[i] {
				k++
			}
		}
		n = max(n, k)
	}
	return n
}

// greedy takes the sign that excludes most of what is left, until nothing is.
func greedy(excludes [][]bool, left []bool) (set []int) {
	for count(left) > 0 {
		best, n := -1, 0
		for i, row := range excludes {
			if k := count(left) - count(without(left, row)); k > n {
				best, n = i, k
			}
		}
		set, left = append(set, best), without(left, excludes[best])
	}
	slices.Sort(set)
	return set
}
