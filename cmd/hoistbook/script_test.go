package main

import (
	"flag"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts; then read the difference")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"hoistbook": main})
}

// Each script is one thing a user does.
func TestScripts(t *testing.T) {
	root, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/scripts", UpdateScripts: *update, RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("ROOT", root+"/../..")
			return nil
		},
	})
}
