package figure

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strconv"
	"strings"
)

// drawing writes SVG text. Attributes come in pairs of a name and a string, a
// number of points, or an int; an attribute whose value is "" is left out.
type drawing struct {
	b      *strings.Builder
	prefix string // of ids: a page may hold several pictures
}

func newDrawing(prefix string) drawing { return drawing{new(strings.Builder), prefix} }

func (d *drawing) id(name string) string { return d.prefix + "-" + name }

func (d *drawing) open(tag string, attrs ...any) {
	d.tag(tag, attrs)
	d.b.WriteString(">")
}

func (d *drawing) leaf(tag string, attrs ...any) {
	d.tag(tag, attrs)
	d.b.WriteString("/>")
}

func (d *drawing) close(tag string) {
	d.b.WriteString("</")
	d.b.WriteString(tag)
	d.b.WriteString(">\n")
}

// text is an element that holds nothing but text.
func (d *drawing) text(tag, text string, attrs ...any) {
	d.open(tag, attrs...)
	d.b.WriteString(escape(text))
	d.close(tag)
}

// path is a line of any shape, not filled unless attrs say so.
func (d *drawing) path(path string, attrs ...any) {
	if !slices.Contains(attrs, any("fill")) {
		attrs = append(attrs, "fill", "none")
	}
	d.leaf("path", append([]any{"d", path}, attrs...)...)
}

func (d *drawing) tag(tag string, attrs []any) {
	d.b.WriteString("<")
	d.b.WriteString(tag)
	for i := 0; i+1 < len(attrs); i += 2 {
		v := attribute(attrs[i+1])
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

func attribute(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case float64:
		return number(v)
	case int:
		return strconv.Itoa(v)
	}
	panic(fmt.Sprintf("figure: an attribute of type %T", v))
}

// number writes a length to a tenth of a point, which is finer than print.
func number(v float64) string {
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
