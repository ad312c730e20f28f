package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"path"
	"slices"
	"sync/atomic"

	"github.com/apache/arrow-go/v18/arrow"

	"roundmill/ingest"
	"roundmill/ingest/ordered"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/plots"
	"roundmill/plots/page"
	"roundmill/transform"
)

// partRowGroups is how many row groups, of 122,880 rows, a file of shots has at
// most: a season of two million shots or more is several files.
const partRowGroups = 16

// sortedShots is how many shots are held to put the rounds in order; a log with
// more is written in input order.
const sortedShots = 1 << 20

// results is the folder of results while it is filled.
type results struct {
	folder       *store.Folder
	baseline     string                 // its name
	shots        map[int32]*store.Table // by season
	holes        *store.Table
	rounds       *store.Table
	held         int64
	settled      atomic.Bool
	firstRejects []string
	rejects      *ingest.RejectWriter
}

// roundOrder is how rounds stand in the tables of a log of usual size.
var roundOrder = []string{"date", "player", "round"}

func newResults(folder *store.Folder, s *settings) *results {
	r := &results{folder: folder, shots: map[int32]*store.Table{}, baseline: s.transform.Baseline.Name, rejects: ingest.NewRejectWriter(folder.Scratch())}
	r.holes = r.table("tables/holes.parquet", transform.HolesSchema(), roundOrder)
	r.rounds = r.table("tables/rounds.parquet", transform.RoundsSchema(), roundOrder)
	return r
}

// table starts a table whose rows will be in the order of some columns, or of
// none.
func (r *results) table(name string, schema *arrow.Schema, sortedBy []string) *store.Table {
	return store.NewTable(r.folder, name, schema, r.options(sortedBy))
}

// season starts the table of the shots of a season.
func (r *results) season(season int32) *store.Table {
	name := func(part int) string { return fmt.Sprintf("tables/shots/season=%d/part-%04d.parquet", season, part) }
	options := r.options(roundOrder)
	options.Varied, options.Rising = []string{"strokes_gained", "plays_like_yd"}, []string{ingest.SourceLine}
	return store.NewLongTable(r.folder, name, partRowGroups, transform.ShotsSchema(), options)
}

func (r *results) options(sortedBy []string) store.Options {
	return store.Options{
		Version:  version,
		Metadata: map[string]string{"roundmill.version": version, "roundmill.baseline": r.baseline},
		SortedBy: sortedBy,
	}
}

// packedRows are the rows of an enriched batch, packed for the three tables.
type packedRows struct {
	records       int
	seasons       []int32         // in order
	shots         []*store.Packed // of each season
	holes, rounds *store.Packed
}

// pack packs an enriched batch. It may be called from several goroutines, each
// with a packer of its own.
func (r *results) pack(packer *store.Packer, s *transform.Shots) packedRows {
	bySeason := map[int32][]store.Group{}
	var holeGroups, roundGroups []store.Group
	for i, strokes := 0, s.Strokes(); i < strokes.Rounds.Len(); i++ {
		from, to := strokes.RoundRowRange(i)
		season := strokes.RoundSeason(i)
		bySeason[season] = append(bySeason[season], store.Group{Key: strokes.RoundOrder(i), From: from, To: to})
	}
	for i := range s.Rounds.Len() {
		key := s.RoundOrder(i)
		firstHole, lastHole := s.Rounds.HoleRange(i, &s.Holes)
		holeGroups = append(holeGroups, store.Group{Key: key, From: firstHole, To: lastHole})
		roundGroups = append(roundGroups, store.Group{Key: key, From: i, To: i + 1})
	}
	packed := packedRows{records: s.N, seasons: slices.Sorted(maps.Keys(bySeason))}
	pack := func(batch arrow.RecordBatch, groups []store.Group) *store.Packed {
		if r.settled.Load() { // or soon after: the files are the same, however rows are packed
			groups = store.Joined(groups)
		}
		return packer.Pack(batch, groups...)
	}
	shots := s.ShotsRecord()
	for _, season := range packed.seasons {
		packed.shots = append(packed.shots, pack(shots, bySeason[season]))
	}
	packed.holes, packed.rounds = pack(s.HolesRecord(), holeGroups), pack(s.RoundsRecord(), roundGroups)
	return packed
}

// add adds rows to their tables.
func (r *results) add(packed packedRows) error {
	for i, season := range packed.seasons {
		table := r.shots[season]
		if table == nil {
			table = r.season(season)
			r.shots[season] = table
			if r.settled.Load() {
				if err := table.Settle(); err != nil {
					return err
				}
			}
		}
		if err := table.Add(packed.shots[i]); err != nil {
			return err
		}
	}
	if err := errors.Join(r.holes.Add(packed.holes), r.rounds.Add(packed.rounds)); err != nil {
		return err
	}
	if r.held += int64(packed.records); r.held > sortedShots && !r.settled.Load() {
		r.settled.Store(true)
		for _, table := range r.all() {
			if err := table.Settle(); err != nil {
				return err
			}
		}
	}
	if r.settled.Load() {
		return r.relieve()
	}
	return nil
}

// relieve bounds the memory of a log of many seasons that come interleaved: the
// fullest table is written when all together hold too much.
func (r *results) relieve() error {
	held := 0
	var fullest *store.Table
	for _, table := range r.all() {
		held += table.Held()
		if fullest == nil || table.Held() > fullest.Held() {
			fullest = table
		}
	}
	if held > sortedShots {
		return fullest.Flush()
	}
	return nil
}

// all are the tables begun, in a fixed order.
func (r *results) all() []*store.Table {
	tables := []*store.Table{r.holes, r.rounds}
	for _, season := range slices.Sorted(maps.Keys(r.shots)) {
		tables = append(tables, r.shots[season])
	}
	return tables
}

// shotRows is how many shots the tables hold.
func (r *results) shotRows() (rows int64) {
	for _, table := range r.shots {
		rows += table.Rows()
	}
	return rows
}

// reject keeps a reject for rejects.csv.
func (r *results) reject(reject ingest.Reject) error {
	const shown = 20
	if len(r.firstRejects) < shown {
		r.firstRejects = append(r.firstRejects, reject.String())
	}
	return r.rejects.Write(reject)
}

// abandon closes what is open of results that will not be finished.
func (r *results) abandon() error {
	err := r.rejects.Close()
	for _, table := range r.all() {
		err = errors.Join(err, table.Abandon())
	}
	return err
}

// close finishes the shots, holes and rounds, and reads them back, unless the run
// is to end.
func (r *results) close(ctx context.Context) error {
	if len(r.firstRejects) > 0 {
		if err := r.writeRejects(); err != nil {
			return err
		}
	}
	for _, table := range r.all() { // each on all cores
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := table.CloseAndVerify(); err != nil {
			return err
		}
	}
	return nil
}

// described are the shots, holes and rounds for datapackage.json.
func (r *results) described() (described []store.Resource) {
	var parts []string
	for _, season := range slices.Sorted(maps.Keys(r.shots)) {
		parts = append(parts, r.shots[season].Names()...)
	}
	if parts != nil { // a log of scorecards has none
		described = append(described, store.Describe("shots", "One row a stroke, with everything derived from the log.", transform.ShotsSchema(), parts...))
	}
	return append(described,
		store.Describe("holes", "One row a hole, in order of play within its round.", transform.HolesSchema(), "tables/holes.parquet"),
		store.Describe("rounds", "One row a round.", transform.RoundsSchema(), "tables/rounds.parquet"))
}

// writeRejects writes rejects.csv.
func (r *results) writeRejects() error {
	return errors.Join(r.folder.Write("rejects.csv", r.rejects.Finish), r.rejects.Close())
}

// addCharts draws the charts side by side, each once for its file and the page.
func (r *results) addCharts(ctx context.Context, charts []*plots.Chart) ([]page.Picture, error) {
	pictures := make([]page.Picture, len(charts))
	group := ordered.NewGroup(2)
	for i, chart := range charts {
		group.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			var picture bytes.Buffer
			if err := chart.WritePNG(&picture); err != nil {
				return fmt.Errorf("chart %s: %w", chart.Name, err)
			}
			pictures[i] = page.Picture{Chart: chart, PNG: picture.Bytes()}
			return r.folder.WriteFile(path.Join("charts", chart.Name+".png"), picture.Bytes())
		})
	}
	return pictures, group.Wait()
}

// addChartsAndPages draws the charts, writes the coaching pages with them, and
// notes in the outcome what came of it.
func (r *results) addChartsAndPages(ctx context.Context, s *settings, done *reading, figures *metrics.Results, outcome *plots.Outcome) error {
	charts, missing := plots.Charts(figures, s.display)
	pictures, err := r.addCharts(ctx, charts)
	if err != nil {
		return err
	}
	report := page.Report{
		Figures: figures, Display: s.display, Pictures: pictures, Missing: missing,
		Reading: done.report(s), Version: version, Asked: len(s.reading.Narrow.Players) > 0,
	}
	if err := report.Write(r.folder.WriteFile); err != nil {
		return err
	}
	outcome.Charts, outcome.Missing, outcome.Page, outcome.WithoutPages = len(charts), missing, page.Name, report.WithoutPages()
	return nil
}
