package mef_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/ways/mef"
)

// The part of the schema of the Open-PSA Model Exchange Format, version 2.0d
// (RELAX NG, mef.rnc of github.com/open-psa/schemas), that a writer of fault
// trees can come to: for each element what may stand in it, as a pattern over the
// names of its children, F being any formula, and its attributes ("name?" may be
// left out).
var schema = map[string]struct{ content, attributes string }{
	"opsa-mef":           {`(label )?(attributes )?(define-fault-tree )*(model-data )?`, "name?"},
	"define-fault-tree":  {`(label )?(attributes )?(define-gate |define-house-event |define-basic-event |define-parameter )*`, "name"},
	"define-gate":        {`(label )?(attributes )?F `, "name role?"},
	"define-house-event": {`(label )?(attributes )?(constant )?`, "name role?"},
	"define-basic-event": {`(label )?(attributes )?(float |int |bool )?`, "name role?"},
	"model-data":         {`(define-house-event |define-basic-event |define-parameter )*`, ""},
	"label":              {``, ""},
	"and":                {`(F )+`, ""},
	"or":                 {`(F )+`, ""},
	"not":                {`F `, ""},
	"xor":                {`(F )+`, ""},
	"iff":                {`(F )+`, ""},
	"nand":               {`(F )+`, ""},
	"nor":                {`(F )+`, ""},
	"imply":              {`F F `, ""},
	"atleast":            {`(F )+`, "min"},
	"cardinality":        {`(F )+`, "min max"},
	"event":              {``, "name type?"},
	"gate":               {``, "name"},
	"house-event":        {``, "name"},
	"basic-event":        {``, "name"},
	"constant":           {``, "value"},
	"float":              {``, "value"},
}

var formulae = []string{"and", "or", "not", "xor", "iff", "nand", "nor", "imply", "atleast", "cardinality", "event", "gate", "house-event", "basic-event", "constant"}

// identifier is the schema's Identifier: an NCName without points, whose hyphens
// stand between other characters.
var identifier = regexp.MustCompile(`^[\pL_][^\-.:\s]*(-[^\-.:\s]+)*$`)

// open is an element whose end has not come.
type open struct {
	name     string
	children strings.Builder
}

// against holds a text against the schema.
func against(text string) error {
	d := xml.NewDecoder(strings.NewReader(text))
	stack := []*open{{name: ""}}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		top := stack[len(stack)-1]
		switch x := token.(type) {
		case xml.StartElement:
			name := x.Name.Local
			if slices.Contains(formulae, name) {
				top.children.WriteString("F ")
			} else {
				top.children.WriteString(name + " ")
			}
			if err := attributesOf(x); err != nil {
				return err
			}
			stack = append(stack, &open{name: name})
		case xml.EndElement:
			stack = stack[:len(stack)-1]
			if content := regexp.MustCompile("^(" + schema[top.name].content + ")$"); !content.MatchString(top.children.String()) {
				return fmt.Errorf("%s holds %q", top.name, top.children.String())
			}
		case xml.CharData:
			if top.name != "label" && strings.TrimSpace(string(x)) != "" {
				return fmt.Errorf("%s holds the text %q", top.name, x)
			}
		}
	}
}

func attributesOf(x xml.StartElement) error {
	rule, ok := schema[x.Name.Local]
	if !ok {
		return fmt.Errorf("there is no element %s", x.Name.Local)
	}
	has := map[string]string{}
	for _, a := range x.Attr {
		has[a.Name.Local] = a.Value
	}
	for _, name := range strings.Fields(rule.attributes) {
		value, there := has[strings.TrimSuffix(name, "?")]
		delete(has, strings.TrimSuffix(name, "?"))
		if !there && !strings.HasSuffix(name, "?") {
			return fmt.Errorf("%s has no %s", x.Name.Local, name)
		}
		if there {
			if err := valueOf(x.Name.Local, strings.TrimSuffix(name, "?"), value); err != nil {
				return err
			}
		}
	}
	for name := range has {
		return fmt.Errorf("%s has a %s", x.Name.Local, name)
	}
	return nil
}

func valueOf(element, attribute, value string) error {
	ok := true
	switch {
	case attribute == "name":
		ok = identifier.MatchString(value)
	case attribute == "min" || attribute == "max":
		_, err := strconv.ParseUint(value, 10, 64)
		ok = err == nil
	case element == "constant":
		ok = value == "true" || value == "false"
	case element == "float":
		_, err := strconv.ParseFloat(value, 64)
		ok = err == nil
	}
	if !ok {
		return fmt.Errorf("%s of %s is %q", attribute, element, value)
	}
	return nil
}

func TestWrite_KeepsToTheSchema(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 9))
	for range 300 {
		l, top := randomTerm(r)
		text := write(t, mef.Of("a tree of 3", l, top))
		if err := against(text); err != nil {
			t.Fatalf("%v:\n%s", err, text)
		}
		if err := against(write(t, read(t, text))); err != nil {
			t.Fatal(err)
		}
	}
	for text, want := range map[string]string{
		`<opsa-mef><model-data/><define-fault-tree name="t"/></opsa-mef>`: "opsa-mef holds",
		`<opsa-mef><define-fault-tree/></opsa-mef>`:                       "has no name",
		`<opsa-mef name="a.b"/>`:                                          `name of opsa-mef is "a.b"`,
		`<opsa-mef><define-fault-tree name="t"><define-gate name="g"><not/></define-gate></define-fault-tree></opsa-mef>`:           "not holds",
		`<opsa-mef><define-fault-tree name="t"><define-gate name="g" label="x"><and/></define-gate></define-fault-tree></opsa-mef>`: "has a label",
		`<opsa-mef><define-fault-tree name="t"><define-gate name="g"><or>yes</or></define-gate></define-fault-tree></opsa-mef>`:     "holds the text",
		`<opsa-mef><define-fault-tree name="t"><define-gate name="g"><sometimes/></define-gate></define-fault-tree></opsa-mef>`:     "no element sometimes",
	} {
		if err := against(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want that it says %s", text, err, want)
		}
	}
}
