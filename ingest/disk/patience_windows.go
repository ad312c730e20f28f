package disk

import (
	"errors"
	"fmt"
	"time"

	"golang.org/x/sys/windows"
)

// patience is how long to wait for others. Scanners for viruses and indexes look
// into new files of their own accord, and let go of them soon.
const patience = 2 * time.Second

// patiently does again for a while what is refused as long as anybody has the
// file open, or one of the folder.
func patiently(do func() error) error {
	for end := time.Now().Add(patience); ; time.Sleep(10 * time.Millisecond) {
		err := do()
		switch {
		case !errors.Is(err, windows.ERROR_ACCESS_DENIED) && !errors.Is(err, windows.ERROR_SHARING_VIOLATION):
			return err
		case time.Now().After(end):
			return fmt.Errorf("%w If another program has it open, or a file in it, close that and run again", err)
		}
	}
}
