//go:build linux

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
)

// A pair is the program beside a peer, or beside itself, on one input: a line of the table.
type pair struct {
	input        string
	ours, theirs *side
}

// inputs prints the table of the same rows in several inputs.
func (b *bench) inputs() error {
	log, err := b.log(b.players)
	if err != nil {
		return err
	}
	if _, err := b.do("references", "", b.folder); err != nil {
		return err
	}
	if _, err := b.do("duckdb", log, b.path("reference")); err != nil {
		return err
	}
	polars := exec.Command("node", polarsScript, "--there").Run() == nil
	size, err := measureLog(log)
	if err != nil {
		return err
	}
	fmt.Print(inputsHeading(size, b.players, b.rounds, b.runs, polars))
	var agreements []string
	for _, name := range b.settings.inputs {
		agreed, err := b.input(name, log, polars)
		if err != nil {
			return err
		}
		agreements = append(agreements, agreed...)
	}
	fmt.Print(agreed(agreements))
	return nil
}

// input writes the log in another way, measures all that is set beside each other on it, and prints it as lines of the
// table. It returns in what the sides agree.
func (b *bench) input(name, log string, polars bool) (agreements []string, err error) {
	input := log
	if name != "csv" {
		input = b.path(inputFiles[name])
		defer os.RemoveAll(input)
		if _, err := b.do(name, log, input); err != nil {
			return nil, err
		}
	}
	pairs, err := b.pairs(name, input, log, polars)
	if err != nil {
		return nil, err
	}
	var sides []*side
	for _, p := range pairs {
		for _, s := range []*side{p.ours, p.theirs} {
			if !slices.Contains(sides, s) {
				sides = append(sides, s)
			}
		}
	}
	for _, s := range sides {
		if _, err := s.run(nil); err != nil {
			return nil, err
		}
		if s.agrees == "" {
			continue
		}
		with := b.path("reference")
		if s.agrees == "agree-copy" {
			with = log
		}
		said, err := b.do(s.agrees, with, s.out)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", pairs[0].input, s.name, err)
		}
		agreements = append(agreements, fmt.Sprintf("%s, %s: %s", pairs[0].input, s.name, said))
	}
	if err := inTurn(sides, b.runs); err != nil {
		return nil, err
	}
	for _, p := range pairs {
		fmt.Print(p.line())
	}
	for _, s := range sides {
		if err := os.RemoveAll(s.out); err != nil {
			return nil, err
		}
	}
	return agreements, nil
}

// pairs are what is set beside each other on an input.
func (b *bench) pairs(name, input, log string, polars bool) ([]pair, error) {
	whole := b.ours("roundmill", input)
	title, pattern := map[string]string{"csv": "one CSV file", "gzip": "the same, gzip"}[name], input
	switch name {
	case "json":
		copied := b.duckDB("duckdb-copy", "agree-copy", input)
		checked := &side{name: "roundmill --check", args: []string{b.path("roundmill"), "--check", "--quiet", "--workers", strconv.Itoa(threads), input}}
		return []pair{{"JSON lines", whole, copied}, {"JSON lines, `--check`", checked, copied}}, nil
	case "scattered":
		return []pair{{"lines scattered", whole, b.ours("roundmill, lines in order", log)}}, nil
	case "files":
		entries, err := os.ReadDir(input)
		if err != nil {
			return nil, err
		}
		title, pattern = fmt.Sprintf("%s files", grouped(len(entries))), filepath.Join(input, "*.csv")
	}
	pairs := []pair{{title, whole, b.duckDB("duckdb", "agree-theirs", pattern)}}
	if polars {
		pairs = append(pairs,
			pair{title, whole, b.polars("Polars, streamed", pattern)},
			pair{title, whole, b.polars("Polars, in memory", pattern, "memory")})
	}
	return pairs, nil
}

// ours is the program at its whole job, but for charts and pages.
func (b *bench) ours(name, input string) *side {
	out := b.path("results of " + filepath.Base(input))
	return &side{
		name: name, out: out, agrees: "agree-ours",
		args: []string{b.path("roundmill"), "--no-charts", "--quiet", "--workers", strconv.Itoa(threads), "--out", out, input},
	}
}

// duckDB is DuckDB at a job.
func (b *bench) duckDB(job, agrees, input string) *side {
	out := b.path("duckdb")
	return &side{name: "DuckDB", args: []string{b.self, job, input, out}, out: out, agrees: agrees}
}

// polars is Polars at the job.
func (b *bench) polars(name, input string, manner ...string) *side {
	out := b.path("polars")
	return &side{name: name, args: append([]string{"node", polarsScript, input, out}, manner...), out: out, agrees: "agree-theirs"}
}

// polarsScript is the job in the words of Polars.
var polarsScript = filepath.Join("speed", "polars.mjs")
