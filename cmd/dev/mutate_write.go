package main

import (
	"bytes"
	"cmp"
	"fmt"
	"go/ast"
	"go/printer"
	"go/token"
	"slices"
	"strings"
)

// switchFile is the file that the package gets besides its own.
const switchFile = `package %s

import (
	mutantOS "os"
	mutantNumber "strconv"
)

var mutantNow = func() int {
	n, _ := mutantNumber.Atoi(mutantOS.Getenv("MUTANT"))
	return n
}()
`

// withMutants writes a file again with the mutants of its functions in it: every function starts by asking whether one of
// its copies takes its place, and the copies stand at the end. Lines of the original stay where they are.
func (s *subject) withMutants(file *sourceFile, alive []*mutant) ([]byte, error) {
	var edits []edit
	var copies bytes.Buffer
	for _, decl := range file.tree.Decls {
		d, ok := decl.(*ast.FuncDecl)
		if !ok {
			continue
		}
		mine := slices.DeleteFunc(slices.Clone(alive), func(m *mutant) bool { return m.in != d })
		if len(mine) == 0 {
			continue
		}
		call, named := s.call(d)
		edits = append(edits, named...)
		edits = append(edits, edit{s.offset(d.Body.Lbrace) + 1, 0, dispatch(d, mine, call)})
		for _, m := range mine {
			if err := s.write(&copies, m); err != nil {
				return nil, err
			}
		}
	}
	return append(apply(file.text, edits), copies.Bytes()...), nil
}

// write writes the copy of a function with one change in it, under a file name that tells its number in what the compiler
// says.
func (s *subject) write(to *bytes.Buffer, m *mutant) error {
	m.do()
	defer m.undo()
	name := m.in.Name
	doc := m.in.Doc
	m.in.Name, m.in.Doc = ast.NewIdent(copyName(m.id, name.Name)), nil
	defer func() { m.in.Name, m.in.Doc = name, doc }()
	fmt.Fprintf(to, "\n//line mutant%d.go:1\n", m.id)
	if err := printer.Fprint(to, s.set, m.in); err != nil {
		return err
	}
	to.WriteByte('\n')
	return nil
}

func copyName(id int, name string) string { return fmt.Sprintf("mutant%d%s", id, name) }

// alone writes a file again with one change in it.
func (s *subject) alone(m *mutant) ([]byte, error) {
	m.do()
	defer m.undo()
	var text bytes.Buffer
	err := printer.Fprint(&text, s.set, m.file.tree)
	return text.Bytes(), err
}

// dispatch calls the copy that is switched on. It stands on one line.
func dispatch(d *ast.FuncDecl, mutants []*mutant, call func(name string) string) string {
	var text strings.Builder
	fmt.Fprintf(&text, "if mutantNow >= %d && mutantNow <= %d { switch mutantNow { ", mutants[0].id, mutants[len(mutants)-1].id)
	for _, m := range mutants {
		fmt.Fprintf(&text, "case %d: ", m.id)
		if d.Type.Results == nil {
			fmt.Fprintf(&text, "%s; return; ", call(copyName(m.id, d.Name.Name)))
		} else {
			fmt.Fprintf(&text, "return %s; ", call(copyName(m.id, d.Name.Name)))
		}
	}
	text.WriteString("} }; ")
	return text.String()
}

// call writes a call of a copy with the parameters of its original, and names those that have no name.
func (s *subject) call(d *ast.FuncDecl) (call func(name string) string, edits []edit) {
	unnamed := 0
	names := func(list *ast.FieldList) []string {
		var all []string
		for _, field := range list.List {
			dots := ""
			if _, variadic := field.Type.(*ast.Ellipsis); variadic {
				dots = "..."
			}
			for _, n := range field.Names {
				name := n.Name
				if name == "_" {
					unnamed++
					name = fmt.Sprintf("mutantArg%d", unnamed)
					edits = append(edits, edit{s.offset(n.Pos()), 1, name})
				}
				all = append(all, name+dots)
			}
			if len(field.Names) == 0 {
				unnamed++
				name := fmt.Sprintf("mutantArg%d", unnamed)
				edits = append(edits, edit{s.offset(field.Type.Pos()), 0, name + " "})
				all = append(all, name+dots)
			}
		}
		return all
	}
	receiver := ""
	if d.Recv != nil {
		receiver = names(d.Recv)[0] + "."
	}
	arguments := strings.Join(names(d.Type.Params), ", ")
	return func(name string) string { return receiver + name + "(" + arguments + ")" }, edits
}

func (s *subject) offset(at token.Pos) int { return s.set.Position(at).Offset }

// An edit puts a text in the place of some bytes.
type edit struct {
	at, length int
	text       string
}

func apply(text []byte, edits []edit) []byte {
	slices.SortStableFunc(edits, func(a, b edit) int { return cmp.Compare(a.at, b.at) })
	var out bytes.Buffer
	from := 0
	for _, e := range edits {
		out.Write(text[from:e.at])
		out.WriteString(e.text)
		from = e.at + e.length
	}
	out.Write(text[from:])
	return out.Bytes()
}
