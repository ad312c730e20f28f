package main

import (
	"bytes"
	"context"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

type brokenInput struct{}

func (brokenInput) Read([]byte) (int, error) { panic("input") }

// A mistake in the program, wherever it shows, is told as one: exit status 1,
// what to report, the old results as they were and nothing beside them.
func TestABugIsToldAndHarmsNothing(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	mustRun(t, "--demo", "--no-charts", "-o", out)
	before := outFiles(t, out)
	for _, c := range []struct {
		where string
		args  []string
		stdin io.Reader
		spoil func(*settings)
		stack string
	}{
		{"in the command's own goroutine", []string{"-"}, brokenInput{}, func(*settings) {}, "brokenInput"},
		{"when only checking", []string{"-", "--check"}, brokenInput{}, func(*settings) {}, "brokenInput"},
		{"in a worker", []string{"--demo"}, nil, func(s *settings) { s.figures.BandsYd = []float64{50, 75} }, "metrics.(*Set).Add"},
	} {
		t.Run(c.where, func(t *testing.T) {
			s, err := parseSettings(append(c.args, "-o", out, "--no-charts"))
			if err != nil {
				t.Fatal(err)
			}
			c.spoil(s)
			var messages bytes.Buffer
			if status := perform(context.Background(), s, c.stdin, &bytes.Buffer{}, &messages); status != exitFailed {
				t.Errorf("exit status %d, expected %d", status, exitFailed)
			}
			for _, want := range []string{"roundmill: a mistake in the program: ", "Please report", "roundmill " + version, c.stack} {
				if !strings.Contains(messages.String(), want) {
					t.Errorf("the message lacks %q:\n%s", want, &messages)
				}
			}
			sameFiles(t, before, outFiles(t, out))
			nothingBeside(t, out)
		})
	}
}

func nothingBeside(t *testing.T, out string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(out))
	if err != nil || len(entries) != 1 || entries[0].Name() != filepath.Base(out) {
		t.Errorf("beside the results there is %v (%v)", entries, err)
	}
}

// Only ingest/ordered starts goroutines: it is there that their panics become
// errors.
func TestGoroutinesAreStartedWhereTheirPanicsAreCaught(t *testing.T) {
	looked := 0
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && (path == "testdata" || path == filepath.Join("ingest", "ordered")):
			return fs.SkipDir
		case !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
			return nil
		}
		looked++
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				t.Errorf("%s starts a goroutine of its own", path)
			case *ast.ImportSpec:
				if n.Path.Value == `"golang.org/x/sync/errgroup"` {
					t.Errorf("%s has an errgroup of its own", path)
				}
			}
			return true
		})
		return nil
	})
	if err != nil || looked < 50 {
		t.Errorf("looked at %d files: %v", looked, err)
	}
}
