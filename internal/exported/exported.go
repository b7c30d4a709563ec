// Package exported reads what a package of this module exports.
package exported

import (
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
)

// A Calculation is an exported function or method.
type Calculation struct {
	Name    string         // with package and receiver, such as fluid.Liquid.At
	At      token.Position // of its declaration
	Doc     string         // its own documentation
	TypeDoc string         // that of its receiver, or of the type that it returns; "" without one
}

// Read returns the name, the documentation and the exported functions and
// methods of the package in a folder, whose test files are left out.
func Read(folder string) (name, chapter string, all []Calculation, err error) {
	files := token.NewFileSet()
	paths, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		return "", "", nil, err
	}
	var parsed []*ast.File
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(files, path, nil, parser.ParseComments)
		if err != nil {
			return "", "", nil, err
		}
		parsed = append(parsed, f)
	}
	if len(parsed) == 0 {
		return "", "", nil, fmt.Errorf("no Go files in %q", folder)
	}
	p, err := doc.NewFromFiles(files, parsed, "")
	if err != nil {
		return "", "", nil, err
	}
	add := func(prefix, typeDoc string, functions []*doc.Func) {
		for _, f := range functions {
			all = append(all, Calculation{prefix + f.Name, files.Position(f.Decl.Pos()), f.Doc, typeDoc})
		}
	}
	add(p.Name+".", "", p.Funcs)
	for _, t := range p.Types {
		add(p.Name+".", t.Doc, t.Funcs)
		add(p.Name+"."+t.Name+".", t.Doc, t.Methods)
	}
	return p.Name, p.Doc, all, nil
}
