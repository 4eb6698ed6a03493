package outline

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// mostFar is the farthest that a number may be: beyond it the rasteriser, which
// counts in 64ths of a pixel, would run over.
const mostFar = 1e5

// Number reads a number. One too far out is brought in.
func Number(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	return min(max(v, -mostFar), mostFar), nil
}

// Numbers reads a list of numbers with spaces or commas between.
func Numbers(text string) ([]float64, error) {
	var list []float64
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '\n' || r == '\t' }) {
		v, err := Number(f)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, nil
}
