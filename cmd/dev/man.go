package main

import (
	"errors"
	"flag"
	"fmt"
	"os"

	"github.com/spf13/cobra/doc"

	"hoistbook/cmd/internal/cli"
)

// man writes a manual page of every command into a folder: go run ./cmd/dev man -o DIR. Its month is that of SOURCE_DATE_EPOCH where
// it is set (reproducible-builds.org), else this one.
func man(args []string) error {
	flags := flag.NewFlagSet("man", flag.ContinueOnError)
	dir := flags.String("o", "", "write into this folder")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if *dir == "" || flags.NArg() > 0 {
		return errors.New("write: man -o DIR")
	}
	if err := os.MkdirAll(*dir, 0o755); err != nil {
		return err
	}
	tree := cli.Tree()
	tree.DisableAutoGenTag = true
	tree.InitDefaultCompletionCmd()
	if err := doc.GenManTree(tree, &doc.GenManHeader{Title: "HOISTBOOK", Section: "1", Source: "Hoistbook", Manual: "Hoistbook"}, *dir); err != nil {
		return err
	}
	fmt.Println("man      " + *dir)
	return nil
}
