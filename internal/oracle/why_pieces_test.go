package oracle_test

import (
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/oracle"
)

// A control that was moved cuts a total into other pieces, and is no cause of what
// that adds in the ninth digit: the needle stands where the failure alone froze it.
func TestWhySmooth_PiecesOfATotalAreNoCause(t *testing.T) {
	f := flightOf{text: piecesBook, build: load(t, piecesBook), path: "height_ft 0:5.591 2.382:8.017 3.662:8.017 3.662:18.291 4.702:3.034 7.446:1.25"}
	f.scenario = oracle.Scenario{
		Failures: []oracle.Failure{{Ref: book.FailureRef{Unit: "gauge", Fault: "stuck"}, At: book.AtSeconds(4.418)}},
		Actions: []oracle.Action{ // the other run keeps the first
			{At: book.AtSeconds(9), Control: "lever", Position: "middle"},
			{At: book.AtSeconds(2.336), Control: "lever", Position: "down"},
		},
	}
	var sum whySum
	q := f.inquire(t, &sum, true)
	q.explain(circuit.Value{Item: "needle", Aspect: circuit.Means}, book.AtSeconds(4.503983))
	if sum.leaves != 1 {
		t.Errorf("explained by %d leaves, want the failure alone", sum.leaves)
	}
}

var piecesBook = `
signal "fed_ft" {
  value = 0.1 * total(real.height_ft)
}
unit "gauge" {
  fault "stuck" {
    stops = false
  }
}
indication "needle" {
  shows = real.height_ft
  means = frozen(fed_ft, gauge.stuck)
}
` + flown("")
