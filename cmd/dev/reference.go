package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// calculateReference has the facts of the demonstration kits calculated by the script that shares nothing with this program.
func calculateReference() error {
	python := "/usr/bin/python3"
	if _, err := os.Stat(python); err != nil {
		python = "python3"
	}
	script := exec.Command(python, filepath.Join(root(), "testdata", "facts", "reference.py"))
	script.Stdout, script.Stderr = os.Stdout, os.Stderr
	if err := script.Run(); err != nil {
		return fmt.Errorf("%s with scipy: %w", python, err)
	}
	return nil
}
