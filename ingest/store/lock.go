package store

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// errLocked is the error of lockFile when another process, or another run in
// this one, holds the lock.
var errLocked = errors.New("locked")

// A lock says that a run is at work on a folder. It lasts no longer than the
// process that took it, whatever ends that.
type lock struct{ file *os.File }

// takeLock takes the lock that the file at path stands for; place is how the
// user calls what it protects. Where the file system knows no locks, the lock is
// nil and protects nothing.
func takeLock(path, place string) (*lock, error) {
	for {
		file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, err
		}
		err = lockFile(file)
		if err != nil {
			holder, _ := io.ReadAll(io.LimitReader(file, 80))
			file.Close()
			switch {
			case errors.Is(err, errors.ErrUnsupported):
				return nil, os.Remove(path)
			case errors.Is(err, errLocked):
				return nil, fmt.Errorf("%s: another run is writing there (%s); wait for it, or name another folder with --out", place, holder)
			}
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		// The holder before may have removed the file once it was opened here.
		held, err := file.Stat()
		if err != nil {
			return nil, errors.Join(err, file.Close())
		}
		if named, err := os.Stat(path); err != nil || !os.SameFile(held, named) {
			file.Close()
			continue
		}
		l := &lock{file}
		_, err = fmt.Fprintf(file, "process %d", os.Getpid())
		if err = errors.Join(err, file.Truncate(int64(len(fmt.Sprintf("process %d", os.Getpid()))))); err != nil {
			return nil, errors.Join(fmt.Errorf("%s: %w", path, err), l.release())
		}
		return l, nil
	}
}

// release gives the lock up. It may be called on nil.
func (l *lock) release() error {
	if l == nil {
		return nil
	}
	return removeLocked(l.file)
}
