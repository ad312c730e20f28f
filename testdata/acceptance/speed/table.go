//go:build linux

package main

import (
	"fmt"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// heading is what holds for all tables, the command on top.
func heading(args []string) string {
	return fmt.Sprintf("`%s`\n\n%s, %d processors. Every side may use %d threads. Wall and processor time and the peak of resident memory are of the whole process, by the operating system.\n",
		strings.Join(append([]string{"go -C testdata/acceptance run ./speed"}, args...), " "), time.Now().Format(time.DateOnly), runtime.NumCPU(), threads)
}

// inputsHeading stands above the table of inputs, and says which jobs are set beside each other.
func inputsHeading(size logSize, players, rounds, runs int, polars bool) string {
	absent := ""
	if !polars {
		absent = " Polars does not take part here: node, nodejs-polars or its binary is not there."
	}
	return fmt.Sprintf(`
## Beside DuckDB and Polars, and beside itself

%s, %s MB as CSV, of %s of %s, the same rows in every input; medians of %s in turn, after one that does not count, as ours / theirs, and medians of the ratios pair by pair.

The peers do the smaller job, the fastest way found: a typed read with no sniffing, the finish of each shot from the next one, proximity, strokes gained, all shots to zstd Parquet, and quantiles by player, lie and band; DuckDB through a window by hole and a second read, in any order of rows; Polars takes the rows to follow each other in the log, and does it streamed, and again with all of it in memory. The program does all of its own job but for charts and pages: it judges every record, finishes every figure, reads back what it wrote and waits for the disk. Of JSON lines DuckDB copies typed columns to zstd Parquet and derives nothing; `+"`--check`"+` reads and judges and writes nothing. Scattered are the lines of the CSV file, all of them in any order, beside the program on the file in order: the aim is 3.%s

| input | beside | wall s | CPU s | peak MiB | ratio of wall | of CPU | of peak |
|---|---|---|---|---|---|---|---|
`, counted(size.shots, "shot"), figure(float64(size.bytes)/1e6), counted(players, "player"), counted(rounds, "round"), counted(runs, "run"), absent)
}

// line is the pair in the table of inputs.
func (p pair) line() string {
	cells := []string{p.input, p.theirs.name}
	for _, of := range measures {
		cells = append(cells, figure(median(p.ours.runs, of))+" / "+figure(median(p.theirs.runs, of)))
	}
	for _, of := range measures {
		cells = append(cells, strconv.FormatFloat(ratio(p.ours.runs, p.theirs.runs, of), 'f', 2, 64))
	}
	return row(cells)
}

// agreed stands below the table of inputs.
func agreed(agreements []string) string {
	return "\nBefore that each side ran once and was held against DuckDB's job on the CSV file:\n\n- " + strings.Join(agreements, "\n- ") + "\n"
}

func growthHeading(runs int) string {
	return fmt.Sprintf(`
## Growth

The program's whole job but for charts and pages; medians of %s, after one that does not count; through the pipe, where the generator shares the processors, one alone.

| shots | players x rounds | from | wall s | CPU s | peak MiB | wall s a million | CPU s a million |
|---|---|---|---|---|---|---|---|
`, counted(runs, "run"))
}

func growthLine(shots, players, rounds int, from string, runs []run) string {
	cells := []string{grouped(shots), grouped(players) + " x " + grouped(rounds), from}
	for _, of := range measures {
		cells = append(cells, figure(median(runs, of)))
	}
	for _, of := range measures[:2] {
		cells = append(cells, strconv.FormatFloat(median(runs, of)/float64(shots)*1e6, 'f', 2, 64))
	}
	return row(cells)
}

func demoTable(shots, runs int, sides []*side) string {
	table := fmt.Sprintf(`
## The small season

`+"`--demo`"+`, %s shots, medians of %s in turn, after one that does not count.

| | wall s | CPU s | peak MiB |
|---|---|---|---|
`, grouped(shots), counted(runs, "run"))
	for _, s := range sides {
		cells := []string{s.name}
		for _, of := range measures {
			cells = append(cells, figure(median(s.runs, of)))
		}
		table += row(cells)
	}
	return table
}

func row(cells []string) string { return "| " + strings.Join(cells, " | ") + " |\n" }

// figure writes three digits or more: hundredths below ten, tenths below a hundred.
func figure(x float64) string {
	decimals := 0
	switch {
	case x < 9.995:
		decimals = 2
	case x < 99.95:
		decimals = 1
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

// grouped writes a count with commas between thousands.
func grouped(n int) string {
	digits := strconv.Itoa(n)
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return digits
}

func counted(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return grouped(n) + " " + what + "s"
}
