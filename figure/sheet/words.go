package sheet

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// wholeEm says whether a letter belongs to the scripts of East Asia, whose
// letters are an em wide (Unicode blocks Hangul Jamo, and CJK Radicals onwards).
func wholeEm(r rune) bool { return r >= 0x1100 && r < 0x1200 || r >= 0x2E80 }

// Width is about how wide a text is at a size in points. The faces differ from
// machine to machine; this is a wide one of them, so that text that fits here
// fits everywhere. The parts of an em are from memory of such faces.
func Width(text string, size float64) float64 {
	sum := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("ijl.,:;|!'()[] ft-", r):
			sum += 0.33
		case strings.ContainsRune("MW%@—…", r), wholeEm(r):
			sum += 1
		case strings.ContainsRune("mw", r):
			sum += 0.86
		case unicode.IsUpper(r):
			sum += 0.74
		default:
			sum += 0.53
		}
	}
	return sum * size
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
