package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// source is the project's source, without its tests.
type source struct {
	packages map[string]map[string]*ast.File // by folder and file
	set      *token.FileSet
}

func readSource(t *testing.T) source {
	h := source{packages: map[string]map[string]*ast.File{}, set: token.NewFileSet()}
	root := filepath.Join("..", "..")
	require.NoError(t, filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(h.set, file, nil, parser.ParseComments)
		rel, _ := filepath.Rel(root, file)
		pkg := path.Dir(filepath.ToSlash(rel))
		if h.packages[pkg] == nil {
			h.packages[pkg] = map[string]*ast.File{}
		}
		h.packages[pkg][path.Base(rel)] = f
		return err
	}))
	require.Greater(t, len(h.packages), 20)
	return h
}

// imports are the packages that a file takes names from, by what it calls them.
func imports(f *ast.File) map[string]string {
	packages := map[string]string{}
	for _, i := range f.Imports {
		at, _ := strconv.Unquote(i.Path.Value)
		if pkg, ours := strings.CutPrefix(at, "headhours/"); ours {
			name := path.Base(pkg)
			if i.Name != nil {
				name = i.Name.Name
			}
			packages[name] = pkg
		}
	}
	return packages
}

// exported are the functions, values, types and methods of a file that others can reach; alone
// are those that stand for themselves, not in the type of something else.
func exported(f *ast.File, each func(name string, doc *ast.CommentGroup, alone bool)) {
	reach := func(id *ast.Ident, alone bool, docs ...*ast.CommentGroup) {
		if id.IsExported() {
			at := slices.IndexFunc(docs, func(d *ast.CommentGroup) bool { return d != nil })
			each(id.Name, docs[max(at, 0)], alone)
		}
	}
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			reach(d.Name, d.Recv == nil, d.Doc)
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					reach(s.Name, false, s.Doc, s.Comment, d.Doc)
				case *ast.ValueSpec:
					for _, id := range s.Names {
						reach(id, true, s.Doc, s.Comment, d.Doc)
					}
				}
			}
		}
	}
}

// What is exported is documented, and some other package uses it.
func TestExportedNames(t *testing.T) {
	t.Parallel()
	h := readSource(t)
	used := map[string]bool{}
	for _, files := range h.packages {
		for _, f := range files {
			packages := imports(f)
			ast.Inspect(f, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok {
					if id, ok := s.X.(*ast.Ident); ok && packages[id.Name] != "" {
						used[packages[id.Name]+"."+s.Sel.Name] = true
					}
				}
				return true
			})
		}
	}
	for pkg, files := range h.packages {
		for file, f := range files {
			if f.Name.Name == "main" || pkg == "report/browsertest" { // which is for tests
				continue
			}
			exported(f, func(name string, doc *ast.CommentGroup, alone bool) {
				assert.True(t, !alone || used[pkg+"."+name], "%s/%s: nothing outside uses %s", pkg, file, name)
				assert.True(t, !alone || doc != nil, "%s/%s: what is %s?", pkg, file, name)
			})
		}
	}
}

// Imports point one way, from the first to the last of these, and files are short.
func TestImportsPointOneWay(t *testing.T) {
	t.Parallel()
	layers := []string{
		"cmd/headhours", "cmd/coverage", "cmd/makelog", "cmd/headhours/phone", "cmd/headhours/terminal", "cmd/headhours/sums",
		"report/page", "report/plots", "report/sheet", "report", "report/look", "report/browsertest",
		"timing/folder", "timing/cues", "timing/tasklog", "timing/sheets", "timing/answer", "timing/stopwatch", "timing/condense", "timing/study",
		"timing/stepfit", "timing/crop", "timing/notation", "timing/words", "timing/late",
	}
	readers := []string{"timing/folder", "timing/cues", "timing/tasklog"}
	h := readSource(t)
	for pkg, files := range h.packages {
		layer := slices.Index(layers, pkg)
		require.GreaterOrEqual(t, layer, 0, "in what layer is %s?", pkg)
		for name, f := range files {
			for _, other := range imports(f) {
				assert.Greater(t, slices.Index(layers, other), layer, "%s/%s imports %s", pkg, name, other)
				assert.False(t, slices.Contains(readers, pkg) && other == "timing/answer", "%s/%s: a reader knows no answer", pkg, name)
			}
			assert.LessOrEqual(t, h.set.Position(f.End()).Line, 400, "%s/%s", pkg, name)
		}
	}
	guide, err := os.ReadFile(filepath.Join("..", "..", "DEVELOPERS.md"))
	require.NoError(t, err)
	assert.Less(t, strings.Count(string(guide), "\n"), 200)
}
