//go:build linux

// Speed sets the program against DuckDB and Polars on a job that all three can do: read a generated log with typed
// columns, find where each shot finished from the next one, work out proximity and strokes gained, write all shots to
// zstd Parquet, and find quantiles of proximity by player, lie and yardage band. The program does all else that it does
// on top of that: it judges the records and finishes every figure.
//
//	go -C testdata/acceptance run ./speed
//
// Polars takes part where node and nodejs-polars are:
//
//	npm install --no-save --prefix testdata/acceptance nodejs-polars@0.25.2
//
// It fails unless all sides find the same quantiles. Runs alternate; what counts are ratios of pairs, as the medians
// also show what else the machine was doing. Peaks are of the whole process, by the operating system.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"syscall"
	"time"
)

// threads are those that each side may use.
const threads = 2

// A side is one of the contestants: what it runs on the log, and the folder that the run fills.
type side struct {
	name string
	args []string
	out  string
	runs []run
}

// A run is what one process took.
type run struct{ wall, cpu, peakMiB float64 }

func main() {
	if len(os.Args) == 4 && os.Args[1] == "duckdb" {
		failIf(duckDB(os.Args[2], os.Args[3]))
		return
	}
	players := flag.Int("players", 305, "invented players in the log")
	rounds := flag.Int("rounds", 46, "rounds of each; 305 players of 46 rounds are about a million shots")
	repeats := flag.Int("runs", 5, "runs of each side, after one that does not count")
	flag.Parse()
	failIf(compare(*players, *rounds, *repeats))
}

func failIf(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "speed:", err)
		os.Exit(1)
	}
}

func compare(players, rounds, repeats int) error {
	scratch, err := os.MkdirTemp("", "roundmill-speed-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	within := func(name string) string { return filepath.Join(scratch, name) }
	log := within("log.csv")
	for _, command := range [][]string{
		{"go", "build", "-o", within("roundmill"), "."},
		{"go", "run", "./testdata/demo/generate", "--players", strconv.Itoa(players), "--rounds", strconv.Itoa(rounds), "--out", log},
	} {
		build := exec.Command(command[0], command[1:]...)
		build.Dir = filepath.Join("..", "..")
		if said, err := build.CombinedOutput(); err != nil {
			return fmt.Errorf("%v: %w\n%s", command, err, said)
		}
	}
	if err := writeReferences(scratch); err != nil {
		return err
	}
	self, err := os.Executable()
	if err != nil {
		return err
	}
	sides := []*side{
		{name: "roundmill", args: []string{within("roundmill"), "--no-charts", "--quiet", "--out", within("ours"), log}, out: within("ours")},
		{name: "DuckDB", args: []string{self, "duckdb", log, within("duckdb")}, out: within("duckdb")},
	}
	if polars := []string{"node", filepath.Join("speed", "polars.mjs"), log, within("polars")}; exec.Command("node", polars[1], "--there").Run() == nil {
		sides = append(sides, &side{name: "Polars", args: polars, out: within("polars")})
	} else {
		fmt.Println("Polars does not take part: node or nodejs-polars is not there.")
	}
	for repeat := range repeats + 1 {
		for _, s := range sides {
			took, err := s.run()
			if err != nil {
				return err
			}
			if repeat > 0 {
				s.runs = append(s.runs, took)
			}
		}
	}
	if err := agree(sides, within("ours")); err != nil {
		return err
	}
	info, err := os.Stat(log)
	if err != nil {
		return err
	}
	report(sides, info.Size())
	return nil
}

// run runs the side once, in a folder that is empty.
func (s *side) run() (run, error) {
	if err := os.RemoveAll(s.out); err != nil {
		return run{}, err
	}
	if s.name != "roundmill" { // which makes its own
		if err := os.Mkdir(s.out, 0o755); err != nil {
			return run{}, err
		}
	}
	command := exec.Command(s.args[0], s.args[1:]...)
	command.Env = append(os.Environ(), "POLARS_MAX_THREADS="+strconv.Itoa(threads), "GOMAXPROCS="+strconv.Itoa(threads))
	start := time.Now()
	said, err := command.CombinedOutput()
	if err != nil {
		return run{}, fmt.Errorf("%s: %w\n%s", s.name, err, said)
	}
	state := command.ProcessState
	return run{
		wall: time.Since(start).Seconds(), cpu: (state.UserTime() + state.SystemTime()).Seconds(),
		peakMiB: float64(state.SysUsage().(*syscall.Rusage).Maxrss) / 1024,
	}, nil
}

// report prints medians, and medians of the ratios of pairs.
func report(sides []*side, bytes int64) {
	ours := sides[0]
	fmt.Printf("%s, %d processors, a log of %.0f MB, medians of %d runs in turn; ratios are ours over theirs, pair by pair\n",
		time.Now().Format(time.DateOnly), runtime.NumCPU(), float64(bytes)/1e6, len(ours.runs))
	fmt.Printf("%-10s %8s %8s %8s %8s %8s %8s\n", "", "wall s", "CPU s", "peak MiB", "wall", "CPU", "peak")
	for _, s := range sides {
		fmt.Printf("%-10s", s.name)
		for _, of := range []func(run) float64{wallOf, cpuOf, peakOf} {
			fmt.Printf(" %8.2f", median(s.runs, of))
		}
		for _, of := range []func(run) float64{wallOf, cpuOf, peakOf} {
			var ratios []float64
			for i := range s.runs {
				ratios = append(ratios, of(ours.runs[i])/of(s.runs[i]))
			}
			fmt.Printf(" %8.2f", median(ratios, func(r float64) float64 { return r }))
		}
		fmt.Println()
	}
}

func wallOf(r run) float64 { return r.wall }
func cpuOf(r run) float64  { return r.cpu }
func peakOf(r run) float64 { return r.peakMiB }

func median[V any](values []V, of func(V) float64) float64 {
	sorted := slices.SortedFunc(slices.Values(values), func(a, b V) int { return cmp.Compare(of(a), of(b)) })
	return (of(sorted[(len(sorted)-1)/2]) + of(sorted[len(sorted)/2])) / 2
}
