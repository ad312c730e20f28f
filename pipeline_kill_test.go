package main

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"
)

// command is the program as a process of its own: TestMain put it on the path.
func command(args ...string) (*exec.Cmd, *bytes.Buffer) {
	cmd := exec.Command("roundmill", args...)
	said := &bytes.Buffer{}
	cmd.Stderr = said
	return cmd, said
}

// standing are the files of the folder at out. On Windows, where the swap takes two
// steps, a run that dies between them leaves them aside, and the next one puts them
// back.
func standing(t *testing.T, out string) map[string]string {
	t.Helper()
	if _, err := os.Stat(out); err != nil && runtime.GOOS == "windows" {
		asides, err := filepath.Glob(filepath.Join(filepath.Dir(out), ".out.roundmill-*", "old"))
		if err != nil || len(asides) != 1 {
			t.Fatalf("no results stand at their place, and aside there are %v (%v)", asides, err)
		}
		out = asides[0]
	}
	return outFiles(t, out)
}

var leftover = regexp.MustCompile(`^\.out\.roundmill-([0-9]+-[0-9]+|lock)$`)

// A run that is killed, at whatever moment, leaves the folder of the results as
// it was or as it was to be, byte for byte. What it leaves beside it is known by
// its name and gone after the next run.
func TestAKilledRunLeavesTheOldFolderOrTheNew(t *testing.T) {
	kills := 200
	if testing.Short() {
		kills = 10
	}
	folder := t.TempDir()
	log := filepath.Join(folder, "log.csv")
	writeField(t, log, 1, 6)
	place := filepath.Join(folder, "place")
	out := filepath.Join(place, "out")
	args := func(seed string) []string { return []string{"--quiet", "--no-charts", "--seed", seed, "-o", out, log} }
	var longest time.Duration
	wanted := map[string]map[string]string{}
	for _, seed := range []string{"1", "2"} {
		started := time.Now()
		mustRun(t, args(seed)...)
		longest = max(longest, time.Since(started))
		wanted[seed] = outFiles(t, out)
	}
	stands, swapped, untidy, finished := "2", 0, 0, 0
	for kill := 0; kill-finished < kills && kill < 10*kills; kill++ { // those that came too late do not count
		next := map[string]string{"1": "2", "2": "1"}[stands]
		cmd, said := command(args(next)...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if kill%2 == 0 {
			time.Sleep(rand.N(longest * 5 / 4))
		} else { // near the end, when the last file is there
			for started := time.Now(); !exists(place, fmt.Sprintf(".out.roundmill-%d-*/new/run.json", cmd.Process.Pid)) && time.Since(started) < 2*longest; {
				time.Sleep(time.Millisecond)
			}
			time.Sleep(rand.N(8 * time.Millisecond))
		}
		cmd.Process.Kill()
		if cmd.Wait() == nil {
			finished++
		}
		if said.Len() > 0 {
			t.Errorf("the killed run said %s", said)
		}
		found := standing(t, out)
		switch {
		case maps.Equal(found, wanted[stands]):
		case maps.Equal(found, wanted[next]):
			stands = next
			swapped++
		default:
			t.Fatalf("kill %d: the folder is neither the old one nor the new one: %d files", kill, len(found))
		}
		entries, err := os.ReadDir(place)
		if err != nil {
			t.Fatal(err)
		}
		for _, entry := range entries {
			if entry.Name() != "out" && !leftover.MatchString(entry.Name()) {
				t.Errorf("kill %d left %s", kill, entry.Name())
			}
		}
		if len(entries) > 1 {
			untidy++
		}
		if len(entries) > 3 {
			t.Errorf("leftovers pile up: %v", entries)
		}
	}
	t.Logf("%d kills: %d saw the new results, %d left something beside them; %d came too late", kills, swapped-finished, untidy, finished)
	if untidy < kills/4 {
		t.Error("few kills met a run at work")
	}
	mustRun(t, args("1")...)
	sameFiles(t, wanted["1"], outFiles(t, out))
	nothingBeside(t, out)
}

func exists(folder, pattern string) bool {
	found, err := filepath.Glob(filepath.Join(folder, pattern))
	return err == nil && len(found) > 0
}

// A second process refuses while the first is at work, and not once it is gone,
// though it was killed.
func TestASecondProcessWaitsForNoLock(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	mustRun(t, "--demo", "--quiet", "--no-charts", "-o", out)
	before := outFiles(t, out)
	first, _ := command("--quiet", "-o", out, "-")
	input, err := first.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := first.Start(); err != nil {
		t.Fatal(err)
	}
	for !exists(filepath.Dir(out), ".out.roundmill-*/scratch/stdin-*") {
		time.Sleep(time.Millisecond)
	}
	second, said := command("--demo", "--quiet", "-o", out)
	if err := second.Run(); second.ProcessState.ExitCode() != exitFailed || !strings.Contains(said.String(), "another run is writing there (process ") {
		t.Errorf("the second run: %v, %s", err, said)
	}
	sameFiles(t, before, outFiles(t, out))
	first.Process.Kill()
	first.Wait()
	input.Close()
	third, said := command("--demo", "--quiet", "--no-charts", "-o", out)
	if err := third.Run(); err != nil {
		t.Errorf("the third run: %v, %s", err, said)
	}
	sameFiles(t, before, outFiles(t, out))
	nothingBeside(t, out)
}
