package acceptance

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

func TestTheSameInputGivesTheSameBytes(t *testing.T) {
	for _, s := range []season{
		{name: "the built-in season with its charts", log: demo.log, args: []string{"--demo"}, sourceFile: demo.sourceFile},
		{name: "three players with their charts", log: generated(t, 3, 60, 7).log},
		{name: "rounds out of order", log: "logs/order.csv"},
		generated(t, 60, 60, 5), // more than one row group
	} {
		t.Run(s.name, func(t *testing.T) {
			first := s.run(t)
			for _, again := range [][]string{nil, {"--workers", "1"}, {"--workers", "2"}, {"--workers", "5"}} {
				sameFolder(t, first, s.run(t, again...), again)
			}
		})
	}
}

// sameFolder complains unless two folders hold the same files with the same bytes.
func sameFolder(t *testing.T, one, other string, how []string) {
	t.Helper()
	first, second := contents(t, one), contents(t, other)
	for path, text := range first {
		if again, there := second[path]; !there {
			t.Errorf("%v: %s is not written again", how, path)
		} else if !bytes.Equal(text, again) {
			t.Errorf("%v: %s differs", how, path)
		}
	}
	for path := range second {
		if _, there := first[path]; !there {
			t.Errorf("%v: %s is new", how, path)
		}
	}
}

// contents are all files below a folder.
func contents(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(folder, path)
		files[name] = text
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
