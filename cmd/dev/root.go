package main

import (
	"os"
	"path/filepath"
)

// root returns the folder of the module: the nearest one upwards with a go.mod.
func root() string {
	dir, err := os.Getwd()
	if err != nil {
		return "."
	}
	for d := dir; d != filepath.Dir(d); d = filepath.Dir(d) {
		if _, err := os.Stat(filepath.Join(d, "go.mod")); err == nil {
			return d
		}
	}
	return dir
}
