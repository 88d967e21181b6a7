package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// calculateReference has the facts of the demonstration kits calculated by the script that shares nothing with this program.
func calculateReference() error { return python("facts") }

// calculateRandomKits has a thousand random kits calculated by the same script.
func calculateRandomKits() error { return python("random") }

// workFormulas has published formulas worked at random points in the same way.
func workFormulas() error { return python("formulas") }

// solveOrders has random orders solved by a general solver of mixed-integer programs.
func solveOrders() error { return python("orders") }

// python runs the script of a folder of testdata.
func python(folder string) error {
	interpreter := "/usr/bin/python3" // Debian's, which has the libraries
	if _, err := os.Stat(interpreter); err != nil {
		interpreter = "python3"
	}
	script := exec.Command(interpreter, filepath.Join(root(), "testdata", folder, "reference.py"))
	script.Stdout, script.Stderr = os.Stdout, os.Stderr
	if err := script.Run(); err != nil {
		return fmt.Errorf("%s with scipy: %w", interpreter, err)
	}
	return nil
}
