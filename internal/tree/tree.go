// Package tree reads the plain text in which the open set of fault trees is
// kept for the tests: one gate a line, such as
//
//	top = g1
//	g1 = or(g2, atleast(2; e1, e2, e3), and(not(e4), e1))
//	e1 ~ 0.01
//
// A line that begins with # is a comment. A name that no line defines is an
// event. Start reading at Read.
package tree

import (
	"bufio"
	"fmt"
	"io"
	"math/big"
	"strconv"
	"strings"

	"knockon/ways"
	"knockon/ways/logic"
)

// Read reads one tree. The top is the gate that the line "top = …" names.
func Read(r io.Reader) (l *logic.Logic, top logic.Term, err error) {
	t := reader{l: logic.New(), gates: map[string]string{}, known: map[string]logic.Term{}}
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 1<<22)
	for lines.Scan() {
		if err := t.line(strings.TrimSpace(lines.Text())); err != nil {
			return nil, 0, err
		}
	}
	if err := lines.Err(); err != nil {
		return nil, 0, err
	}
	if top, err = t.named(t.top); err != nil {
		return nil, 0, err
	}
	return t.l, top, t.setChances()
}

type reader struct {
	l       *logic.Logic
	top     string
	gates   map[string]string // formulas
	known   map[string]logic.Term
	open    []string // gates being worked out
	chances []chance
}

type chance struct {
	event string
	p     float64
}

func (t *reader) line(s string) error {
	if s == "" || s[0] == '#' {
		return nil
	}
	if name, value, ok := strings.Cut(s, " ~ "); ok {
		p, err := strconv.ParseFloat(value, 64)
		t.chances = append(t.chances, chance{name, p})
		return err
	}
	name, formula, ok := strings.Cut(s, " = ")
	switch {
	case !ok:
		return fmt.Errorf("no definition in %q", s)
	case name == "top":
		t.top = formula
	default:
		t.gates[name] = formula
	}
	return nil
}

func (t *reader) setChances() error {
	for _, c := range t.chances {
		if err := t.l.SetP(t.l.Event(c.event), c.p); err != nil {
			return err
		}
	}
	return nil
}

func (t *reader) named(name string) (logic.Term, error) {
	if known, ok := t.known[name]; ok {
		return known, nil
	}
	formula, ok := t.gates[name]
	if !ok {
		return t.l.Event(name), nil
	}
	for _, o := range t.open {
		if o == name {
			return 0, fmt.Errorf("gate %s is made from itself", name)
		}
	}
	t.open = append(t.open, name)
	term, rest, err := t.formula(formula)
	if err == nil && rest != "" {
		err = fmt.Errorf("gate %s: cannot read %q", name, rest)
	}
	t.open = t.open[:len(t.open)-1]
	t.known[name] = term
	return term, err
}

// formula reads a name or an operation from the front of s.
func (t *reader) formula(s string) (term logic.Term, rest string, err error) {
	end := strings.IndexAny(s, "(),")
	if end < 0 {
		end = len(s)
	}
	word, rest := strings.TrimSpace(s[:end]), s[end:]
	if rest == "" || rest[0] != '(' {
		term, err = t.named(word)
		return term, rest, err
	}
	k := 0
	rest = rest[1:]
	if word == "atleast" {
		number, after, _ := strings.Cut(rest, ";")
		if k, err = strconv.Atoi(strings.TrimSpace(number)); err != nil {
			return 0, "", err
		}
		rest = after
	}
	args, rest, err := t.arguments(rest)
	if err != nil {
		return 0, "", err
	}
	term, err = t.apply(word, k, args)
	return term, rest, err
}

// arguments reads formulas up to the closing bracket.
func (t *reader) arguments(s string) (args []logic.Term, rest string, err error) {
	for {
		term, rest, err := t.formula(s)
		if err != nil {
			return nil, "", err
		}
		args = append(args, term)
		switch {
		case strings.HasPrefix(rest, ","):
			s = rest[1:]
		case strings.HasPrefix(rest, ")"):
			return args, rest[1:], nil
		default:
			return nil, "", fmt.Errorf("bracket not closed at %q", rest)
		}
	}
}

func (t *reader) apply(word string, k int, args []logic.Term) (logic.Term, error) {
	switch word {
	case "and":
		return t.l.And(args...), nil
	case "or":
		return t.l.Or(args...), nil
	case "not":
		return args[0].Not(), nil
	case "xor":
		return t.l.Xor(args...), nil
	case "atleast":
		return t.l.AtLeast(k, args...), nil
	}
	return 0, fmt.Errorf("no operation %q", word)
}

// Total counts the sets of all orders that are known.
func Total(w *ways.Ways) *big.Int {
	total := new(big.Int)
	for order := range w.Highest() + 1 {
		total.Add(total, w.Count(order))
	}
	return total
}
