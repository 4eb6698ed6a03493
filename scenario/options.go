package scenario

import (
	"fmt"
	"strings"
)

// Options is a question as the options of a command, all but what fails.
func (t Typed) Options() string {
	var text strings.Builder
	option := func(name string, values ...string) {
		for _, v := range values {
			if v != "" {
				fmt.Fprintf(&text, " --%s %s", name, Quoted(v))
			}
		}
	}
	k := t.Fail[0]
	option("at", k.At)
	option("when", k.When)
	if k.ForS > 0 {
		option("for", fmt.Sprint(k.ForS))
	}
	if k.Resettable {
		text.WriteString(" --resettable")
	}
	option("out", t.Out...)
	option("set", t.Sets...)
	option("act", t.Acts...)
	option("crew", t.Crew)
	option("plan", t.Plan...)
	option("build", t.Build)
	option("flight", t.Flight)
	return text.String()
}

// Quoted is a word as a shell takes it.
func Quoted(word string) string {
	if strings.Trim(word, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_.-=@/,") == "" {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
