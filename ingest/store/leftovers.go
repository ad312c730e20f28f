package store

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"

	"roundmill/ingest/disk"
)

// A folder of results at place is built in a working folder beside it, named
// .NAME.roundmill-PROCESS-NUMBER, while .NAME.roundmill-lock is locked. In the
// working folder are the folders
const (
	newFolder     = "new"     // what is to stand at the place
	oldFolder     = "old"     // what stood there, if it had to be put aside
	scratchFolder = "scratch" // temporary files
)

func lockPath(place string) string {
	return filepath.Join(filepath.Dir(place), "."+filepath.Base(place)+".roundmill-lock")
}

func newWorkingPath(place string) string {
	return filepath.Join(filepath.Dir(place), fmt.Sprintf(".%s.roundmill-%d-%d", filepath.Base(place), os.Getpid(), rand.Uint32()))
}

// clearLeftovers removes the working folders of runs that were killed. One that
// was killed between putting the old results aside and the new ones in place
// has its old results put back. Only who holds the lock may call it.
func clearLeftovers(disk disk.Disk, place string) error {
	entries, err := os.ReadDir(filepath.Dir(place))
	if err != nil {
		return err
	}
	ours := regexp.MustCompile(`^\.` + regexp.QuoteMeta(filepath.Base(place)) + `\.roundmill-[0-9]+-[0-9]+$`)
	for _, entry := range entries {
		if !entry.IsDir() || !ours.MatchString(entry.Name()) {
			continue
		}
		working := filepath.Join(filepath.Dir(place), entry.Name())
		if _, err := os.Lstat(place); errors.Is(err, fs.ErrNotExist) {
			err := disk.Rename(filepath.Join(working, oldFolder), place)
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
		}
		if err := disk.Remove(working); err != nil {
			return fmt.Errorf("clearing up after a run that was killed: %w", err)
		}
	}
	return nil
}
