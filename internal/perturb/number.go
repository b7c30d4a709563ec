package main

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
)

// A number is a value in the source that a calculation rests on: the largest
// constant expression around a literal (2*math.Pi is one number, the 1 of 1 - x
// is one), or a named constant, which is one number wherever it is used; where only
// other constants use it, it shows in them.
//
// Integers are structure and no numbers: by its type the compiler demands a whole
// number of an index, a count or a size, so there is no small change to try. Zero
// has no relative change. A 1 or a 2 that is a factor or a term is a number.
type number struct {
	at      token.Position
	text    string
	places  []place // where it is used
	noticed notice
}

// role is what all the places have in common, or coefficient.
func (n *number) role() role {
	r := n.places[0].role
	for _, p := range n.places {
		if p.role != r {
			return coefficient
		}
	}
	return r
}

// place is an expression to be replaced. Its type is written as the file sees
// it; empty for float64.
type place struct {
	file     string
	from, to int // offsets
	as       string
	role     role
	declares bool // the value of a constant, which has to stay constant
}

// find lists the numbers of the package, in the order of the source.
func find(s *source) []*number {
	f := &finder{source: s, named: map[types.Object]*number{}}
	for _, file := range s.syntax {
		ast.Inspect(file, f.declared)
	}
	for _, file := range s.syntax {
		f.imports, f.roles = importNames(file, s), roles(file)
		ast.Inspect(file, f.used)
	}
	var used []*number
	for _, n := range f.numbers {
		if len(n.places) > 0 {
			used = append(used, n)
		}
	}
	return used
}

type finder struct {
	*source
	numbers []*number
	named   map[types.Object]*number
	imports map[string]string // package path to the name in the file
	roles   map[ast.Expr]role
}

func (f *finder) add(name string, e ast.Expr) *number {
	start, end := f.files.Position(e.Pos()), f.files.Position(e.End())
	n := &number{at: start, text: name + string(f.content[start.Filename][start.Offset:end.Offset])}
	f.numbers = append(f.numbers, n)
	return n
}

// declared collects the named constants.
func (f *finder) declared(n ast.Node) bool {
	spec, ok := n.(*ast.ValueSpec)
	if !ok {
		return true
	}
	for i, name := range spec.Names {
		c, ok := f.info.Defs[name].(*types.Const)
		shared := ok && c.Exported() && c.Parent() == f.types.Scope() // others may need it whole
		if !ok || i >= len(spec.Values) || !isNumber(c.Type(), c.Val(), !shared) {
			continue
		}
		number := f.add(name.Name+" = ", spec.Values[i])
		f.named[c] = number
		if shared {
			from, to := f.files.Position(spec.Values[i].Pos()), f.files.Position(spec.Values[i].End())
			number.places = []place{{file: from.Filename, from: from.Offset, to: to.Offset, declares: true}}
		}
	}
	return true
}

// used collects the places where numbers are used.
func (f *finder) used(n ast.Node) bool {
	if d, ok := n.(*ast.GenDecl); ok && d.Tok == token.CONST {
		return false
	}
	e, ok := n.(ast.Expr)
	if !ok {
		return true
	}
	v := f.info.Types[e]
	if v.Value == nil {
		return true
	}
	if !isNumber(v.Type, v.Value, false) {
		return false
	}
	var of *number
	if name, ok := ast.Unparen(e).(*ast.Ident); ok {
		of = f.named[f.info.Uses[name]]
	} else if f.ours(e) {
		of = f.add("", e)
	}
	if of == nil || (len(of.places) > 0 && of.places[0].declares) {
		return false
	}
	from, to := f.files.Position(e.Pos()), f.files.Position(e.End())
	of.places = append(of.places, place{file: from.Filename, from: from.Offset, to: to.Offset, as: f.written(v.Type), role: f.roles[e]})
	return false
}

// ours tells whether the expression holds a literal or a constant of the
// package; math.Pi or hydronics.Bar alone are numbers of their own package.
func (f *finder) ours(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			found = true
		case *ast.Ident:
			found = found || f.named[f.info.Uses[n]] != nil
		}
		return !found
	})
	return found
}

// written returns the type as it is written in the file.
func (f *finder) written(t types.Type) string {
	if types.Default(t) == types.Typ[types.Float64] {
		return ""
	}
	return types.TypeString(t, func(p *types.Package) string {
		if p == f.types {
			return ""
		}
		return f.imports[p.Path()]
	})
}

func importNames(file *ast.File, s *source) map[string]string {
	names := map[string]string{}
	for _, i := range s.types.Imports() {
		names[i.Path()] = i.Name()
	}
	for _, spec := range file.Imports {
		if spec.Name != nil {
			names[spec.Path.Value[1:len(spec.Path.Value)-1]] = spec.Name.Name
		}
	}
	return names
}

// isNumber tells a number from structure. An untyped whole constant of a
// declaration shows its kind where it is used.
func isNumber(t types.Type, v constant.Value, declared bool) bool {
	basic, ok := t.Underlying().(*types.Basic)
	if !ok || basic.Info()&types.IsNumeric == 0 || constant.Sign(constant.Real(v)) == 0 {
		return false
	}
	return basic.Info()&types.IsFloat != 0 || declared && basic.Kind() == types.UntypedInt
}
