package sheet

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Drawing writes SVG text. Attributes come in pairs of a name and a string, a
// Number of points, or an int; an attribute whose value is "" is left out.
type Drawing struct {
	b      *strings.Builder
	prefix string // of ids: a page may hold several pictures
}

// New begins a drawing; the ids in it begin with the prefix.
func New(prefix string) Drawing { return Drawing{new(strings.Builder), prefix} }

// Anchor makes the id of a part of the drawing.
func (d *Drawing) Anchor(name string) string { return d.prefix + "-" + name }

// Open begins an element.
func (d *Drawing) Open(tag string, attrs ...any) {
	d.tag(tag, attrs)
	d.b.WriteString(">")
}

// Leaf is an element without content.
func (d *Drawing) Leaf(tag string, attrs ...any) {
	d.tag(tag, attrs)
	d.b.WriteString("/>")
}

// Close ends an element.
func (d *Drawing) Close(tag string) {
	d.b.WriteString("</")
	d.b.WriteString(tag)
	d.b.WriteString(">\n")
}

// Raw adds what was drawn apart.
func (d *Drawing) Raw(part string) { d.b.WriteString(part) }

// String is what was drawn so far.
func (d *Drawing) String() string { return d.b.String() }

// Capture draws something apart, because what comes before it in the text
// depends on how much room it takes.
func (d *Drawing) Capture(draw func()) string {
	before := d.b
	d.b = new(strings.Builder)
	draw()
	part := d.b.String()
	d.b = before
	return part
}

// Text is an element that holds nothing but text.
func (d *Drawing) Text(tag, text string, attrs ...any) {
	d.Open(tag, attrs...)
	d.b.WriteString(escape(text))
	d.Close(tag)
}

// Path is a line of any shape, not filled unless attrs say so.
func (d *Drawing) Path(path string, attrs ...any) {
	if !slices.Contains(attrs, any("fill")) {
		attrs = append(attrs, "fill", "none")
	}
	d.Leaf("path", append([]any{"d", path}, attrs...)...)
}

func (d *Drawing) tag(tag string, attrs []any) {
	d.b.WriteString("<")
	d.b.WriteString(tag)
	for i := 0; i+1 < len(attrs); i += 2 {
		v := Attribute(attrs[i+1])
		if v == "" {
			continue
		}
		d.b.WriteString(" ")
		d.b.WriteString(attrs[i].(string))
		d.b.WriteString(`="`)
		d.b.WriteString(escape(v))
		d.b.WriteString(`"`)
	}
}

// Attribute writes the value of an attribute.
func Attribute(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case float64:
		return Number(v)
	case int:
		return strconv.Itoa(v)
	}
	panic(fmt.Sprintf("sheet: an attribute of type %T", v))
}

// far is farther than any sheet reaches, in points.
const far = 1e6

// Number writes a length to a tenth of a point, which is finer than print. What
// is not a number becomes 0, and what is out of all bounds is brought in.
func Number(v float64) string {
	if math.IsNaN(v) {
		return "0"
	}
	v = min(max(v, -far), far)
	v = math.Round(v*10) / 10
	if v == 0 {
		return "0" // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// escape makes a text fit for XML: it also drops what XML 1.0 cannot hold
// (section 2.2 of the recommendation).
func escape(s string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < 0x20 && r != '\t' && r != '\n' || r == 0xFFFE || r == 0xFFFF {
			return -1
		}
		return r
	}, s))
}
