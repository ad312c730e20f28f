//go:build linux

// Speed prints, as Markdown, how long the program takes and how much memory, beside DuckDB and Polars where they can do
// a part of its job: read a generated log with typed columns, find where each shot finished from the next one, work out
// proximity and strokes gained, write all shots to zstd Parquet, and find quantiles of proximity by player, lie and
// yardage band. The program does all else that it does on top of that: it judges the records and finishes every figure.
//
//	go -C testdata/acceptance run ./speed
//	go -C testdata/acceptance run ./speed --hundred
//	go -C testdata/acceptance run ./speed --tables inputs --inputs csv,json --players 10 --rounds 46 --runs 1
//
// Polars takes part where node and nodejs-polars are; npm may leave out the binary of the system, which is then named too:
//
//	npm install --no-save --prefix testdata/acceptance nodejs-polars@0.25.2 nodejs-polars-linux-x64-gnu@0.25.2
//
// Before anything is timed, every side runs once, and all must find the same quantiles. Then sides run in turn, and what
// counts are ratios of pairs, as the medians also show what else the machine was doing. Wall and processor time and the
// peak of resident memory are of the whole process, by the operating system. Ten million shots want 10 GB in TMPDIR and
// 16 GB of memory for the peers, a hundred million 20 GB in TMPDIR; the whole takes some two hours.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// jobs are done in processes of their own, each from a file or folder into another. A process counts in its peak that of
// the one which started it, so that this one has to stay small.
var jobs = map[string]func(from, to string) error{
	"references":   func(_, folder string) error { return writeReferences(folder) },
	"files":        splitIntoFiles,
	"gzip":         pack,
	"json":         writeJSONLines,
	"scattered":    func(log, to string) error { return scatter(log, to, bucketBytes) },
	"duckdb":       duckDB,
	"duckdb-copy":  duckDBCopy,
	"agree-ours":   oursAgrees,
	"agree-theirs": theirsAgrees,
	"agree-copy":   copyAgrees,
}

// settings is the command line.
type settings struct {
	players, rounds, runs int
	tables, inputs        []string
	hundred               bool
}

func main() {
	if len(os.Args) == 4 && jobs[os.Args[1]] != nil {
		failIf(jobs[os.Args[1]](os.Args[2], os.Args[3]))
		return
	}
	var s settings
	flag.IntVar(&s.players, "players", 400, "invented `players` in the log")
	flag.IntVar(&s.rounds, "rounds", 348, "`rounds` of each; 400 players of 348 rounds are about ten million shots")
	flag.IntVar(&s.runs, "runs", 5, "`runs` of each side, after one that does not count")
	tables := flag.String("tables", strings.Join(tableNames, ","), "`tables` to print")
	inputs := flag.String("inputs", strings.Join(inputNames, ","), "`inputs` that the table of inputs has")
	flag.BoolVar(&s.hundred, "hundred", false, "let the table of growth go on to ten times the players, through a pipe, once")
	flag.Parse()
	s.tables, s.inputs = strings.Split(*tables, ","), strings.Split(*inputs, ",")
	failIf(s.check())
	failIf(s.print())
}

func failIf(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "speed:", err)
		os.Exit(1)
	}
}

// check says what is wrong with the command line.
func (s *settings) check() error {
	if s.players < 1 || s.rounds < 1 || s.runs < 1 {
		return errors.New("expected at least one player, one round and one run")
	}
	for _, list := range []struct {
		flag         string
		given, known []string
	}{{"--tables", s.tables, tableNames}, {"--inputs", s.inputs, inputNames}} {
		for _, name := range list.given {
			if !slices.Contains(list.known, name) {
				return fmt.Errorf("%s %q: expected some of %s", list.flag, name, strings.Join(list.known, ","))
			}
		}
	}
	return nil
}

// tableNames are what can be printed, in that order.
var tableNames = []string{"inputs", "growth", "demo"}

// print measures and prints the tables.
func (s *settings) print() error {
	folder, err := os.MkdirTemp("", "roundmill-speed-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	self, err := os.Executable()
	if err != nil {
		return err
	}
	b := &bench{folder, self, *s}
	for _, binary := range []struct{ name, source string }{{"roundmill", "."}, {"generate", "./testdata/demo/generate"}} {
		build := exec.Command("go", "build", "-o", b.path(binary.name), binary.source)
		build.Dir = filepath.Join("..", "..")
		if said, err := build.CombinedOutput(); err != nil {
			return fmt.Errorf("%v: %w\n%s", build.Args, err, said)
		}
	}
	fmt.Print(heading(os.Args[1:]))
	for _, table := range []struct {
		name  string
		print func(*bench) error
	}{{"inputs", (*bench).inputs}, {"growth", (*bench).growth}, {"demo", (*bench).demo}} {
		if !slices.Contains(s.tables, table.name) {
			continue
		}
		if err := table.print(b); err != nil {
			return err
		}
	}
	return nil
}

// A bench is where everything happens: in the folder are the binaries, the inputs, and what the sides make of them.
type bench struct {
	folder string
	self   string // the binary that does the jobs
	settings
}

func (b *bench) path(name string) string { return filepath.Join(b.folder, name) }

// do does a job in a process of its own and returns what it printed.
func (b *bench) do(job, from, to string) (string, error) {
	said, err := exec.Command(b.self, job, from, to).CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%s: %w\n%s", job, err, said)
	}
	return string(said), nil
}

// generate is the command that writes the log of some players to a file, or to standard output for "-".
func (b *bench) generate(players int, to string) *exec.Cmd {
	return exec.Command(b.path("generate"), "--players", strconv.Itoa(players), "--rounds", strconv.Itoa(b.rounds), "--out", to)
}

// log is the log of some players, written once.
func (b *bench) log(players int) (string, error) {
	log := b.path(fmt.Sprintf("log-%d.csv", players))
	if _, err := os.Stat(log); err == nil {
		return log, nil
	}
	command := b.generate(players, log)
	if said, err := command.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%v: %w\n%s", command.Args, err, said)
	}
	return log, nil
}
