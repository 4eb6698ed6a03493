package face

import (
	"bytes"
	"compress/zlib"
	"embed"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"io"
	"strings"
	"sync"
	"sync/atomic"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Family is the name under which pages and pictures ask for the fonts. What
// does not know them, such as a drawing program that opens a picture, takes
// another serif face.
const Family = "'Knockon Serif', 'Source Serif 4', Charter, 'Liberation Serif', Georgia, 'Times New Roman', serif"

//go:embed *.woff
var files embed.FS

// Face is one cut of the family.
type Face struct {
	Font *sfnt.Font
	woff []byte

	advance [plain]int                 // in units of the font
	pair    [plain][plain]atomic.Int32 // the same, as known; a look-up takes as long as a line of text
}

// The cuts that there are.
const (
	Upright = "upright"
	Italic  = "italic"
	Bold    = "bold"
)

// Names are the cuts in a fixed order.
var Names = []string{Upright, Italic, Bold}

var faces = map[string]func() *Face{
	Upright: sync.OnceValue(func() *Face { return load(Upright) }),
	Italic:  sync.OnceValue(func() *Face { return load(Italic) }),
	Bold:    sync.OnceValue(func() *Face { return load(Bold) }),
}

// Of gives a cut by its name, which must be one of Names.
func Of(name string) *Face { return faces[name]() }

// load reads a file that is in the program: it is the same in every run, and a
// test reads them all, so an error here is no matter of a user.
func load(name string) *Face {
	f := &Face{}
	var err error
	if f.woff, err = files.ReadFile(name + ".woff"); err == nil {
		f.Font, err = parse(f.woff)
	}
	if err != nil {
		panic(name + ": " + err.Error())
	}
	for i := range rune(plain) {
		f.advance[i] = f.measure(firstPlain + i)
	}
	return f
}

func parse(woff []byte) (*sfnt.Font, error) {
	data, err := unpack(woff)
	if err != nil {
		return nil, err
	}
	return sfnt.Parse(data)
}

// File gives a web font by its file's name.
func File(name string) ([]byte, error) { return files.ReadFile(name) }

// missing is the room of a letter that the family does not have, in parts of an
// em: the letters of other scripts are seldom wider.
const missing = 1.0

// The letters whose widths and pairs are looked up once.
const (
	firstPlain, lastPlain = 0x20, 0x7e
	plain                 = lastPlain - firstPlain + 1
)

// Width is how wide a text is at a size, as a browser sets it.
func (f *Face) Width(text string, size float64) float64 {
	sum, before := 0, rune(-1)
	for _, r := range text {
		sum += f.Pair(before, r) + f.Advance(r)
		before = r
	}
	return float64(sum) * size / float64(f.Font.UnitsPerEm())
}

// Advance is how wide a letter is, in units of the font.
func (f *Face) Advance(r rune) int {
	if i := r - firstPlain; i >= 0 && i < plain {
		return f.advance[i]
	}
	return f.measure(r)
}

// Pair is by how much two letters stand farther apart, or closer where it is
// below 0; 0 where the font says nothing of them.
func (f *Face) Pair(a, b rune) int {
	i, j := a-firstPlain, b-firstPlain
	if i < 0 || i >= plain || j < 0 || j >= plain {
		return f.kern(a, b)
	}
	at := &f.pair[i][j]
	if at.Load() == 0 {
		at.Store(known + int32(f.kern(a, b)))
	}
	return int(at.Load() - known)
}

// known is what a pair that was looked up has on top.
const known = 1 << 20

func (f *Face) units() fixed.Int26_6 { return fixed.I(int(f.Font.UnitsPerEm())) }

func (f *Face) measure(r rune) int {
	var b sfnt.Buffer
	glyph, err := f.Font.GlyphIndex(&b, r)
	if err != nil || glyph == 0 {
		return int(missing * float64(f.Font.UnitsPerEm()))
	}
	advance, err := f.Font.GlyphAdvance(&b, glyph, f.units(), font.HintingNone)
	if err != nil {
		return int(missing * float64(f.Font.UnitsPerEm()))
	}
	return advance.Round()
}

func (f *Face) kern(a, b rune) int {
	if a < 0 {
		return 0
	}
	var buffer sfnt.Buffer
	left, _ := f.Font.GlyphIndex(&buffer, a)
	right, _ := f.Font.GlyphIndex(&buffer, b)
	if left == 0 || right == 0 {
		return 0
	}
	k, err := f.Font.Kern(&buffer, left, right, f.units(), font.HintingNone)
	if err != nil {
		return 0
	}
	return k.Round()
}

// Rules are the rules of a style sheet that bring the fonts in. The addresses
// are where a page finds the files.
func Rules(address func(file string) string) string {
	var b strings.Builder
	for _, name := range Names {
		b.WriteString("@font-face{font-family:'Knockon Serif';src:url(" + address(name+".woff") + ") format('woff');" + cut[name] + "}\n")
	}
	return b.String()
}

var cut = map[string]string{
	Upright: "font-weight:400;font-style:normal",
	Italic:  "font-weight:400;font-style:italic",
	Bold:    "font-weight:700;font-style:normal",
}

// Alone puts the fonts into a picture that will be a file of its own, so that
// it looks the same wherever it is opened.
func Alone(svg string) string {
	at := strings.Index(svg, ">") + 1
	if at == 0 {
		return svg
	}
	return svg[:at] + "<style>" + Rules(Inside) + "</style>" + svg[at:]
}

// Inside gives a file as an address that holds it.
func Inside(file string) string {
	data, _ := File(file) // the names are those of the files in the program
	return "data:font/woff;base64," + base64.StdEncoding.EncodeToString(data)
}

// The parts of a web font file: WOFF File Format 1.0 (W3C, 2012), sections 3 to 5.
const (
	woffHead  = 44
	woffEntry = 20
	sfntHead  = 12
	sfntEntry = 16
)

var errNoFont = errors.New("no web font")

// unpack gives the font in a web font file: the same tables, not compressed.
func unpack(woff []byte) ([]byte, error) {
	if len(woff) < woffHead || string(woff[:4]) != "wOFF" {
		return nil, errNoFont
	}
	big := binary.BigEndian
	n := int(big.Uint16(woff[12:]))
	if len(woff) < woffHead+n*woffEntry {
		return nil, errNoFont
	}
	// The numbers after the count serve a search that no reader here makes.
	out := make([]byte, sfntHead+n*sfntEntry, big.Uint32(woff[16:]))
	copy(out, woff[4:8])
	big.PutUint16(out[4:], uint16(n))
	for i := range n {
		from := woff[woffHead+i*woffEntry:]
		table, err := table(woff, big.Uint32(from[4:]), big.Uint32(from[8:]), big.Uint32(from[12:]))
		if err != nil {
			return nil, err
		}
		to := out[sfntHead+i*sfntEntry:]
		copy(to, from[:4])
		copy(to[4:], from[16:20])
		big.PutUint32(to[8:], uint32(len(out)))
		big.PutUint32(to[12:], uint32(len(table)))
		out = append(out, table...)
		out = append(out, make([]byte, -len(out)&3)...)
	}
	return out, nil
}

// table gives a table, which is compressed where that makes it shorter.
func table(woff []byte, at, packed, size uint32) ([]byte, error) {
	if uint64(at)+uint64(packed) > uint64(len(woff)) {
		return nil, errNoFont
	}
	data := woff[at : at+packed]
	if packed == size {
		return data, nil
	}
	r, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	out, err := io.ReadAll(io.LimitReader(r, int64(size)+1))
	if err == nil && len(out) != int(size) {
		err = errNoFont
	}
	return out, err
}
