package figure

import (
	"fmt"
	"testing"
)

// TestFolded_LeavesNothingOut: what has no bar of its own is counted and drawn in the bar
// of the others; a line that fits the screen is not folded.
func TestFolded_LeavesNothingOut(t *testing.T) {
	l := sampleLine()
	if _, folds := l.Folded(3); folds {
		t.Error("a short line is folded")
	}
	for i := range 12 {
		p := []Piece{{minutes(float64(20 + i)), minutes(30), InkTold, false}}
		l.Together.Rows = append(l.Together.Rows, Row{Label: fmt.Sprint("wave ", i), Count: 1 + i%4, Says: fmt.Sprint(i), Link: "#" + WaveID(i), Pieces: p})
		l.Told.Rows = append(l.Told.Rows, Row{Label: fmt.Sprint("alert ", i), Count: i % 2, Says: fmt.Sprint(i), Pieces: p})
		l.Groups[0].Rows = append(l.Groups[0].Rows, Row{Label: fmt.Sprint(i), Pieces: p}, Row{Label: fmt.Sprint(-i), Pieces: p})
	}
	for most := 3; most < 14; most++ {
		f, folds := l.Folded(most)
		if !folds || len(f.Groups) != 2 {
			t.Fatalf("%d: %v", most, folds)
		}
		for i, whole := range []Group{l.Together, l.Told} {
			got, count, pieces := f.Groups[i], 0, 0
			for _, r := range got.Rows {
				count, pieces = count+r.Count, pieces+len(r.Pieces)
			}
			for _, r := range whole.Rows {
				count, pieces = count-r.Count, pieces-len(r.Pieces)
			}
			if count != 0 || pieces != 0 || len(got.Rows) != min(most+1, len(whole.Rows)) {
				t.Errorf("%d: %d rows, %d and %d too many", most, len(got.Rows), count, pieces)
			}
		}
	}
	if len(l.Together.Rows) != 12 || l.Together.Title != "" {
		t.Error("folding changed the line itself")
	}
}
