package ingest

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roundmill/ingest/disk"
	"roundmill/testdata/demo"
)

// A log with something wrong in every few lines, so that borders fall on it.
func damagedLog(t *rapid.T) string {
	lines := strings.SplitAfter(string(demo.CSV[:15000]), "\n")
	lines = lines[:len(lines)-1]
	for i := 1; i < len(lines); i++ {
		if rapid.IntRange(0, 5).Draw(t, "damage") > 0 {
			continue
		}
		lines[i] = rapid.SampledFrom([]func(string) string{
			func(line string) string { return "x" + line },                               // no date
			func(line string) string { return strings.Replace(line, "Common,", ",", 1) }, // another course, a column short
			func(line string) string { return strings.TrimSuffix(line, "\n") + ",,x\n" }, // too long
			func(line string) string { return `"` + line },                               // a stray quote
			func(line string) string { return "\n" },
			func(line string) string { return line + line },
			func(line string) string { return strings.Replace(line, "green", "gren", 1) },
			func(line string) string { return strings.TrimSuffix(line, "\n") + "\"a\n\nb\"\n" },
			func(line string) string { return "" },
		}).Draw(t, "how")(lines[i])
	}
	return strings.Join(lines, "")
}

// everything that came out, as text.
func (o outcome) everything() string {
	var b strings.Builder
	for _, field := range RawSchema.Fields() {
		b.WriteString(field.Name + ": " + strings.Join(o.column(field.Name), "|") + "\n")
	}
	b.WriteString(strings.Join(o.rejects, "\n") + strings.Join(o.notes, "\n"))
	return b.String()
}

func TestWhereAFileIsCutDoesNotShow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := []byte(damagedLog(t))
		whole := readInPieces(t, log, defaultChunkBytes)
		pieces := readInPieces(t, log, rapid.IntRange(1, 3000).Draw(t, "bytes in a chunk"))
		if whole.tally != pieces.tally || slices.Compare(slices.Sorted(slices.Values(whole.rejects)), slices.Sorted(slices.Values(pieces.rejects))) != 0 {
			t.Fatalf("whole %+v, in pieces %+v\n%s\n%s", whole.tally, pieces.tally, strings.Join(whole.rejects, "\n"), strings.Join(pieces.rejects, "\n"))
		}
		for _, field := range RawSchema.Fields() {
			if whole, pieces := whole.column(field.Name), pieces.column(field.Name); !slices.Equal(whole, pieces) {
				t.Fatalf("%s differs\n%v\n%v", field.Name, whole, pieces)
			}
		}
	})
}

func TestTheNumberOfWorkersDoesNotShow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := []byte(damagedLog(t))
		chunk := rapid.IntRange(100, 3000).Draw(t, "bytes in a chunk")
		read := func(workers int) string {
			reader, err := OpenText("log", log, Options{Workers: workers})
			if err != nil {
				t.Fatal(err)
			}
			reader.chunkBytes = chunk
			return readAll(t, reader).everything()
		}
		if one, many := read(1), read(rapid.IntRange(2, 9).Draw(t, "workers")); one != many {
			t.Fatalf("%s\n%s", one, many)
		}
	})
}

// byRound are the kept records as lines of text, whichever order the rounds
// came in.
func (o outcome) byRound() []string {
	records := make([]string, o.tally.Kept)
	for _, field := range RawSchema.Fields() {
		if field.Name == SourceLine {
			continue
		}
		for row, value := range o.column(field.Name) {
			records[row] += value + ","
		}
	}
	slices.Sort(records)
	return records
}

// Where shots are numbered, the lines of a log may stand in any order, in any
// number of files, in memory or on disk.
func TestShuffledLinesGiveTheSameRecords(t *testing.T) {
	scratch := t.TempDir()
	head, text, _ := strings.Cut(string(demo.CSV), "\n")
	lines := strings.SplitAfter(strings.TrimSuffix(text, "\n"), "\n")[:600]
	inOrder := readLog(t, "log", head+"\n"+strings.Join(lines, ""), Options{})
	rapid.Check(t, func(rt *rapid.T) {
		random := rand.New(rand.NewPCG(1, rapid.Uint64().Draw(rt, "seed")))
		random.Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
		reader, err := OpenText("log", []byte(head+"\n"+strings.Join(lines, "")), Options{Scratch: disk.Scratch{Folder: scratch}})
		if err != nil {
			rt.Fatal(err)
		}
		reader.chunkBytes = rapid.IntRange(500, 50000).Draw(rt, "bytes in a chunk")
		reader.runRecords = rapid.SampledFrom([]int{1, 90, 1 << 20}).Draw(rt, "records in a run")
		reader.options.Scratch.Memory = rapid.SampledFrom([]int{1, 10_000, 1 << 20}).Draw(rt, "held")
		reader.partRecords = rapid.SampledFrom([]int{0, 100, 1 << 20}).Draw(rt, "records in a partition")
		shuffled := readAll(rt, reader)
		if len(shuffled.rejects) > 0 || !slices.Equal(shuffled.byRound(), inOrder.byRound()) {
			rt.Fatalf("%+v, in order %+v, %q", shuffled.tally, inOrder.tally, shuffled.rejects)
		}
		if left, _ := os.ReadDir(scratch); len(left) > 0 {
			rt.Fatalf("%d temporary files are left", len(left))
		}
	})
}

// Past the limit, gathered records are on disk while the rest is read.
func TestGatheringSpillsPastItsLimit(t *testing.T) {
	scratch := t.TempDir()
	read := func(held int) (o outcome, onDisk int) {
		reader, err := OpenText("log", demo.CSV, Options{Scratch: disk.Scratch{Folder: scratch}, Gather: true})
		if err != nil {
			t.Fatal(err)
		}
		reader.chunkBytes, reader.options.Scratch.Memory = 20000, held
		for rounds, err := range reader.Rounds(context.Background()) {
			if err != nil {
				t.Fatal(err)
			}
			files, _ := os.ReadDir(scratch)
			onDisk = max(onDisk, len(files))
			o.take(rounds.Check())
		}
		return o, onDisk
	}
	inMemory, none := read(1 << 20)
	spilled, some := read(500)
	if none != 0 || some == 0 {
		t.Errorf("%d files where all is held, %d past the limit", none, some)
	}
	if inMemory.everything() != spilled.everything() {
		t.Error("what was on disk came back changed")
	}
	if left, _ := os.ReadDir(scratch); len(left) > 0 {
		t.Errorf("%d temporary files are left", len(left))
	}
	reader, err := OpenText("log", demo.CSV, Options{Scratch: disk.Scratch{Folder: scratch + "/missing"}, Gather: true})
	if err != nil {
		t.Fatal(err)
	}
	reader.options.Scratch.Memory = 1
	for _, err = range reader.Rounds(context.Background()) {
	}
	if !errors.Is(err, os.ErrNotExist) {
		t.Errorf("without a folder to spill to: %v", err)
	}
}

func TestReadingStopsWithItsContextInTheMiddleOfAFile(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	reader, err := OpenText("log.csv", demo.CSV, Options{Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	reader.chunkBytes = 500
	batches := 0
	for _, err = range reader.Rounds(ctx) {
		if batches++; batches == 3 {
			stop()
		}
	}
	if !errors.Is(err, context.Canceled) {
		t.Errorf("after %d batches: %v", batches, err)
	}
}

func TestReadingStopsWithAContextThatHasEnded(t *testing.T) {
	reader, err := OpenText("log.csv", []byte(plainHeader+goodHole), Options{})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	for _, err := range reader.Rounds(ctx) {
		if errors.Is(err, context.Canceled) {
			return
		}
	}
	t.Error("a stopped reader ends without an error")
}
