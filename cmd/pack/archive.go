package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"cmp"
	"compress/gzip"
	"errors"
	"io/fs"
	"slices"
	"strings"
)

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
