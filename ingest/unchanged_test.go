package ingest

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"
	"time"
)

// Whatever happens to a file between its listing and its end, other than being
// read, is an error and never half a log.
func TestAFileThatChangesWhileItIsReadIsAnError(t *testing.T) {
	log := plainHeader + roundLog("2026-05-01", 1, 3)
	for name, change := range map[string]func(path string) error{
		"longer":                 func(path string) error { return os.WriteFile(path, []byte(log+goodHole), 0o644) },
		"shorter":                func(path string) error { return os.Truncate(path, int64(len(log)/2)) },
		"empty":                  func(path string) error { return os.Truncate(path, 0) },
		"as long, written later": func(path string) error { return os.Chtimes(path, time.Time{}, time.Now().Add(time.Hour)) },
		"replaced": func(path string) error {
			return errors.Join(os.Remove(path), os.WriteFile(path, []byte(strings.ToUpper(log)), 0o644), os.Chtimes(path, time.Time{}, time.Unix(1e9, 0)))
		},
	} {
		t.Run(name, func(t *testing.T) {
			reader := openFiles(t, Options{}, map[string]string{"a.csv": log})
			if err := change(reader.files[0].path); err != nil {
				t.Fatal(err)
			}
			var err error
			for _, err = range reader.Rounds(context.Background()) {
			}
			if err == nil || !strings.HasSuffix(err.Error(), "a.csv: was changed while it was read; run again when nothing writes to it") {
				t.Error(err)
			}
			for _, err = range reader.Afresh().Rounds(context.Background()) {
			}
			if err == nil {
				t.Error("a second reading takes it for the same")
			}
		})
	}
}
