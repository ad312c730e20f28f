package ingest

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"roundmill/ingest/disk"
)

func TestFoldersAreReadInPathOrderWithoutResults(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"b.csv": "date,hole,par,lie,to_hole\n2026-05-02,1,3,tee,150\n", "a/z.csv": "date,hole,par,lie,to_hole\n2026-05-01,1,3,tee,150\n",
		"out/run.json": "{}", "out/shots.csv": "date,hole,par,lie,to_hole\n2026-05-03,1,3,tee,150\n", ".hidden": "x",
	} {
		path := filepath.Join(folder, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	notes := 3 // the results, and two holes out of 150 yd
	loop := filepath.Join(folder, "loop")
	os.Symlink(folder, loop)
	if _, err := os.Readlink(loop); err == nil { // not every system makes links for everyone, and Wine only says that it did
		notes++
	}
	reader, err := Open(t.Context(), []string{folder, filepath.Join(folder, "b.csv")}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	o := readAll(t, reader)
	if got := strings.Join(o.column("date"), " "); got != "2026-05-01 2026-05-02" {
		t.Errorf("dates %s (%v)", got, o.rejects)
	}
	if len(o.notes) != notes {
		t.Errorf("notes %q", o.notes)
	}
	if _, err := Open(t.Context(), []string{filepath.Join(folder, "missing")}, nil, Options{}); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a path that is not there: %v", err)
	}
}

func TestFoldersAboveAPathFromTheTopAreNotNamed(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "log.csv")
	if err := os.WriteFile(path, []byte(plainHeader+goodHole), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Chdir(folder)                                             // on Windows on the same disk,
	bare := strings.TrimPrefix(path, filepath.VolumeName(path)) // which need not be named then
	for _, path := range []string{path, bare} {
		reader, err := Open(t.Context(), []string{path}, nil, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if files := reader.Files(); len(files) != 1 || files[0].Name != "log.csv" {
			t.Errorf("%s is called %v", path, files)
		}
	}
}

func TestWhatIsHiddenIsNotRead(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{".cache/a.csv", "logs/.a.csv", ".hidden.csv"} {
		path := filepath.Join(folder, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte("x"), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(folder)
	reader, err := Open(t.Context(), []string{".", "logs/.a.csv"}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if files := reader.Files(); len(files) != 1 || files[0].Name != "logs/.a.csv" {
		t.Errorf("%v: only the file that is named is meant", files)
	}
}

// Standard input is read twice where its dates must be settled, and once
// however often it is named.
func TestStandardInput(t *testing.T) {
	log := "date,hole,par,lie,to_hole\n03/04/2026,1,3,tee,40\n13/04/2026,1,3,tee,40\n"
	scratch := t.TempDir()
	reader, err := Open(t.Context(), []string{"-", "-"}, strings.NewReader(log), Options{Scratch: disk.Scratch{Folder: scratch}})
	if err != nil {
		t.Fatal(err)
	}
	o := readAll(t, reader)
	if got := strings.Join(o.column("date"), " "); got != "2026-04-03 2026-04-13" || len(o.rejects) > 0 {
		t.Errorf("dates %s, %q", got, o.rejects)
	}
	if name := o.column(SourceFile)[0]; name != "standard input" {
		t.Errorf("read from %q", name)
	}
	// sha256sum of the same bytes (coreutils).
	want := FileInfo{Name: "standard input", Bytes: 70, SHA256: "a48f5a0fc455ef763ce614523cda0b5915fbf137762b103be6c4b127307253dd"}
	if files := reader.Files(); len(files) != 1 || files[0] != want {
		t.Errorf("%+v, expected %+v", files, want)
	}
	if read, total := reader.Progress(); read != total || total != 70 {
		t.Errorf("read %d of %d bytes", read, total)
	}
	if _, err := Open(t.Context(), []string{"-"}, brokenReader{}, Options{Scratch: disk.Scratch{Folder: scratch}}); err == nil || err.Error() != "standard input: broken" {
		t.Errorf("input that breaks: %v", err)
	}
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, errors.New("broken") }

func TestAPathThatCannotBeUsedIsNamed(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "missing.csv")
	if _, err := Open(t.Context(), []string{missing}, nil, Options{}); !errors.Is(err, os.ErrNotExist) || !strings.Contains(err.Error(), missing) {
		t.Errorf("a path that is not there: %v", err)
	}
	if _, err := Open(t.Context(), []string{os.DevNull}, nil, Options{}); err == nil || err.Error() != os.DevNull+": neither a file nor a folder" {
		t.Errorf("a device: %v", err)
	}
}

// A file that goes away after it was listed is what is wrong with the world.
func TestAFileThatGoesAwayIsAnError(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(path, []byte(plainHeader+goodHole), 0o644); err != nil {
		t.Fatal(err)
	}
	reader, err := Open(t.Context(), []string{path}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	for _, err = range reader.Rounds(context.Background()) {
	}
	if !errors.Is(err, os.ErrNotExist) {
		t.Error(err)
	}
}

func TestAFileWithoutPermissionIsRefusedAndTheOthersCount(t *testing.T) {
	reader := openFiles(t, Options{}, map[string]string{"a.csv": "x", "b.csv": plainHeader + goodHole})
	if err := os.Chmod(reader.files[0].path, 0); err != nil {
		t.Fatal(err)
	}
	if file, err := os.Open(reader.files[0].path); err == nil {
		file.Close()
		t.Skip("LOUD: the file can be read all the same: the tests run with rights over every file, or on Windows, where a mode takes none away; this one needs a usual user")
	}
	o := readAll(t, reader)
	if o.tally.Kept != 4 || len(o.rejects) != 1 || !strings.HasSuffix(o.rejects[0], "a.csv:1: not readable: permission denied") {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
}

// A bad file among good ones costs itself.
func TestOneBadFileCostsNoOther(t *testing.T) {
	o := readAll(t, openFiles(t, Options{}, map[string]string{
		"a.csv": plainHeader + roundLog("2026-05-01", 1, 2), "b.csv": "", "c.csv": "\x00", "d.json": "{", "e.csv": plainHeader + "x\n" + roundLog("2026-05-02", 1, 2), "f.csv": plainHeader + "x\n",
	}))
	if o.tally.Kept != 12 || o.tally.Refused != 2 || len(o.rejects) != 5 || o.rounds != 2 {
		t.Errorf("%+v, %d rounds, %q", o.tally, o.rounds, o.rejects)
	}
	if states := strings.Join(o.column(HoleState), ""); states != "000000"+"222000" {
		t.Errorf("hole states %s: a doubt stays in its own file", states)
	}
}

func TestAFileWithoutRecordsIsNoted(t *testing.T) {
	for _, text := range []string{plainHeader, "[]", strings.TrimSuffix(plainHeader, "\n")} {
		o := readLog(t, "log", text, Options{})
		if len(o.rejects) > 0 || len(o.notes) != 1 || o.notes[0] != "log: no records in the file" {
			t.Errorf("%q: %q %q", text, o.rejects, o.notes)
		}
	}
}

func TestPicturesBesideLogsArePassedOverUnlessTheyAreNamed(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"card.JPG", "card.pdf", "may.csv"} {
		if err := os.WriteFile(name, []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	reader, err := Open(t.Context(), []string{".", "card.pdf"}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, file := range reader.Files() {
		names = append(names, file.Name)
	}
	if got := strings.Join(names, " "); got != "may.csv card.pdf" {
		t.Errorf("files %s", got)
	}
	var notes []string
	for _, note := range readAll(t, reader).notes {
		if strings.Contains(note, "passed over") {
			notes = append(notes, note)
		}
	}
	if want := []string{"card.JPG: passed over: a picture, film or PDF", "card.pdf: passed over: a picture, film or PDF"}; !slices.Equal(notes, want) {
		t.Errorf("notes %q, want %q", notes, want)
	}
}
