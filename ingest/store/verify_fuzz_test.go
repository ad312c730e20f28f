package store

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/format"

	"roundmill/ingest/disk"
)

// Whatever the bytes, reading back ends with an error or finds what was
// written. Among the seeds are files that once crashed readers (Apache Parquet,
// parquet-testing, bad_data), where they are at hand.
func FuzzVerify(f *testing.F) {
	sound, want := soundTable(f)
	f.Add(sound)
	for at := 0; at < len(sound); at += len(sound)/20 + 1 {
		f.Add(sound[:at])
	}
	for _, content := range damagedFiles(f) {
		f.Add(content)
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		before := bytes.Clone(content)
		if err := verify(bytes.NewReader(content), int64(len(content)), want); err == nil && len(content) < 100 {
			t.Errorf("%d bytes are taken for a table", len(content))
		}
		if claimed, err := claims(content); err == nil {
			verify(bytes.NewReader(content), int64(len(content)), claimed)
		}
		if !bytes.Equal(before, content) {
			t.Error("reading back changed the bytes")
		}
	})
}

func TestDamagedFilesOfOthersDoNotReadBack(t *testing.T) {
	files := damagedFiles(t)
	if len(files) == 0 {
		t.Skip("NOT CHECKED: set ROUNDMILL_SUITES to the folder that holds parquet-bad-data")
	}
	for name, content := range files {
		want, err := claims(content)
		if err == nil {
			err = verify(bytes.NewReader(content), int64(len(content)), want)
		}
		if err == nil {
			t.Errorf("%s reads back", name)
		}
		t.Logf("%s: %v", name, err)
	}
}

// A bit that is flipped anywhere in a table is found, or changes nothing that
// was compared; nothing else happens.
func TestFlippedBitsOfAnOwnTable(t *testing.T) {
	sound, want := soundTable(t)
	found, flips := 0, 10_000
	if testing.Short() {
		flips = 500
	}
	for i := range flips {
		at := i * 7919 % (8 * len(sound))
		damaged := bytes.Clone(sound)
		damaged[at/8] ^= 1 << (at % 8)
		if verify(bytes.NewReader(damaged), int64(len(damaged)), want) != nil {
			found++
		}
	}
	t.Logf("found %d of %d flipped bits", found, flips)
	if found < flips/2 {
		t.Errorf("found only %d of %d flipped bits", found, flips)
	}
}

func soundTable(t testing.TB) ([]byte, *sums) {
	t.Helper()
	folder, err := NewFolder(filepath.Join(t.TempDir(), "results"), disk.OS{}, anything)
	if err != nil {
		t.Fatal(err)
	}
	defer folder.Discard()
	table := NewTable(folder, "t.parquet", schema, Options{Version: "1.2.3"})
	if err := table.Add(new(Packer).Pack(batch(300, 0), Group{To: 300})); err != nil {
		t.Fatal(err)
	}
	if err := table.CloseAndVerify(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(folder.path("t.parquet"))
	if err != nil {
		t.Fatal(err)
	}
	return content, table.sums
}

// claims is what a file says that it holds, sums and nulls left out, so that
// reading it back goes as far as its pages.
func claims(content []byte) (claimed *sums, err error) {
	defer func() {
		if panicked := recover(); panicked != nil {
			err = fmt.Errorf("it cannot be opened: %v", panicked)
		}
	}()
	if err := footerFits(bytes.NewReader(content), int64(len(content))); err != nil {
		return nil, err
	}
	file, err := parquet.OpenFile(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return nil, err
	}
	claimed = &sums{rows: file.NumRows()}
	for i, field := range file.Schema().Fields() {
		column := columnSum{name: field.Name(), nulls: -1}
		if field.Leaf() {
			column.kind = field.Type().String()
		}
		if groups := file.Metadata().RowGroups; len(groups) > 0 && i < len(groups[0].Columns) {
			codec := groups[0].Columns[i].MetaData.Codec
			if codec == format.Lz4 || codec == format.Lz4Raw {
				codec = format.Zstd // as of a table of the program's: parquet-go asks for any memory to unpack LZ4
			}
			column.codec = codec.String()
		}
		claimed.columns = append(claimed.columns, column)
	}
	return claimed, nil
}

func damagedFiles(t testing.TB) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	paths, err := filepath.Glob(filepath.Join(os.Getenv("ROUNDMILL_SUITES"), "parquet-bad-data", "*.parquet"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		content, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(path)] = content
	}
	return files
}
