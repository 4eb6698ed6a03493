package roll

// What the rules give beside what the program uses.

// CreditedWind is the headwind (negative: tailwind) that may be counted for
// dispatch: at most 50 percent of a headwind and at least 150 percent of a
// tailwind, CAT.POL.A.330.
func CreditedWind(headKt float64) float64 {
	if headKt > 0 {
		return 0.5 * headKt
	}
	return 1.5 * headKt
}

// WetMu is the most that a tyre can brake on a smooth wet runway, as a part of
// the load on it, before the anti-skid's efficiency: 14 CFR 25.109(c)(1) with
// the maximum tyre pressure in psi and the ground speed in knots. Speeds above
// 220 kt count as 220 kt.
func WetMu(psi, groundKt float64) float64 { return wetCubic(psi).at(min(groundKt, fastestKt)) }
