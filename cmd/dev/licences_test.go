package main

import (
	"slices"
	"strings"
	"testing"
)

// Every module that is used has a licence that lets the program be given to anybody, and the texts that must go along do.
func TestLicences(t *testing.T) {
	list, err := dependencies()
	if err != nil {
		t.Fatal(err)
	}
	linked := 0
	for _, d := range list {
		may := forTests
		if d.linked {
			linked++
			may = compatible
		}
		for _, l := range d.licences {
			if !slices.Contains(may, l.id) {
				t.Errorf("%s is under %s", d.path, l.id)
			}
		}
	}
	if linked < 8 || len(list) < 20 {
		t.Errorf("only %d modules, %d of them linked", len(list), linked)
	}
	text := notices(list)
	for _, want := range []string{"Bitstream Vera Fonts Copyright", "Arev Fonts Copyright", "The Go Authors", "github.com/inconshreveable/mousetrap"} {
		if !strings.Contains(text, want) {
			t.Errorf("the notices lack %q", want)
		}
	}
}

func TestLicencesAreFresh(t *testing.T) {
	files, err := licenceFiles()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range files {
		fresh(t, name, []byte(want))
	}
}

func TestIdentify(t *testing.T) {
	for text, want := range map[string]string{
		"Permission is hereby granted, free of charge, to any\nperson obtaining a copy of this software": "MIT",
		"Redistribution and use in source and binary forms, with or without":                             "BSD-2-Clause",
		"Redistribution and use in source and binary forms ... Neither the name of":                      "BSD-3-Clause",
		"GNU GENERAL PUBLIC LICENSE Version 3":                                                           "",
		"All rights reserved.":                                                                           "",
	} {
		if got := identify(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}
