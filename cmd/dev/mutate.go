package main

import (
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
)

// Mutation testing asks whether the tests would notice: it changes the code of a package in one place, runs the package's
// tests, and counts the change as killed when they fail. What survives shows what no test looks at.
//
// All changes inside functions are compiled into one test binary, each as a copy of its function that an environment
// variable switches on, so that thousands of them take a minute. Changes of package variables and constants, which
// initialise and size other things, are compiled one by one. A change that does not compile is none.

// mutated are the packages whose share of killed changes is kept: the rules and the physics.
var mutated = []string{"rules", "kits/air", "kits/lift", "kits/tether", "kits/power", "kits/radio", "kits/plan", "kits/cost"}

// A mutant is one change of the code.
type mutant struct {
	id   int
	at   token.Position
	what string
	in   *ast.FuncDecl // nil outside functions
	file *sourceFile
	do   func()
	undo func()
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d:%d: %s", m.at.Filename, m.at.Line, m.at.Column, m.what)
}

// A sourceFile is a file of the package at hand.
type sourceFile struct {
	name string // from the root of the module
	text []byte
	tree *ast.File
}

// A subject is a package under change.
type subject struct {
	root, dir string
	files     []*sourceFile
	set       *token.FileSet
	mutants   []*mutant
}

// mutate changes the packages that are named, or all whose share is kept, and tells what survived.
func mutate(args []string) error {
	flags := flag.NewFlagSet("mutate", flag.ContinueOnError)
	sample := flags.Int("sample", 0, "try only `N` changes of each package, drawn at random, the same each time; 0: all")
	if err := flags.Parse(args); err != nil {
		return err
	}
	dirs := flags.Args()
	if len(dirs) == 0 {
		dirs = mutated
	}
	for _, dir := range dirs {
		s, err := readSubject(root(), filepath.ToSlash(filepath.Clean(dir)))
		if err != nil {
			return err
		}
		all := len(s.mutants)
		s.draw(*sample)
		tally, err := s.run()
		if err != nil {
			return fmt.Errorf("%s: %w", dir, err)
		}
		for _, m := range tally.survivors {
			fmt.Println(m)
		}
		drawn := ""
		if len(s.mutants) < all {
			drawn = fmt.Sprintf(", of %d drawn from %d", len(s.mutants), all)
		}
		fmt.Printf("%-12s %s%s\n", dir, tally, drawn)
	}
	return nil
}

// readSubject reads a package and finds everything that can be changed in it.
func readSubject(root, dir string) (*subject, error) {
	s := &subject{root: root, dir: dir, set: token.NewFileSet()}
	found, err := build.ImportDir(filepath.Join(root, dir), 0)
	if err != nil {
		return nil, err
	}
	for _, base := range found.GoFiles {
		name := filepath.ToSlash(filepath.Join(dir, base))
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return nil, err
		}
		tree, err := parser.ParseFile(s.set, name, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		if ast.IsGenerated(tree) {
			continue
		}
		file := &sourceFile{name, text, tree}
		s.files = append(s.files, file)
		s.mutants = append(s.mutants, points(s.set, file)...)
	}
	if len(s.mutants) == 0 {
		return nil, errors.New(dir + " has no code to change")
	}
	for i, m := range s.mutants {
		m.id = i + 1
	}
	return s, nil
}

// draw leaves so many changes, drawn at random.
func (s *subject) draw(n int) {
	if n <= 0 || n >= len(s.mutants) {
		return
	}
	random := rand.New(rand.NewPCG(1, uint64(n)))
	random.Shuffle(len(s.mutants), func(i, j int) { s.mutants[i], s.mutants[j] = s.mutants[j], s.mutants[i] })
	s.mutants = s.mutants[:n]
	slices.SortFunc(s.mutants, func(a, b *mutant) int { return a.id - b.id })
}

// A tally is what became of the changes of a package.
type tally struct {
	killed    int
	survivors []*mutant
}

func (t tally) share() float64 { return float64(t.killed) / float64(t.killed+len(t.survivors)) }

func (t tally) String() string {
	return fmt.Sprintf("%d of %d changes killed, %.1f %%", t.killed, t.killed+len(t.survivors), 100*t.share())
}

// tallied adds one verdict for each mutant that compiles.
func tallied(mutants []*mutant, killed map[int]bool) tally {
	var t tally
	for _, m := range mutants {
		switch killed, tried := killed[m.id]; {
		case killed:
			t.killed++
		case tried:
			t.survivors = append(t.survivors, m)
		}
	}
	slices.SortFunc(t.survivors, func(a, b *mutant) int { return a.id - b.id })
	return t
}
