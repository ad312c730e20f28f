package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const (
	shortGameName = "short-game"

	fewestShortGames = 5  // holes under which there is no picture
	mostLies         = 16 // rows of lies; the rarest of more are counted
)

// ShortGameChart draws how often the player gets up and down, and in how many
// strokes he holes out, beside the benchmark: from each lie as written, the
// most frequent first, and from each distance. What being short-sided costs is
// said in words. Rows of other players are left out. Exactly one of the
// results is not nil.
func ShortGameChart(season Season, rows []metrics.ShortGame, sided []metrics.ShortSided) (*Chart, *Missing) {
	words := shortGameWords{season: season}
	for _, row := range rows {
		switch every := math.IsNaN(row.FromYd) && math.IsNaN(row.ToYd); {
		case row.Player != season.Player || row.N == 0:
		case row.Lie == metrics.AnyLie && every:
			words.all = row
		case row.Lie == metrics.AnyLie:
			words.distances = append(words.distances, row)
		case every:
			words.lies = append(words.lies, row)
		}
	}
	if words.all.N < fewestShortGames {
		return nil, &Missing{shortGameName, shortGamesMissing(int(words.all.N))}
	}
	for _, row := range sided {
		if row.Player == season.Player && math.IsNaN(row.FromYd) && math.IsNaN(row.ToYd) {
			words.sided = row
		}
	}
	slices.SortStableFunc(words.lies, func(a, b metrics.ShortGame) int { return cmp.Compare(b.N, a.N) })
	words.drawn = words.lies[:min(mostLies, len(words.lies))]
	table := words.table()
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(shortGameName, text, table.height(), table.draw), nil
}

// table is the picture: all lies, each lie, each distance.
func (w shortGameWords) table() rowTable {
	const (
		holesEnd, shareEnd, benchmarkEnd = vg.Length(144), vg.Length(184), vg.Length(246)
		sharesFrom, sharesTo             = vg.Length(262), vg.Length(368)
		strokesEnd                       = vg.Length(414)
		strokesFrom, strokesTo           = vg.Length(430), chartWidth - margin - 8
		nameWidth                        = vg.Length(94)
	)
	t := rowTable{
		head: "lie, as written", pitch: 22,
		columns: []rowColumn{{holesEnd, "holes", false}, {shareEnd, "saved", true}, {benchmarkEnd, "benchmark", false}, {strokesEnd, "strokes", true}},
	}
	strokesAxis := scale{from: 2, to: 3, start: strokesFrom, end: strokesTo}
	add := func(name string, row metrics.ShortGame, apart bool) {
		share := groupMark{value: row.UpAndDown, lo: row.UpAndDownLo, hi: row.UpAndDownHi, benchmark: row.BaselineShare, n: row.N, fill: blue}
		strokes := groupMark{value: row.Strokes, lo: row.StrokesLo, hi: row.StrokesHi, benchmark: row.BaselineStrokes, n: row.N, mark: diamond, fill: vermilion}
		for _, value := range strokes.drawn() {
			if !math.IsNaN(value) && value > 0 {
				strokesAxis.from, strokesAxis.to = min(strokesAxis.from, value-0.05), max(strokesAxis.to, value+0.05)
			}
		}
		t.rows = append(t.rows, tableRow{
			name: shortened(printable(name), strong.face(), nameWidth), apart: apart, few: share.few(),
			cells: []string{compact(int(row.N), 4), sharePrinted(row.UpAndDowns, row.N), wholePercent(row.BaselineShare), strokesToHole(row)},
			marks: [][]groupMark{{share}, {strokes}},
		})
	}
	add("All lies", w.all, false)
	for i, row := range w.drawn {
		add(Sentence(row.Lie), row, i == 0)
	}
	for i, row := range w.distances {
		add(w.distance(row), row, i == 0)
	}
	t.panels = []rowPanel{
		{axis: scale{from: 0, to: 1, start: sharesFrom, end: sharesTo}, step: 0.5, print: percentTick, unit: "up and down"},
		{axis: strokesAxis, step: tickStep(strokesAxis.to-strokesAxis.from, 4), print: Number, unit: "strokes to hole out"},
	}
	return t
}

// strokesToHole is the mean strokes to hole out, to a tenth.
func strokesToHole(row metrics.ShortGame) string { return Number(row.Strokes, 1) }
