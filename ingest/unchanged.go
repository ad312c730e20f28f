package ingest

import (
	"fmt"
	"io"
	"os"
)

// unchanged is an error if a file on disk is another now than when it was
// listed: one that is written to while it is read would be read in part.
func (f *file) unchanged(opened io.Closer) error {
	onDisk, ok := opened.(*os.File)
	if !ok {
		return nil
	}
	info, err := onDisk.Stat()
	if err != nil {
		return err
	}
	if info.Size() != f.onDisk || !info.ModTime().Equal(f.modified) {
		return fmt.Errorf("%s: was changed while it was read; run again when nothing writes to it", f.name)
	}
	return nil
}
