package png

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"

	"knockon/figure/png/outline"
)

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
