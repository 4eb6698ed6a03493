package book

import (
	"fmt"
	"strings"

	"knockon/say"
)

// The constructors of diagnostics about what the flight reads.

func unknownEffect(at Range, name, near string) Diagnostic {
	return problem("unknown-word", at, fmt.Sprintf("There is no effect %q", shortened(name)),
		say.DidYouMean(near, "The effects are: "+strings.Join(effectNames(), ", ")+"."))
}

func duplicateEffect(at Range, name string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("The effect %q is there twice", name),
		"Put all that brings it into one value; what differs on a build goes into a variant block.").with("the first is here", first)
}

func duplicateSetting(at Range, name string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("There are two settings %q", shortened(name)), "Give one of them another name.").with("the first is here", first)
}

func impossiblePolar(at Range, s *Setting) Diagnostic {
	return problem("polar", at, fmt.Sprintf("Setting %q has a lift-to-drag ratio of %.0f", shortened(s.Name), s.Glide()),
		fmt.Sprintf("No airliner reaches %d. It is 1 / (2 √(zero_lift_drag_ratio × induced_drag_ratio)); one of the two is too small.", int(mostGlide)))
}

func noSettings(at Range) Diagnostic {
	return problem("no-setting", at, "The aircraft block has no setting", `Add setting "name" { … } sub-blocks to it, the clean one first.`)
}

func unknownSetting(at Range, word string, names []string) Diagnostic {
	return problem("unknown-word", at, fmt.Sprintf("The aircraft block has no setting %q", shortened(word)), "Its settings are: "+quoted(names)+".")
}

func effectContinuous(at Range, name string, source *Expr) Diagnostic {
	return problem("continuous", at, fmt.Sprintf("The effect %q takes a value that changes continuously", name),
		fmt.Sprintf("It follows %s. Only values that change at moments will do, such as x ? 0.5 : 1.", source.String()))
}
