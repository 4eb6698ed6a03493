package book

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// FuzzLoad reads any text as a book. It must not panic, must not blame places
// outside the text, and what it accepts must print back to the same book.
func FuzzLoad(f *testing.F) {
	f.Add(smallBook)
	f.Add(variedBook)
	files, _ := filepath.Glob("testdata/errors/*.hcl")
	for _, file := range append(files, "testdata/base.hcl") {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		for _, piece := range strings.Split(string(text), "\n---\n") {
			f.Add(piece)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		b, problems := Load(context.Background(), filesOf(text))
		checkPlaces(t, problems, text)
		if (b == nil) != problems.HasErrors() {
			t.Fatalf("a book: %v, errors: %v", b != nil, problems.HasErrors())
		}
		if b == nil {
			return
		}
		var out bytes.Buffer
		if err := Print(&out, b); err != nil {
			t.Fatal(err)
		}
		again, more := Load(context.Background(), filesOf(out.String()))
		if more.HasErrors() {
			t.Fatalf("printed, it has errors: %v\n%s", more, out.String())
		}
		if d := difference(b, again); d != "" {
			t.Fatalf("printed, it is another book: %s\n%s", d, out.String())
		}
	})
}

func checkPlaces(t *testing.T, problems Diagnostics, text string) {
	t.Helper()
	if len(problems) > mostDiagnostics+1 {
		t.Fatalf("%d diagnostics", len(problems))
	}
	for _, d := range problems {
		r := d.Subject
		if r.Offset < 0 || r.EndOffset < r.Offset || r.EndOffset > len(text) {
			t.Fatalf("%s: bytes %d to %d of %d", d, r.Offset, r.EndOffset, len(text))
		}
		if d.Severity == 0 || d.Summary == "" || d.Detail == "" || strings.HasSuffix(d.Summary, ".") {
			t.Fatalf("a poor message: %s", d)
		}
	}
	if err := problems.Write(&bytes.Buffer{}, nil); err != nil {
		t.Fatal(err)
	}
}

// FuzzExpr reads any text as an expression. What it accepts must be written
// back so that it reads the same.
func FuzzExpr(f *testing.F) {
	for _, text := range []string{
		"pump_1 && !engine_1", "(real.height_ft + 5) * 2 > -3e2", `ground_cart == "on"`, "held(pressure_1, 2 * 60)",
		"at_least(2, pump_1, climb, pump_1.leaks)", "total(pump_1 ? 2 : 0, 5, 0, 10)", "frozen(level_word, before(latched))",
		"least_of(1, 2) / aircraft.wing_area_m2", "lost(main_brakes) && first(!pressure_1) < 40", "at(5, in_phase(climb, pump_1))",
		"1 < 2 < 3", "pump-1", "a[0].b", "${x}", `"\u0024{x}"`, "<<A\nb\nA\n", "/* x */ pump_1", "- - 3", "!!pump_1", "1/0", "1e999",
	} {
		f.Add(text)
	}
	b := oneBuild(f, smallBook)
	f.Fuzz(func(t *testing.T, text string) {
		for _, parse := range []func(string, *Build) (*Expr, Diagnostics){ParseExpr, ParseExpect} {
			e, problems := parse(text, b)
			checkPlaces(t, problems, text)
			if e == nil {
				continue
			}
			again, more := parse(e.String(), b)
			if more.HasErrors() {
				t.Fatalf("%q, written back as %q: %s", text, e, more[0])
			}
			if !sameShape(e, again) || e.Unit != again.Unit || e.Type != again.Type {
				t.Fatalf("%q becomes %q and then %q", text, e, again)
			}
		}
	})
}

// FuzzGuard holds the guard to the scanner of HCL: in a text that it lets pass,
// the scanner sees no template and no deeper nesting than the guard allows.
func FuzzGuard(f *testing.F) {
	for _, text := range []string{
		"a = (((b)))", "a = \"(((\"", "# (((\n", "// (((\n", "/* ((( */ (", "/* (((", "a = <<X\n(((\nX\n", "a = <<-X\r\n (((\r\n  X\r\n",
		"\"a\n(((\"", "\"\\\"(((\"", "\"$\" (((", "\"%\" (((", "\"$$\"(", "\"\\\\\"(((", "'((('", "`(((`", "<<\n(((", "<<1\n(((", "<<é\n(((\né\n",
		"\"\\\n(((\"", "a<<X\n\"\nX\n(((", "\xef\xbb\xbf(", "a.*.b", "~}(", "-<<X\n(X\nX\n(",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		// Each bracket stands for forty, so that short texts go deep.
		text = strings.NewReplacer("(", strings.Repeat("(", 40), "[", strings.Repeat("[", 40)).Replace(text)
		if (&loader{lines: lines{}, torn: map[string]bool{}}).isText("x", []byte(text)) {
			guardAgrees(t, text)
		}
	})
}

func guardAgrees(t *testing.T, text string) {
	g := guard{text: []byte(text)}
	if trouble, _ := g.check(); trouble != noTrouble {
		return
	}
	tokens, _ := hclsyntax.LexConfig([]byte(text), "x", hcl.Pos{Line: 1, Column: 1})
	depth := 0
	for _, token := range tokens {
		switch token.Type {
		case hclsyntax.TokenOParen, hclsyntax.TokenOBrack, hclsyntax.TokenOBrace:
			depth++
		case hclsyntax.TokenCParen, hclsyntax.TokenCBrack, hclsyntax.TokenCBrace:
			depth = max(depth-1, 0)
		case hclsyntax.TokenTemplateInterp, hclsyntax.TokenTemplateControl:
			t.Fatalf("a template in %q", text)
		}
		if depth > mostNesting {
			t.Fatalf("depth %d in %q", depth, text)
		}
	}
}
