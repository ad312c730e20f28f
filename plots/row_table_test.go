package plots

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"roundmill/metrics"
)

// drawnFigures draws figures that a table may hold, however odd.
type drawnFigures struct {
	*rapid.T
	unknown bool // intervals are not known
}

func (d drawnFigures) count() int64 {
	return rapid.SampledFrom([]int64{1, 4, 9, 10, 87, 999, 1250, 34_567, 8_765_432}).Draw(d.T, "n")
}

// of is a part of n.
func (d drawnFigures) of(n int64) int64 { return rapid.Int64Range(0, n).Draw(d.T, "k") }

// around is an interval around a value, within a range.
func (d drawnFigures) around(value, from, to float64) (lo, hi float64) {
	if d.unknown {
		return math.NaN(), math.NaN()
	}
	return rapid.Float64Range(from, value).Draw(d.T, "lo"), rapid.Float64Range(value, to).Draw(d.T, "hi")
}

func (d drawnFigures) share(n int64) (k int64, share, lo, hi float64) {
	k = d.of(n)
	share = float64(k) / float64(n)
	lo, hi = d.around(share, 0, 1)
	return k, share, lo, hi
}

func (d drawnFigures) difference(size float64) (value, lo, hi float64) {
	value = rapid.Float64Range(-size, size).Draw(d.T, "difference")
	lo, hi = d.around(value, -size, size)
	return value, lo, hi
}

func TestNoTextOfChartsWithRowsTouchesAnotherWhateverTheFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawnFigures{t, rapid.Bool().Draw(t, "unknown")}
		units := rapid.SampledFrom([]Units{Yards, Metres}).Draw(t, "units")
		season := Season{Player: rapid.String().Draw(t, "player"), Rounds: 1_000_000, Units: units}
		for _, chart := range []*Chart{d.puttsMade(season), d.firstPutt(season), d.puttSlope(season), d.shortGame(season), d.scoring(season)} {
			if chart != nil {
				assertLabelsHaveTheirPlace(t, chart)
			}
		}
	})
}

var drawnEdgesFt = []float64{math.NaN(), 0, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50}

// lengths are all lengths, then those of some of the edges, the last open.
func (d drawnFigures) lengths(add func(from, to float64)) {
	for i, from := range drawnEdgesFt {
		to := math.NaN()
		if i > 0 && i+1 < len(drawnEdgesFt) {
			to = drawnEdgesFt[i+1]
		}
		if i == 0 || i == 3 || rapid.Bool().Draw(d.T, "putted") {
			add(from, to)
		}
	}
}

func (d drawnFigures) putting(season Season) (rows []metrics.Putting) {
	d.lengths(func(from, to float64) {
		row := metrics.Putting{Player: season.Player, FromFt: from, ToFt: to, N: d.count(), NFirst: d.count(), BaselineMade: 0.5}
		row.NMade, row.Made, row.MadeLo, row.MadeHi = d.share(row.N)
		row.NThreePutt, row.ThreePutt, row.ThreePuttLo, row.ThreePuttHi = d.share(row.NFirst)
		row.LeaveMedianFt = rapid.Float64Range(0, 300).Draw(d.T, "leave")
		row.LeaveMedianLoFt, row.LeaveMedianHiFt = d.around(row.LeaveMedianFt, 0, 400)
		row.LeaveP25Ft, row.LeaveP75Ft = row.LeaveMedianFt/2, 2*row.LeaveMedianFt
		rows = append(rows, row)
	})
	return rows
}

func (d drawnFigures) puttsMade(season Season) *Chart {
	model := metrics.PuttingModel{Player: season.Player, BaselineLineDeg: 0.99, BaselinePacePct: 8.2}
	model.StartLineDeg, model.PacePct = rapid.Float64Range(0.03, 28).Draw(d.T, "line"), rapid.Float64Range(0.2, 200).Draw(d.T, "pace")
	model.StartLineLoDeg, model.StartLineHiDeg = d.around(model.StartLineDeg, 0.028, 28.7)
	model.PaceLoPct, model.PaceHiPct = d.around(model.PacePct, 0.2, 200)
	model.LineGain, model.LineGainLo, model.LineGainHi = d.difference(30)
	model.PaceGain, model.PaceGainLo, model.PaceGainHi = d.difference(30)
	model.BothGain, model.BothGainLo, model.BothGainHi = d.difference(30)
	chart, _ := PuttsMadeChart(season, d.putting(season), []metrics.PuttingModel{model})
	return chart
}

func (d drawnFigures) firstPutt(season Season) *Chart {
	chart, _ := FirstPuttChart(season, d.putting(season))
	return chart
}

func (d drawnFigures) puttSlope(season Season) *Chart {
	var grounds []metrics.PuttingGround
	for _, slope := range []string{"uphill", "downhill"} {
		d.lengths(func(from, to float64) {
			row := metrics.PuttingGround{Player: season.Player, Kind: metrics.BySlope, Ground: slope, FromFt: from, ToFt: to, N: d.count()}
			row.NMade, row.Made, row.MadeLo, row.MadeHi = d.share(row.N)
			grounds = append(grounds, row)
		})
	}
	var differences []metrics.PuttingGroundDifference
	for _, pair := range [][3]string{{metrics.BySlope, "downhill", "uphill"}, {metrics.ByBreak, "left to right", "right to left"}} {
		row := metrics.PuttingGroundDifference{Player: season.Player, Kind: pair[0], Ground: pair[1], Other: pair[2], N: d.count(), NOther: d.count()}
		row.Made, row.MadeLo, row.MadeHi = d.difference(1)
		differences = append(differences, row)
	}
	chart, _ := PuttSlopeChart(season, grounds, differences)
	return chart
}

func (d drawnFigures) shortGame(season Season) *Chart {
	var rows []metrics.ShortGame
	add := func(lie string, from, to float64) {
		row := metrics.ShortGame{Player: season.Player, Lie: lie, FromYd: from, ToYd: to, N: d.count(), BaselineShare: 0.5, BaselineStrokes: 2.5}
		row.UpAndDowns, row.UpAndDown, row.UpAndDownLo, row.UpAndDownHi = d.share(row.N)
		row.Strokes = rapid.Float64Range(1, 15).Draw(d.T, "strokes")
		row.StrokesLo, row.StrokesHi = d.around(row.Strokes, 1, 15)
		rows = append(rows, row)
	}
	add(metrics.AnyLie, math.NaN(), math.NaN())
	for _, from := range []float64{0, 10, 30} {
		add(metrics.AnyLie, from, from+10)
	}
	add(metrics.AnyLie, 50, math.NaN())
	for range rapid.IntRange(0, 20).Draw(d.T, "lies") {
		add(rapid.StringN(1, 60, -1).Draw(d.T, "lie"), math.NaN(), math.NaN())
	}
	sided := metrics.ShortSided{Player: season.Player, FromYd: math.NaN(), ToYd: math.NaN(), N: d.count(), NOther: d.count()}
	sided.Cost, sided.CostLo, sided.CostHi = d.difference(5)
	chart, _ := ShortGameChart(season, rows, []metrics.ShortSided{sided})
	return chart
}

func (d drawnFigures) scoring(season Season) *Chart {
	var rows []metrics.Scoring
	for _, group := range []string{"all", "3", "4", "5", "6"} {
		row := metrics.Scoring{
			Player: season.Player, GroupKind: metrics.ByPar, Group: group, Rounds: 1_000_000,
			EaglesOrBetter: d.of(d.count()), Birdies: d.count(), Pars: d.count(), Bogeys: d.count(), Doubles: d.count(), Worse: d.of(d.count()),
		}
		if group == "all" {
			row.GroupKind = metrics.ByTotal
		}
		row.N = row.EaglesOrBetter + row.Birdies + row.Pars + row.Bogeys + row.Doubles + row.Worse
		row.ToPar, row.ToParLo, row.ToParHi = d.difference(18 * 12)
		row.DoubleOrWorseShare = float64(row.Doubles+row.Worse) / float64(row.N)
		row.DoubleOrWorseLo, row.DoubleOrWorseHi = d.around(row.DoubleOrWorseShare, 0, 1)
		rows = append(rows, row)
	}
	doubles := d.count()
	var causes []metrics.DoubleCause
	for _, class := range []string{"tee shot", "approach", "short game", "putt", "penalty"} {
		row := metrics.DoubleCause{Player: season.Player, GroupKind: metrics.ByClass, Group: class, N: doubles}
		if class == "penalty" {
			row.GroupKind = metrics.ByPenalty
		}
		row.Started, row.StartedShare, row.StartedLo, row.StartedHi = d.share(doubles)
		row.LostPerRound = rapid.Float64Range(0, 60).Draw(d.T, "lost")
		row.LostPerRoundLo, row.LostPerRoundHi = d.around(row.LostPerRound, 0, 80)
		causes = append(causes, row)
	}
	chart, _ := ScoringChart(season, rows, causes)
	return chart
}

func TestAPanelHoldsZeroAndEveryValueAndIsNeverTooNarrow(t *testing.T) {
	for _, test := range []struct {
		values   []float64
		from, to float64 // held at least
	}{
		{[]float64{0.2, 0.5, math.NaN()}, 0, 0.5},
		{[]float64{-3, 2}, -3, 2},
		{[]float64{-3, -1}, -3, 0},
		{[]float64{0.001}, 0, 0.1},
		{[]float64{-0.001}, -0.04, 0.04},
		{nil, 0, 0.1},
	} {
		axis, step := spanning(100, 200, 4, 0.1, test.values...)
		if axis.from > test.from || axis.to < test.to {
			t.Errorf("%v: the panel runs from %v to %v", test.values, axis.from, axis.to)
		}
		if n := len(axis.ticks(step)); n < 2 || n > 5 {
			t.Errorf("%v: %d ticks", test.values, n)
		}
	}
}
