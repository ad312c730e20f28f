package estimate

import (
	"math"
	"math/rand/v2"
	"testing"
)

// withinRow is a row of a regression within strata.
type withinRow struct {
	stratum, round int
	y              float64
	x              []float64
}

func stratumSumsOf(rows []withinRow) (sums []StratumSums) {
	for _, row := range rows {
		s := StratumSums{Stratum: row.stratum, Round: row.round, N: 1, Y: row.y, X: row.x}
		for i, x := range row.x {
			s.XY = append(s.XY, x*row.y)
			for _, other := range row.x[i:] {
				s.XX = append(s.XX, x*other)
			}
		}
		sums = append(sums, s)
	}
	return sums
}

// Mathematics: an intercept for every stratum is a column of ones for every stratum.
func TestWithinFitAgreesWithOneColumnForEachStratum(t *testing.T) {
	random := newRandom(4)
	const strata, rounds = 4, 9
	var rows []withinRow
	var columns RegressionSums
	for range 80 {
		stratum, x, z := random.IntN(strata), random.NormFloat64(), random.NormFloat64()
		y := 3*x - 2*z + 5*float64(stratum) + random.NormFloat64()
		rows = append(rows, withinRow{stratum, random.IntN(rounds), y, []float64{x, z}})
		predictors := []float64{x, z, 0, 0, 0}
		if stratum > 0 {
			predictors[1+stratum] = 1
		}
		columns.Add(y, predictors...)
	}
	want, ok := Coefficients([]RegressionSums{columns})
	if !ok {
		t.Fatal("not determined")
	}
	got := FitWithinStrata(stratumSumsOf(rows), 2, rounds)
	for j := range 2 {
		if !near(got.Coefficients[j], want[1+j], 1e-10) {
			t.Errorf("coefficient %d: %v, with columns %v", j, got.Coefficients[j], want[1+j])
		}
		var sum float64
		for _, influence := range got.Influences[j] {
			sum += influence
		}
		if !near(sum, 0, 1e-12) {
			t.Errorf("influences of coefficient %d add up to %v", j, sum)
		}
	}
}

// By hand: stratum 0 has 1, 3 against 6 (2 and 1 rows, weight 2/3, difference 4); stratum 1 has 10 against 9, 11, 16 (1 and
// 3 rows, weight 3/4, difference 2); stratum 2 has one group only. (4·2/3 + 2·3/4) / (2/3 + 3/4) = 50/17.
func TestWithinFitOfTwoGroupsIsTheWeightedDifference(t *testing.T) {
	row := func(stratum int, group, y float64) withinRow { return withinRow{stratum, 0, y, []float64{group}} }
	got := FitWithinStrata(stratumSumsOf([]withinRow{
		row(0, 0, 1), row(0, 0, 3), row(0, 1, 6),
		row(1, 0, 10), row(1, 1, 9), row(1, 1, 11), row(1, 1, 16),
		row(2, 1, 100), row(2, 1, 200),
	}), 1, 1)
	if !near(got.Coefficients[0], 50.0/17, 1e-12) {
		t.Errorf("difference %v, want 50/17", got.Coefficients[0])
	}
}

func TestWithinFitDoesNotGuess(t *testing.T) {
	still := stratumSumsOf([]withinRow{{0, 0, 1, []float64{0, 1}}, {0, 1, 2, []float64{0, 2}}, {0, 2, 4, []float64{0, 3}}, {0, 3, 4, []float64{0, 4}}})
	if got := FitWithinStrata(still, 2, 4).Coefficients; !math.IsNaN(got[0]) || math.IsNaN(got[1]) {
		t.Errorf("a predictor that stands still: %v", got)
	}
	apart := stratumSumsOf([]withinRow{{0, 0, 1, []float64{0}}, {0, 1, 2, []float64{0}}, {1, 2, 4, []float64{1}}, {1, 3, 4, []float64{1}}})
	if got := FitWithinStrata(apart, 1, 4).Coefficients; !math.IsNaN(got[0]) {
		t.Errorf("groups that never meet in a stratum: %v", got)
	}
	few := stratumSumsOf([]withinRow{{0, 0, 1, []float64{0}}, {0, 1, 2, []float64{1}}})
	if got := FitWithinStrata(few, 1, 2).Coefficients; !math.IsNaN(got[0]) {
		t.Errorf("two rows: %v", got)
	}
	twins := stratumSumsOf([]withinRow{{0, 0, 1, []float64{1, 1}}, {0, 1, 2, []float64{2, 2}}, {0, 2, 4, []float64{3, 3}}, {0, 3, 5, []float64{7, 7}}})
	if got := FitWithinStrata(twins, 2, 4).Coefficients; !math.IsNaN(got[0]) || !math.IsNaN(got[1]) {
		t.Errorf("predictors that are the same: %v", got)
	}
	if got := FitWithinStrata(nil, 1, 0).Coefficients; !math.IsNaN(got[0]) {
		t.Errorf("no rows: %v", got)
	}
}

// A simulation with known truth: the two groups differ by 0.3 on average, more in some strata than in others; every
// stratum has a level of its own and every round a day of its own. The interval that claims 90 % holds the truth in 85
// to 95 % of repeats.
func TestLinearIntervalHoldsTheTruth(t *testing.T) {
	const repeats, truth = 600, 0.3
	for name, setting := range map[string]struct {
		rounds, strata, rowsPerRound int
		shareOfOne                   float64
	}{
		"a season, groups of like size": {46, 8, 14, 0.5},
		"a season, one group rare":      {46, 8, 14, 0.1},
		"twelve rounds, small strata":   {12, 20, 14, 0.25},
	} {
		random := newRandom(11)
		draws := NewResampler(setting.rounds, 500, 1)
		held := 0
		for range repeats {
			sums := stratumSumsOf(simulatedRows(random, setting.rounds, setting.strata, setting.rowsPerRound, setting.shareOfOne, truth))
			fit := FitWithinStrata(sums, 1, setting.rounds)
			if draws.Linear(fit.Coefficients[0], fit.Influences[0], setting.rounds, 0.9).Contains(truth) {
				held++
			}
		}
		share := float64(held) / repeats
		t.Logf("%s: holds the truth in %.1f %%", name, 100*share)
		if share < 0.85 || share > 0.95 {
			t.Errorf("%s: the 90 %% interval holds the truth in %.1f %%", name, 100*share)
		}
	}
}

func simulatedRows(random *rand.Rand, rounds, strata, perRound int, share, difference float64) (rows []withinRow) {
	for round := range rounds {
		day := 0.2 * random.NormFloat64()
		for range perRound {
			stratum, group := random.IntN(strata), 0.0
			if random.Float64() < share {
				group = 1
			}
			heterogeneous := difference * (1 + 0.5*float64(1-2*(stratum%2)))
			y := 0.5*float64(stratum) + day + group*heterogeneous + random.ExpFloat64()
			rows = append(rows, withinRow{stratum, round, y, []float64{group}})
		}
	}
	return rows
}

func TestLinearIntervalOfAMeanIsTheBootstrapInterval(t *testing.T) {
	values := []float64{3, 1, 4, 1, 5, 9, 2, 6}
	var mean float64
	for _, v := range values {
		mean += v / 8
	}
	influences := make([]float64, len(values))
	for i, v := range values {
		influences[i] = (v - mean) / 8
	}
	draws := NewResampler(8, 2000, 3)
	got, want := draws.Linear(mean, influences, 8, 0.9), draws.Mean(values, 0.9)
	if !near(got.Lo, want.Lo, 1e-12) || !near(got.Hi, want.Hi, 1e-12) {
		t.Errorf("%v, want %v", got, want)
	}
	if !draws.Linear(mean, influences, 4, 0.9).IsNone() {
		t.Error("an interval from four rounds")
	}
}
