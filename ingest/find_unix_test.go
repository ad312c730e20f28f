//go:build unix

package ingest

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// What is no plain file is passed over by name, and never waited for.
func TestPipesDevicesLinksAndLoopsInAFolderAreNamedAndPassedOver(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	if err := errors.Join(os.WriteFile(at("log.csv"), []byte(plainHeader+goodHole), 0o644), os.Mkdir(at("inner"), 0o755),
		syscall.Mkfifo(at("pipe.csv"), 0o644), os.Symlink("/dev/zero", at("device.csv")), os.Symlink("nowhere", at("lost.csv")),
		os.Symlink("..", at("inner/loop")), os.Symlink("itself", at("itself"))); err != nil {
		t.Fatal(err)
	}
	reader, err := Open(t.Context(), []string{folder}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	o := readAll(t, reader)
	if o.tally.Kept != 4 || len(o.rejects) > 0 {
		t.Errorf("%+v, %q", o.tally, o.rejects)
	}
	var want []string
	for _, name := range []string{"device.csv", "inner/loop", "itself", "lost.csv", "pipe.csv"} {
		want = append(want, filepath.Base(folder)+"/"+name+": passed over: not a regular file")
	}
	if !slices.Equal(o.notes, want) {
		t.Errorf("notes %q, expected %q", o.notes, want)
	}
	for name, want := range map[string]string{
		"pipe.csv": "neither a file nor a folder", "device.csv": "neither a file nor a folder", "lost.csv": "does not exist", "itself": "too many levels of symbolic links",
	} {
		if _, err := Open(t.Context(), []string{at(name)}, nil, Options{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s by name: %v, expected %s", name, err, want)
		}
	}
}

func TestMoreFilesThanMayBeReadAreAnError(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"a.csv", "b.csv", "c/d.csv"} {
		path := filepath.Join(folder, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, nil, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	if files, _, err := findFiles(t.Context(), []string{folder}, nil, "", 3); err != nil || len(files) != 3 {
		t.Errorf("%d files, %v", len(files), err)
	}
	if _, _, err := findFiles(t.Context(), []string{folder}, nil, "", 2); err == nil || !strings.HasSuffix(err.Error(), "c: more than 2 files: name fewer folders at a time, or join the logs") {
		t.Error(err)
	}
}
