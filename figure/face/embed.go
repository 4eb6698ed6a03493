package face

import (
	"encoding/base64"
	"strings"
)

// Rules are the rules of a style sheet that bring the fonts in. The addresses
// are where a page finds the files.
func Rules(address func(file string) string) string {
	var b strings.Builder
	for _, name := range Names {
		b.WriteString("@font-face{font-family:'Knockon Serif';src:url(" + address(name+".woff") + ") format('woff');" + cut[name] + "}\n")
	}
	return b.String()
}

var cut = map[string]string{
	Upright: "font-weight:400;font-style:normal",
	Italic:  "font-weight:400;font-style:italic",
	Bold:    "font-weight:700;font-style:normal",
}

// Alone puts the fonts into a picture that will be a file of its own, so that
// it looks the same wherever it is opened.
func Alone(svg string) string {
	at := strings.Index(svg, ">") + 1
	if at == 0 {
		return svg
	}
	return svg[:at] + "<style>" + Rules(Inside) + "</style>" + svg[at:]
}

// Inside gives a file as an address that holds it.
func Inside(file string) string {
	data, _ := File(file) // the names are those of the files in the program
	return "data:font/woff;base64," + base64.StdEncoding.EncodeToString(data)
}
