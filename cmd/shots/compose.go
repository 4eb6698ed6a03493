package main

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"maps"
	"os"
	"slices"
)

const gap = 16 // points between two pictures, and around them

// compose writes pictures side by side into one file, in few colours: of a page of
// text a few hundred are in use.
func compose(name string, shots [][]byte) error {
	var all []image.Image
	width, height := gap, 0
	for _, s := range shots {
		m, err := png.Decode(bytes.NewReader(s))
		if err != nil {
			return err
		}
		all = append(all, m)
		width, height = width+m.Bounds().Dx()+gap, max(height, m.Bounds().Dy())
	}
	sheet := image.NewRGBA(image.Rect(0, 0, width, height+2*gap))
	draw.Draw(sheet, sheet.Bounds(), image.NewUniform(color.Gray{Y: 0xc8}), image.Point{}, draw.Src)
	x := gap
	for _, m := range all {
		at := image.Rect(x, gap, x+m.Bounds().Dx(), gap+m.Bounds().Dy())
		draw.Draw(sheet, at, m, m.Bounds().Min, draw.Src)
		x = at.Max.X + gap
	}
	return save(name, few(sheet))
}

// few is a picture in its 256 most frequent colours.
func few(m *image.RGBA) image.Image {
	count := map[color.RGBA]int{}
	for i := 0; i < len(m.Pix); i += 4 {
		count[color.RGBA{m.Pix[i], m.Pix[i+1], m.Pix[i+2], 0xff}]++
	}
	colours := slices.SortedFunc(maps.Keys(count), func(a, b color.RGBA) int {
		if d := count[b] - count[a]; d != 0 {
			return d
		}
		return int(a.R)<<16 + int(a.G)<<8 + int(a.B) - int(b.R)<<16 - int(b.G)<<8 - int(b.B)
	})
	p := color.Palette{}
	for _, c := range colours[:min(len(colours), 256)] {
		p = append(p, c)
	}
	out := image.NewPaletted(m.Bounds(), p)
	draw.Draw(out, out.Bounds(), m, image.Point{}, draw.Src)
	return out
}

func save(name string, m image.Image) error {
	var file bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&file, m); err != nil {
		return err
	}
	return os.WriteFile(name, file.Bytes(), 0o644)
}
