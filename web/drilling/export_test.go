package drilling

import (
	"maps"
	"slices"
)

// Patterns are those of all routes.
func (h *Hall) Patterns() []string { return slices.Sorted(maps.Keys(h.routes())) }
