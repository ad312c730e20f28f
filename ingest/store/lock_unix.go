//go:build unix && !solaris && !aix

package store

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

func lockFile(file *os.File) error {
	err := unix.Flock(int(file.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		return errLocked
	}
	return err
}

// removeLocked removes the file while the lock is held: whoever waits for it
// then finds that it is gone.
func removeLocked(file *os.File) error {
	return errors.Join(os.Remove(file.Name()), file.Close())
}
