package png

import (
	"fmt"
	"image"
	"image/png"
	"io"
	"math"

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
