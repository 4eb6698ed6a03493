// Package islands turns the demonstration's airfields and their weather into the
// ground that its flights go over, for tests; read once, so none may change it.
// Start reading at Region.
package islands

import (
	"io/fs"
	"sync"
	"testing"

	"knockon/airfield"
	"knockon/demo"
	"knockon/region"
)

// Read is the same where no test is at hand; it fails if the demonstration cannot be read.
var Read = sync.OnceValues(func() (*region.Region, error) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		return nil, err
	}
	var texts [3]string
	for i, name := range []string{"weather.txt", "conditions.csv", "aloft.txt"} {
		b, err := fs.ReadFile(demo.Region(), name)
		if err != nil {
			return nil, err
		}
		texts[i] = string(b)
	}
	g, _ := region.New(list, texts[0], texts[1], texts[2])
	return g, nil
})

// Region is the ground of its flights, with its weather; read once for all tests.
func Region(tb testing.TB) *region.Region {
	tb.Helper()
	g, err := Read()
	if err != nil {
		tb.Fatal(err)
	}
	return g
}
