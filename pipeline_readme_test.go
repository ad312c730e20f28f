package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/plot/cmpimg"
)

// What the README shows is what the program does: every line behind "$ " in its
// console blocks is run, and what stands below it must come out.
func TestReadmeShowsWhatHappens(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	picture, err := os.ReadFile("testdata/golden/approach-proximity.png")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for name, content := range readmeFiles(string(text)) {
		if err := os.WriteFile(name, []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	shown := 0
	for _, block := range regexp.MustCompile("(?s)```console\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		for _, step := range strings.Split(strings.TrimPrefix(block[1], "$ "), "\n$ ") {
			command, want, _ := strings.Cut(step, "\n")
			args := strings.Fields(command)
			switch {
			case len(args) > 2 && args[0] == "go" && args[1] == "run" && args[2] == ".":
				args = args[3:]
			case args[0] == "go" && args[1] == "test":
				continue
			default:
				t.Fatalf("README shows a command that the test does not know: %s", command)
			}
			shown++
			var out, messages bytes.Buffer
			run(context.Background(), args, strings.NewReader(""), &out, &messages)
			// The README shows paths as most systems write them.
			if got := filepath.ToSlash(messages.String() + out.String()); strings.TrimSpace(want) != "" {
				if diff := cmp.Diff(strings.TrimSpace(want), strings.TrimSpace(got)); diff != "" {
					t.Errorf("%s prints something else than the README shows (-README +program):\n%s", command, diff)
				}
			}
		}
	}
	if shown == 0 {
		t.Error("README shows no command")
	}
	drawn, err := os.ReadFile("roundmill-out/charts/approach-proximity.png")
	if err != nil {
		t.Fatal(err)
	}
	// A fused multiply-add on another processor may move an edge by a shade.
	if same, err := cmpimg.EqualApprox("png", drawn, picture, 0.1); err != nil || !same {
		t.Errorf("testdata/golden/approach-proximity.png, which the README shows, is not what --demo draws (%v): copy it there", err)
	}
}

// readmeFiles are the files that the README shows: blocks that follow a line
// "`name`:".
func readmeFiles(text string) map[string]string {
	files := map[string]string{}
	for _, m := range regexp.MustCompile("(?s)`([a-z]+\\.(?:csv|txt|json))`:\n\n```[a-z]*\n(.*?)```").FindAllStringSubmatch(text, -1) {
		files[m[1]] = m[2]
	}
	return files
}

// The table of README and help name the same flags.
func TestReadmeNamesEveryFlag(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	flag := regexp.MustCompile(`--[a-z][a-z-]+`)
	var explained []string
	for _, row := range regexp.MustCompile("(?m)^\\| (`-[^|]*)\\|").FindAllStringSubmatch(string(text), -1) {
		explained = append(explained, flag.FindAllString(row[1], -1)...)
	}
	help := flag.FindAllString(usage(), -1)
	slices.Sort(explained)
	slices.Sort(help)
	if diff := cmp.Diff(slices.Compact(help), explained); diff != "" {
		t.Error("help, and + the table of README\n" + diff)
	}
}

// DEVELOPERS.md says what each direct dependency is for.
func TestEveryDirectDependencyHasItsReason(t *testing.T) {
	modules, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile("DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, reasons, _ := strings.Cut(string(text), "## Dependencies")
	direct, _, _ := strings.Cut(string(modules), "// indirect")
	for _, m := range regexp.MustCompile(`(?m)^\t(\S+) v`).FindAllStringSubmatch(direct[:strings.LastIndex(direct, "require (")], -1) {
		name := regexp.MustCompile(`/v[0-9]+$`).ReplaceAllString(strings.TrimPrefix(m[1], "github.com/"), "")
		if !strings.Contains(reasons, name) {
			t.Errorf("no reason is given for %s", name)
		}
	}
}
