package sheet

import (
	"strings"
	"unicode/utf8"

	"knockon/figure/face"
)

// Width is how wide a text is at a size in points, upright or slanting,
// whichever is wider.
func Width(text string, size float64) float64 {
	return max(face.Of(face.Upright).Width(text, size), face.Of(face.Italic).Width(text, size))
}

// Wrap breaks a text into lines that fit a room, at spaces and after hyphens.
// It gives at most so many lines; what does not fit ends in an ellipsis.
// An empty text has no lines.
func Wrap(text string, room, size float64, most int) []string {
	var lines []string
	rest := strings.Join(strings.Fields(text), " ")
	for rest != "" {
		n := breakAt(rest, room, size)
		if len(lines) == most-1 {
			n = len(rest)
		}
		lines = append(lines, Clip(strings.TrimRight(rest[:n], " "), room, size))
		rest = rest[n:]
	}
	return lines
}

// breakAt is how much of a text goes on a line: as much as fits, but at least
// up to the first place where it may break.
func breakAt(text string, room, size float64) int {
	n := 0
	for i, r := range text {
		if r != ' ' && r != '-' {
			continue
		}
		end := i + 1
		if n > 0 && Width(strings.TrimRight(text[:end], " "), size) > room {
			return n
		}
		n = end
	}
	if n > 0 && Width(text, size) > room {
		return n
	}
	return len(text)
}

// Clip cuts a text that is too wide and marks the cut.
func Clip(text string, room, size float64) string {
	if Width(text, size) <= room {
		return text
	}
	for text != "" && Width(text+"…", size) > room {
		_, n := utf8.DecodeLastRuneInString(text)
		text = text[:len(text)-n]
	}
	return strings.TrimRight(text, " ,") + "…"
}
