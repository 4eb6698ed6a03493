// Command pack makes what a person downloads: for each system an archive with
// one file to double-click, which serves the demonstration and opens the
// browser, and a page of first steps. With words after it the same file is the
// whole command line.
//
// Invariant: the same tree and the same Go give the same bytes; no clock, user
// or path of the machine gets in.
//
//	go run ./cmd/pack -out dist
//
// Start reading at main; archive.go writes the archives.
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"cmp"
	"compress/gzip"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"knockon/book"
	"knockon/figure/face"
)

// target is a kind of machine.
type target struct{ system, processor, name, file, archive string }

var targets = []target{
	{"windows", "amd64", "Windows", "Knockon.exe", "knockon-windows.zip"},
	{"darwin", "arm64", "macOS", "Knockon", "knockon-macos-apple.zip"},
	{"darwin", "amd64", "macOS", "Knockon", "knockon-macos-intel.zip"},
	{"linux", "amd64", "Linux", "Knockon", "knockon-linux.tar.gz"},
}

func main() {
	out := flag.String("out", "dist", "folder for the archives")
	flag.Parse()
	for _, t := range targets {
		if err := pack(t, *out); err != nil {
			fmt.Fprintf(os.Stderr, "pack: %s: %v\n", t.archive, err)
			os.Exit(1)
		}
	}
}

// pack writes the archive of one kind of machine.
func pack(t target, out string) error {
	dir, err := os.MkdirTemp("", "pack")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	program := filepath.Join(dir, t.file)
	if err := build(t.system, t.processor, program); err != nil {
		return err
	}
	entries, err := contents(t, program)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	data, err := archive(t.archive, entries)
	if err != nil {
		return err
	}
	fmt.Printf("%s: %.1f MB\n", t.archive, float64(len(data))/1e6)
	return os.WriteFile(filepath.Join(out, t.archive), data, 0o644)
}

// build makes the file to double-click: started without a word it opens the
// demonstration.
func build(system, processor, file string) error {
	c := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -X 'main.bare=demo --open'", "-o", file, "knockon/cmd/knockon")
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+processor)
	if said, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("go build: %w\n%s", err, said)
	}
	return nil
}

// contents is what stands in an archive.
func contents(t target, program string) (list []entry, err error) {
	page, err := firstSteps(t)
	if err != nil {
		return nil, err
	}
	list = []entry{{name: "First steps.html", text: page}}
	for name, file := range map[string]string{t.file: program, "LICENSE.txt": "LICENSE", "NOTICE.txt": "NOTICE", "Licence of the fonts.txt": "figure/face/OFL.txt"} {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		list = append(list, entry{name, text, name == t.file})
	}
	return list, nil
}

//go:embed first-steps.html
var page string

// firstSteps is the page that says what to do with the file.
func firstSteps(t target) ([]byte, error) {
	parsed, err := template.New("").Parse(page)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = parsed.Execute(&b, map[string]any{"System": t.name, "File": t.file, "Caution": book.Caution, "Fonts": template.CSS(face.Rules(face.Inside))})
	return b.Bytes(), err
}

// entry is a file of an archive.
type entry struct {
	name string
	text []byte
	runs bool // it is a program
}

func (e entry) mode() fs.FileMode {
	if e.runs {
		return 0o755
	}
	return 0o644
}

// folder is where everything of an archive stands.
const folder = "Knockon/"

// archive packs files as the archive's name says, in the order of their names
// and without a time.
func archive(name string, entries []entry) ([]byte, error) {
	slices.SortFunc(entries, func(a, b entry) int { return cmp.Compare(a.name, b.name) })
	if strings.HasSuffix(name, ".zip") {
		return zipped(entries)
	}
	return tarred(entries)
}

func zipped(entries []entry) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range entries {
		h := &zip.FileHeader{Name: folder + e.name, Method: zip.Deflate}
		h.SetMode(e.mode())
		f, err := w.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := f.Write(e.text); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return b.Bytes(), err
}

func tarred(entries []entry) ([]byte, error) {
	var b bytes.Buffer
	packed := gzip.NewWriter(&b)
	w := tar.NewWriter(packed)
	for _, e := range entries {
		if err := w.WriteHeader(&tar.Header{Name: folder + e.name, Mode: int64(e.mode()), Size: int64(len(e.text))}); err != nil {
			return nil, err
		}
		if _, err := w.Write(e.text); err != nil {
			return nil, err
		}
	}
	err := errors.Join(w.Close(), packed.Close())
	return b.Bytes(), err
}
