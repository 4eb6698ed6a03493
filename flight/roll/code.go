package roll

import (
	"fmt"
	"math"
)

// Code is a runway condition code, 6 (dry) to 0 (no braking).
type Code int

// Report is the braking action that goes with the code; "" for dry.
func (c Code) Report() string {
	if c < 0 || c > 6 {
		return ""
	}
	return [...]string{"nil", "poor", "medium to poor", "medium", "good to medium", "good", ""}[c]
}

// Surface is what lies on a runway, in the words of the runway condition
// assessment matrix.
type Surface int

// The surfaces of the matrix. Wet covers damp and standing water; the depth
// tells them apart.
const (
	Dry Surface = iota
	Frost
	Wet
	Slush
	DrySnow
	WetSnow
	CompactedSnow
	SlipperyWhenWet
	SnowOverCompactedSnow
	Ice
	WetIce
	SlushOverIce
	WaterOverCompactedSnow
	SnowOverIce
	surfaces
)

func (s Surface) String() string {
	if s < 0 || s >= surfaces {
		return fmt.Sprintf("surface %d", int(s))
	}
	return [...]string{
		"dry", "frost", "wet", "slush", "dry snow", "wet snow", "compacted snow", "slippery when wet",
		"snow over compacted snow", "ice", "wet ice", "slush over ice", "water over compacted snow", "snow over ice",
	}[s]
}

// Surfaces lists all surfaces.
func Surfaces() (all []Surface) {
	for s := range surfaces {
		all = append(all, s)
	}
	return all
}

const (
	thinMM   = 3.0   // 1/8 inch in the matrix
	coldSnow = -15.0 // degrees Celsius
)

// Condition gives the condition code of a surface with a depth in millimetres
// and an outside air temperature in degrees Celsius: the runway condition
// assessment matrix for pilots and operators (3 mm itself is thin, -15 C
// itself is cold). It fails for an unknown surface or a senseless number.
func Condition(s Surface, depthMM, temperatureC float64) (Code, error) {
	if s < 0 || s >= surfaces {
		return 0, fmt.Errorf("unknown runway surface %d", int(s))
	}
	if !(depthMM >= 0 && depthMM <= 1000) {
		return 0, fmt.Errorf("depth on the runway is %g mm: give 0 to 1000", depthMM)
	}
	if !(temperatureC >= -80 && temperatureC <= 60) {
		return 0, fmt.Errorf("air temperature is %g C: give -80 to 60", temperatureC)
	}
	return matrix(s, depthMM <= thinMM, temperatureC <= coldSnow), nil
}

func matrix(s Surface, thin, cold bool) Code {
	switch s {
	case Dry:
		return 6
	case Frost:
		return 5
	case Wet, Slush:
		return either(thin, 5, 2)
	case DrySnow, WetSnow:
		return either(thin, 5, 3)
	case CompactedSnow:
		return either(cold, 4, 3)
	case SlipperyWhenWet, SnowOverCompactedSnow:
		return 3
	case Ice:
		return 1
	}
	return 0 // wet ice, and everything that lies on ice or water on snow
}

func either(first bool, a, b Code) Code {
	if first {
		return a
	}
	return b
}

// Tyres is what decides how well the braked wheels hold.
type Tyres struct {
	PSI      float64 // maximum operating pressure
	AntiSkid AntiSkid
	DryMu    float64 // certified braking coefficient on a dry runway, anti-skid included
	Grooved  bool    // the runway is grooved or porous
}

// Coefficients of AC 25-32 (22 December 2015) for landing at time of arrival,
// fully modulating anti-skid. From memory.
const (
	dryShare = 0.90 // of the certified dry coefficient
	muCode4  = 0.20
	muCode3  = 0.16
	muCode2  = 0.16 // most, below the hydroplaning limit
	wetShare = 0.50 // of the wet coefficient, in code 2
	muFloat  = 0.05 // code 2 at or above the limit
	muCode1  = 0.08
)

// grip is the braking coefficient of a code as a function of ground speed: a
// polynomial with a cap below the limit, a constant from there up.
type grip struct {
	below cubic
	most  float64
	limit float64 // kt; +Inf where one law holds throughout
	above float64
}

func constant(mu float64) grip {
	return grip{below: cubic{3: mu}, most: mu, limit: math.Inf(1)}
}

// grip of a code, by AC 25-32.
func (t Tyres) grip(code Code) (grip, error) {
	share := t.AntiSkid.share()
	wet := wetCubic(t.PSI).times(float64(t.AntiSkid))
	switch code {
	case 6:
		return constant(dryShare * t.DryMu * share), nil
	case 5:
		if t.Grooved {
			return constant(GroovedShare * t.DryMu * share), nil
		}
		return grip{below: wet, most: math.Inf(1), limit: math.Inf(1)}, nil
	case 4:
		return constant(muCode4 * share), nil
	case 3:
		return constant(muCode3 * share), nil
	case 2:
		limit := hydroplaningShare * Hydroplaning(t.PSI, 1)
		return grip{below: wet.times(wetShare), most: muCode2 * share, limit: limit, above: muFloat * share}, nil
	case 1:
		return constant(muCode1 * share), nil
	}
	return grip{}, fmt.Errorf("runway condition code %d: no landing is made on code 0, and codes end at 6", code)
}

// at is the coefficient at a ground speed; floating says which side of the
// limit counts.
func (g *grip) at(kt float64, floating bool) float64 {
	if floating {
		return g.above
	}
	return min(g.most, g.below.at(min(kt, fastestKt)))
}

// bend is the ground speed at which the cap begins to count; 0 where there is
// none.
func (g *grip) bend() float64 {
	slow, fast := 0.0, min(g.limit, fastestKt)
	if !(g.below.at(slow) > g.most) || g.below.at(fast) > g.most {
		return 0
	}
	for fast-slow > 1e-9 {
		if mid := (slow + fast) / 2; g.below.at(mid) > g.most {
			slow = mid
		} else {
			fast = mid
		}
	}
	return slow
}

// Mu is the airplane braking coefficient (braking force over the load on the
// braked wheels) on a runway of the given code at a ground speed in knots:
// AC 25-32, from memory, scaled to the anti-skid by its efficiency. It fails
// for code 0, on which no landing is made.
func (t Tyres) Mu(code Code, groundKt float64) (float64, error) {
	g, err := t.grip(code)
	if err != nil {
		return 0, err
	}
	return g.at(groundKt, groundKt >= g.limit), nil
}
