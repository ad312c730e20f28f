package plots

import (
	"math"

	"gonum.org/v1/plot/vg"

	"roundmill/metrics"
)

const firstPuttName = "first-putt"

// FirstPuttChart draws, by the length of the first putt of a hole, what it
// leaves and how often three putts or more are needed, side by side in common
// rows. Rows of other players are left out. Exactly one of the results is not
// nil.
func FirstPuttChart(season Season, rows []metrics.Putting) (*Chart, *Missing) {
	words := firstPuttWords{season: season}
	for _, row := range rows {
		switch {
		case row.Player != season.Player || row.NFirst == 0:
		case math.IsNaN(row.FromFt):
			words.all = row
		default:
			words.rows = append(words.rows, row)
			words.lengths.columns = append(words.lengths.columns, puttLength{row.FromFt, row.ToFt})
		}
	}
	if words.all.NFirst < fewestPutts {
		return nil, &Missing{firstPuttName, firstPuttsMissing(int(words.all.NFirst))}
	}
	words.lengths.units = season.Units
	table := firstPuttTable(words.rows, words.lengths)
	text := chartText{words.title(), words.counted(), words.source(), words.alt()}
	return laidOut(firstPuttName, text, table.height(), table.draw), nil
}

func firstPuttTable(rows []metrics.Putting, lengths puttColumns) rowTable {
	const (
		puttsEnd, leaveEnd     = vg.Length(130), vg.Length(178)
		leavesFrom, leavesTo   = vg.Length(194), vg.Length(340)
		threeEnd               = vg.Length(390)
		sharesFrom, sharesTo   = vg.Length(408), chartWidth - margin - 8
		mostLeaves, mostShares = 4, 4
	)
	units := lengths.units
	t := rowTable{
		head: units.Short() + " to hole", pitch: 22,
		columns: []rowColumn{{puttsEnd, "first putts", false}, {leaveEnd, "leave, " + units.ShortSymbol(), true}, {threeEnd, "three, %", true}},
	}
	var leaves, shares []float64
	for i, row := range rows {
		leave, share := leaveMark(row, units), threePuttMark(row)
		t.rows = append(t.rows, tableRow{
			name: lengths.edgesPrinted(lengths.columns[i]), few: leave.few(),
			cells: []string{compact(int(row.NFirst), 4), leavePrinted(row, units), sharePrinted(row.NThreePutt, row.NFirst)},
			marks: [][]groupMark{{leave}, {share}},
		})
		leaves = append(leaves, leave.drawn()...)
		shares = append(shares, share.drawn()...)
	}
	leaveAxis, leaveStep := spanning(leavesFrom, leavesTo, mostLeaves, 1, leaves...)
	shareAxis, shareStep := spanning(sharesFrom, sharesTo, mostShares, 0.1, shares...)
	t.panels = []rowPanel{
		{axis: leaveAxis, step: leaveStep, print: Number, unit: units.Short() + " left by the first putt"},
		{axis: shareAxis, step: shareStep, print: percentTick, unit: "three putts or more"},
	}
	return t
}

func leaveMark(row metrics.Putting, units Units) groupMark {
	return groupMark{
		value: units.FromFeet(row.LeaveMedianFt), lo: units.FromFeet(row.LeaveMedianLoFt), hi: units.FromFeet(row.LeaveMedianHiFt),
		quartiles: [2]float64{units.FromFeet(row.LeaveP25Ft), units.FromFeet(row.LeaveP75Ft)},
		benchmark: math.NaN(), n: row.NFirst, fill: blue,
	}
}

func threePuttMark(row metrics.Putting) groupMark {
	return groupMark{
		value: row.ThreePutt, lo: row.ThreePuttLo, hi: row.ThreePuttHi,
		benchmark: math.NaN(), n: row.NFirst, mark: diamond, fill: vermilion,
	}
}

// leavePrinted is the median of what is left, to a tenth.
func leavePrinted(row metrics.Putting, units Units) string {
	left := units.FromFeet(row.LeaveMedianFt)
	if left == 0 {
		return "0"
	}
	return Number(left, 1)
}
