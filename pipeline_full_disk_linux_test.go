package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// mount makes a file system in memory, of so many kibibytes, at the folder.
func mount(t *testing.T, folder string, kibibytes int) {
	t.Helper()
	if err := syscall.Mount("none", folder, "tmpfs", 0, fmt.Sprintf("size=%dk", kibibytes)); err != nil {
		t.Skipf("NOT CHECKED: a small file system cannot be mounted here: %v", err)
	}
	t.Cleanup(func() { syscall.Unmount(folder, 0) })
}

// A disk that fills up, at whatever moment, is told; the old results stay. The
// log lies scattered, so that temporary files are written as well.
func TestAFullDiskIsToldAndHarmsNothing(t *testing.T) {
	folder := t.TempDir()
	text := fieldText(t, 1, 6)
	text += text[strings.IndexByte(text, '\n')+1:] // every round twice
	disk := filepath.Join(folder, "disk")
	if err := os.Mkdir(disk, 0o755); err != nil {
		t.Fatal(err)
	}
	mount(t, disk, 1<<20)
	out := filepath.Join(disk, "out")
	runFrom := func() (int, string) {
		var said bytes.Buffer
		status := run(context.Background(), []string{"--quiet", "--no-charts", "-o", out, "-"}, strings.NewReader(text), &bytes.Buffer{}, &said)
		return status, said.String()
	}
	if status, said := runFrom(); status != exitDone {
		t.Fatal(said)
	}
	before := outFiles(t, out)
	size := 0
	for _, content := range before {
		size += (len(content) + 4095) / 4096 * 4
	}
	tries := 20
	if testing.Short() {
		tries = 5
	}
	need, full := 2*size+4*len(text)/1024+200, 0 // old and new results, rounds and rejects put aside
	for try := range tries {
		kibibytes := size + 40 + try*(need-size)/tries
		if err := syscall.Mount("none", disk, "tmpfs", syscall.MS_REMOUNT, fmt.Sprintf("size=%dk", kibibytes)); err != nil {
			t.Fatal(err)
		}
		switch status, said := runFrom(); {
		case status == exitFailed && strings.Contains(said, "no space left on device"):
			full++
		case status != exitDone:
			t.Errorf("%d KiB: exit status %d, %s", kibibytes, status, said)
		}
		sameFiles(t, before, outFiles(t, out))
		nothingBeside(t, out)
	}
	t.Logf("%d of %d disks were too small", full, tries)
	if full == 0 || full == tries {
		t.Errorf("%d of %d disks were full: the sizes test nothing", full, tries)
	}
	if err := syscall.Mount("none", disk, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	if status, said := runFrom(); status != exitFailed || !strings.Contains(said, "read-only file system") {
		t.Errorf("a disk that may only be read: exit status %d, %s", status, said)
	}
	sameFiles(t, before, outFiles(t, out))
	nothingBeside(t, out)
}
