package main

import (
	"archive/tar"
	"archive/zip"
	"bufio"
	"bytes"
	"compress/gzip"
	"errors"
	"html"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"knockon/book"
)

func sample() []entry {
	return []entry{{"b", []byte("two"), false}, {"Knockon", []byte("program"), true}}
}

func TestArchive_IsTheSameWhenever(t *testing.T) {
	for _, name := range []string{"a.zip", "a.tar.gz"} {
		one, err := archive(name, sample())
		other := sample()
		slices.Reverse(other)
		two, err2 := archive(name, other)
		if err != nil || err2 != nil || !bytes.Equal(one, two) {
			t.Errorf("%s: %v, %v, or its bytes differ", name, err, err2)
		}
	}
}

func TestArchive_HoldsTheFilesAndOneProgram(t *testing.T) {
	want := []string{"Knockon/Knockon -rwxr-xr-x program", "Knockon/b -rw-r--r-- two"}
	packed, err := archive("a.zip", sample())
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, _ := io.ReadAll(r)
		got = append(got, f.Name+" "+f.Mode().String()+" "+string(text))
	}
	if !slices.Equal(got, want) {
		t.Errorf("zip: %q", got)
	}
	if got := inTar(t); !slices.Equal(got, want) {
		t.Errorf("tar: %q", got)
	}
}

func inTar(t *testing.T) (got []string) {
	t.Helper()
	packed, err := archive("a.tar.gz", sample())
	if err != nil {
		t.Fatal(err)
	}
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	for r := tar.NewReader(plain); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return got
		}
		if err != nil {
			t.Fatal(err)
		}
		text, _ := io.ReadAll(r)
		got = append(got, h.Name+" "+h.FileInfo().Mode().String()+" "+string(text))
	}
}

// Each page of first steps has the caution at its head and its foot, and names
// the file that stands beside it.
func TestFirstSteps_HaveTheCautionAndTheFile(t *testing.T) {
	for _, target := range targets {
		text, err := firstSteps(target)
		if err != nil || strings.Count(html.UnescapeString(string(text)), book.Caution) != 2 || !strings.Contains(string(text), "Double-click <code>"+target.file+"</code>") || !strings.Contains(string(text), "@font-face") {
			t.Errorf("%s: %v", target.archive, err)
		}
	}
}

// The file for this machine, started without a word, opens a page that answers;
// with a word it is the command line.
func TestTheFile_ServesWithoutAWord(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "Knockon")
	if err := build(runtime.GOOS, runtime.GOARCH, file); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command(file, "version").Output(); err != nil || !strings.HasPrefix(string(said), "knockon ") {
		t.Errorf("version: %q, %v", said, err)
	}
	c := exec.Command(file)
	c.Env = []string{"PATH=" + dir, "HOME=" + dir}
	said, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() { _ = c.Process.Signal(os.Interrupt); _ = c.Wait() }()
	url := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`)
	for lines := bufio.NewScanner(said); lines.Scan(); {
		address := url.FindString(lines.Text())
		if address == "" {
			continue
		}
		answer, err := http.Get(address)
		if err != nil || answer.StatusCode != http.StatusOK {
			t.Fatalf("%s: %v", address, err)
		}
		return
	}
	t.Error("it said no address")
}
