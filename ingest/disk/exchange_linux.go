package disk

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

func exchange(one, other string) error {
	err := unix.Renameat2(unix.AT_FDCWD, one, unix.AT_FDCWD, other, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) { // by a file system that cannot
		return errors.ErrUnsupported
	}
	if err != nil {
		return &os.LinkError{Op: "exchange", Old: one, New: other, Err: err}
	}
	return nil
}
