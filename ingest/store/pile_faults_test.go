package store

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"roundmill/ingest/disk"
)

// A faultyDisk fails one of its calls, told by number.
type faultyDisk struct {
	disk.OS
	calls, fails int
}

var errInjected = errors.New("injected fault")

func (d *faultyDisk) ask() error {
	if d.calls++; d.calls == d.fails {
		return errInjected
	}
	return nil
}

func (d *faultyDisk) Create(path string) (disk.File, error) {
	if err := d.ask(); err != nil {
		return nil, err
	}
	file, err := d.OS.Create(path)
	return &faultyFile{file, d}, err
}

func (d *faultyDisk) Remove(path string) error { return errors.Join(d.ask(), d.OS.Remove(path)) }

type faultyFile struct {
	disk.File
	disk *faultyDisk
}

func (f *faultyFile) Write(p []byte) (int, error) {
	if err := f.disk.ask(); err != nil {
		return 0, err
	}
	return f.File.Write(p)
}

func (f *faultyFile) ReadAt(p []byte, at int64) (int, error) {
	if err := f.disk.ask(); err != nil {
		return 0, err
	}
	return f.File.ReadAt(p, at)
}

func (f *faultyFile) Close() error { return errors.Join(f.disk.ask(), f.File.Close()) }

// Whatever call to the disk fails, it is told what was going on, and no file is left.
func TestAPileTellsOfEveryFailingCallToTheDiskAndLeavesNothing(t *testing.T) {
	for fails := 1; ; fails++ {
		scratch, faulty := t.TempDir(), &faultyDisk{fails: fails}
		pile := NewPile(schema, disk.Scratch{Disk: faulty, Folder: scratch, Memory: 1})
		err := func() error {
			var kept []Kept
			for from := range 4 {
				pieces, err := pile.Add(new(Packer).Pack(batch(40, 0), Group{From: 10 * from, To: 10*from + 10}))
				if err != nil {
					return err
				}
				kept = append(kept, pieces...)
			}
			_, err := pile.Batch(kept)
			return errors.Join(err, pile.renew([]part{{kept[1], 0, 10}, {kept[3], 2, 3}}))
		}()
		err = errors.Join(err, pile.Close())
		if faulty.calls < fails {
			if err != nil || fails < 18 {
				t.Errorf("%d calls, %v", faulty.calls, err)
			}
			return
		}
		if !errors.Is(err, errInjected) || !strings.Contains(err.Error(), "rows kept in a temporary file") {
			t.Errorf("call %d fails: %v", fails, err)
		}
		if left, err := os.ReadDir(scratch); err != nil || len(left) > 0 {
			t.Error(left, err)
		}
	}
}

// A file that was begun and cannot be closed is told also where the table is given up.
func TestATableTellsOfAFileThatItCannotGiveUp(t *testing.T) {
	for fails := 1; fails <= 3; fails++ { // its own file, that of what it holds, removing that
		faulty := &faultyDisk{}
		folder, err := NewFolder(filepath.Join(t.TempDir(), "results"), faulty, anything)
		if err != nil {
			t.Fatal(err)
		}
		folder.Memory = 1
		table := NewTable(folder, "table.parquet", schema, Options{})
		add := func() error { return table.Add(new(Packer).Pack(batch(10, 0), Group{To: 10})) }
		if err := errors.Join(table.Settle(), add(), table.Flush(), add()); err != nil {
			t.Fatal(err)
		}
		faulty.fails = faulty.calls + fails
		if err := table.Abandon(); !errors.Is(err, errInjected) {
			t.Errorf("call %d fails: %v", fails, err)
		}
		if err := folder.Discard(); err != nil {
			t.Error(err)
		}
	}
}
