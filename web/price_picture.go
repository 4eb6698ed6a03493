package web

import (
	"bytes"
	"cmp"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"knockon/costs"
	"knockon/figure/bill"
	"knockon/figure/png"
)

// picture is a figure with its files.
type picture struct {
	Wide, Narrow template.HTML
	Caption      string
	SVG, PNG     string
}

// figured is a picture of any kind.
type figured interface {
	Wide() string
	Narrow() string
	Caption() string
	SVG() string
}

func drawn(f figured, name, query string) picture {
	return picture{
		Wide: template.HTML(f.Wide()), Narrow: template.HTML(f.Narrow()), Caption: f.Caption(), // package figure escapes what it draws
		SVG: "/costs/" + name + ".svg?" + query, PNG: "/costs/" + name + ".png?" + query,
	}
}

// pngScale is pixels per point: sharp in print.
const pngScale = 3

var errNoPicture = &fault{Status: http.StatusNotFound, Text: "There is no such picture."}

// costsPicture answers GET /costs/NAME.svg and .png.
func (s *Site) costsPicture(r *http.Request) (reply, error) {
	name, ext, _ := strings.Cut(r.PathValue("file"), ".")
	if !slices.Contains([]string{"map", "roll", "fuel", "steps"}, name) || (ext != "svg" && ext != "png") {
		return reply{}, errNoPicture
	}
	p, err := s.price(r)
	if err != nil {
		return reply{}, err
	}
	f, file, err := p.figure(r, name)
	if err != nil {
		return reply{}, err
	}
	svg, file := f.SVG(), strings.ToLower(file)+"."+ext
	if ext == "svg" {
		return svgFile(svg, file), nil
	}
	var b bytes.Buffer
	err = png.Write(&b, svg, pngScale)
	return reply{Kind: "image/png", Body: b.Bytes(), Name: file}, err
}

// figure gives a picture by its name, and the name of its file.
func (p *price) figure(r *http.Request, name string) (f figured, file string, err error) {
	foot := []string{p.a.view.Asked, "This price: " + p.address(r)}
	file = p.q.Flight + "-" + name
	if name == "map" {
		failed, healthy, err := p.boundaries(r.Context())
		m := bill.Map(p.Costs, failed, healthy)
		m.Foot = foot
		return m, file, err
	}
	i := p.chosen()
	if i < 0 {
		return nil, "", errNoPicture
	}
	f, err = p.figureOf(r, name, &p.Places[i], foot)
	file += "-" + p.Places[i].Airfield.Ident
	if name == "steps" {
		file += "-" + p.want.Adding
	}
	return f, file, err
}

// figureOf gives a picture of one airfield.
func (p *price) figureOf(r *http.Request, name string, place *costs.Place, foot []string) (figured, error) {
	switch name {
	case "roll":
		roll, ok := bill.Roll(place)
		if roll.Foot = foot; !ok {
			return nil, errNoPicture
		}
		return roll, nil
	case "fuel":
		f := bill.Fuel(p.Costs, place)
		f.Foot = foot
		return f, nil
	}
	parts, ok, err := p.attribute(r.Context(), place.Airfield.Ident)
	if err != nil || !ok {
		return nil, cmp.Or[error](err, errNoPicture)
	}
	w, ok := bill.Steps(parts, p.want.Adding)
	if w.Foot = foot; !ok {
		return nil, errNoPicture
	}
	return w, nil
}
