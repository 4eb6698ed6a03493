package say

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Plural gives the form of a noun or verb that goes with a number. Without a
// form for many the noun takes its regular ending.
func Plural[N ~int | ~int64](n N, one string, many ...string) string {
	switch {
	case n == 1:
		return one
	case len(many) > 0:
		return many[0]
	}
	return regular(one)
}

// regular is the plural of a noun by its ending.
func regular(one string) string {
	for _, hiss := range []string{"s", "x", "z", "ch", "sh"} {
		if strings.HasSuffix(one, hiss) {
			return one + "es"
		}
	}
	if n := len(one); n > 1 && one[n-1] == 'y' && !strings.ContainsRune("aeiou", rune(one[n-2])) {
		return one[:n-1] + "ies"
	}
	return one + "s"
}

// Counted gives a number of things: 0 functions, 1 function, 2,345 functions.
func Counted[N ~int | ~int64](n N, one string, many ...string) string {
	return Whole(float64(n)) + " " + Plural(n, one, many...)
}

// NoneOr is Counted with a word for nothing: no function, 1 function, 2 functions.
// It is for what was looked for and counted, never for want of an answer.
func NoneOr[N ~int | ~int64](n N, one string, many ...string) string {
	if n == 0 {
		return "no " + one
	}
	return Counted(n, one, many...)
}

// Texts writes each of a list as it writes itself.
func Texts[T fmt.Stringer](list []T) (texts []string) {
	for _, x := range list {
		texts = append(texts, x.String())
	}
	return texts
}

// And joins words as in a sentence: a, b and c; with semicolons where a word
// has a comma of its own.
func And(words []string) string {
	comma := ", "
	for _, w := range words {
		if strings.Contains(w, ",") {
			comma = "; "
		}
	}
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], comma) + " and " + words[n-1]
}

// Sentence starts a text with a capital and ends it with a stop.
func Sentence(s string) string {
	if s == "" {
		return ""
	}
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "?") {
		s += "."
	}
	return Capital(s)
}

// Capital starts a text with a capital.
func Capital(s string) string { return first(s, unicode.ToUpper) }

// Lower starts a text as it stands inside a sentence: its first word keeps a
// capital only if it has another, or a figure, or is a single letter and no article.
func Lower(s string) string {
	word, _, more := strings.Cut(s, " ")
	if word == "A" && more {
		return "a" + s[1:]
	}
	_, n := utf8.DecodeRuneInString(word)
	if rest := word[n:]; rest == "" || strings.ContainsAny(word, "0123456789-") || strings.ToLower(rest) != rest {
		return s
	}
	return first(s, unicode.ToLower)
}

func first(s string, change func(rune) rune) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(change(r)) + s[n:]
}

// Quoted puts what a person reads somewhere between quotation marks.
func Quoted(s string) string { return "“" + s + "”" }

// Ahead puts before ahead of a text, if there is one.
func Ahead(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}
