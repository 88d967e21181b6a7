package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A dependency is a module that this one uses, with its licences.
type dependency struct {
	path, version string
	linked        bool // into the program that people get; others only build or test it
	licences      []licence
}

type licence struct {
	id   string // SPDX
	text string
}

// compatible are the licences under which a module may be linked, by their SPDX identifiers: each lets the program be given
// to anybody as long as its text goes along. What only builds or tests may also be under the Mozilla licence, whose terms hold
// for changes to its own files.
var (
	compatible = []string{"MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "Bitstream-Vera"}
	forTests   = append([]string{"MPL-2.0"}, compatible...)
)

// identify names a licence by its words.
func identify(text string) string {
	words := strings.Join(strings.Fields(text), " ")
	has := func(phrase string) bool { return strings.Contains(words, phrase) }
	switch {
	case has("Bitstream Vera"):
		return "Bitstream-Vera"
	case has("Mozilla Public License Version 2.0"):
		return "MPL-2.0"
	case has("Apache License Version 2.0"):
		return "Apache-2.0"
	case has("Redistribution and use in source and binary forms") && (has("Neither the name") || has("may not be used to endorse")):
		return "BSD-3-Clause"
	case has("Redistribution and use in source and binary forms"):
		return "BSD-2-Clause"
	case has("Permission is hereby granted, free of charge, to any person obtaining a copy"):
		return "MIT"
	}
	return ""
}

// dependencies lists the modules of the program and of its tests, in the order of their paths.
func dependencies() ([]dependency, error) {
	all, err := modules("", "-deps", "-test", "./...")
	if err != nil {
		return nil, err
	}
	linked := map[string]module{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		more, err := modules(system, "-deps", "./cmd/hoistbook")
		if err != nil {
			return nil, err
		}
		maps.Copy(linked, more)
	}
	maps.Copy(all, linked)
	var list []dependency
	for _, path := range slices.Sorted(maps.Keys(all)) {
		d := dependency{path: path, version: all[path].Version}
		_, d.linked = linked[path]
		if d.licences, err = licencesIn(all[path].Dir); err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		list = append(list, d)
	}
	return list, nil
}

type module struct{ Path, Version, Dir string }

// modules asks go list for the modules of packages, as they are built for an operating system or for this one.
func modules(system string, args ...string) (map[string]module, error) {
	list := exec.Command("go", append([]string{"list", "-json=Module"}, args...)...)
	list.Dir = root()
	if system != "" {
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
	}
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	found := map[string]module{}
	for dec := json.NewDecoder(bytes.NewReader(out)); dec.More(); {
		var p struct {
			Module *struct {
				module
				Main bool
			}
		}
		if err := dec.Decode(&p); err != nil {
			return nil, err
		}
		if p.Module != nil && !p.Module.Main {
			found[p.Module.Path] = p.Module.module
		}
	}
	return found, nil
}

// licencesIn reads the licences that stand at the top of a module.
func licencesIn(dir string) ([]licence, error) {
	var found []licence
	for _, pattern := range []string{"LICENSE*", "COPYING*"} {
		files, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				return nil, err
			}
			id := identify(string(text))
			if id == "" {
				return nil, fmt.Errorf("%s is a licence that nobody here has read", filepath.Base(file))
			}
			found = append(found, licence{id, strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n"))})
		}
	}
	if len(found) == 0 {
		return nil, errors.New("there is no licence")
	}
	return found, nil
}

// ids names the licences of a dependency.
func (d dependency) ids() string {
	var ids []string
	for _, l := range d.licences {
		ids = append(ids, l.id)
	}
	return strings.Join(ids, ", ")
}

// notices are the licences that go with the program. Go's own library and runtime have the licence of golang.org/x/text.
func notices(list []dependency) string {
	var text strings.Builder
	text.WriteString("Hoistbook is built with Go and with the work of others. Their licences:\n\nthe Go library and runtime  as golang.org/x/text below\n")
	for _, d := range list {
		if d.linked {
			fmt.Fprintf(&text, "%s %s  %s\n", d.path, d.version, d.ids())
		}
	}
	for _, d := range list {
		if !d.linked {
			continue
		}
		for _, l := range d.licences {
			fmt.Fprintf(&text, "\n%s\n%s, %s\n\n%s\n", strings.Repeat("=", 79), d.path, l.id, l.text)
		}
	}
	return text.String()
}

// licencesTable lists every dependency for developers.
func licencesTable(list []dependency) string {
	var text strings.Builder
	text.WriteString("# Licences of every dependency\n\n<!-- Written by go run ./cmd/dev licences. -->\n\n")
	text.WriteString("Those of what is linked into the program travel inside it: `hoistbook licences` prints them.\n\n| module | version | licence | used |\n|---|---|---|---|\n")
	for _, d := range list {
		used := "to build and test"
		if d.linked {
			used = "in the program"
		}
		fmt.Fprintf(&text, "| `%s` | %s | %s | %s |\n", d.path, d.version, d.ids(), used)
	}
	return text.String()
}

// licenceFiles are what is generated, by name from the root of the module.
func licenceFiles() (map[string]string, error) {
	list, err := dependencies()
	if err != nil {
		return nil, err
	}
	return map[string]string{
		"cmd/internal/licences/notices.txt": notices(list),
		"testdata/checks/licences.md":       licencesTable(list),
	}, nil
}

func gatherLicences() error {
	files, err := licenceFiles()
	if err != nil {
		return err
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(root(), name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}
