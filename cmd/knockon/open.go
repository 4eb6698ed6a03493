package main

import (
	"os/exec"
	"runtime"
)

// openPage asks the machine to show an address in the person's browser.
func openPage(url string) error {
	words := opener(runtime.GOOS, url)
	return exec.Command(words[0], words[1:]...).Start()
}

// opener is how each system is asked.
func opener(system, url string) []string {
	switch system {
	case "windows":
		return []string{"rundll32", "url.dll,FileProtocolHandler", url}
	case "darwin":
		return []string{"open", url}
	}
	return []string{"xdg-open", url}
}
