package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"path"

	"knockon/book"
	"knockon/figure/face"
	"knockon/say"
	"knockon/web/frame"
)

//go:embed static templates
var files embed.FS

// assets are the files that a page asks for, each under an address that
// changes with it, so that a browser may keep it for good.
type assets struct {
	content map[string][]byte
	version map[string]string
}

func loadAssets() (*assets, error) {
	a := &assets{map[string][]byte{}, map[string]string{}}
	entries, err := fs.ReadDir(files, "static")
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		text, err := fs.ReadFile(files, path.Join("static", e.Name()))
		if err != nil {
			return nil, err
		}
		a.add(e.Name(), text)
	}
	for _, name := range face.Names {
		font, err := face.File(name + ".woff")
		if err != nil {
			return nil, err
		}
		a.add(name+".woff", font)
	}
	a.add(styleSheet, append([]byte(face.Rules(a.address)), a.content[styleSheet]...))
	return a, nil
}

// styleSheet is the one that all pages share; it brings the fonts in.
const styleSheet = "book.css"

func (a *assets) add(name string, text []byte) {
	sum := sha256.Sum256(text)
	a.content[name], a.version[name] = text, hex.EncodeToString(sum[:6])
}

// address is where a page finds a file.
func (a *assets) address(name string) string { return "/static/" + name + "?v=" + a.version[name] }

var assetKinds = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": kindSVG, ".woff": "font/woff"}

func (a *assets) serve(r *http.Request) (reply, error) {
	name := r.PathValue("name")
	text, ok := a.content[name]
	if !ok {
		return reply{}, &fault{Status: http.StatusNotFound, Text: "There is no file at this address."}
	}
	return reply{Kind: assetKinds[path.Ext(name)], Body: text, Fixed: r.URL.Query().Get("v") == a.version[name]}, nil
}

func newFrame(b *book.Book, log *slog.Logger, a *assets) (*frame.Frame, error) {
	f, err := frame.New(b, log, nil, template.FuncMap{"asset": a.address, "count": say.Whole, "tenths": say.Tenths, "sentence": say.Sentence, "counted": say.Counted[int], "lower": say.Lower, "capital": say.Capital}, files)
	return f, err
}
