package png

import (
	"fmt"
	"image/color"
	"maps"
	"slices"
	"strconv"
	"strings"

	"knockon/figure/png/outline"
)

// style is how shapes and texts look; elements inherit it.
type style struct {
	fill, stroke             *color.NRGBA // nil: none
	fillOpaque, strokeOpaque float64
	width                    float64
	cap, join                string
	dashes                   []float64
	size                     float64
	anchor                   string
	slants, bold             bool
	strokeFirst              bool
}

// plain is the style where a picture says nothing: SVG 1.1, property index.
func plain() style {
	return style{fill: &color.NRGBA{A: 255}, fillOpaque: 1, strokeOpaque: 1, width: 1, cap: "butt", join: "miter", size: 16, anchor: "start"}
}

// with gives the style of an element inside one of this style.
func (s style) with(n *node) (style, error) {
	for _, name := range slices.Sorted(maps.Keys(n.attrs)) {
		if err := s.set(name, n.attrs[name]); err != nil {
			return s, fmt.Errorf("<%s>: %w", n.name, err)
		}
	}
	return s, nil
}

func (s *style) set(name, text string) (err error) {
	switch name {
	case "fill":
		s.fill, err = paint(text)
	case "stroke":
		s.stroke, err = paint(text)
	case "fill-opacity":
		s.fillOpaque, err = outline.Number(text)
	case "stroke-opacity":
		s.strokeOpaque, err = outline.Number(text)
	case "stroke-width":
		s.width, err = outline.Number(text)
	case "stroke-dasharray":
		s.dashes, err = dashes(text)
	case "font-size":
		s.size, err = outline.Number(text)
	case "stroke-linecap":
		s.cap, err = oneOf(text, "butt", "round", "square")
	case "stroke-linejoin":
		s.join, err = oneOf(text, "miter", "round", "bevel")
	case "text-anchor":
		s.anchor, err = oneOf(text, "start", "middle", "end")
	case "font-style":
		text, err = oneOf(text, "normal", "italic")
		s.slants = text == "italic"
	case "font-weight":
		text, err = oneOf(text, "normal", "bold")
		s.bold = text == "bold"
	case "paint-order":
		text, err = oneOf(text, "normal", "stroke")
		s.strokeFirst = text == "stroke"
	default:
		return known(name)
	}
	if err != nil {
		return fmt.Errorf("the attribute %s: %w", name, err)
	}
	return nil
}

// known lets through the attributes that are no style: the shapes read them, or
// they are for pages and screen readers.
func known(name string) error {
	switch name {
	case "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "width", "height", "d", "points", "transform", "marker-end",
		"viewBox", "refX", "refY", "markerWidth", "markerHeight", "orient",
		"id", "class", "role", "tabindex", "href", "xmlns", "font-family", "text-rendering", "focusable":
		return nil
	}
	if strings.HasPrefix(name, "aria-") || strings.HasPrefix(name, "data-") {
		return nil
	}
	return fmt.Errorf("the attribute %s cannot be drawn", name)
}

func oneOf(text string, words ...string) (string, error) {
	for _, w := range words {
		if text == w {
			return w, nil
		}
	}
	return "", fmt.Errorf("%q cannot be drawn, only %s", text, strings.Join(words, ", "))
}

// paint reads "none" or "#rrggbb".
func paint(text string) (*color.NRGBA, error) {
	if text == "none" {
		return nil, nil
	}
	v, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 32)
	if err != nil || len(text) != 7 || text[0] != '#' {
		return nil, fmt.Errorf("%q is no colour that can be drawn: none or #rrggbb", text)
	}
	return &color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}, nil
}

// hairDash stands for a dash without a length, whose round ends make a dot.
const hairDash = 0.02

// dashes reads the lengths of dashes and gaps, an even count of them.
func dashes(text string) ([]float64, error) {
	if text == "none" {
		return nil, nil
	}
	list, err := outline.Numbers(text)
	if err != nil {
		return nil, err
	}
	sum := 0.0
	for i, v := range list {
		if v < 0 {
			return nil, fmt.Errorf("%q has a length below 0", text)
		}
		sum += v
		list[i] = max(v, hairDash)
	}
	if sum == 0 {
		return nil, nil // SVG 1.1, 11.4: as if there were none
	}
	if len(list)%2 == 1 {
		list = append(list, list...)
	}
	return list, nil
}

// dashLength is how long a dash with its gap is, on the average.
func (s style) dashLength() float64 {
	sum := 0.0
	for _, v := range s.dashes {
		sum += v
	}
	return 2 * sum / float64(max(len(s.dashes), 1))
}

// tone is a paint with its opacity.
func tone(c color.NRGBA, opaque float64) color.NRGBA {
	c.A = uint8(min(max(opaque, 0), 1)*255 + 0.5)
	return c
}
