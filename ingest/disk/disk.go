// Package disk is what the program asks of the operating system while it
// writes, and what it keeps in temporary files.
package disk

import (
	"errors"
	"io"
	"os"
	"runtime"
)

// A Disk is what is asked of the operating system while results are written.
// Tests put one with faults in the place of OS.
type Disk interface {
	// MakeFolder makes a folder, and those above it.
	MakeFolder(path string) error
	// Create makes a file, or empties the one that is there.
	Create(path string) (File, error)
	// Rename moves a file or folder to a place where there is none.
	Rename(from, to string) error
	// Exchange swaps two folders in one step. The error is
	// errors.ErrUnsupported where that cannot be done.
	Exchange(one, other string) error
	// SyncFolder makes what was made and renamed in a folder durable.
	SyncFolder(path string) error
	// Remove removes a file or folder with all below it, if it is there.
	Remove(path string) error
}

// A File is a file being written, from which what was written can be read.
type File interface {
	io.WriteCloser
	io.ReaderAt
	Sync() error
}

// OS is the disk of the operating system.
type OS struct{}

func (OS) MakeFolder(path string) error     { return os.MkdirAll(path, 0o755) }
func (OS) Create(path string) (File, error) { return os.Create(path) }
func (OS) Exchange(one, other string) error { return exchange(one, other) }

func (OS) Rename(from, to string) error {
	return patiently(func() error { return os.Rename(from, to) })
}

func (OS) Remove(path string) error {
	return patiently(func() error { return os.RemoveAll(path) })
}

// SyncFolder does nothing on Windows, which has no such call.
func (OS) SyncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}
