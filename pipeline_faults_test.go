package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"roundmill/ingest"
	"roundmill/ingest/disk"
	"roundmill/ingest/store"
)

var errInjected = errors.New("injected fault")

// faultyDisk asks before every call whether it is to fail.
type faultyDisk struct {
	disk.OS
	lock  sync.Mutex
	calls []string
	fails func(number int, call string) error
	open  sync.Map // files, by path
}

func (d *faultyDisk) ask(call string) error {
	d.lock.Lock()
	defer d.lock.Unlock()
	d.calls = append(d.calls, call)
	return d.fails(len(d.calls), call)
}

var temporary = regexp.MustCompile(`^([a-z]+)-[0-9a-f]{16}$`)

// on names a call for a file, of a temporary one with what it keeps: "write of
// rejects".
func on(path, call string) string {
	if kept := temporary.FindStringSubmatch(filepath.Base(path)); kept != nil {
		return call + " of " + kept[1]
	}
	return call
}

func (d *faultyDisk) MakeFolder(path string) error {
	return errors.Join(d.ask("make folder"), d.OS.MakeFolder(path))
}

// takeAway is asked before a file or folder is moved or removed; as on Windows,
// neither it nor a file in it may be open.
func (d *faultyDisk) takeAway(path, call string) (err error) {
	d.open.Range(func(open, _ any) bool {
		if open == path || strings.HasPrefix(open.(string), path+string(filepath.Separator)) {
			err = fmt.Errorf("%s %s: %s is open", call, path, open)
		}
		return err == nil
	})
	if err != nil {
		return err
	}
	return d.ask(call)
}

func (d *faultyDisk) Rename(from, to string) error {
	if err := d.takeAway(from, "rename"); err != nil {
		return err
	}
	return d.OS.Rename(from, to)
}

func (d *faultyDisk) Exchange(one, other string) error {
	if err := d.takeAway(one, "exchange"); err != nil {
		return err
	}
	return d.OS.Exchange(one, other)
}

// SyncFolder, as Sync below, only asks: no power is cut here, and syncing takes
// the longest of all.
func (d *faultyDisk) SyncFolder(path string) error { return d.ask("sync folder") }

func (d *faultyDisk) Remove(path string) error {
	if err := d.takeAway(path, on(path, "remove")); err != nil {
		return err
	}
	return d.OS.Remove(path)
}

func (d *faultyDisk) Create(path string) (disk.File, error) {
	if err := d.ask(on(path, "create")); err != nil {
		return nil, err
	}
	file, err := d.OS.Create(path)
	if err == nil {
		d.open.Store(path, nil)
	}
	return &faultyFile{file, d, path}, err
}

type faultyFile struct {
	disk.File
	disk *faultyDisk
	path string
}

func (f *faultyFile) ask(call string) error { return f.disk.ask(on(f.path, call)) }

// Write that fails has written half, as on a full disk.
func (f *faultyFile) Write(p []byte) (int, error) {
	if err := f.ask("write"); err != nil {
		n, _ := f.File.Write(p[:len(p)/2])
		return n, err
	}
	return f.File.Write(p)
}

func (f *faultyFile) Sync() error { return f.ask("sync") }

func (f *faultyFile) Close() error {
	f.disk.open.Delete(f.path)
	return errors.Join(f.ask("close"), f.File.Close())
}

func (f *faultyFile) ReadAt(p []byte, at int64) (int, error) {
	if err := f.ask("read"); err != nil {
		return 0, err
	}
	return f.File.ReadAt(p, at)
}

func appendText(t *testing.T, name, text string) {
	t.Helper()
	file, err := os.OpenFile(name, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := file.WriteString(text); err != nil {
		t.Fatal(err)
	}
	if err := file.Close(); err != nil {
		t.Fatal(err)
	}
}

// runOn runs the command with its results on a disk.
func runOn(t *testing.T, disk disk.Disk, args ...string) (status int, messages string) {
	t.Helper()
	return runIn(t, 0, disk, args...)
}

// runIn is runOn with spools that keep so many bytes in memory.
func runIn(t *testing.T, memory int, disk disk.Disk, args ...string) (status int, messages string) {
	t.Helper()
	s, err := parseSettings(args)
	if err != nil {
		t.Fatal(err)
	}
	s.disk, s.memory = disk, memory
	var out, said bytes.Buffer
	status = perform(t.Context(), s, nil, &out, &said)
	return status, said.String()
}

// Whatever call to the disk fails, alone or with all that follow, the run says
// so and ends with status 1; the old results stay, or, past the swap, the new
// ones are whole.
func TestEveryFailingCallToTheDiskIsToldAndHarmsNothing(t *testing.T) {
	folder := t.TempDir()
	log := filepath.Join(folder, "log.csv")
	writeField(t, log, 1, 2)
	appendText(t, log, "bad line\n") // so that there is a rejects.csv
	wanted := filepath.Join(folder, "wanted")
	mustRun(t, "--no-charts", "--quiet", "--workers", "1", "-o", wanted, log)
	fresh := outFiles(t, wanted)
	place := filepath.Join(folder, "place")
	out := filepath.Join(place, "out")
	args := []string{"--no-charts", "--quiet", "--workers", "1", "-o", out, log}
	sound := func(int, string) error { return nil }
	old := func() map[string]string {
		if status, said := runOn(t, &faultyDisk{fails: sound}, append(args, "--seed", "2")...); status != exitDone {
			t.Fatal(said)
		}
		return outFiles(t, out)
	}
	before := old()
	count := &faultyDisk{fails: sound}
	if status, said := runOn(t, count, args...); status != exitDone {
		t.Fatal(said)
	}
	sameFiles(t, fresh, outFiles(t, out))
	swap := 0
	for i, call := range count.calls {
		if call == "exchange" || call == "rename" {
			swap = i + 1
		}
	}
	t.Logf("%d calls, the swap is number %d", len(count.calls), swap)
	old()
	step := 1
	if testing.Short() {
		step = 23
	}
	for number := 1; number <= len(count.calls); number += step {
		for _, onwards := range []bool{false, true} {
			call := ""
			disk := &faultyDisk{fails: func(n int, asked string) error {
				if n == number || onwards && n > number {
					if n == number {
						call = asked
					}
					return errInjected
				}
				return nil
			}}
			status, said := runOn(t, disk, args...)
			where := fmt.Sprintf("call %d (%s), onwards %t", number, call, onwards)
			if status != exitFailed || !strings.Contains(said, "injected fault") || strings.Contains(said, "mistake in the program") {
				t.Errorf("%s: exit status %d, %s", where, status, said)
			}
			if number <= swap {
				sameFiles(t, before, standing(t, out))
			} else {
				sameFiles(t, fresh, outFiles(t, out))
				if !strings.Contains(said, "the new results are in place") {
					t.Errorf("%s: it is not told that the new results are there: %s", where, said)
				}
			}
			if !onwards && call != "remove" {
				nothingBeside(t, out)
			}
			if number > swap || onwards || call == "remove" { // the next run clears up
				old()
				nothingBeside(t, out)
			}
			if t.Failed() {
				t.Fatal(where)
			}
		}
	}
}

// The same of every call for a temporary file, when nothing is held in memory: of
// scattered rounds, rows that wait for their turn, rejects and figures.
func TestEveryFailingCallForATemporaryFileIsToldAndHarmsNothing(t *testing.T) {
	folder := t.TempDir()
	log := filepath.Join(folder, "log.csv")
	text := fieldText(t, 1, 2)
	lines := strings.SplitAfter(text, "\n")
	text += "bad line\n" + lines[1] // a shot of the first round
	if err := os.WriteFile(log, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(folder, "place", "out")
	args := []string{"--no-charts", "--quiet", "--workers", "1", "-o", out, log}
	mustRun(t, args...)
	before := outFiles(t, out)
	most, all := 1000, 0
	if testing.Short() {
		most = 2
	}
	for _, c := range []struct {
		args []string
		kept string
	}{
		{args, "rounds"}, {args, "rows"}, {args, "rejects"}, {args, "figures"},
		{append(args, "--check"), "rounds"}, {append(args, "--check"), "rejects"},
	} {
		for _, call := range []string{"create", "write", "read", "close", "remove"} {
			call += " of " + c.kept
			tried := 0
			for number := 1; number <= most && tried == number-1; number++ {
				calls := 0
				status, said := runIn(t, 1, &faultyDisk{fails: func(_ int, asked string) error {
					if asked == call {
						if calls++; calls == number {
							tried = number
							return errInjected
						}
					}
					return nil
				}}, c.args...)
				failed := status == exitFailed && strings.Contains(said, "injected fault") && !strings.Contains(said, "mistake in the program")
				if failed != (tried == number) {
					t.Errorf("%s, number %d of %d: exit status %d, %s", call, number, calls, status, said)
				}
				sameFiles(t, before, outFiles(t, out))
				nothingBeside(t, out)
			}
			if all += tried; tried == 0 {
				t.Errorf("%v: no %s", c.args, call)
			}
		}
	}
	t.Logf("%d calls", all)
}

// Results that are begun again tell of a file that they cannot give up.
func TestResultsTellOfAFileThatTheyCannotGiveUp(t *testing.T) {
	s, err := parseSettings([]string{"--demo"})
	if err != nil {
		t.Fatal(err)
	}
	for _, call := range []string{"close of rejects", "remove of rejects"} {
		faulty := &faultyDisk{fails: func(_ int, asked string) error {
			if asked == call {
				return errInjected
			}
			return nil
		}}
		folder, err := store.NewFolder(filepath.Join(t.TempDir(), "out"), faulty, ownResults)
		if err != nil {
			t.Fatal(err)
		}
		folder.Memory = 1
		r := newResults(folder, s)
		if err := r.reject(ingest.Reject{}); err != nil {
			t.Fatal(err)
		}
		if err := r.abandon(); !errors.Is(err, errInjected) {
			t.Errorf("%s fails: %v", call, err)
		}
		if err := folder.Discard(); err != nil {
			t.Error(err)
		}
	}
}

// A panic while the results are written is as harmless, in goroutines that
// close tables and draw charts as elsewhere.
func TestAPanicOfAnyWriteHarmsNothing(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	mustRun(t, "--demo", "--quiet", "--no-charts", "-o", out)
	before := outFiles(t, out)
	for _, c := range []struct{ call, within string }{
		{"make folder", "store.NewFolder"}, {"create", "store.(*Table)"}, {"write", "store.(*Table)"},
		{"write", "(*results).addCharts"}, {"sync", "CloseAndVerify"}, {"exchange", "store.(*Folder)"},
	} {
		disk := &faultyDisk{fails: func(_ int, asked string) error {
			if asked == c.call && strings.Contains(callers(), c.within) {
				panic("injected")
			}
			return nil
		}}
		args := []string{"--demo", "--quiet", "-o", out}
		if testing.Short() && strings.Contains(c.within, "Charts") {
			continue
		}
		if !strings.Contains(c.within, "Charts") {
			args = append(args, "--no-charts")
		}
		status, said := runOn(t, disk, args...)
		if status != exitFailed || !strings.Contains(said, "a mistake in the program: injected") || !strings.Contains(said, c.within) {
			t.Errorf("%s in %s: exit status %d, %s", c.call, c.within, status, said)
		}
		sameFiles(t, before, outFiles(t, out))
		nothingBeside(t, out)
	}
}

// Whoever interrupts a run need not wait until all is drawn.
func TestARunIsInterruptedWhileItDrawsCharts(t *testing.T) {
	if testing.Short() {
		t.Skip("draws charts")
	}
	out := filepath.Join(t.TempDir(), "out")
	ctx, stop := context.WithCancel(t.Context())
	var pictures atomic.Int32
	disk := &faultyDisk{fails: func(_ int, asked string) error {
		if asked == "create" && strings.Contains(callers(), "(*results).addCharts") {
			pictures.Add(1)
			stop()
		}
		return nil
	}}
	s, err := parseSettings([]string{"--demo", "--quiet", "-o", out})
	if err != nil {
		t.Fatal(err)
	}
	s.disk = disk
	if status := perform(ctx, s, nil, &bytes.Buffer{}, &bytes.Buffer{}); status != exitInterrupted || pictures.Load() < 1 || pictures.Load() > 2 {
		t.Errorf("exit status %d after %d pictures", status, pictures.Load())
	}
	if left, err := os.ReadDir(filepath.Dir(out)); err != nil || len(left) > 0 {
		t.Errorf("left are %v (%v)", left, err)
	}
}

func callers() string {
	stack := make([]byte, 1<<16)
	return string(stack[:runtime.Stack(stack, false)])
}
