package main

import (
	"errors"
	"io"

	"roundmill/ingest/ordered"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/plots"
)

// figures are finished figures on their way into the folder: part after part
// goes into the tables and into summary.json, and what is shown of them stays.
type figures struct {
	results   *results
	names     []string // of the tables, in order
	tables    map[string]*store.Table
	described []store.Resource
	summary   *metrics.Summary
	shown     metrics.Results
	packer    store.Packer
	every     bool // show every player, because they were asked for by name
}

func newFigures(r *results, s *settings) *figures {
	return &figures{
		results: r, tables: map[string]*store.Table{}, summary: metrics.NewSummary(r.folder.Scratch()),
		every: len(s.reading.Narrow.Players) > 0,
	}
}

// add takes in the figures of the next players.
func (f *figures) add(part *metrics.Results) error {
	shown := part
	if !f.every && len(f.shown.Seasons) >= plots.MostPlayers {
		shown = part.OfSquad()
	}
	f.shown.Append(shown)
	part.Squad = nil // not ranked among all yet
	return f.write(part)
}

// write adds rows to the tables and to summary.json.
func (f *figures) write(part *metrics.Results) error {
	for rows := range part.Tables() {
		batch := rows.Record()
		table := f.tables[rows.Name]
		if table == nil {
			name := "tables/" + rows.Name + ".parquet"
			table = f.results.table(name, batch.Schema(), nil)
			f.names, f.tables[rows.Name] = append(f.names, rows.Name), table
			f.described = append(f.described, store.Describe(rows.Name, rows.About, batch.Schema(), name))
		}
		if rows.Rows == 0 {
			continue
		}
		if err := table.Add(f.packer.Pack(batch, store.Group{To: rows.Rows})); err != nil {
			return err
		}
	}
	return f.summary.Add(part)
}

// close ends the tables, two side by side, once all players are in.
func (f *figures) close() error {
	metrics.RankSquad(f.shown.Squad)
	if err := f.write(&metrics.Results{Squad: f.shown.Squad}); err != nil {
		return err
	}
	group := ordered.NewGroup(2)
	for _, name := range f.names {
		group.Go(f.tables[name].CloseAndVerify)
	}
	return group.Wait()
}

// writeSummary writes summary.json.
func (f *figures) writeSummary(about metrics.Context) error {
	write := func(to io.Writer) error { return f.summary.Write(to, about, f.shown.Warnings) }
	return errors.Join(f.results.folder.Write(summaryName, write), f.summary.Close())
}

// abandon closes what is open.
func (f *figures) abandon() {
	for _, table := range f.tables {
		table.Abandon()
	}
	f.summary.Close()
}
