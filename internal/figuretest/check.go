// Package figuretest holds pictures to what all of them promise: valid XML, only
// finite numbers, no colour of a warning, and no text over another one or off
// the sheet.
//
// Invariant: it reads the SVG text and nothing else, so it does not share a
// mistake with what drew it; only the width of words is sheet.Width.
//
// Start reading at Check.
package figuretest

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"

	"knockon/figure/sheet"
)

// Text is a text of a picture and the room that it takes.
type Text struct {
	Words string
	Box   sheet.Box
}

// slack is how far two boxes may share room, in points: places are rounded to a
// tenth, and the boxes have some air at their rims.
const slack = 0.6

// Check gives everything that is wrong with a picture.
func Check(svg string) (wrong []string) {
	c := checker{ids: map[string]bool{}}
	if err := c.read(svg); err != nil {
		return append(c.wrong, "not valid XML: "+err.Error())
	}
	for i, a := range c.Texts {
		b := a.Box
		if b.Left < -slack || b.Right > c.width+slack || b.Top < -slack || b.Bottom > c.height+slack {
			c.say("%q lies off the sheet: %.1f", a.Words, b)
		}
		for _, other := range c.Texts[:i] {
			if meets(b, other.Box) {
				c.say("%q lies over %q", a.Words, other.Words)
			}
		}
	}
	if strings.Contains(svg, sheet.Warning) || strings.Contains(svg, sheet.Caution) {
		c.say("has the colour of a warning or a caution")
	}
	return c.wrong
}

// Texts gives the texts of a picture.
func Texts(svg string) []Text {
	c := checker{ids: map[string]bool{}}
	if c.read(svg) != nil {
		return nil
	}
	return c.Texts
}

func meets(a, b sheet.Box) bool {
	return a.Left+slack < b.Right && b.Left+slack < a.Right && a.Top+slack < b.Bottom && b.Top+slack < a.Bottom
}

type checker struct {
	Texts         []Text
	width, height float64
	ids           map[string]bool
	wrong         []string
}

func (c *checker) say(format string, args ...any) {
	c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
}

func (c *checker) read(svg string) error {
	var open *xml.StartElement
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		switch token := token.(type) {
		case xml.StartElement:
			token = token.Copy()
			c.element(token)
			open = &token
		case xml.CharData:
			if open != nil && open.Name.Local == "text" {
				c.text(*open, string(token))
			}
		case xml.EndElement:
			open = nil
		}
	}
}

// notFinite finds numbers that are none, and exponents, which not every reader
// of paths takes.
var notFinite = regexp.MustCompile(`(?i)\bnan\b|[-+]?\binf\b|\d[eE][-+]?\d`)

// words are attributes that hold words, not numbers.
var words = map[string]bool{"font-family": true, "id": true, "class": true, "aria-labelledby": true, "aria-describedby": true, "href": true, "fill": true, "stroke": true}

func (c *checker) element(e xml.StartElement) {
	names := map[string]bool{}
	for _, a := range e.Attr {
		key := a.Name.Local
		switch {
		case names[key]:
			c.say("%s twice in one %s", key, e.Name.Local)
		case key == "style" || strings.HasPrefix(key, "on"):
			c.say("attribute %s", key)
		case key == "id" && c.ids[a.Value]:
			c.say("the id %q stands twice", a.Value)
		case key == "viewBox":
			fmt.Sscanf(a.Value, "0 0 %g %g", &c.width, &c.height)
		case !words[key] && notFinite.MatchString(a.Value):
			c.say("%s=%q", key, a.Value)
		}
		names[key] = true
		if key == "id" {
			c.ids[a.Value] = true
		}
	}
}

func (c *checker) text(e xml.StartElement, text string) {
	attr := func(name string) string {
		for _, a := range e.Attr {
			if a.Name.Local == name {
				return a.Value
			}
		}
		return ""
	}
	value := func(name string, otherwise float64) float64 {
		v, err := strconv.ParseFloat(attr(name), 64)
		if err != nil || math.IsNaN(v) {
			return otherwise
		}
		return v
	}
	s := sheet.Style{Size: value("font-size", sheet.TextSize), Anchor: attr("text-anchor")}
	c.Texts = append(c.Texts, Text{text, sheet.TextBox(text, value("x", 0), value("y", 0), s)})
}
