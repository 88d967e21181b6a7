package main

import (
	"go/ast"
	"go/constant"
	"go/token"
	"strconv"
	"strings"
)

// points finds every change of a file: operators and comparisons exchanged, conditions decided beforehand, numbers moved,
// statements left out, returned values zeroed. Texts are let be.
func points(set *token.FileSet, file *sourceFile) []*mutant {
	f := &finder{set: set, file: file}
	for _, decl := range file.tree.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			if d.Body != nil {
				f.in = d
				f.function(d.Type, d.Body)
			}
		case *ast.GenDecl:
			if d.Tok == token.VAR || d.Tok == token.CONST {
				f.in = nil
				ast.Walk(f, d)
			}
		}
	}
	return f.found
}

type finder struct {
	set   *token.FileSet
	file  *sourceFile
	in    *ast.FuncDecl
	owner []*ast.FuncType // of the return statements at hand, innermost last
	found []*mutant
}

func (f *finder) function(t *ast.FuncType, body *ast.BlockStmt) {
	f.owner = append(f.owner, t)
	ast.Walk(f, body)
	f.owner = f.owner[:len(f.owner)-1]
}

func (f *finder) add(at token.Pos, what string, do, undo func()) {
	f.found = append(f.found, &mutant{at: f.set.Position(at), what: what, in: f.in, file: f.file, do: do, undo: undo})
}

// swap changes one expression for another.
func (f *finder) swap(place *ast.Expr, with ast.Expr, what string) {
	was := *place
	f.add(was.Pos(), what, func() { *place = with }, func() { *place = was })
}

func (f *finder) Visit(n ast.Node) ast.Visitor {
	switch n := n.(type) {
	case *ast.FuncLit:
		f.function(n.Type, n.Body)
		return nil
	case *ast.ArrayType, *ast.StructType, *ast.InterfaceType, *ast.FuncType, *ast.ImportSpec:
		return nil // lengths of arrays size other things
	case *ast.BinaryExpr:
		f.operator(n)
	case *ast.UnaryExpr:
		f.unary(n)
	case *ast.CallExpr:
		if s, ok := n.Fun.(*ast.SelectorExpr); ok && s.Sel.Name == "Inf" {
			return nil // only the sign of its argument counts
		}
	case *ast.BasicLit:
		f.number(n)
	case *ast.Ident:
		f.name(n)
	case *ast.IfStmt:
		f.decide(&n.Cond)
	case *ast.ForStmt:
		if n.Cond != nil {
			f.swap(&n.Cond, both(n.Cond, token.LAND, "false"), "the loop never runs")
		}
	case *ast.SwitchStmt:
		f.cases(n)
	case *ast.BlockStmt:
		f.statements(n.List)
	case *ast.CaseClause:
		f.statements(n.Body)
	case *ast.AssignStmt:
		f.assignment(n)
	case *ast.IncDecStmt:
		f.token(n.TokPos, &n.Tok, map[token.Token]token.Token{token.INC: token.DEC, token.DEC: token.INC})
	case *ast.ReturnStmt:
		f.results(n)
	}
	return f
}

var exchanged = map[token.Token]token.Token{
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL, token.REM: token.MUL,
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR, token.EQL: token.NEQ, token.NEQ: token.EQL,
	token.LAND: token.LOR, token.LOR: token.LAND, token.SHL: token.SHR, token.SHR: token.SHL, token.AND: token.OR, token.OR: token.AND,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN, token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN,
}

func (f *finder) token(at token.Pos, place *token.Token, table map[token.Token]token.Token) {
	was := *place
	if with, ok := table[was]; ok {
		f.add(at, was.String()+" becomes "+with.String(), func() { *place = with }, func() { *place = was })
	}
}

func (f *finder) operator(n *ast.BinaryExpr) { f.token(n.OpPos, &n.Op, exchanged) }

func (f *finder) unary(n *ast.UnaryExpr) {
	switch n.Op {
	case token.SUB:
		f.token(n.OpPos, &n.Op, map[token.Token]token.Token{token.SUB: token.ADD})
	case token.NOT:
		was := n.X
		f.add(n.OpPos, "! is left out", func() { n.X = &ast.UnaryExpr{Op: token.NOT, X: was} }, func() { n.X = was })
	}
}

// number moves a whole number by one and another by a hundredth of itself.
func (f *finder) number(n *ast.BasicLit) {
	var with string
	switch n.Kind {
	case token.INT:
		value, ok := constant.Int64Val(constant.MakeFromLiteral(n.Value, n.Kind, 0))
		if !ok {
			return
		}
		with = strconv.FormatInt(value+1, 10)
	case token.FLOAT:
		value, _ := constant.Float64Val(constant.MakeFromLiteral(n.Value, n.Kind, 0))
		with = strconv.FormatFloat(value*1.01, 'g', -1, 64)
		if value == 0 {
			with = "1.0"
		} else if !strings.ContainsAny(with, ".e") {
			with += ".0"
		}
	default:
		return
	}
	was := n.Value
	f.add(n.Pos(), was+" becomes "+with, func() { n.Value = with }, func() { n.Value = was })
}

// name exchanges the two truths and the two extremes.
func (f *finder) name(n *ast.Ident) {
	if with, ok := map[string]string{"true": "false", "false": "true", "min": "max", "max": "min", "Min": "Max", "Max": "Min", "Ceil": "Floor", "Floor": "Ceil"}[n.Name]; ok {
		was := n.Name
		f.add(n.Pos(), was+" becomes "+with, func() { n.Name = with }, func() { n.Name = was })
	}
}

// both joins a condition with one that is decided; the condition is still worked out.
func both(cond ast.Expr, op token.Token, word string) ast.Expr {
	return &ast.BinaryExpr{X: &ast.ParenExpr{X: cond}, Op: op, Y: ast.NewIdent(word)}
}

func (f *finder) decide(cond *ast.Expr) {
	f.swap(cond, both(*cond, token.LOR, "true"), "the condition always holds")
	f.swap(cond, both(*cond, token.LAND, "false"), "the condition never holds")
}
