package book

import "slices"

// Lack is a number that an effect needs and the build does not give, so that what
// the effect does to a flight cannot be worked out.
type Lack struct {
	Effect  *Effect
	Numbers []string // of the aircraft block
	Tables  []string // of the performance block
	Factor  bool     // a factor that covers the effect
}

// needed are the numbers of the aircraft block that a flight with drag and thrust
// needs in order to feel an effect. The other effects need none.
var needed = map[string][]string{
	"engine_left_ratio": {"engine_out_drag_ratio"}, "engine_right_ratio": {"engine_out_drag_ratio"},
	"gear_out": {"gear_drag_ratio"}, "speed_brakes_ratio": {"speed_brake_drag_ratio"}, "wing_iced": {"iced_drag_ratio", "iced_lift_ratio"},
	"ground_spoilers_ratio": {"ground_spoiler_drag_ratio", "ground_spoiler_lift_ratio"},
	"reverse_left":          {"reverse_thrust_ratio"}, "reverse_right": {"reverse_thrust_ratio"},
}

// factored are the effects that a flight on a manual's numbers feels through
// factors only.
var factored = []string{
	"thrust_frozen", "thrust_closed", "high_idle", "gear_out", "speed_brakes_ratio", "ground_spoilers_ratio", "brakes_ratio", "anti_skid",
	"reverse_left", "reverse_right", "extra_drag_ratio", "wing_iced",
}

// Factored says that a flight on a manual's numbers feels an effect through
// factors only.
func Factored(effect string) bool { return slices.Contains(factored, effect) }

// Polars says that the book means its flights to be flown with drag and thrust.
func (b *Build) Polars() bool { return b.Aircraft != nil && len(b.Aircraft.Settings) > 0 }

// Covering lists the factors that stand for an effect.
func (p *Performance) Covering(effect string) (list []*Factor) {
	for _, f := range p.Factors {
		if slices.Contains(f.Covers, effect) {
			list = append(list, f)
		}
	}
	return list
}

// Lacks lists what the effects of the build need and it does not give, in their
// order: of the aircraft block where there are drag polars, else of the
// performance block; nothing where the build has neither, since then nothing is
// worked out from effects.
func (b *Build) Lacks() (list []Lack) {
	for _, e := range b.Effects {
		l := Lack{Effect: e}
		switch {
		case b.Polars():
			l.Numbers = b.withoutNumber(needed[e.Name])
		case b.Performance != nil && engine(e.Name):
			l.Tables = b.Performance.without("engine_out", "glide")
		case b.Performance != nil:
			l.Factor = Factored(e.Name) && len(b.Performance.Covering(e.Name)) == 0
		}
		if len(l.Numbers)+len(l.Tables) > 0 || l.Factor {
			list = append(list, l)
		}
	}
	return list
}

func engine(effect string) bool {
	return effect == "engine_left_ratio" || effect == "engine_right_ratio"
}

func (b *Build) withoutNumber(names []string) (list []string) {
	for _, name := range names {
		if _, ok := b.Aircraft.Number(name); !ok {
			list = append(list, name)
		}
	}
	return list
}

func (p *Performance) without(kinds ...string) (list []string) {
	for _, k := range kinds {
		if _, ok := p.Table(k, ""); !ok {
			list = append(list, k)
		}
	}
	return list
}
