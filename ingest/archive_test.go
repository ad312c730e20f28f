package ingest

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"roundmill/ingest/disk"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zip"
	"github.com/klauspost/compress/zstd"
	"pgregory.net/rapid"
)

func gzipped(t tester, text string) string {
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	if _, err := w.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func zstandard(t tester, text string) string {
	w, err := zstd.NewWriter(nil)
	if err != nil {
		t.Fatal(err)
	}
	return string(w.EncodeAll([]byte(text), nil))
}

// zipped packs names and contents, which alternate.
func zipped(t tester, files ...string) string {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for i := 0; i < len(files); i += 2 {
		member, err := w.Create(files[i])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := member.Write([]byte(files[i+1])); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func sumOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

func TestPackedFilesAreReadAsTheyStand(t *testing.T) {
	may, june, bad := plainHeader+roundLog("2026-05-01", 1, 2), plainHeader+roundLog("2026-06-01", 1, 2), plainHeader+"2026-07-01,1,3,1,gren,150,,,,,,\n"
	season := zipped(t, "2026/june.csv", june, "2026/may.csv.gz", gzipped(t, may), "2026/bad.csv", bad, "__MACOSX/2026/._june.csv", "x", "2026/.hidden", "x", "old/run.json", "{}", "old/tables/x.csv", may, "2026/", "")
	files := map[string]string{"a.csv.gz": gzipped(t, may) + gzipped(t, ""), "b.csv.zst": zstandard(t, june), "season.zip": season}
	reader := openFiles(t, Options{Gather: true}, files)
	o := readAll(t, reader)
	if o.tally.Kept != 12 || o.tally.Repeated != 12 || len(o.rejects) != 1 || !strings.Contains(o.rejects[0], "season.zip/2026/bad.csv:2: lie \"gren\"") {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
	if !strings.Contains(strings.Join(o.notes, "\n"), "season.zip/old: passed over: results of an earlier run") {
		t.Errorf("notes %q", o.notes)
	}
	for i, want := range []FileInfo{
		{"a.csv.gz", int64(len(files["a.csv.gz"])), sumOf(files["a.csv.gz"]), ""},
		{"b.csv.zst", int64(len(files["b.csv.zst"])), sumOf(files["b.csv.zst"]), ""},
		{"season.zip/2026/bad.csv", int64(len(bad)), sumOf(bad), sumOf(season)},
		{"season.zip/2026/june.csv", int64(len(june)), sumOf(june), sumOf(season)},
		{"season.zip/2026/may.csv.gz", int64(len(gzipped(t, may))), sumOf(gzipped(t, may)), sumOf(season)},
	} {
		got := reader.Files()
		if len(got) != 5 {
			t.Fatalf("%v", got)
		}
		if _, inside, _ := strings.Cut(got[i].Name, "/"); inside != want.Name { // below the folder of the test
			t.Errorf("%q, expected %q", inside, want.Name)
		}
		if want.Name = got[i].Name; got[i] != want {
			t.Errorf("%+v, expected %+v", got[i], want)
		}
	}
	if as := reader.ReadAs()[4]; len(as) == 0 || as[0] != "CSV, separated by commas, UTF-8, unpacked from gzip" {
		t.Errorf("%q", as)
	}
}

func TestSourceFileNamesTheMemberOfAnArchive(t *testing.T) {
	folder := t.TempDir()
	name := filepath.Join(folder, "season.zip")
	if err := os.WriteFile(name, []byte(zipped(t, `2026\may.csv`, plainHeader+goodHole)), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Chdir(folder)
	reader, err := Open(t.Context(), []string{"season.zip"}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if o := readAll(t, reader); strings.Join(o.column(SourceFile)[:1], "") != "season.zip/2026/may.csv" {
		t.Errorf("%v %q", o.column(SourceFile), o.rejects)
	}
}

// What is cut, damaged, locked or blows up is refused as a file before anything
// of it counts, and the others are read.
func TestArchivesThatCannotBeUnpacked(t *testing.T) {
	log := plainHeader
	for day := 10; day < 30; day++ {
		log += roundLog("2026-05-"+string(rune('0'+day/10))+string(rune('0'+day%10)), 1, 18)
	}
	flipped := func(text string, at int) string {
		return text[:at] + string(rune(text[at]^1)&0x7f) + text[at+1:]
	}
	zeros := strings.Repeat("\x00", 12<<20)
	packed := gzipped(t, log)
	locked := []byte(zipped(t, "a.csv", log))
	for _, mark := range []string{"PK\x03\x04", "PK\x01\x02"} {
		at := bytes.Index(locked, []byte(mark)) + 6 + 2*strings.Count(mark, "\x01")
		locked[at] |= 1
	}
	for name, c := range map[string]struct{ text, want string }{
		"cut.csv.gz":       {packed[:len(packed)/2], "packed with gzip, and cannot be unpacked: unexpected EOF; copy the file again, it may be cut or damaged"},
		"checksum.csv.gz":  {packed[:len(packed)-8] + "\x01\x02\x03\x04" + packed[len(packed)-4:], "packed with gzip, and cannot be unpacked: invalid checksum; copy the file again, it may be cut or damaged"},
		"cut.csv.zst":      {zstandard(t, log)[:60], "packed with zstd, and cannot be unpacked: unexpected EOF"},
		"cut.zip":          {zipped(t, "a.csv", log)[:500], "a zip archive that cannot be opened: not a valid zip file; copy the file again, it may be cut or damaged"},
		"damaged.zip":      {flipped(zipped(t, "a.csv", log), 300), "packed with zip, and cannot be unpacked: "},
		"locked.zip":       {string(locked), "locked with a password; unlock the archive first"},
		"grows.csv.gz":     {gzipped(t, zeros), "unpacks to more than 200 times its size; unpack it yourself if you trust it"},
		"grows.csv.zst":    {zstandard(t, zeros), "unpacks to more than 200 times its size; unpack it yourself if you trust it"},
		"grows.zip":        {zipped(t, "a.csv", zeros), "unpacks to more than 200 times its size; unpack it yourself if you trust it"},
		"twice.csv.gz":     {gzipped(t, packed), "packed twice: unpack it first"},
		"zip-in-zip.zip":   {zipped(t, "inner.zip", zipped(t, "a.csv", log)), "a zip archive inside another, a damaged one or a workbook: save the sheet as CSV, or unpack it"},
		"workbook.xlsx":    {zipped(t, "[Content_Types].xml", "<x/>", "xl/sheet.xml", "<x/>"), "a workbook: save the sheet as CSV"},
		"other.7z":         {"7z\xbc\xaf\x27\x1c", "packed in a way that is not read: gzip, zstd and zip are"},
		"other.tar":        {strings.Repeat("a", tarMark) + "ustar\x00", "packed in a way that is not read: gzip, zstd and zip are"},
		"picture.gz":       {gzipped(t, "\x89PNG\x00\x01\x02"), "not text: expected CSV or JSON"},
		"empty-inside.zip": {zipped(t, "a.csv", ""), "the file is empty: expected a header and one line a shot, or JSON"},
	} {
		t.Run(name, func(t *testing.T) {
			o := readAll(t, openFiles(t, Options{}, map[string]string{name: c.text, "z-good.csv": plainHeader + goodHole}))
			if len(o.rejects) != 1 || !strings.Contains(o.rejects[0], ":1: "+c.want) || o.tally.Kept != 4 || o.tally.Records != 4 {
				t.Errorf("%+v %q\nexpected %s", o.tally, o.rejects, c.want)
			}
		})
	}
}

// A context of a run that is ended once a file has been read so many times.
type contextOfReads struct {
	context.Context
	reads int
}

func (c *contextOfReads) Err() error {
	if c.reads--; c.reads < 0 {
		return context.Canceled
	}
	return nil
}

func TestUnpackingEndsWithTheRun(t *testing.T) {
	var log strings.Builder
	for i := range 100_000 {
		fmt.Fprintln(&log, sha256.Sum256([]byte{byte(i), byte(i >> 8)}))
	}
	for _, text := range []string{gzipped(t, log.String()), zstandard(t, log.String()), zipped(t, "log.csv", log.String())} {
		reader := openFiles(t, Options{}, map[string]string{"log": text})
		if err := reader.files[0].whole(&contextOfReads{t.Context(), 20}); !errors.Is(err, context.Canceled) {
			t.Errorf("%.4q: %v", text, err)
		}
		reader.files[0].archive.close()
	}
}

func TestASizeBeyondTheLimitIsNamed(t *testing.T) {
	endless := &unpacked{Reader: strings.NewReader("xx"), kind: "zip", grown: maxUnpacked - 1, packed: func() int64 { return maxUnpacked }}
	if _, err := endless.Read(make([]byte, 2)); err == nil || err.Error() != "unpacks to more than 1 GiB" {
		t.Error(err)
	}
}

// Whatever bits are flipped in a packed log, it is refused whole or reads as
// the same.
func TestFlippedBitsOfAPackedLogNeverShow(t *testing.T) {
	log := plainHeader + roundLog("2026-05-01", 1, 9)
	want := strings.Join(readLog(t, "log", log, Options{}).column("to_hole_yd"), " ")
	packed := []string{gzipped(t, log), zstandard(t, log)}
	rapid.Check(t, func(t *rapid.T) {
		damaged := []byte(rapid.SampledFrom(packed).Draw(t, "packed"))
		damaged[rapid.IntRange(0, len(damaged)-1).Draw(t, "at")] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		o := readLog(t, "log", string(damaged), Options{})
		if got := strings.Join(o.column("to_hole_yd"), " "); got != want && (o.tally.Kept > 0 || len(o.rejects) != 1) {
			t.Fatalf("%+v %q", o.tally, o.rejects)
		}
	})
}

// FuzzPacked holds any bytes that may be an archive, or a table, to what holds
// for every log.
func FuzzPacked(f *testing.F) {
	log := plainHeader + goodHole
	for _, text := range []string{gzipped(f, log), zstandard(f, log), zipped(f, "a/b.csv", log, "c.csv.gz", gzipped(f, log)), asParquet(f, readLog(f, "log", log, Options{}).records[0]), foreignParquet(f)} {
		f.Add([]byte(text))
	}
	scratch := f.TempDir()
	f.Fuzz(func(t *testing.T, packed []byte) {
		path := filepath.Join(t.TempDir(), "log")
		if err := os.WriteFile(path, packed, 0o644); err != nil {
			t.Fatal(err)
		}
		reader, err := Open(t.Context(), []string{path}, nil, Options{Workers: 1, Gather: true, Scratch: disk.Scratch{Folder: scratch}})
		if err != nil {
			t.Fatal(err)
		}
		o := readAll(t, reader)
		if o.tally.Refused > int64(len(o.rejects)) || o.tally.Kept != int64(len(o.column("hole"))) {
			t.Errorf("%+v with %d rejects", o.tally, len(o.rejects))
		}
	})
}
