package ingest

import (
	"fmt"
	"io"
	"io/fs"
	"os"
)

// unchanged is an error if a file on disk is another now than when it was
// listed: one that is written to while it is read would be read in part.
func (f *file) unchanged(opened io.Closer) error {
	if f.archive != nil && f.archive.path != "" {
		info, err := os.Stat(f.archive.path)
		if err == nil && changed(f.archive.listed, info) {
			err = errChanged(f.archive.path)
		}
		return err
	}
	onDisk, ok := opened.(*os.File)
	if !ok {
		return nil
	}
	info, err := onDisk.Stat()
	if err != nil {
		return err
	}
	if info.Size() != f.onDisk || !info.ModTime().Equal(f.modified) {
		return errChanged(f.name)
	}
	return nil
}

func changed(before, after fs.FileInfo) bool {
	return before.Size() != after.Size() || !before.ModTime().Equal(after.ModTime())
}

func errChanged(name string) error {
	return fmt.Errorf("%s: was changed while it was read; run again when nothing writes to it", name)
}
