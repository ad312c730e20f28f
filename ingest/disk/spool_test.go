package disk

import (
	"bytes"
	"io"
	"math/rand/v2"
	"os"
	"testing"

	"pgregory.net/rapid"
)

// Whatever is put comes back, from wherever it is asked for, and nothing stays
// in the folder of the scratch.
func TestWhatASpoolKeepsComesBackAsItWas(t *testing.T) {
	folder := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		memory := rapid.SampledFrom([]int{0, 1, 1000, blockBytes, 3*blockBytes + 1}).Draw(t, "memory")
		random := rand.NewChaCha8([32]byte{byte(memory)})
		spool := Scratch{Folder: folder, Memory: memory}.Spool("rows")
		var all []byte
		for range rapid.IntRange(0, 20).Draw(t, "pieces") {
			piece := make([]byte, rapid.OneOf(rapid.IntRange(0, 2000), rapid.IntRange(0, 2*blockBytes)).Draw(t, "bytes"))
			random.Read(piece)
			at, err := spool.Put(piece)
			if err != nil || at != int64(len(all)) {
				t.Fatalf("put at %d, expected at %d: %v", at, len(all), err)
			}
			all = append(all, piece...)
			from := rapid.IntRange(0, len(all)).Draw(t, "from")
			part := make([]byte, rapid.IntRange(0, len(all)-from).Draw(t, "asked for"))
			if _, err := spool.ReadAt(part, int64(from)); err != nil || !bytes.Equal(part, all[from:from+len(part)]) {
				t.Fatalf("%d bytes from %d did not come back (%v)", len(part), from, err)
			}
		}
		if files, err := os.ReadDir(folder); err != nil || (len(files) > 0) != (memory > 0 && len(all) > memory || len(all) > spoolMemory) {
			t.Fatalf("%d bytes, of which %d in memory: %v, %v", len(all), memory, files, err)
		}
		if read, err := io.ReadAll(spool.Reader()); err != nil || !bytes.Equal(read, all) {
			t.Fatalf("%d bytes of %d were read (%v)", len(read), len(all), err)
		}
		if err := spool.Close(); err != nil {
			t.Fatal(err)
		}
		if files, err := os.ReadDir(folder); err != nil || len(files) > 0 {
			t.Fatal(files, err)
		}
	})
}

// A spool that is in its file holds a block or so, however much is put.
func TestTheMemoryOfASpoolIsBounded(t *testing.T) {
	spool := Scratch{Folder: t.TempDir(), Memory: 4 * blockBytes}.Spool("rows")
	defer spool.Close()
	piece := make([]byte, 1000)
	for spool.end < 12*blockBytes {
		if _, err := spool.Put(piece); err != nil {
			t.Fatal(err)
		}
		held := 0
		for _, block := range spool.held {
			held += cap(block)
		}
		if held > 5*blockBytes || spool.file != nil && held > 2*blockBytes {
			t.Fatalf("%d bytes in memory, %d in the file", held, spool.onDisk)
		}
	}
	if spool.file == nil {
		t.Error("nothing is in the file")
	}
}

// A file that was cut short by another is not taken for the end.
func TestASpoolWhoseFileWasCutShortIsAnError(t *testing.T) {
	folder := t.TempDir()
	spool := Scratch{Folder: folder, Memory: 1}.Spool("rows")
	defer spool.Close()
	if _, err := spool.Put([]byte("all of this")); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(spool.path, 3); err != nil {
		t.Fatal(err)
	}
	if text, err := io.ReadAll(spool.Reader()); err == nil {
		t.Errorf("%q was taken for all", text)
	}
}
