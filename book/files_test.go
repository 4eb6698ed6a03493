package book

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"testing/fstest"
)

// Cases that are about files or are too big to write down.
var fileCases = []struct {
	name    string
	files   func(t *testing.T) fs.FS
	pattern string // of one diagnostic
}{
	{"a folder that is not there", func(t *testing.T) fs.FS { return os.DirFS(filepath.Join(t.TempDir(), "none")) }, "^error: The folder of the book cannot be read. There is no such folder.*no-folder"},
	{"an empty folder", func(*testing.T) fs.FS { return fstest.MapFS{} }, "no-files"},
	{"a folder of other files", func(*testing.T) fs.FS { return filesOf("notes.txt", "x", ".hidden.hcl", "unit") }, "no-files"},
	{"only a comment", one("# nothing yet\n"), "empty-book"},
	{"a byte that is not UTF-8", one("unit \"a\" {\n  title = \"caf\xe9\"\n}\n"), `^book.hcl:2:15: error: The file is not UTF-8 text`},
	{"a file of UTF-16", one("\xff\xfeu\x00n\x00i\x00t\x00"), `^book.hcl:1:1: .*not-text`},
	{"a binary file", one("\x7fELF\x02\x01\x01\x00\x00"), `^book.hcl:1:8: .*not-text`},
	{"a file of 17 MB", one(strings.Repeat("# filler\n", 2_000_000)), "^book.hcl:1:1: error: The file is too big.*16 MB"},
	{"a book of 70 MB", bigBook, "^f04.hcl:1:1: error: The book is too big.*64 MB"},
	{"ten thousand files", manyFiles, "too many files"},
	{"a file that cannot be opened", func(*testing.T) fs.FS { return lockedFS{filesOf(smallBook)} }, `^book.hcl:1:1: error: The file cannot be read. The system says: permission denied`},
	{"a pipe", pipe, "not a plain file"},
	{"a link to itself", linkToItself, "^a.hcl:1:1: error: The file cannot be read"},
	{"a line of 10 MB", one("signal \"a\" { value = " + strings.Repeat("pump && ", 1_300_000) + "pump }"), `^book.hcl:1:\d+: error: The expression is too long`},
	{"many operators with line ends", one("signal \"a\" {\nvalue = (" + strings.Repeat("!\n", 5000) + "b)\n}"), "The expression is too long"},
	{"many indexes", one("signal \"a\" {\nvalue = f()" + strings.Repeat("[0]", 5000) + "\n}"), "The expression is too long"},
	{"blocks in blocks", one(strings.Repeat("a {\n", 200_000)), `^book.hcl:100:3: error: Brackets are nested too deeply`},
	{"brackets in brackets", one("signal \"a\" {\nvalue = " + strings.Repeat("(", 10_000_000)), `^book.hcl:2:\d+: error: Brackets are nested too deeply`},
	{"commas without end", one("event \"a\" {\nfails = [" + strings.Repeat(",", 3_000_000) + "]\n}"), "The book holds too much"},
	{"100,000 blocks of one name", one(strings.Repeat("unit \"a\" {}\n", 100_000)), `duplicate`},
	{"160,000 items", one(numbered("unit \"u%d\" {}\n", 160_000)), `^book.hcl:150001:1: error: The book has too many items`},
	{"100 builds", one(numbered("variant \"v%d\" { title = \"x\" }\n", 100)), `^book.hcl:65:1: error: The book has too many builds`},
	{"many items on many builds", one(numbered("variant \"v%d\" { title = \"x\" }\n", 60) + numbered("unit \"u%d\" {}\n", 10_000)), "too many items on too many builds"},
	{"1,000 mistakes", one("aircraft \"a\" { title = \"A\" }\n" + numbered("unit \"u%d\" { needs = nothing_at_all }\n", 1000)), "^advice: And 800 more"},
	{"100,000 mistakes", one("aircraft \"a\" { title = \"A\" }\n" + numbered("unit \"u%d\" { needs = u }\n", 20_000)), "^advice: And 19800 more"},
}

func one(text string) func(*testing.T) fs.FS { return func(*testing.T) fs.FS { return filesOf(text) } }

func numbered(format string, n int) string {
	var s strings.Builder
	for i := range n {
		fmt.Fprintf(&s, format, i)
	}
	return s.String()
}

func bigBook(*testing.T) fs.FS {
	files := fstest.MapFS{}
	filler := bytes.Repeat([]byte("# filler\n"), 1_600_000)
	for i := range 6 {
		files[fmt.Sprintf("f%02d.hcl", i)] = &fstest.MapFile{Data: filler}
	}
	return files
}

func manyFiles(*testing.T) fs.FS {
	files := fstest.MapFS{}
	for i := range 10_001 {
		files[fmt.Sprintf("f%05d.hcl", i)] = &fstest.MapFile{}
	}
	return files
}

func pipe(t *testing.T) fs.FS {
	dir := t.TempDir()
	if err := syscall.Mkfifo(filepath.Join(dir, "a.hcl"), 0o600); err != nil {
		t.Skip(err)
	}
	return os.DirFS(dir)
}

func linkToItself(t *testing.T) fs.FS {
	dir := t.TempDir()
	for name, target := range map[string]string{"a.hcl": "a.hcl", "sub": "."} {
		if err := os.Symlink(target, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	return os.DirFS(dir)
}

// lockedFS does not let files be opened.
type lockedFS struct{ fstest.MapFS }

func (f lockedFS) Open(name string) (fs.File, error) {
	if name == "." {
		return f.MapFS.Open(name)
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
}

func (f lockedFS) Stat(name string) (fs.FileInfo, error) { return f.MapFS.Stat(name) }

func loadFileCase(t *testing.T, files fs.FS, pattern string) Diagnostics {
	b, problems := Load(context.Background(), files)
	if b != nil {
		t.Error("a book is given in spite of errors")
	}
	if len(problems) > mostDiagnostics+1 {
		t.Errorf("%d diagnostics are given", len(problems))
	}
	if !anyMatches(problems, pattern) {
		t.Errorf("nothing matches %q in %v", pattern, problems[:min(len(problems), 5)])
	}
	return problems
}

func anyMatches(problems Diagnostics, pattern string) bool {
	re := regexp.MustCompile(pattern)
	for _, d := range problems {
		if re.MatchString(d.String()) {
			return true
		}
	}
	return false
}

func TestLoad_StopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	b, problems := Load(ctx, filesOf(smallBook))
	if b != nil || len(problems) != 1 || problems[0].Code != "stopped" {
		t.Errorf("got book %v and %v", b, problems)
	}
	if !errors.Is(ctx.Err(), context.Canceled) {
		t.Fatal("the context is not cancelled")
	}
}

func TestLoad_ByteOrderMarkAndLineEnds(t *testing.T) {
	bookOf(t, "\xef\xbb\xbf"+strings.ReplaceAll(smallBook, "\n", "\r\n"))
}

func TestLoad_FilesInTheOrderOfTheirNames(t *testing.T) {
	book := bookOf(t, "b/x.hcl", `unit "three" {}`, "a.hcl", smallBook, "b.hcl", `unit "two" {}`)
	b, _ := book.Build("")
	var ids []string
	for _, u := range b.Units {
		ids = append(ids, u.ID)
	}
	if got := strings.Join(ids, " "); got != "engine_1 pump_1 two three" {
		t.Errorf("units are in the order %s", got)
	}
}
