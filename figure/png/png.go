package png

import (
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"strings"

	"knockon/figure/png/outline"
)

// Limits of a file: what a school's printer and an ordinary machine can take.
const (
	MostScale  = 12.0
	mostPixels = 100_000_000
)

// Write draws a picture that this program made as SVG text and writes it as a
// PNG file. The scale is pixels per point of the picture: 2 is sharp on a
// screen, 4 in print. It fails, and writes nothing, for text that is not such a
// picture: an element, an attribute or a value that it cannot draw is named in
// the error, so that nothing is ever left out silently.
func Write(w io.Writer, svg string, scale float64) error {
	img, err := Draw(svg, scale)
	if err != nil {
		return err
	}
	return png.Encode(w, img)
}

// Draw is Write without the file. What the picture leaves bare is clear.
func Draw(svg string, scale float64) (*image.RGBA, error) {
	if !(scale > 0 && scale <= MostScale) {
		return nil, fmt.Errorf("the scale is %v pixels a point; it must be above 0 and at most %v", scale, MostScale)
	}
	root, err := parse(svg)
	if err != nil {
		return nil, fmt.Errorf("the picture cannot be read: %w", err)
	}
	box, err := viewBox(root)
	if err != nil {
		return nil, err
	}
	wide, high := math.Ceil(box.wide*scale), math.Ceil(box.high*scale)
	if wide*high > mostPixels {
		return nil, fmt.Errorf("the file would have %.0f x %.0f pixels, more than %d in all: take a smaller scale", wide, high, mostPixels)
	}
	p := newPainter(int(wide), int(high), root)
	return p.img, p.children(root, plain(), outline.Map{A: scale, D: scale, E: -box.x * scale, F: -box.y * scale})
}

// box is the part of the plane that a picture shows, in points.
type box struct{ x, y, wide, high float64 }

func viewBox(root *node) (box, error) {
	v, err := outline.Numbers(root.attrs["viewBox"])
	if err != nil || len(v) != 4 || !(v[2] > 0 && v[3] > 0) {
		return box{}, fmt.Errorf("the picture has no viewBox of four numbers with a width and a height: %q", root.attrs["viewBox"])
	}
	return box{v[0], v[1], v[2], v[3]}, nil
}

// node is an element of the picture.
type node struct {
	name  string
	attrs map[string]string
	inner []*node
	text  string // all text straight in it
}

// mostDeep is how deep elements may stand in one another.
const mostDeep = 50

func parse(svg string) (*node, error) {
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil, errors.New("there is no element in it")
		}
		if err != nil {
			return nil, err
		}
		if start, ok := token.(xml.StartElement); ok {
			if start.Name.Local != "svg" {
				return nil, fmt.Errorf("it begins with <%s>, not with <svg>", start.Name.Local)
			}
			return element(d, start, 0)
		}
	}
}

func element(d *xml.Decoder, start xml.StartElement, deep int) (*node, error) {
	n := &node{name: start.Name.Local, attrs: map[string]string{}}
	if deep > mostDeep {
		return nil, fmt.Errorf("elements stand more than %d deep in one another", mostDeep)
	}
	for _, a := range start.Attr {
		n.attrs[a.Name.Local] = strings.TrimSpace(a.Value)
	}
	for {
		token, err := d.Token()
		if err != nil {
			return nil, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			child, err := element(d, t, deep+1)
			if err != nil {
				return nil, err
			}
			n.inner = append(n.inner, child)
		case xml.CharData:
			n.text += string(t)
		case xml.EndElement:
			return n, nil
		}
	}
}

// number reads an attribute as a number; it is 0 where there is none.
func (n *node) number(name string) (float64, error) {
	text := n.attrs[name]
	if text == "" {
		return 0, nil
	}
	v, err := outline.Number(text)
	if err != nil {
		return 0, fmt.Errorf("<%s>: the attribute %s is %q, not a number", n.name, name, text)
	}
	return v, nil
}

// all reads several attributes as numbers.
func (n *node) all(names ...string) ([]float64, error) {
	values := make([]float64, len(names))
	for i, name := range names {
		v, err := n.number(name)
		if err != nil {
			return nil, err
		}
		values[i] = v
	}
	return values, nil
}
