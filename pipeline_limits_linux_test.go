package main

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Input far beyond what a log can be is refused with the limit named, and takes
// no more memory than a usual run.
func TestInputBeyondTheLimitsIsRefusedInBoundedMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("reads files of 100 MB and measures memory")
	}
	const hundred = 100 << 20
	header := "date,course,hole,par,shot,lie,to_hole\n"
	hole := "2026-05-31,Here,1,3,1,tee,150\n2026-05-31,Here,1,3,2,green,9\n"
	for _, c := range []struct {
		name, start, repeated string
		bytes                 int
		end, want             string
		kept                  bool // other records count
	}{
		{"a line of 100 MB", header + hole + "2026-05-31,Here,2,3,1,", "x", hundred, ",150\n" + strings.ReplaceAll(hole, ",1,3", ",3,3"), "log:4: expected a line of at most 1 MiB", true},
		{"a quoted cell of 100 MB", header + hole + `2026-05-31,"`, "x", hundred, "\"\n", "log:4: expected a line of at most 1 MiB", true},
		{"a header of 100 MB", "date,hole,", "x", hundred, "\n" + hole, "expected a header within the first 64 KiB", false},
		{"100,000 columns", "date", ",x", 200_000, "\n" + hole, "expected a header within the first 64 KiB: a line of column names, at most 2000", false},
		{"2,001 columns", "date", ",x", 4000, "\n" + hole, "more than 2000 columns", false},
		{"arrays 100,000 deep", "", "[", 100_000, "", "expected JSON, exceeded max depth", false},
		{"objects 100,000 deep", "", `{"holes":[`, 1_000_000, "", "expected JSON, exceeded max depth", false},
		{"arrays 1,000 deep", "", "[", 1000, strings.Repeat("]", 1000), "expected at most 16 levels of nesting", false},
		{"a line of JSON of 100 MB", `{"date":"2026-05-31"}` + "\n" + `{"note":"`, "x", hundred, `"}`, "a line of more than 64 MiB", false},
		{"one JSON value of 100 MB", `[{"note":"`, "x", hundred, `"}]`, "one element of more than 64 MiB", false},
		{"100 MB of blank lines", "", "\n", hundred, "", "", false},
		{"100 MB of blank lines in JSON", "[", "\n", hundred, "]", "", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			name := filepath.Join(t.TempDir(), "log")
			file, err := os.Create(name)
			if err != nil {
				t.Fatal(err)
			}
			out := bufio.NewWriterSize(file, 1<<20)
			out.WriteString(c.start)
			for range c.bytes / len(c.repeated) {
				out.WriteString(c.repeated)
			}
			out.WriteString(c.end)
			if err := out.Flush(); err != nil {
				t.Fatal(err)
			}
			file.Close()
			cmd, said := command("--no-charts", "-o", filepath.Join(t.TempDir(), "out"), name)
			cmd.Run()
			status := exitRejected
			if c.kept {
				status = exitDone
			}
			if got := cmd.ProcessState.ExitCode(); got != status || !strings.Contains(said.String(), c.want) {
				t.Errorf("exit status %d, expected %d and %q:\n%.2000s", got, status, c.want, said)
			}
			peak := cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss >> 10
			t.Logf("peak %d MiB, %.300s", peak, said)
			if peak > 512 {
				t.Errorf("took %d MiB", peak)
			}
		})
	}
}
