package store

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange swaps two folders in one step, where the file system can, and leaves
// the old one at staging.
func exchange(staging, place string) error {
	err := unix.Renameat2(unix.AT_FDCWD, staging, unix.AT_FDCWD, place, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) {
		return exchangeByPair(staging, place)
	}
	if err != nil {
		return &os.LinkError{Op: "exchange", Old: staging, New: place, Err: err}
	}
	return nil
}
