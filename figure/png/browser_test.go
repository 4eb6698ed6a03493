package png

import (
	"context"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"knockon/figure/face"
	"knockon/internal/browser"
)

// browserShot has a browser draw the picture at two pixels a point, with no font
// but those that the picture brings along.
func browserShot(t *testing.T, svg string, wide, high int) image.Image {
	t.Helper()
	path := browser.Path(t)
	dir := t.TempDir()
	page, shot := filepath.Join(dir, "page.html"), filepath.Join(dir, "shot.png")
	html := `<!doctype html><meta charset="utf-8"><style>body{margin:0;background:#fff}svg{display:block}</style>` + svg
	if err := os.WriteFile(page, []byte(html), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 60*time.Second)
	defer cancel()
	size := "--window-size=" + strconv.Itoa(wide) + "," + strconv.Itoa(high)
	out, err := exec.CommandContext(ctx, path, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--force-device-scale-factor=2", "--font-render-hinting=none",
		"--user-data-dir="+filepath.Join(dir, "profile"), size, "--screenshot="+shot, "file://"+page).CombinedOutput()
	if err != nil {
		t.Skipf("chromium does not run here: %v\n%s", err, out)
	}
	f, err := os.Open(shot)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// A browser is the outside judge: of all pixels with ink, one in a hundred may
// differ from the browser's by more than a third of the way from black to white.
// Edges differ by less, for each has its own way to smooth them; what differs
// more (2 and 6 in 1,000) is letters that the browser puts on whole pixels.
func TestDraw_AgreesWithABrowser(t *testing.T) {
	for _, name := range []string{"line_alone.svg", "chain_alone.svg"} {
		text, err := os.ReadFile(filepath.Join("..", "testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		svg := string(text)
		ours, err := Draw(svg, 2)
		if err != nil {
			t.Fatal(err)
		}
		size := ours.Bounds().Size()
		theirs := browserShot(t, face.Alone(svg), size.X/2, size.Y/2)
		far, ink := differ(ours, theirs)
		t.Logf("%s: %d of %d pixels with ink differ", name, far, ink)
		if ink < 10_000 || far*100 > ink {
			t.Errorf("%s: %d of %d pixels with ink differ from the browser's", name, far, ink)
		}
	}
}

// differ counts the pixels that differ by more than a third, and those that are
// no paper in either.
func differ(a, b image.Image) (far, ink int) {
	for y := range min(a.Bounds().Dy(), b.Bounds().Dy()) {
		for x := range min(a.Bounds().Dx(), b.Bounds().Dx()) {
			p, q := grey(a, x, y), grey(b, x, y)
			if p < 230 || q < 230 {
				ink++
			}
			if p-q > 85 || q-p > 85 {
				far++
			}
		}
	}
	return far, ink
}

func grey(img image.Image, x, y int) int {
	r, g, b, _ := img.At(x, y).RGBA()
	return int(r+g+b) / 3 / 257
}
