// Roundmill turns a season of golf shot logs into decisions: enriched shots in
// Parquet, figures, charts and the coaching page.
//
// This file wires the stages: flags, the order of work, exit statuses and
// progress. What a stage could own, it owns.
package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"roundmill/ingest"
	"roundmill/ingest/ordered"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/plots"
	"roundmill/plots/page"
	"roundmill/testdata/demo"
	"roundmill/transform"
)

// version is that of the program, in --version, run.json and every Parquet file.
const version = "0.1.0"

// Exit statuses.
const (
	exitDone        = 0
	exitFailed      = 1   // the run failed: disk, permissions, a bug
	exitUsage       = 2   // the command line is wrong
	exitRejected    = 3   // --strict met a reject, or no record was usable
	exitInterrupted = 130 // Ctrl-C
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// run is the program. What it prints on stdout is the result, on stderr what
// there is to say about it.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	s, err := parseSettings(args)
	switch {
	case err != nil:
		fmt.Fprintf(stderr, "roundmill: %v\n", err)
		return exitUsage
	case s.help:
		fmt.Fprint(stdout, usage())
		return exitDone
	case s.version:
		fmt.Fprintf(stdout, "roundmill %s\n", version)
		return exitDone
	}
	return perform(ctx, s, stdin, stdout, stderr)
}

// perform does what the command line asks for, and says what came of it.
func perform(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) int {
	err := ordered.Guard(func() error {
		switch {
		case s.starter != "":
			return writeStarter(s.starter, stdout)
		case s.check:
			return check(ctx, s, stdin, stdout, stderr)
		}
		return mill(ctx, s, stdin, stdout, stderr)
	})
	var bug *ordered.Bug
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &bug):
		fmt.Fprintf(stderr, "roundmill: %v\n", bug)
		fmt.Fprintf(stderr, "No log was changed, and results that stood there are whole. Please report all of this,\n"+
			"with the log that it happened on if you may: roundmill %s %s/%s, options %q\n%s",
			version, runtime.GOOS, runtime.GOARCH, s.given, bug.Stack)
		return exitFailed
	case ctx.Err() != nil:
		fmt.Fprintln(stderr, "roundmill: interrupted; nothing was changed")
		return exitInterrupted
	case errors.Is(err, errRejected):
		fmt.Fprintf(stderr, "roundmill: %v\n", err)
		return exitRejected
	}
	fmt.Fprintf(stderr, "roundmill: %v\n", err)
	return exitFailed
}

// errRejected is the error of input that was read, and found wanting.
var errRejected = errors.New("nothing was written")

// reading is what came of the input: every count, and what there is to say.
type reading struct {
	files      []ingest.FileInfo
	filesAs    [][]string     // how each file was read
	tallies    []ingest.Tally // by file
	rounds     []int          // by file
	total      ingest.Tally
	rejects    int
	notes      []ingest.Note
	firstPutts ingest.FeetCounts
	causes     map[plots.Cause]int
	onReject   func(ingest.Reject) error
}

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
	r.notes = append(r.notes, batch.Notes...)
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
		made  R
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
				r.made = do(worker, batch)
			}
			return r, nil
		}
		for r, failure := range ordered.Map(ctx, s.workers, produce, work) {
			if err = failure; err != nil {
				break
			}
			if err = done.take(r.batch); err == nil && r.batch.Record != nil {
				err = take(r.made)
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
func open(s *settings, stdin io.Reader, scratch string) (*ingest.Reader, error) {
	options := s.reading
	options.Scratch = scratch
	if s.demo {
		return ingest.OpenText(demo.Name, demo.CSV, options)
	}
	return ingest.Open(s.paths, stdin, options)
}

// check reads and judges the input and writes nothing.
func check(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) error {
	scratch, err := os.MkdirTemp("", "roundmill-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	reader, err := open(s, stdin, scratch)
	if err != nil {
		return err
	}
	said, err := os.CreateTemp(scratch, "rejects-") // input that is read again is told once
	if err != nil {
		return err
	}
	defer said.Close()
	lines := bufio.NewWriter(said)
	restart := func() (*reading, error) {
		lines.Reset(said)
		_, err := said.Seek(0, io.SeekStart)
		return &reading{onReject: func(r ingest.Reject) error {
			_, err := fmt.Fprintln(lines, r)
			return err
		}}, errors.Join(err, said.Truncate(0))
	}
	nothing := func(int, *ingest.Batch) struct{} { return struct{}{} }
	done, err := read(ctx, s, reader, stderr, restart, nothing, func(struct{}) error { return nil })
	if err != nil {
		return err
	}
	if err = lines.Flush(); err == nil {
		_, err = said.Seek(0, io.SeekStart)
	}
	if err == nil {
		_, err = io.Copy(stdout, said)
	}
	if err != nil {
		return err
	}
	if err := plots.WriteCheck(stdout, done.report(s)); err != nil {
		return err
	}
	return done.usable(s)
}

// usable is the verdict on the input as a whole.
func (r *reading) usable(s *settings) error {
	switch {
	case r.total.Kept == 0 && r.total.Narrowed > 0 && r.rejects == 0:
		return fmt.Errorf("no round is left by --player, --course, --from and --to; %w", errRejected)
	case r.total.Kept == 0:
		return fmt.Errorf("no record was usable; %w", errRejected)
	case s.strict && r.rejects > 0:
		return fmt.Errorf("--strict, and %d found wrong; %w", r.rejects, errRejected)
	}
	return nil
}

// mill does the whole job: read, enrich, store, add up, draw, publish.
func mill(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) error {
	folder, err := store.NewFolder(s.out, s.disk, ownResults)
	if err != nil {
		return err
	}
	defer folder.Discard()
	reader, err := open(s, stdin, folder.Scratch())
	if err != nil {
		return err
	}

	var own *metrics.OwnBaseline
	if s.ownBaseline {
		if own, err = ownBaseline(ctx, s, reader, stderr); err != nil {
			return err
		}
		s.transform.Baseline = own.Whole
		s.figures.Baseline, s.figures.Table, s.display.BaselineSource = own.Whole.Name, own.Whole, own.Whole.Source
		reader = reader.Afresh()
	}
	type enriched struct {
		shots                        *transform.Shots
		shotRows, holeRows, roundRow arrow.RecordBatch
	}
	var results *results
	var figures []*metrics.Set
	restart := func() (*reading, error) {
		if results != nil {
			results.abandon()
			if err := folder.StartAgain(); err != nil {
				return nil, err
			}
		}
		figures = make([]*metrics.Set, s.workers)
		for worker := range figures {
			figures[worker] = metrics.NewSet(s.figures)
		}
		results = newResults(folder, s)
		return &reading{onReject: results.reject}, nil
	}
	enrich := func(worker int, batch *ingest.Batch) enriched {
		shots := transform.Enrich(batch, s.transform)
		if own != nil {
			own.Measure(shots)
		}
		figures[worker].Add(shots)
		return enriched{shots, shots.ShotsRecord(), shots.HolesRecord(), shots.RoundsRecord()}
	}
	done, err := read(ctx, s, reader, stderr, restart, enrich, func(e enriched) error {
		return results.add(e.shots, e.shotRows, e.holeRows, e.roundRow)
	})
	if results != nil {
		defer results.abandon()
	}
	if err != nil {
		return err
	}
	done.say(s, results, stderr)
	if err := done.usable(s); err != nil {
		return err
	}
	for _, set := range figures[1:] {
		figures[0].Merge(set)
	}
	if err := results.close(); err != nil {
		return err
	}
	figureTables := figures[0].Finish()
	strokes := done.total.Kept - done.total.Scorecards
	if stored, counted := results.shotRows(), figureTables.Shots(); stored != strokes || counted != strokes {
		panic(fmt.Sprintf("roundmill: %d strokes kept, %d shots in the tables, %d in the figures", strokes, stored, counted))
	}
	if own != nil {
		figureTables.Warnings = append(figureTables.Warnings, own.Warnings...)
	}
	if err := results.addFigures(figureTables.Tables()); err != nil {
		return err
	}
	outcome := plots.Outcome{Folder: s.out, Refused: done.rejects}
	if !s.noCharts {
		charts, missing := plots.Charts(figureTables, s.display)
		pictures, err := results.addCharts(charts)
		if err != nil {
			return err
		}
		report := page.Report{
			Figures: figureTables, Display: s.display, Pictures: pictures, Missing: missing,
			Reading: done.report(s), Version: version, Asked: len(s.reading.Narrow.Players) > 0,
		}
		if err := report.Write(folder.WriteFile); err != nil {
			return err
		}
		outcome.Charts, outcome.Missing, outcome.Page, outcome.WithoutPages = len(charts), missing, page.Name, report.WithoutPages()
	}
	summary, err := results.describe(s, done, figureTables, outcome.Missing)
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := folder.Publish(); err != nil {
		return err
	}
	if s.json {
		_, err = stdout.Write(summary)
		return err
	}
	if s.quiet {
		return nil
	}
	return plots.WriteSummary(stdout, figureTables, s.display, outcome)
}

// ownBaseline makes the baseline of the log itself, in a reading of its own.
func ownBaseline(ctx context.Context, s *settings, reader *ingest.Reader, stderr io.Writer) (*metrics.OwnBaseline, error) {
	var parts []*metrics.OwnBaselineFigures
	restart := func() (*reading, error) {
		parts = make([]*metrics.OwnBaselineFigures, s.workers)
		for worker := range parts {
			parts[worker] = metrics.NewOwnBaselineFigures()
		}
		return &reading{onReject: func(ingest.Reject) error { return nil }}, nil
	}
	add := func(worker int, batch *ingest.Batch) struct{} {
		parts[worker].Add(transform.Enrich(batch, s.transform))
		return struct{}{}
	}
	if _, err := read(ctx, s, reader, stderr, restart, add, func(struct{}) error { return nil }); err != nil {
		return nil, err
	}
	for _, part := range parts[1:] {
		parts[0].Merge(part)
	}
	return parts[0].Finish(), nil
}

// say tells on stderr what was refused and noted: the first of each, then how
// many more.
func (r *reading) say(s *settings, results *results, stderr io.Writer) {
	const most = 20
	for _, line := range results.firstRejects {
		fmt.Fprintln(stderr, line)
	}
	if more := r.rejects - len(results.firstRejects); more > 0 {
		fmt.Fprintf(stderr, "... and %d more in rejects.csv\n", more)
	}
	if s.quiet {
		return
	}
	for i, note := range r.readAs(s) {
		if i == most {
			fmt.Fprintf(stderr, "... and %d more notes in run.json\n", len(r.readAs(s))-most)
			break
		}
		fmt.Fprintln(stderr, "note:", note)
	}
}

// readAs is how the input was read, and what deserves a look.
func (r *reading) readAs(s *settings) []string {
	var lines []string
	for _, note := range r.notes {
		lines = append(lines, note.String())
	}
	if missing := s.transform.Baseline.Missing(); len(missing) > 0 {
		lines = append(lines, "the baseline has no values for "+strings.Join(missing, ", ")+": strokes from there have no strokes gained, and their holes count in none")
	}
	if feet, any := r.firstPutts.Median(); any {
		lines = append(lines, plots.PuttsReadAs(s.reading.PuttUnit.String(), feet))
	}
	return lines
}

func (r *reading) report(s *settings) plots.Reading {
	return plots.Reading{
		Files: r.files, FilesReadAs: r.filesAs, Tallies: r.tallies, Rounds: r.rounds, Total: r.total, Causes: r.causes, ReadAs: r.readAs(s),
	}
}

// ownResults accepts a folder only if a run of this program left it, and all
// that is in it as it is. What systems put into folders that they show is not
// looked at.
func ownResults(folder string) error {
	text, err := os.ReadFile(filepath.Join(folder, ingest.ResultMarker))
	var marker struct {
		Program string
		Files   []store.Entry
	}
	if err != nil || json.Unmarshal(text, &marker) != nil || marker.Program != "roundmill" {
		return fmt.Errorf("%s: there is a folder that no run of roundmill left; name another with --out, or remove it", folder)
	}
	entries, err := store.List(folder)
	for _, entry := range entries {
		switch {
		case slices.Contains(marker.Files, entry), entry.Name == ingest.ResultMarker:
		case slices.Contains([]string{".DS_Store", "Thumbs.db", "desktop.ini"}, path.Base(entry.Name)):
		default:
			return fmt.Errorf("%s: no run of roundmill left %s there as it is now; move it elsewhere, or name another folder with --out", folder, entry.Name)
		}
	}
	return err
}

// showProgress shows on a terminal, past one second, how much of the input has
// been read. The function it returns ends that.
func showProgress(s *settings, reader *ingest.Reader, stderr io.Writer) (stop func() error) {
	terminal, ok := stderr.(*os.File)
	if !ok || s.quiet || !term.IsTerminal(int(terminal.Fd())) {
		return func() error { return nil }
	}
	ended := make(chan struct{})
	group := ordered.NewGroup(1)
	group.Go(func() error {
		select {
		case <-ended:
			return nil
		case <-time.After(time.Second):
		}
		_, total := reader.Progress()
		bar := progressbar.NewOptions64(total, progressbar.OptionSetWriter(stderr), progressbar.OptionShowBytes(true),
			progressbar.OptionSetDescription("reading"), progressbar.OptionClearOnFinish(), progressbar.OptionFullWidth())
		defer bar.Finish()
		for {
			read, _ := reader.Progress()
			bar.Set64(min(read, total))
			select {
			case <-ended:
				return nil
			case <-time.After(200 * time.Millisecond):
			}
		}
	})
	return func() error {
		close(ended)
		return group.Wait()
	}
}
