package store

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// lockFile locks a byte far behind the text, which others may then still read.
func lockFile(file *os.File) error {
	err := windows.LockFileEx(windows.Handle(file.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY,
		0, 1, 0, &windows.Overlapped{OffsetHigh: 1})
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) || errors.Is(err, windows.ERROR_IO_PENDING) {
		return errLocked
	}
	return err
}

// removeLocked removes the file after the lock is given up: an open file cannot
// be removed, so one that is another's by then stays.
func removeLocked(file *os.File) error {
	err := file.Close()
	os.Remove(file.Name())
	return err
}
