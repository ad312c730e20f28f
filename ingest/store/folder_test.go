package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"roundmill/ingest/disk"
)

func anything(string) error { return nil }

// inSteps is a disk that cannot swap two folders in one step.
type inSteps struct{ disk.OS }

func (inSteps) Exchange(string, string) error { return errors.ErrUnsupported }

func publish(t *testing.T, disk disk.Disk, place, text string) {
	t.Helper()
	folder, err := NewFolder(place, disk, anything)
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.WriteFile("tables/a.txt", []byte(text)); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(filepath.Join(place, "tables", "a.txt"))
	if string(before) == text {
		t.Error("the file is there before the folder was published")
	}
	if err := folder.Publish(); err != nil {
		t.Fatal(err)
	}
	holds(t, place, text)
}

// holds complains unless place holds the file that publish wrote, and nothing
// stands beside it.
func holds(t *testing.T, place, text string) {
	t.Helper()
	if after, err := os.ReadFile(filepath.Join(place, "tables", "a.txt")); err != nil || string(after) != text {
		t.Errorf("there stands %q (%v), expected %q", after, err, text)
	}
	if entries, err := List(place); err != nil || !slices.Equal(entries, []Entry{{"tables/a.txt", int64(len(text))}}) {
		t.Errorf("the folder holds %v (%v)", entries, err)
	}
	if beside, err := os.ReadDir(filepath.Dir(place)); err != nil || len(beside) != 1 {
		t.Errorf("beside the results there is %v (%v)", beside, err)
	}
}

func TestAFolderAppearsWholeOrNotAtAll(t *testing.T) {
	for name, disk := range map[string]disk.Disk{"in one step": disk.OS{}, "in two steps": inSteps{}} {
		t.Run(name, func(t *testing.T) {
			place := filepath.Join(t.TempDir(), "deep", "results")
			publish(t, disk, place, "first")
			publish(t, disk, place, "second")
			discarded, err := NewFolder(place, disk, anything)
			if err != nil {
				t.Fatal(err)
			}
			if err := errors.Join(discarded.WriteFile("b.txt", nil), discarded.StartAgain(), discarded.WriteFile("c.txt", nil)); err != nil {
				t.Fatal(err)
			}
			if written, err := discarded.Written(); err != nil || !slices.Equal(written, []Entry{{Name: "c.txt"}}) {
				t.Errorf("after a new start there is %v (%v)", written, err)
			}
			if err := discarded.Discard(); err != nil {
				t.Fatal(err)
			}
			holds(t, place, "second")
		})
	}
}

func TestAFolderThatIsNotOursIsLeftAlone(t *testing.T) {
	place := t.TempDir()
	notOurs := errors.New("not ours")
	refuse := func(string) error { return notOurs }
	empty, err := NewFolder(place, disk.OS{}, refuse)
	if err != nil {
		t.Fatalf("an empty folder: %v", err)
	}
	if err := empty.Discard(); err != nil {
		t.Fatal(err)
	}
	diary := filepath.Join(place, "diary.txt")
	if err := os.WriteFile(diary, []byte("dear diary"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := NewFolder(place, disk.OS{}, refuse); !errors.Is(err, notOurs) {
		t.Errorf("a full folder: %v", err)
	}
	if _, err := NewFolder(diary, disk.OS{}, anything); err == nil || !strings.Contains(err.Error(), "is a file") {
		t.Errorf("a file: %v", err)
	}
	// What was ours at the start and is not at the end is not replaced either.
	still := true
	folder, err := NewFolder(place, disk.OS{}, func(string) error {
		if still {
			return nil
		}
		return notOurs
	})
	if err != nil {
		t.Fatal(err)
	}
	still = false
	if err := folder.Publish(); !errors.Is(err, notOurs) {
		t.Errorf("publish: %v", err)
	}
	if err := folder.Discard(); err != nil {
		t.Fatal(err)
	}
	if text, _ := os.ReadFile(diary); string(text) != "dear diary" {
		t.Errorf("the diary says %q", text)
	}
}

func TestNoFileIsWrittenOutsideTheFolder(t *testing.T) {
	folder := building(t)
	for _, name := range []string{"../a", "/a", "a/../../b", ""} {
		if _, err := folder.Create(name); err == nil || !strings.Contains(err.Error(), "no name within a folder") {
			t.Errorf("%q: %v", name, err)
		}
	}
}

func TestWhereALinkLeadsToIsReplacedAndNotTheLink(t *testing.T) {
	parent := t.TempDir()
	place, link := filepath.Join(parent, "real", "results"), filepath.Join(parent, "link")
	publish(t, disk.OS{}, place, "first")
	os.Symlink(place, link)
	if _, err := os.Readlink(link); err != nil {
		t.Skip("there is no link: not every system makes one for everyone, and Wine only says that it did: ", err)
	}
	folder, err := NewFolder(link, disk.OS{}, anything)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(folder.WriteFile("tables/a.txt", []byte("second")), folder.Publish()); err != nil {
		t.Fatal(err)
	}
	holds(t, place, "second")
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is %v (%v)", info, err)
	}
	lost := filepath.Join(parent, "lost")
	if err := os.Symlink(filepath.Join(parent, "nowhere"), lost); err != nil {
		t.Fatal(err)
	}
	if _, err := NewFolder(lost, disk.OS{}, anything); err == nil || !strings.Contains(err.Error(), "leads nowhere") {
		t.Errorf("a link that leads nowhere: %v", err)
	}
}

func TestTwoRunsAtOnePlaceDoNotMeet(t *testing.T) {
	place := filepath.Join(t.TempDir(), "results")
	first, err := NewFolder(place, disk.OS{}, anything)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := NewFolder(place, disk.OS{}, anything); err == nil || !strings.Contains(err.Error(), "another run is writing there (process ") {
		t.Errorf("the second says: %v", err)
	}
	if err := errors.Join(first.WriteFile("tables/a.txt", []byte("first")), first.Publish()); err != nil {
		t.Fatal(err)
	}
	holds(t, place, "first")
	publish(t, disk.OS{}, place, "second")
}

// What a killed run leaves: its lock file, which nobody holds, and its working
// folder.
func TestTheNextRunClearsUpAfterOneThatWasKilled(t *testing.T) {
	for _, killed := range []string{"while writing", "between two steps", "before the first results"} {
		t.Run(killed, func(t *testing.T) {
			place := filepath.Join(t.TempDir(), "results")
			working := filepath.Join(filepath.Dir(place), ".results.roundmill-4711-99")
			for _, folder := range []string{newFolder, scratchFolder} {
				if err := os.MkdirAll(filepath.Join(working, folder), 0o755); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.WriteFile(lockPath(place), []byte("process 4711, a long text"), 0o644); err != nil {
				t.Fatal(err)
			}
			others := filepath.Join(filepath.Dir(place), ".results.roundmill-notes")
			if err := os.Mkdir(others, 0o755); err != nil {
				t.Fatal(err)
			}
			switch old := filepath.Join(working, oldFolder); killed {
			case "while writing":
				if err := os.MkdirAll(filepath.Join(place, "tables"), 0o755); err != nil {
					t.Fatal(err)
				}
			case "between two steps":
				if err := os.MkdirAll(filepath.Join(old, "tables"), 0o755); err != nil {
					t.Fatal(err)
				}
			}
			next, err := NewFolder(place, disk.OS{}, anything)
			if err != nil {
				t.Fatal(err)
			}
			if err := next.Discard(); err != nil {
				t.Fatal(err)
			}
			if _, err := os.Stat(filepath.Join(place, "tables")); (err == nil) != (killed != "before the first results") {
				t.Errorf("the old results: %v", err)
			}
			if err := os.Remove(others); err != nil {
				t.Errorf("a folder of somebody else: %v", err)
			}
			if beside, _ := filepath.Glob(filepath.Join(filepath.Dir(place), ".*")); len(beside) > 0 {
				t.Errorf("left behind: %v", beside)
			}
		})
	}
}

// failingRename fails the renames of those numbers.
type failingRename struct {
	inSteps
	fail []int
	at   *int
}

func (d failingRename) Rename(from, to string) error {
	if *d.at++; slices.Contains(d.fail, *d.at) {
		return errors.New("injected")
	}
	return d.inSteps.Rename(from, to)
}

func TestASwapInTwoStepsThatFailsLeavesTheOldFolder(t *testing.T) {
	for _, fail := range [][]int{{1}, {2}, {2, 3}} {
		place := filepath.Join(t.TempDir(), "results")
		publish(t, disk.OS{}, place, "old")
		folder, err := NewFolder(place, failingRename{fail: fail, at: new(int)}, anything)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(folder.WriteFile("tables/a.txt", []byte("new")), folder.Publish()); err == nil || !strings.Contains(err.Error(), "injected") {
			t.Errorf("failing renames %v: %v", fail, err)
		}
		if err := folder.Discard(); err != nil {
			t.Fatal(err)
		}
		if len(fail) > 1 { // the old one could not be put back: the next run does it
			next, err := NewFolder(place, disk.OS{}, anything)
			if err != nil {
				t.Fatal(err)
			}
			if err := next.Discard(); err != nil {
				t.Fatal(err)
			}
		}
		holds(t, place, "old")
	}
}
