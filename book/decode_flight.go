package book

import (
	"math"
	"slices"
	"strings"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// effectID gives the id of an effect block, and reports a name that no effect has.
func (l *loader) effectID(block *hclsyntax.Block, name string) (id string, ok bool) {
	if _, ok := EffectNamed(name); !ok {
		l.add(unknownEffect(labelRange(block), name, say.Nearest(name, effectNames())))
		return "", false
	}
	return EffectID(name), true
}

func effectNames() []string {
	var names []string
	for _, k := range Effects {
		names = append(names, k.Name)
	}
	return names
}

func (n node) effect(d *declaration) *Effect {
	kind, _ := EffectNamed(strings.TrimPrefix(d.id, EffectID("")))
	e := &Effect{Head: n.head(d.id), Name: kind.Name, Value: n.typed("value", kind.Type)}
	if n.attr("title") == nil {
		e.Title = spaced(kind.Name)
	}
	if e.Value != nil && e.Value.Type == Number {
		n.unitFits(e.Value, kind.Name, kind.Unit)
	}
	return e
}

func (n node) settings(d *declaration) []*Setting {
	var list []*Setting
	for _, block := range d.block.Body.Blocks {
		if block.Type != "setting" || len(block.Labels) == 0 || block.Labels[0] == "" {
			continue
		}
		s := n.sub(block).flaps(block.Labels[0])
		if i := slices.IndexFunc(list, func(o *Setting) bool { return o.Name == s.Name }); i >= 0 {
			n.l.add(duplicateSetting(labelRange(block), s.Name, list[i].Range))
			continue
		}
		list = append(list, s)
	}
	return list
}

// How far the numbers of a setting may go; more is a slip of the pen.
const (
	mostDragRatio = 1.0
	mostLiftRatio = 6.0
	mostGlide     = 40.0 // lift to drag; a sailplane of the best reaches 60, an airliner 20
)

func (n node) flaps(name string) *Setting {
	s := &Setting{
		Name: name, Range: n.at,
		ZeroLiftDrag: n.number("zero_lift_drag_ratio", 1e-4, mostDragRatio), InducedDrag: n.number("induced_drag_ratio", 1e-4, mostDragRatio),
		MostLift: n.number("most_lift_ratio", 0.1, mostLiftRatio), GroundLift: n.number("ground_lift_ratio", -mostLiftRatio, mostLiftRatio),
	}
	if s.ZeroLiftDrag > 0 && s.InducedDrag > 0 && s.Glide() > mostGlide {
		n.l.add(impossiblePolar(n.at, s))
	}
	return s
}

// Glide is the greatest ratio of lift to drag of a setting.
func (s *Setting) Glide() float64 { return 1 / (2 * math.Sqrt(s.ZeroLiftDrag*s.InducedDrag)) }

// checkFlapSettings holds the words of the effect flap_setting to the settings
// of the aircraft block.
func (b *builder) checkFlapSettings() {
	item, ok := b.build.items[EffectID("flap_setting")]
	if !ok || b.build.Aircraft == nil {
		return
	}
	e := item.(*Effect)
	var names []string
	for _, s := range b.build.Aircraft.Settings {
		names = append(names, s.Name)
	}
	switch {
	case e.Value == nil || e.Value.Type != Word:
	case len(names) == 0 && b.build.Performance != nil: // the landing rows name them
	case len(names) == 0:
		b.add(noSettings(e.Value.Range))
	default:
		for _, w := range e.Value.Words {
			if !slices.Contains(names, w) {
				b.add(unknownSetting(e.Value.Range, w, names))
			}
		}
	}
}

// Effect looks an effect up by its name; ok is false if this build says nothing
// about it, so that its default holds.
func (b *Build) Effect(name string) (e *Effect, ok bool) {
	e, ok = b.items[EffectID(name)].(*Effect)
	return e, ok
}

func (n node) flight(d *declaration) *Flight {
	f := &Flight{Head: n.head(d.id), From: n.text("from"), To: n.text("to")}
	for _, known := range FlightNumbers {
		a := n.attr(known.Name)
		if a == nil {
			continue
		}
		value := 0.0
		switch {
		case known.Name == "runway_wet":
			value = n.zeroOrOne(known.Name)
		case strings.HasSuffix(known.Name, "_code"):
			value = n.whole(known.Name, 1, 6)
		default:
			value = n.number(known.Name, flightLeast(known.Name), mostNumber)
		}
		f.Numbers = append(f.Numbers, Named{known.Name, value, rangeOf(a.SrcRange)})
	}
	f.Acts = n.acts(actWord)
	return f
}

// zeroOrOne reads a yes/no that a flight gives as a number; true and false will do.
func (n node) zeroOrOne(name string) float64 {
	if l, ok := bare(n.attr(name).Expr).(*hclsyntax.LiteralValueExpr); ok && !l.Val.IsNull() && l.Val.Type().FriendlyName() == "bool" {
		if n.truth(name) {
			return 1
		}
		return 0
	}
	return n.whole(name, 0, 1)
}

// flightLeast is the least value of a flight's number: elevations, winds and
// temperatures may be negative.
func flightLeast(name string) float64 {
	switch name {
	case "from_elevation_ft", "to_elevation_ft", "headwind_kt", "from_headwind_kt", "to_headwind_kt", "isa_deviation_c", "icing_from_ft", "icing_to_ft":
		return -mostNumber
	}
	return 0
}

// acts decodes the act or the set_up blocks.
// actWord is a block of a flight, of a claim, or, by itself, of every flight.
const actWord = "act"

// shareActs gives every flight the acts that stand by themselves, before its own.
func (b *builder) shareActs() {
	n := node{l: b.loader, b: b, kind: subKinds[actWord], body: &hclsyntax.Body{Blocks: b.acts}}
	acts := n.acts(actWord)
	for _, f := range b.build.Flights {
		own := f.Acts
		f.Acts = nil
		for _, a := range acts {
			copied := *a
			f.Acts = append(f.Acts, &copied)
		}
		f.Acts = append(f.Acts, own...)
	}
}

func (n node) acts(word string) []*Act {
	var acts []*Act
	for _, block := range n.body.Blocks {
		if block.Type != word || len(block.Labels) == 0 || block.Labels[0] == "" {
			continue
		}
		sub := n.sub(block)
		a := &Act{Title: block.Labels[0], At: sub.moment("at"), When: sub.yesNo("when"), Range: sub.at}
		sub.oneMoment("It")
		a.Set, a.To = sub.setting()
		acts = append(acts, a)
	}
	return acts
}
