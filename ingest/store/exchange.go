package store

import (
	"errors"
	"os"
	"runtime"
)

// exchangeByPair swaps two folders by renaming one after the other, and puts
// the old one back if the second step fails.
func exchangeByPair(staging, place string) error {
	aside := staging + ".old"
	if err := os.Rename(place, aside); err != nil {
		return err
	}
	if err := os.Rename(staging, place); err != nil {
		return errors.Join(err, os.Rename(aside, place))
	}
	return os.Rename(aside, staging)
}

// syncFolder makes renames in a folder durable. Windows has no such call.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}
