//go:build !windows && (!unix || solaris || aix)

package store

import (
	"errors"
	"os"
)

func lockFile(*os.File) error { return errors.ErrUnsupported }

func removeLocked(file *os.File) error { return file.Close() }
