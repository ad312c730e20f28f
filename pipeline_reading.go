package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"roundmill/ingest"
	"roundmill/ingest/disk"
	"roundmill/ingest/ordered"
	"roundmill/plots"
	"roundmill/testdata/demo"
)

// reading is what came of the input: every count, and what there is to say.
type reading struct {
	files      []ingest.FileInfo
	filesAs    [][]string     // how each file was read
	tallies    []ingest.Tally // by file
	rounds     []int          // by file
	total      ingest.Tally
	rejects    int
	notes      []ingest.Note // the first, up to mostNotes
	moreNotes  int
	firstPutts ingest.FeetCounts
	lastPutts  ingest.FeetCounts
	causes     map[plots.Cause]int
	onReject   func(ingest.Reject) error
}

// mostNotes are kept: a log in which every stroke deserves one would fill memory
// with them.
const mostNotes = 10_000

// take adds what is to be said of a batch.
func (r *reading) take(batch *ingest.Batch) error {
	for file, tally := range batch.Tallies {
		r.tallies[file].Add(*tally)
		r.total.Add(*tally)
	}
	for file, rounds := range batch.Rounds {
		r.rounds[file] += rounds
	}
	r.firstPutts.Add(batch.FirstPutts)
	r.lastPutts.Add(batch.LastPutts)
	kept := min(len(batch.Notes), mostNotes-len(r.notes))
	r.notes = append(r.notes, batch.Notes[:kept]...)
	r.moreNotes += len(batch.Notes) - kept
	for _, reject := range batch.Rejects {
		r.rejects++
		r.causes[plots.CauseOf(reject)]++
		if err := r.onReject(reject); err != nil {
			return err
		}
	}
	return nil
}

// read runs the reader and hands every checked batch to do, on all workers, and
// what do makes of it to take, in input order. Input whose rounds lie scattered
// is read again from the start, after restart.
func read[R any](ctx context.Context, s *settings, reader *ingest.Reader, stderr io.Writer,
	restart func() (*reading, error), do func(worker int, batch *ingest.Batch) R, take func(R) error,
) (*reading, error) {
	type result struct {
		batch *ingest.Batch
		made  *R // nil if the batch has no records
	}
	for {
		done, err := restart()
		if err != nil {
			return nil, err
		}
		files := len(reader.Files())
		done.tallies, done.rounds = make([]ingest.Tally, files), make([]int, files)
		done.causes = map[plots.Cause]int{}
		stop := showProgress(s, reader, stderr)
		produce := func(ctx context.Context, emit func(*ingest.Rounds) error) error {
			for rounds, err := range reader.Rounds(ctx) {
				if err != nil {
					return err
				}
				if err := emit(rounds); err != nil {
					return err
				}
			}
			return nil
		}
		work := func(worker int, rounds *ingest.Rounds) (result, error) {
			batch := rounds.Check()
			r := result{batch: batch}
			if batch.Record != nil {
				made := do(worker, batch)
				r.made = &made
				batch.Record, batch.Strokes = nil, nil // not to wait in memory for their turn
			}
			return r, nil
		}
		for r, failure := range ordered.Map(ctx, s.workers, 2*s.workers, produce, work) {
			if err = failure; err != nil {
				break
			}
			if err = done.take(r.batch); err == nil && r.made != nil {
				err = take(*r.made)
			}
			if err != nil {
				break
			}
		}
		if stopped := stop(); err == nil {
			err = stopped
		}
		if errors.Is(err, ingest.ErrScattered) {
			reader = reader.Again()
			continue
		}
		if err != nil {
			return nil, err
		}
		done.files, done.filesAs = reader.Files(), reader.ReadAs()
		if !done.total.Balances() {
			panic(fmt.Sprintf("roundmill: the books do not balance: %+v", done.total))
		}
		return done, nil
	}
}

// open opens the input that the settings name.
func open(ctx context.Context, s *settings, stdin io.Reader, scratch disk.Scratch) (*ingest.Reader, error) {
	options := s.reading
	options.Scratch = scratch
	if s.demo {
		return ingest.OpenText(demo.Name, demo.CSV, options)
	}
	return ingest.Open(ctx, s.paths, stdin, options)
}

// usable is the verdict on the input as a whole.
func (r *reading) usable(s *settings) error {
	switch {
	case r.total.Kept == 0 && r.total.Narrowed > 0 && r.rejects == 0:
		return fmt.Errorf("no round is left by %s; %w", narrowedBy(&s.reading.Narrow), errRejected)
	case r.total.Kept == 0:
		return fmt.Errorf("no record was usable; %w", errRejected)
	case s.strict && r.rejects > 0:
		return fmt.Errorf("--strict, and there are %s; %w", plots.Counted(r.rejects, "reject", "rejects"), errRejected)
	}
	return nil
}

// say tells on stderr what was refused and noted: the first of each, then how
// many more.
func (r *reading) say(s *settings, results *results, stderr io.Writer) {
	const most = 20
	for _, line := range results.firstRejects {
		fmt.Fprintln(stderr, line)
	}
	if more := r.rejects - len(results.firstRejects); more > 0 {
		fmt.Fprintf(stderr, "... and %d more%s\n", more, r.allOfThem(s, "rejects.csv"))
	}
	if s.quiet {
		return
	}
	for i, note := range r.readAs(s) {
		if i == most {
			fmt.Fprintf(stderr, "... and %s%s\n", plots.Counted(len(r.readAs(s))-most, "note more", "notes more"), r.allOfThem(s, "run.json"))
			break
		}
		fmt.Fprintln(stderr, "note:", note)
	}
}

// allOfThem says where those stand that are not printed: in a file of the results,
// if there will be any.
func (r *reading) allOfThem(s *settings, file string) string {
	if r.usable(s) != nil {
		return "; --check tells them all"
	}
	return " in " + file
}

// readAs is how the input was read, and what deserves a look.
func (r *reading) readAs(s *settings) []string {
	var lines []string
	for _, note := range r.notes {
		lines = append(lines, note.String())
	}
	if r.moreNotes > 0 {
		lines = append(lines, "such notes that are not told one by one: "+plots.Count(r.moreNotes))
	}
	if out := int(r.total.LeftOut); out > 0 {
		lines = append(lines, plots.Counted(out, "hole", "holes")+" left out of scores: a refused record is of "+plots.PluralOf(out, "it, or stands beside it", "each, or stands beside")+" and names no hole")
	}
	if missing := s.transform.Baseline.Missing(); len(missing) > 0 {
		lines = append(lines, "the baseline has no values for "+strings.Join(missing, ", ")+": strokes from there have no strokes gained, and their holes count in none")
	}
	if feet, any := r.firstPutts.Median(); any {
		lines = append(lines, plots.PuttsReadAs(s.reading.PuttUnit.String(), feet))
	}
	if feet, any := r.lastPutts.Median(); any {
		if doubt := plots.LastPuttsDoubted(r.lastPutts.N(), feet); doubt != "" {
			lines = append(lines, doubt)
		}
	}
	return lines
}

func (r *reading) report(s *settings) plots.Reading {
	return plots.Reading{
		Files: r.files, FilesReadAs: r.filesAs, Tallies: r.tallies, Rounds: r.rounds, Total: r.total, Causes: r.causes, ReadAs: r.readAs(s),
	}
}

// narrowedBy are the flags that left rounds out, as given.
func narrowedBy(n *ingest.Narrow) string {
	var flags []string
	for _, player := range n.Players {
		flags = append(flags, fmt.Sprintf("--player %q", player))
	}
	if n.Course != "" {
		flags = append(flags, fmt.Sprintf("--course %q", n.Course))
	}
	if !n.From.IsZero() {
		flags = append(flags, "--from "+n.From.Format(time.DateOnly))
	}
	if !n.To.IsZero() {
		flags = append(flags, "--to "+n.To.Format(time.DateOnly))
	}
	return strings.Join(flags, ", ")
}
