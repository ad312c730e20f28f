package disk

import (
	"os"

	"golang.org/x/sys/unix"
)

func exchange(one, other string) error {
	if err := unix.RenamexNp(one, other, unix.RENAME_SWAP); err != nil {
		return &os.LinkError{Op: "exchange", Old: one, New: other, Err: err}
	}
	return nil
}
