package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"roundmill/ingest"
	"roundmill/ingest/ordered"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/plots"
	"roundmill/transform"
)

// mill does the whole job: read, enrich, store, add up, draw, publish.
func mill(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) error {
	folder, err := store.NewFolder(s.out, s.disk, ownResults)
	if err != nil {
		return err
	}
	defer folder.Discard()
	folder.Memory = s.memory
	reader, err := open(ctx, s, stdin, folder.Scratch())
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
		s.figures.OwnPutts = own.Putts
		reader = reader.Afresh()
	}
	enrich := func(batch *ingest.Batch) *transform.Shots {
		shots := transform.Enrich(batch, s.transform)
		if own != nil {
			own.Measure(shots)
		}
		return shots
	}
	type packed struct {
		players playersRounds
		tables  packedRows
	}
	var results *results
	var players *players
	restart := func() (*reading, error) {
		if results != nil {
			if err := errors.Join(results.abandon(), players.pile.Close(), folder.StartAgain()); err != nil {
				return nil, err
			}
		}
		results, players = newResults(folder, s), newPlayers(store.NewPile(ingest.RawSchema, folder.Scratch()))
		return &reading{onReject: results.reject}, nil
	}
	packers := make([]struct{ players, tables store.Packer }, s.workers)
	for worker := range packers {
		packers[worker].players.Compress = true // the tables let go of rows in time
	}
	work := func(worker int, batch *ingest.Batch) packed {
		shots, of := enrich(batch), &packers[worker]
		return packed{packPlayers(&of.players, batch, shots), results.pack(&of.tables, shots)}
	}
	done, err := read(ctx, s, reader, stderr, restart, work, func(p packed) error {
		return errors.Join(players.add(p.players), results.add(p.tables))
	})
	if results != nil {
		defer results.abandon()
		defer players.pile.Close()
	}
	if err != nil {
		return err
	}
	done.say(s, results, stderr)
	if err := done.usable(s); err != nil {
		return err
	}
	finished := newFigures(results, s)
	defer finished.abandon()
	both := ordered.NewGroup(2)
	both.Go(func() error { return results.close(ctx) })
	both.Go(func() error { return players.figures(ctx, s, enrich, finished.add) })
	if err := both.Wait(); err != nil {
		return err
	}
	if err := players.pile.Close(); err != nil {
		return err
	}
	if err := finished.close(); err != nil {
		return err
	}
	shown := &finished.shown
	strokes := done.total.Kept - done.total.Scorecards
	if stored, counted := results.shotRows(), shown.Shots(); stored != strokes || counted != strokes {
		panic(fmt.Sprintf("roundmill: %d strokes kept, %d shots in the tables, %d in the figures", strokes, stored, counted))
	}
	shown.Warnings = append(warningsOfRun(s, own, shown), shown.Warnings...) // a terminal shows the first
	outcome := plots.Outcome{Folder: s.out, Refused: done.rejects}
	if !s.noCharts {
		if err := results.addChartsAndPages(ctx, s, done, shown, &outcome); err != nil {
			return err
		}
	}
	if err := results.describe(s, done, finished, outcome.Missing); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := folder.Publish(); err != nil {
		return err
	}
	if s.json {
		return printSummary(s, stdout)
	}
	if s.quiet {
		return nil
	}
	return plots.WriteSummary(stdout, shown, s.display, outcome)
}

// warningsOfRun are those that no group of figures knows of.
func warningsOfRun(s *settings, own *metrics.OwnBaseline, shown *metrics.Results) (warnings []metrics.Warning) {
	if own != nil {
		warnings = slices.Clone(own.Warnings)
		if len(shown.Seasons) == 1 {
			warnings = append(warnings, metrics.Warning{Figure: "baseline", Text: "a player who is measured against the rounds played gains and loses nothing as a whole: parts off zero show strokes of more than one kind from one lie and distance, not strokes to win"})
		}
	}
	var met []string
	for _, season := range shown.Seasons {
		met = append(met, season.Player)
	}
	for _, name := range s.reading.Narrow.Unmet(met) {
		warnings = append(warnings, metrics.Warning{Figure: "seasons", Text: fmt.Sprintf("no round is of a player %q: write the name as the log does", name)})
	}
	return warnings
}

// printSummary prints summary.json as it was published.
func printSummary(s *settings, stdout io.Writer) error {
	summary, err := os.Open(filepath.Join(s.out, summaryName))
	if err != nil {
		return err
	}
	defer summary.Close()
	_, err = io.Copy(stdout, summary)
	return err
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
