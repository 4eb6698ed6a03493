package flight

import "testing"

// Published examples. First: Aviation Formulary v1.42, tolerance Mach 1e-4,
// 0.1 kt. Second: tests of the open library ISAtmosphere.jl, 0.01 m/s.
func TestSpeed_PublishedExamples(t *testing.T) {
	mach := MachOfCAS(250, 10000)
	within(t, "Mach", mach, 0.4523, 1e-4)
	oat := StaticC(2, mach, 0.8)
	within(t, "static temperature", oat, -6.72, 0.01)
	within(t, "TAS", AirOfC(10000, oat).TASOfCAS(250, 10000), 287.7, 0.1)
	within(t, "probe", TotalC(oat, mach, 0.8), 2, 1e-9)

	ft := 9000 * FeetPerMetre
	within(t, "metric Mach", MachOfCAS(128.611*KnotsPerMS, ft), 0.661667, 1e-5)
	within(t, "metric TAS", Air{}.TASOfCAS(128.611*KnotsPerMS, ft)/KnotsPerMS, 201.01, 0.01)
	within(t, "crossover", CrossoverFt(133.756*KnotsPerMS, 0.60)/FeetPerMetre, 6952.80, 0.1)
}

// Computed independently from the Formulary's formulas, standard air.
// Tolerances: Mach 1e-4, 0.05 kt.
func TestSpeed_FromCAS(t *testing.T) {
	for _, row := range []struct{ cas, ft, mach, tas, eas float64 }{
		{150, 0, 0.22676, 150.000, 150.000},
		{140, 1500, 0.21743, 143.079, 139.957},
		{250, 10000, 0.45228, 288.702, 248.096},
		{300, 15000, 0.59296, 371.455, 294.655},
		{250, 25000, 0.60368, 363.387, 243.258},
		{300, 25000, 0.71687, 431.522, 288.868},
		{280, 35000, 0.82135, 473.441, 263.548},
		{250, 41000, 0.84003, 481.815, 233.379},
	} {
		mach := MachOfCAS(row.cas, row.ft)
		within(t, "Mach", mach, row.mach, 1e-4)
		within(t, "TAS", Air{}.TASOfCAS(row.cas, row.ft), row.tas, 0.05)
		within(t, "EAS", EASOfMach(mach, row.ft), row.eas, 0.05)
		within(t, "CAS from TAS", Air{}.CASOfTAS(row.tas, row.ft), row.cas, 0.05)
	}
}

// As above, from Mach.
func TestSpeed_FromMach(t *testing.T) {
	for _, row := range []struct{ mach, ft, cas, tas, eas float64 }{
		{0.30, 10000, 165.133, 191.500, 164.565},
		{0.50, 20000, 227.882, 307.158, 224.207},
		{0.78, 35000, 264.420, 449.607, 250.280},
		{0.80, 36089.24, 265.208, 458.855, 250.097},
		{0.82, 41000, 243.292, 470.327, 227.814},
	} {
		within(t, "CAS", CASOfMach(row.mach, row.ft), row.cas, 0.05)
		within(t, "TAS", Air{}.TASOfMach(row.mach, row.ft), row.tas, 0.05)
		within(t, "EAS", EASOfMach(row.mach, row.ft), row.eas, 0.05)
	}
}

// As above: off-standard temperature moves TAS and leaves Mach. Tolerance 0.05 kt.
func TestSpeed_OffStandard(t *testing.T) {
	for _, row := range []struct{ cas, ft, deviation, tas float64 }{
		{250, 10000, 20, 299.268}, {280, 35000, -10, 462.496}, {140, 5000, 25, 157.274},
	} {
		within(t, "TAS", Air{row.deviation}.TASOfCAS(row.cas, row.ft), row.tas, 0.05)
	}
}

// As above. Tolerances 5 ft, 0.05 degrees.
func TestSpeed_CrossoverAndTotalTemperature(t *testing.T) {
	for _, row := range []struct{ cas, mach, ft float64 }{
		{280, 0.78, 32464}, {300, 0.78, 29314}, {320, 0.84, 30098},
	} {
		within(t, "crossover", CrossoverFt(row.cas, row.mach), row.ft, 5)
	}
	within(t, "total at 0.78", TotalC(Air{}.TemperatureC(35000), 0.78, 1), -27.72, 0.05)
	within(t, "total at 0.82", TotalC(Air{}.TemperatureC(41000), 0.82, 1), -27.36, 0.05)
}

func TestSpeed_ThereAndBack(t *testing.T) {
	for ft := -1000.0; ft <= 60000; ft += 250 {
		for cas := 20.0; cas < 400 && MachOfCAS(cas, ft) < 1; cas += 13 {
			within(t, "CAS to Mach to CAS", CASOfMach(MachOfCAS(cas, ft), ft), cas, 1e-6)
			within(t, "crossover", CrossoverFt(cas, MachOfCAS(cas, ft)), ft, 1e-4)
		}
	}
}
