package roll

import (
	"math"
	"testing"

	"knockon/flight"
)

// bare is an aircraft with nothing but braked wheels: all the weight on them,
// no wing, no thrust.
func bare(code Code) Landing {
	return Landing{
		Airframe: Airframe{BrakedShare: 1, Tyres: Tyres{PSI: 200, AntiSkid: FullyModulating, DryMu: 0.40 / 0.90}},
		Runway:   Runway{Code: code}, MassKg: 65000, ThresholdKt: 140,
		Changes: []Change{{Device: Brakes, At: 1, To: 1}},
	}
}

func mustStop(t testing.TB, l Landing) Roll {
	t.Helper()
	r, err := Stop(l)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Stopping with constant friction takes v^2/(2 mu g): to 0.01 percent.
func TestStop_ClosedForm(t *testing.T) {
	for _, code := range []Code{6, 4, 3, 1} {
		for _, kt := range []float64{40, 90, 134.4, 180} {
			l := bare(code)
			l.Changes[0].At = 0
			l.ThresholdKt = kt
			r := mustStop(t, l)
			mu, _ := l.Airframe.Tyres.Mu(code, 0)
			v := r.TouchdownKt / knotsPerMS
			want := v * v / (2 * mu * flight.Gravity)
			within(t, "roll over v^2/2 mu g", (r.TotalM-r.AirM)/want, 1, 1e-9)
			within(t, "time over v/mu g", r.Seconds/(v/(mu*flight.Gravity)), 1, 1e-9)
			within(t, "brake energy over m v^2/2", r.BrakeJ/(l.MassKg*v*v/2), 1, 1e-9)
		}
	}
}

// With drag alone the speed falls as exp(-k x); with friction and drag the
// distance is m/(2 k) ln(1 + k v^2/F).
func TestStop_ClosedFormWithDrag(t *testing.T) {
	l := bare(4)
	l.Changes[0].At = 0
	l.Airframe.WingAreaM2, l.Airframe.Drag = 120, 0.1
	r := mustStop(t, l)
	v, k := r.TouchdownKt/knotsPerMS, 1.225/2*120*0.1
	force := 0.20 * l.MassKg * flight.Gravity
	want := l.MassKg / (2 * k) * math.Log(1+k*v*v/force)
	within(t, "roll over the closed form", (r.TotalM-r.AirM)/want, 1, 1e-7)
	work := l.MassKg*v*v/2 - r.BrakeJ
	within(t, "work of the drag", work, l.MassKg*v*v/2-force*want, work*1e-6)
}

// A slope takes g times its sine, an autobrake holds its aim.
func TestStop_SlopeAndAutobrake(t *testing.T) {
	l := bare(6)
	l.Changes[0].At = 0
	l.Runway.SlopePct = -2
	r := mustStop(t, l)
	v, slope := r.TouchdownKt/knotsPerMS, math.Atan(0.02)
	want := v * v / (2 * flight.Gravity * (0.40*math.Cos(slope) - math.Sin(slope)))
	within(t, "downhill", (r.TotalM-r.AirM)/want, 1, 1e-9)

	l.Airframe.WingAreaM2, l.Airframe.Drag = 120, 0.1
	l.Changes = append(l.Changes, Change{Device: Autobrake, To: 2})
	r = mustStop(t, l)
	within(t, "autobrake", (r.TotalM-r.AirM)/(v*v/4), 1, 1e-9)
	l.Runway.Code = 1 // the tyres cannot do it
	if slippery := mustStop(t, l); slippery.TotalM < r.TotalM+500 {
		t.Errorf("autobrake holds on ice: %g m", slippery.TotalM)
	}
}

// regional is a regional jet of invented figures, complete with everything.
func regional() Landing {
	return Landing{
		Airframe: Airframe{
			WingAreaM2: 72, Lift: 0.45, Drag: 0.09, SpoilerLift: -0.40, SpoilerDrag: 0.07,
			BrakedShare: 0.92, MostBrakeN: 130e3, RollingMu: 0.015,
			Idle: Thrust{5000, 2500}, Reverse: Thrust{20000, 34000}, ReverseOutKt: 60,
			Tyres:  Tyres{PSI: 160, AntiSkid: FullyModulating, DryMu: 0.42},
			Wheels: Wheels{WidthM: 0.28, DeflectionM: 0.03, Alike: 4.5},
		},
		Runway: Runway{Code: 5, AltitudeFt: 500, SlopePct: -0.5, HeadwindKt: -5},
		MassKg: 32000, ThresholdKt: 132,
		Changes: []Change{
			{Spoilers, 0.5, 1, 1}, {Brakes, 1.2, 1.5, 1}, {Reverse, 2.5, 2, 1}, {Autobrake, 0, 0, 2.5}, {Autobrake, 12, 0, 0},
		},
	}
}

// Halving the step must cut the error of the method by 16.
func TestStop_OrderOfTheMethod(t *testing.T) {
	l := regional()
	l.Airframe.MostBrakeN, l.Airframe.ReverseOutKt = 0, 0
	l.Changes = []Change{{Spoilers, 0, 60, 1}, {Brakes, 0, 0, 1}}
	exact, _ := stop(l, 1.0/64)
	distance := func(step float64) float64 {
		r, err := stop(l, step)
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(r.TotalM - exact.TotalM)
	}
	for step := 4.0; step >= 2; step /= 2 {
		order := math.Log2(distance(step) / distance(step/2))
		if order < 3.6 || order > 5.2 {
			t.Errorf("order %.2f between steps of %g and %g s (errors %g, %g m)", order, step, step/2, distance(step), distance(step/2))
		}
	}
	if off := distance(longestStep); off > 1e-4 {
		t.Errorf("the step used is %g m off", off)
	}
}

func TestStop_TellsEveryEventInOrder(t *testing.T) {
	l := regional()
	l.Runway.Code, l.Runway.Fluid = 2, Fluid{DepthMM: 6, Gravity: 1}
	r := mustStop(t, l)
	var names []string
	at := map[string]Point{}
	for i, e := range r.Events {
		names = append(names, e.What)
		at[e.What] = e.Point
		if i > 0 && e.Seconds < r.Events[i-1].Seconds {
			t.Errorf("%s comes before %s", e.What, r.Events[i-1].What)
		}
	}
	for _, want := range []string{"touchdown", "spoilers", "brakes", "reverse", "wheels turn", "tyres grip", "reverse out", "stop"} {
		if _, ok := at[want]; !ok {
			t.Errorf("no %s in %v", want, names)
		}
	}
	within(t, "touchdown", at["touchdown"].Metres, r.AirM, 0)
	within(t, "spoilers", at["spoilers"].Seconds, 0.5, 1e-9)
	within(t, "reverse", at["reverse"].Seconds, 2.5, 1e-9)
	within(t, "wheels turn at", at["wheels turn"].Kt, SpinUp(160), 1e-6)
	within(t, "tyres grip at", at["tyres grip"].Kt, 0.85*Hydroplaning(160, 1), 1e-6)
	l.Runway.Fluid.Gravity = 0.85
	for _, e := range mustStop(t, l).Events {
		if e.What == "wheels turn" {
			within(t, "wheels turn in slush at", e.Kt, SpinUp(160/0.85), 1e-6)
		}
	}
	within(t, "reverse out at", at["reverse out"].Kt, 60, 1e-6)
	within(t, "stop", at["stop"].Metres, r.TotalM, 0)
	within(t, "speed at the stop", at["stop"].Kt, 0, 0)
	for i := 1; i < len(r.Track); i++ {
		if r.Track[i].Metres < r.Track[i-1].Metres || r.Track[i].Seconds <= r.Track[i-1].Seconds {
			t.Fatalf("the track goes back at %v", r.Track[i])
		}
	}
}

func TestStop_NeverStopping(t *testing.T) {
	l := regional()
	l.Changes, l.Runway.SlopePct, l.Airframe.RollingMu = nil, -4, 0
	r := mustStop(t, l)
	if r.Stops || r.TotalM < 15000 {
		t.Errorf("stops after %g m", r.TotalM)
	}
	for _, e := range r.Events {
		if e.What == "stop" {
			t.Error("a stop among the events")
		}
	}
}

func TestStop_LateChangesTakeOver(t *testing.T) {
	half := bare(4)
	half.Changes = []Change{{Brakes, 0, 0, 1}, {Brakes, 5, 0, 0.5}}
	v0, a := mustStop(t, half).TouchdownKt/knotsPerMS, 0.20*flight.Gravity
	v5 := v0 - 5*a
	want := 5*(v0+v5)/2 + v5*v5/a // v^2/(2 a/2)
	r := mustStop(t, half)
	within(t, "half the brakes after 5 s", r.TotalM-r.AirM, want, 1e-6)

	// Of two changes at one moment the later in the list counts.
	both := schedule([]Change{{Brakes, 2, 0, 0.3}, {Brakes, 2, 0, 0.7}})
	within(t, "the later counts", both[len(both)-1].of(Brakes, 3), 0.7, 0)

	// A ramp cut short by another goes on from where it was.
	cut := schedule([]Change{{Spoilers, 0, 10, 1}, {Spoilers, 4, 2, 0}})
	for _, c := range []struct{ t, level float64 }{{0, 0}, {4, 0.4}, {5, 0.2}, {6, 0}, {9, 0}} {
		i := len(cut) - 1
		for cut[i].since > c.t {
			i--
		}
		within(t, "spoilers", cut[i].of(Spoilers, c.t), c.level, 1e-12)
	}
}

func TestStop_ComplainsClearly(t *testing.T) {
	for name, spoil := range map[string]func(*Landing){
		"mass is -5 kg":        func(l *Landing) { l.MassKg = -5 },
		"runway condition":     func(l *Landing) { l.Runway.Code = 0 },
		"tyre pressure is 0":   func(l *Landing) { l.Airframe.Tyres.PSI = 0 },
		"slope is NaN":         func(l *Landing) { l.Runway.SlopePct = math.NaN() },
		"headwind is 400":      func(l *Landing) { l.Runway.HeadwindKt = 400 },
		"ground speed over":    func(l *Landing) { l.Runway.HeadwindKt = 125 },
		"there is no device 9": func(l *Landing) { l.Changes = []Change{{Device: 9}} },
		"brakes is 3":          func(l *Landing) { l.Changes = []Change{{Brakes, 0, 0, 3}} },
		"moment of reverse":    func(l *Landing) { l.Changes = []Change{{Reverse, -1, 0, 1}} },
		"thrust is +Inf":       func(l *Landing) { l.Airframe.Idle.At0Kt = math.Inf(1) },
	} {
		l := regional()
		spoil(&l)
		if _, err := Stop(l); err == nil || !contains(err.Error(), name) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

func BenchmarkStop(b *testing.B) {
	l := regional()
	l.Runway.Code, l.Runway.Fluid = 2, Fluid{DepthMM: 6, Gravity: 1}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Stop(l); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStopDry(b *testing.B) {
	l := regional()
	l.Runway.Code = 6
	for b.Loop() {
		if _, err := Stop(l); err != nil {
			b.Fatal(err)
		}
	}
}

// TestStop_LeversAndEnginesAreIdle: a part of the full thrust that stands from the
// first is the idle thrust of that many newtons, in reverse and out of it; half of
// the engines give half, and an engine that stops in the roll shortens it.
func TestStop_LeversAndEnginesAreIdle(t *testing.T) {
	total := func(idle, full float64, more ...Change) float64 {
		l := Landing{
			Airframe: Airframe{WingAreaM2: 90, Lift: 0.4, Drag: 0.1, BrakedShare: 0.9, RollingMu: 0.015, Idle: Thrust{idle, 0.9 * idle}, Full: Thrust{full, 0.9 * full},
				Reverse: Thrust{20000, 15000}, ReverseOutKt: 60, Tyres: Tyres{PSI: 165, AntiSkid: FullyModulating, DryMu: 0.4}},
			Runway: Runway{Code: 3}, MassKg: 30000, ThresholdKt: 130, Changes: append([]Change{{Brakes, 2, 0.5, 1}, {Reverse, 3, 2, 1}}, more...),
		}
		r, err := Stop(l)
		if err != nil || !r.Stops {
			t.Fatal(err, r.Stops)
		}
		return r.TotalM
	}
	engines := func(at, to float64) Change { return Change{Engines, at, 0, to} }
	if a, b := total(6000, 0), total(0, 120000, Change{Levers, 0, 0, 0.05}, engines(0, 1)); math.Abs(a-b) > 0.01 {
		t.Errorf("%.3f m with idle thrust, %.3f m with levers and engines", a, b)
	}
	if a, b, c := total(0, 120000, Change{Levers, 0, 0, 0.05}, engines(0, 1), engines(8, 0)), total(6000, 0), total(0, 0); !(c < a && a < b) {
		t.Errorf("%.1f m without thrust, %.1f m with engines that stop, %.1f m with idle", c, a, b)
	}
}
