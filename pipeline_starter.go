package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"roundmill/ingest"
)

// writeStarter writes the starter log, never over an existing file.
func writeStarter(name string, stdout io.Writer) error {
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: there is such a file already; name another", name)
	}
	if err != nil {
		return err
	}
	if err := errors.Join(ingest.WriteStarter(file), file.Sync(), file.Close()); err != nil {
		return errors.Join(err, os.Remove(name))
	}
	_, err = fmt.Fprintf(stdout, "%s: fill in a line for every stroke, then run roundmill %s\n", name, name)
	return err
}
