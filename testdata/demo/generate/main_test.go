package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"roundmill/testdata/demo"
)

func TestWithoutFlagsTheDemoSeasonIsWritten(t *testing.T) {
	file := filepath.Join(t.TempDir(), "season.csv")
	var stdout, stderr bytes.Buffer
	if status := run([]string{"--out", file}, &stdout, &stderr); status != 0 || stdout.Len() > 0 || stderr.Len() > 0 {
		t.Fatalf("status %d, stdout %q, stderr %q", status, &stdout, &stderr)
	}
	got, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, demo.CSV) {
		t.Error("season.csv is stale: go run ./testdata/demo/generate")
	}
}

func TestADashWritesPlayersAndRoundsToStandardOutput(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run([]string{"--players", "3", "--rounds", "2", "--out", "-"}, &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	rounds := map[string]bool{}
	for _, line := range strings.Split(strings.TrimSpace(stdout.String()), "\n")[1:] {
		fields := strings.Split(line, ",")
		rounds[fields[1]+" "+fields[6]] = true
	}
	if len(rounds) != 6 {
		t.Errorf("rounds %v, want two of each of three players", rounds)
	}
}

func TestAWrongCommandLineIsRefusedAndAFailureReported(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
	}{
		{[]string{"--rounds", "0"}, 2},
		{[]string{"--players", "-1"}, 2},
		{[]string{"season.csv"}, 2},
		{[]string{"--holes", "9"}, 2},
		{[]string{"--help"}, 0},
		{[]string{"--out", filepath.Join(t.TempDir(), "missing", "season.csv")}, 1},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status {
			t.Errorf("%q: status %d, want %d", test.args, status, test.status)
		}
		if stderr.Len() == 0 || stdout.Len() > 0 {
			t.Errorf("%q: stdout %q, stderr %q", test.args, &stdout, &stderr)
		}
	}
}
