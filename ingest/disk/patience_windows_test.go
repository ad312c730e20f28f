package disk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// What others have open is moved and removed once they let go of it, and if they
// do not, it is said what to do.
func TestWhatIsOpenIsWaitedFor(t *testing.T) {
	for name, do := range map[string]func(path string) error{
		"moving":   func(path string) error { return OS{}.Rename(path, path+" moved") },
		"removing": func(path string) error { return OS{}.Remove(path) },
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "table")
			file, err := os.Create(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := do(path); err == nil || !strings.Contains(err.Error(), "close that and run again") {
				t.Errorf("while it is open: %v", err)
			}
			time.AfterFunc(patience/4, func() { file.Close() })
			if err := do(path); err != nil {
				t.Errorf("while it is being closed: %v", err)
			}
			if _, err := os.Stat(path); err == nil {
				t.Error("it is still there")
			}
		})
	}
}
