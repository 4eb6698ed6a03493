package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	if asCommand() {
		main()
	}
	testscript.Main(m, map[string]func(){"knockon": main})
}

func TestCommands(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata", UpdateScripts: os.Getenv("KNOCKON_UPDATE") != ""})
}
