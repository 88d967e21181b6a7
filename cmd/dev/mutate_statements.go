package main

import (
	"fmt"
	"go/ast"
	"go/token"
)

// statements leaves out one statement of a list at a time.
func (f *finder) statements(list []ast.Stmt) {
	for i, s := range list {
		switch n := s.(type) {
		case *ast.AssignStmt:
			if n.Tok == token.DEFINE {
				continue
			}
		case *ast.ExprStmt, *ast.IncDecStmt, *ast.BranchStmt:
		default:
			continue
		}
		f.add(s.Pos(), "the statement is left out", func() { list[i] = &ast.EmptyStmt{Implicit: true} }, func() { list[i] = s })
	}
}

// assignment exchanges the operator of an assignment that has one.
func (f *finder) assignment(n *ast.AssignStmt) { f.token(n.TokPos, &n.Tok, exchanged) }

// cases decides the conditions of a switch without a tag, and empties the clauses of one with a tag.
func (f *finder) cases(n *ast.SwitchStmt) {
	for _, s := range n.Body.List {
		clause := s.(*ast.CaseClause)
		if n.Tag == nil {
			for i := range clause.List {
				f.decide(&clause.List[i])
			}
		} else if body := clause.Body; len(body) > 0 {
			f.add(clause.Pos(), "the case does nothing", func() { clause.Body = nil }, func() { clause.Body = body })
		}
	}
}

// results zeroes the returned values, one at a time.
func (f *finder) results(n *ast.ReturnStmt) {
	var types []ast.Expr
	if owner := f.owner[len(f.owner)-1]; owner.Results != nil {
		for _, field := range owner.Results.List {
			for range max(len(field.Names), 1) {
				types = append(types, field.Type)
			}
		}
	}
	if len(types) != len(n.Results) {
		return // none, or the results of one call
	}
	for i, result := range n.Results {
		if !isZero(result) {
			zero := &ast.StarExpr{X: &ast.CallExpr{Fun: ast.NewIdent("new"), Args: []ast.Expr{types[i]}}}
			f.swap(&n.Results[i], zero, fmt.Sprintf("result %d is zero", i+1))
		}
	}
}

// isZero reports whether an expression is written as a zero value.
func isZero(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name == "nil" || e.Name == "false"
	case *ast.BasicLit:
		return e.Value == "0" || e.Value == `""`
	case *ast.CompositeLit:
		return len(e.Elts) == 0
	}
	return false
}
