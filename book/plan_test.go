package book

import "testing"

// Every line of a list has one number, and is found by it.
func TestLine_FindsEachByItsNumber(t *testing.T) {
	b := bookOf(t, "book.hcl", `
aircraft "small" { title = "Small" }
phase "ground" {}
unit "pump" {}
indication "lamp" {
  shows = pump
}
procedure "lines" {
  note { says = "one" }
  decide {
    that = lamp
    then {
      note { says = "two, yes, one" }
    }
    else {
      note { says = "two, no, one" }
      note { says = "two, no, two" }
    }
  }
  later {
    in = ground
    note { says = "three, later, one" }
  }
}
`)
	build, _ := b.Build("")
	p := build.Procedures[0]
	for number, says := range map[string]string{
		"1": "one", "2.then.1": "two, yes, one", "2.else.1": "two, no, one", "2.else.2": "two, no, two", "3.later.1": "three, later, one",
	} {
		if s, ok := p.Line(number); !ok || s.Says != says {
			t.Errorf("line %s is %+v", number, s)
		}
	}
	for _, number := range []string{"", "0", "4", "2.then.2", "3.then.1", "1.then.1"} {
		if s, ok := p.Line(number); ok {
			t.Errorf("line %q is %+v", number, s)
		}
	}
}

// How a function is called says what may be left out and what repeated.
func TestClaimFunctions_SayHowTheyAreCalled(t *testing.T) {
	for name, want := range map[string]string{
		"lost": "lost(function)", "told_wrong": "told_wrong(function or indication)", "at": "at(s, x)", "in_order": "in_order(x, x, …)",
		"arrives": "arrives() or arrives(FIELD)", "closed": "closed(FIELD) or closed(FIELD, reason)", "done": "done(procedure, line)",
	} {
		if got := callForm(name); got != want {
			t.Errorf("%s is called as %s, want %s", name, got, want)
		}
	}
	seen := map[string]bool{}
	for _, f := range ClaimFunctions {
		least, most := f.count()
		if n := len(f.Forms(max(least, most))); seen[f.Name] || n != max(least, most) || (f.Type == Number) != (f.Unit != "") {
			t.Errorf("%+v", f)
		}
		seen[f.Name] = true
	}
}
