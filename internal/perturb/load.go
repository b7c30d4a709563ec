package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// source is a package with its types.
type source struct {
	files   *token.FileSet
	syntax  []*ast.File
	types   *types.Package
	info    *types.Info
	content map[string][]byte // by file
}

// load reads and checks the package in a folder, without its tests. The types
// of what it imports come from the compiler's export data.
func load(folder string) (*source, error) {
	list := exec.Command("go", "list", "-export", "-deps", "-json=Dir,GoFiles,ImportPath,Export,DepOnly", "./"+filepath.ToSlash(folder))
	list.Stderr = os.Stderr
	output, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list %s: %w", folder, err)
	}
	type listed struct {
		Dir, ImportPath, Export string
		GoFiles                 []string
		DepOnly                 bool
	}
	export := map[string]string{}
	var self listed
	for decoder := json.NewDecoder(strings.NewReader(string(output))); ; {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		export[p.ImportPath] = p.Export
		if !p.DepOnly {
			self = p
		}
	}
	s := &source{
		files:   token.NewFileSet(),
		info:    &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}},
		content: map[string][]byte{},
	}
	for _, name := range self.GoFiles {
		path := filepath.Join(self.Dir, name)
		content, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		parsed, err := parser.ParseFile(s.files, path, content, 0)
		if err != nil {
			return nil, err
		}
		s.content[path], s.syntax = content, append(s.syntax, parsed)
	}
	config := types.Config{Importer: importer.ForCompiler(s.files, "gc", func(path string) (io.ReadCloser, error) {
		return os.Open(export[path])
	})}
	s.types, err = config.Check(self.ImportPath, s.files, s.syntax, s.info)
	return s, err
}
