package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"roundmill/ingest"
	"roundmill/plots"
	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"roundmill": main})
}

// A case of the command is a file of testdata/script: what is run, what comes
// out, and the files it works on.
func TestCommand(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/script", UpdateScripts: *update})
}

func TestDemoSeasonIsWhatItsGeneratorWrites(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("a fused multiply-add may change a last printed digit: the season was written on amd64")
	}
	var season bytes.Buffer
	if _, err := golfer.WriteCSV(&season, golfer.Season(golfer.DemoSeed, golfer.Scratch(), golfer.Courses(), golfer.SeasonRounds)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(season.Bytes(), demo.CSV) {
		t.Error("testdata/demo/season.csv is stale: go run ./testdata/demo/generate")
	}
}

// outFiles are the files of a result folder by name.
func outFiles(t *testing.T, folder string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.Walk(folder, func(path string, info os.FileInfo, err error) error {
		if err != nil || info.IsDir() {
			return err
		}
		content, err := os.ReadFile(path)
		name, _ := filepath.Rel(folder, path)
		files[filepath.ToSlash(name)] = string(content)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// writeFile writes a file of a folder, and the folders that it is to lie in.
func writeFile(t *testing.T, folder, name, text string) (path string) {
	t.Helper()
	path = filepath.Join(folder, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func mustRun(t *testing.T, args ...string) {
	t.Helper()
	var messages bytes.Buffer
	if status := run(context.Background(), args, strings.NewReader(""), &bytes.Buffer{}, &messages); status != exitDone {
		t.Fatalf("roundmill %s: exit status %d\n%s", strings.Join(args, " "), status, &messages)
	}
}

func sameFiles(t *testing.T, a, b map[string]string) {
	t.Helper()
	for name := range a {
		if a[name] != b[name] {
			t.Errorf("%s differs (%d and %d bytes)", name, len(a[name]), len(b[name]))
		}
	}
	if len(a) != len(b) {
		t.Errorf("%d files and %d", len(a), len(b))
	}
}

func TestSameInputGivesTheSameBytesOnAnyNumberOfWorkers(t *testing.T) {
	log := filepath.Join(t.TempDir(), "log.csv")
	writeField(t, log, 4, 60)
	one, two, again := filepath.Join(t.TempDir(), "out"), filepath.Join(t.TempDir(), "out"), filepath.Join(t.TempDir(), "out")
	mustRun(t, "--no-charts", "--workers", "1", "-o", one, log)
	mustRun(t, "--no-charts", "--workers", "2", "-o", two, log)
	mustRun(t, "--no-charts", "--workers", "2", "-o", again, log)
	sameFiles(t, outFiles(t, one), outFiles(t, two))
	sameFiles(t, outFiles(t, two), outFiles(t, again))
}

// fieldText is what writeField writes.
func fieldText(t testing.TB, players, rounds int) string {
	t.Helper()
	var text strings.Builder
	if _, err := golfer.WriteCSV(&text, golfer.Field(7, players, rounds)); err != nil {
		t.Fatal(err)
	}
	return text.String()
}

// writeField writes a log of several invented players.
func writeField(t testing.TB, name string, players, rounds int) (shots int) {
	t.Helper()
	file, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	shots, err = golfer.WriteCSV(file, golfer.Field(7, players, rounds))
	if err == nil {
		err = file.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return shots
}

// A log whose lines come in any order gives the same figures.
func TestShuffledLinesGiveTheSameFigures(t *testing.T) {
	lines := strings.SplitAfter(strings.TrimSpace(string(demo.CSV))+"\n", "\n")
	header, body := lines[0], lines[1:len(lines)-1]
	var shuffled strings.Builder
	shuffled.WriteString(header)
	for step, i := 1999, 0; i < len(body); i++ {
		shuffled.WriteString(body[i*step%len(body)])
	}
	if len(body)%1999 == 0 {
		t.Fatal("the step does not reach every line")
	}
	folder := t.TempDir()
	for name, text := range map[string]string{"plain.csv": string(demo.CSV), "shuffled.csv": shuffled.String()} {
		writeFile(t, folder, name, text)
	}
	plain, scattered := filepath.Join(folder, "plain"), filepath.Join(folder, "scattered")
	mustRun(t, "--no-charts", "-o", plain, filepath.Join(folder, "plain.csv"))
	mustRun(t, "--no-charts", "-o", scattered, filepath.Join(folder, "shuffled.csv"))
	a, b := outFiles(t, plain), outFiles(t, scattered)
	for name := range a {
		switch {
		case name == "run.json", name == "tables/costly_shots.parquet", strings.HasPrefix(name, "tables/shots/"): // these name the file and its lines
		case withoutSources(a[name]) != withoutSources(b[name]):
			t.Errorf("%s differs", name)
		}
	}
}

var sourcePlace = regexp.MustCompile(`"source_(file|line)":[^,}]*`)

// withoutSources blanks the names and lines of files in summary.json, so that
// what is left is still JSON.
func withoutSources(text string) string {
	return sourcePlace.ReplaceAllString(text, `"source_$1":0`)
}

func TestInterruptedRunLeavesTheOldResultsAsTheyWere(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	mustRun(t, "--demo", "--no-charts", "-o", out)
	before := outFiles(t, out)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if status := run(ctx, []string{"--demo", "--no-charts", "-o", out}, nil, &bytes.Buffer{}, &bytes.Buffer{}); status != exitInterrupted {
		t.Errorf("exit status %d, expected %d", status, exitInterrupted)
	}
	sameFiles(t, before, outFiles(t, out))
	left, err := os.ReadDir(filepath.Dir(out))
	if err != nil || len(left) != 1 {
		t.Errorf("beside the results there is %v (%v)", left, err)
	}
}

// Whoever writes the input may never end.
func TestARunThatAwaitsItsInputIsInterrupted(t *testing.T) {
	for _, args := range [][]string{{"--no-charts", "-o", "out", "-"}, {"--check", "-"}} {
		t.Chdir(t.TempDir())
		stdin, writer := io.Pipe()
		defer writer.Close()
		ctx, stop := context.WithCancel(t.Context())
		go func() {
			io.WriteString(writer, "date,hole,par,lie,to_hole\n")
			stop()
		}()
		if status := run(ctx, args, stdin, &bytes.Buffer{}, &bytes.Buffer{}); status != exitInterrupted {
			t.Errorf("%q: exit status %d, expected %d", args, status, exitInterrupted)
		}
		if left, err := os.ReadDir("."); err != nil || len(left) > 0 {
			t.Errorf("%q left %v (%v)", args, left, err)
		}
	}
}

func BenchmarkMillion(b *testing.B) {
	log := filepath.Join(b.TempDir(), "log.csv")
	shots := writeField(b, log, 305, 46)
	out := filepath.Join(b.TempDir(), "out")
	for b.Loop() {
		if status := run(context.Background(), []string{"--no-charts", "--quiet", "-o", out, log}, nil, &bytes.Buffer{}, &bytes.Buffer{}); status != exitDone {
			b.Fatal(status)
		}
	}
	b.ReportMetric(float64(shots*b.N)/b.Elapsed().Seconds(), "shots/s")
}

// A note a stroke would fill memory: past so many they are counted.
func TestNotesAreBounded(t *testing.T) {
	s, err := parseSettings([]string{"--demo"})
	if err != nil {
		t.Fatal(err)
	}
	r := &reading{}
	for range 3 {
		if err := r.take(&ingest.Batch{Notes: make([]ingest.Note, mostNotes/2+1)}); err != nil {
			t.Fatal(err)
		}
	}
	lines := r.readAs(s)
	if want := fmt.Sprintf("such notes that are not told one by one: %s", plots.Count(mostNotes/2+3)); len(lines) != mostNotes+1 || lines[mostNotes] != want {
		t.Errorf("%d lines, the last %q, expected %q", len(lines), lines[len(lines)-1], want)
	}
}
