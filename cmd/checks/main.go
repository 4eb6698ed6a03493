// Command checks writes docs/checks.md, the page that counts the values from
// outside which tests hold the program against. Run it from the top of the
// tree, or name the file to write.
package main

import (
	"flag"
	"fmt"
	"os"

	"knockon/internal/checks"
)

func main() {
	out := flag.String("out", "docs/checks.md", "file to write")
	flag.Parse()
	page, err := checks.Page()
	if err == nil {
		err = os.WriteFile(*out, []byte(page), 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "checks:", err)
		os.Exit(1)
	}
}
