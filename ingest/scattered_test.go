package ingest

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"roundmill/ingest/disk"
	"roundmill/testdata/demo/golfer"
)

// round is a log of one round of so many holes, each a par 3 in three.
func roundLog(date string, from, to int) string {
	text := ""
	for hole := from; hole <= to; hole++ {
		text += fmt.Sprintf("%s,%d,3,1,tee,150,,,,,,\n%s,%d,3,2,green,20,,,,,,\n%s,%d,3,3,green,2,,,,,,\n", date, hole, date, hole, date, hole)
	}
	return text
}

// parsedLog is the records of a plain log without its header.
func parsedLog(t *testing.T, text string) *rows {
	t.Helper()
	p := newRecordParser(&file{name: "f", dates: yearFirst}, 0, DefaultLies(), NoUnit)
	h, err := matchHeader(strings.Split(strings.TrimSpace(plainHeader), ","), nil)
	if err != nil {
		t.Fatal(err)
	}
	(&file{dialect: dialect{',', '\n'}, meanings: h.meanings}).feed([]byte(text), 1, p)
	p.rows.trim()
	return p.rows
}

func openFiles(t *testing.T, options Options, files map[string]string) *Reader {
	t.Helper()
	folder := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	options.Scratch.Folder = t.TempDir()
	reader, err := Open(t.Context(), []string{folder}, nil, options)
	if err != nil {
		t.Fatal(err)
	}
	return reader
}

func TestARoundOverTwoFilesIsOneRound(t *testing.T) {
	o := readAll(t, openFiles(t, Options{}, map[string]string{
		"back.csv": plainHeader + roundLog("2026-05-01", 10, 18), "front.csv": plainHeader + roundLog("2026-05-01", 1, 9),
	}))
	if o.rounds != 1 || o.tally.Kept != 54 || len(o.rejects) > 0 {
		t.Errorf("%d rounds, %+v, %v", o.rounds, o.tally, o.rejects)
	}
	if got := strings.Join(o.column("hole")[:7], " "); got != "1 1 1 2 2 2 3" {
		t.Errorf("holes %s ...", got)
	}
}

func TestTheSameRoundInTwoFilesIsKeptOnce(t *testing.T) {
	log := plainHeader + roundLog("2026-05-01", 1, 9)
	o := readAll(t, openFiles(t, Options{}, map[string]string{"a.csv": log, "b.csv": log}))
	if o.rounds != 1 || o.tally.Kept != 27 || o.tally.Repeated != 27 || len(o.rejects) > 0 || len(o.notes) != 1 {
		t.Errorf("%d rounds, %+v, %v, %v", o.rounds, o.tally, o.rejects, o.notes)
	}
}

func TestARoundThatTwoFilesTellDifferentlyNamesBothPlaces(t *testing.T) {
	log := plainHeader + roundLog("2026-05-01", 1, 1)
	o := readAll(t, openFiles(t, Options{}, map[string]string{"a.csv": log, "b.csv": strings.Replace(log, "green,20", "green,21", 1)}))
	if len(o.rejects) != 1 || !strings.Contains(o.rejects[0], "b.csv:3") || !strings.Contains(o.rejects[0], "a.csv:3") {
		t.Errorf("%v", o.rejects)
	}
}

// Holes in any order, shots in any order.
func TestShotgunStartsComeInOrder(t *testing.T) {
	o := readLog(t, "log.csv", plainHeader+roundLog("2026-05-01", 7, 9)+roundLog("2026-05-01", 1, 6), Options{})
	if holes := o.column("hole"); strings.Join(holes[:4], " ") != "1 1 1 2" || o.rounds != 1 || len(o.rejects) > 0 {
		t.Errorf("%v %v", holes, o.rejects)
	}
}

// season is the demo season with many copies a year apart: longer than a chunk.
func longLog(t testing.TB, rounds int) []byte {
	t.Helper()
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Season(3, golfer.Scratch(), golfer.Courses(), rounds)); err != nil {
		t.Fatal(err)
	}
	return log.Bytes()
}

// A log longer than a chunk comes out the same on any number of workers, with
// rounds whole, and the same again when it is read as if rounds were scattered.
func TestChunkBordersAndWorkersDoNotShow(t *testing.T) {
	log := longLog(t, 900)
	if len(log) < 2*defaultChunkBytes {
		t.Fatalf("%d bytes are not over two chunks", len(log))
	}
	columns := func(options Options) (all string, rounds int) {
		o := readLog(t, "log.csv", string(log), options)
		if len(o.rejects) > 0 {
			t.Fatal(o.rejects[0])
		}
		for _, field := range RawSchema.Fields() {
			all += strings.Join(o.column(field.Name), " ")
		}
		return all, o.rounds
	}
	one, rounds := columns(Options{Workers: 1})
	three, _ := columns(Options{Workers: 3})
	if rounds != 900 || one != three {
		t.Errorf("%d rounds, expected 900; workers show: %v", rounds, one != three)
	}
	gathered := readLog(t, "log.csv", string(log), Options{Gather: true})
	if gathered.rounds != 900 || gathered.tally.Kept != int64(len(gathered.column("hole"))) {
		t.Errorf("gathered: %d rounds, %+v", gathered.rounds, gathered.tally)
	}
}

func TestScatteredRoundsAreSaid(t *testing.T) {
	log := plainHeader + roundLog("2026-05-01", 1, 1) + roundLog("2026-05-02", 1, 1) + roundLog("2026-05-01", 2, 2)
	reader, err := OpenText("log.csv", []byte(log), Options{})
	if err != nil {
		t.Fatal(err)
	}
	scattered := false
	for _, err := range reader.Rounds(context.Background()) {
		scattered = scattered || errors.Is(err, ErrScattered)
	}
	if !scattered {
		t.Error("scattered rounds were not noticed")
	}
	if o := readAll(t, reader.Again()); o.rounds != 2 || o.tally.Kept != 9 || len(o.rejects) > 0 {
		t.Errorf("gathered: %d rounds, %+v, %v", o.rounds, o.tally, o.rejects)
	}
}

// Two rounds whose hashes are one are read the slower way, and come out the
// same. Partitions that no bit can divide are loaded whole.
func TestRoundsWhoseHashesAreOneAreToldApart(t *testing.T) {
	log := plainHeader
	for day := 1; day <= 9; day++ {
		log += roundLog(fmt.Sprintf("2026-05-0%d", day), 1, 3)
	}
	read := func(hash roundHash) (o outcome, scattered bool) {
		reader, err := OpenText("log.csv", []byte(log), Options{Scratch: disk.Scratch{Folder: t.TempDir()}})
		if err != nil {
			t.Fatal(err)
		}
		reader.hash, reader.partRecords = hash, 10
		for _, err := range reader.Rounds(context.Background()) {
			scattered = scattered || errors.Is(err, ErrScattered)
		}
		return readAll(t, reader.Afresh()), scattered
	}
	plain, scattered := read(hashRound)
	if scattered || plain.rounds != 9 || plain.tally.Kept != 81 {
		t.Fatalf("%d rounds, scattered: %v, %+v", plain.rounds, scattered, plain.tally)
	}
	same, scattered := read(func([]byte) uint64 { return 7 })
	if !scattered || plain.everything() != same.everything() {
		t.Errorf("scattered: %v, %d rounds, %+v", scattered, same.rounds, same.tally)
	}
}

func TestTheHashOfARoundTakesNoMemory(t *testing.T) {
	var key []byte
	p := parsedLog(t, roundLog("2026-05-01", 1, 1))
	if n := testing.AllocsPerRun(100, func() {
		key = p.appendRoundKey(key[:0], 0)
		hashRound(key)
	}); n > 0 {
		t.Errorf("%v allocations a round", n)
	}
}

// Reading that is given up while records are on disk leaves nothing behind.
func TestGatheringThatIsInterruptedLeavesNoFile(t *testing.T) {
	scratch := t.TempDir()
	for stopAt := 1; stopAt <= 40; stopAt += 3 {
		reader, err := OpenText("log.csv", longLog(t, 40), Options{Workers: 2, Scratch: disk.Scratch{Folder: scratch}, Gather: true})
		if err != nil {
			t.Fatal(err)
		}
		reader.options.Scratch.Memory = 100
		reader.limits = limits{chunkBytes: 10_000, runRecords: 50, partRecords: 500}
		ctx, stop := context.WithCancel(context.Background())
		taken, onDisk := 0, false
		for _, err = range reader.Rounds(ctx) {
			files, _ := os.ReadDir(scratch)
			onDisk = onDisk || len(files) > 0
			if taken++; taken == stopAt {
				stop()
			}
		}
		stop()
		if stopAt > 4 && !onDisk {
			t.Error("nothing was on disk")
		}
		if taken >= stopAt && stopAt < 30 && !errors.Is(err, context.Canceled) {
			t.Errorf("stopped after %d batches: %v", taken, err)
		}
		if files, _ := os.ReadDir(scratch); len(files) > 0 {
			t.Errorf("stopped after %d batches: %d files are left", taken, len(files))
		}
	}
}
