package flight

// SurfaceLayerFt is the height above a field up to which the wind of its surface
// counts: there the wind aloft begins (common practice: above some 2,000 ft the ground
// no longer slows the wind down).
const SurfaceLayerFt = 2000.0

// WindAt is the wind from ahead at an altitude above ground of an elevation: at the
// ground that of the surface, from SurfaceLayerFt above it on that aloft, and between
// them in proportion to the height.
func WindAt(ft, groundFt, surfaceKt float64, aloft func(ft float64) float64) float64 {
	height := max(ft-groundFt, 0)
	if height >= SurfaceLayerFt {
		return aloft(ft)
	}
	top := aloft(groundFt + SurfaceLayerFt)
	return surfaceKt + (top-surfaceKt)*height/SurfaceLayerFt
}

// Over is the wind by altitude on the way to a field, from the wind aloft and that of
// its surface.
func Over(groundFt, surfaceKt float64, aloft func(ft float64) float64) func(ft float64) float64 {
	return func(ft float64) float64 { return WindAt(ft, groundFt, surfaceKt, aloft) }
}
