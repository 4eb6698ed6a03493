package roll

import "testing"

// TestStop_OfTheSpeedOverTheGround: with nothing but braked wheels a landing takes the
// metres of its speed over the ground, whatever the wind. Worked: a threshold at 140 kt
// over the ground, 7 s at 98 percent of it, touchdown at 96 percent, 1 s to the brakes,
// then the integral of V dV / (g mu), with the coefficients of 14 CFR 25.109(c) (from
// memory) for code 5 and those of AC 25-32 for codes 4 and 3.
func TestStop_OfTheSpeedOverTheGround(t *testing.T) {
	for code, want := range map[Code]float64{6: 1172.6, 5: 1694.5, 4: 1781.9, 3: 2086.6} {
		for _, head := range []float64{35, 10, 0, -10} {
			l := bare(code)
			l.ThresholdKt, l.Runway.HeadwindKt = 140+head, head
			within(t, "landing", mustStop(t, l).TotalM, want, 0.5)
		}
	}
}

// TestStop_ARejectedTakeOff: the same from 134.4 kt over the ground, where the roll is
// that far: 69.14 m in the second before the brakes, and the metres of braking.
func TestStop_ARejectedTakeOff(t *testing.T) {
	for code, braking := range map[Code]float64{6: 609.3, 5: 1131.3, 4: 1218.7, 3: 1523.4} {
		for _, head := range []float64{35, 0, -10} {
			l := bare(code)
			l.ThresholdKt, l.FromKt, l.Runway.HeadwindKt = 0, 134.4, head
			within(t, "stop", mustStop(t, l).TotalM, 69.14+braking, 0.5)
		}
	}
}
