package main

import (
	"go/ast"
	"go/token"
	"strings"
)

// role says what a number is there for, judged by where it stands.
type role uint8

const (
	coefficient role = iota
	limit            // compared with, or an argument of a range check
	tolerance        // given to a numerical method, which ends there
	entry            // one of the figures of a list
)

func (r role) String() string {
	return [...]string{"coefficient", "limit", "tolerance", "entry"}[r]
}

// roles finds the limits, tolerances and entries of a file: the operands of
// comparisons and the arguments of functions called Within or within; those of
// functions of package numeric; all that stands in an array, slice or map. All
// else is a coefficient.
func roles(file *ast.File) map[ast.Expr]role {
	of := map[ast.Expr]role{}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit:
			switch n.Type.(type) {
			case *ast.ArrayType, *ast.MapType:
				ast.Inspect(n, func(inner ast.Node) bool {
					if e, ok := inner.(ast.Expr); ok {
						of[e] = entry
					}
					return true
				})
			}
		case *ast.BinaryExpr:
			switch n.Op {
			case token.LSS, token.LEQ, token.GTR, token.GEQ, token.EQL, token.NEQ:
				of[n.X], of[n.Y] = limit, limit
			}
		case *ast.CallExpr:
			if r := callRole(n.Fun); r != coefficient {
				for _, argument := range n.Args {
					of[argument] = r
				}
			}
		}
		return true
	})
	return of
}

func callRole(called ast.Expr) role {
	name := ""
	switch f := called.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
		if from, ok := f.X.(*ast.Ident); ok && from.Name == "numeric" {
			return tolerance
		}
	}
	if strings.EqualFold(name, "within") {
		return limit
	}
	return coefficient
}
