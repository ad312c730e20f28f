package estimate

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
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
	columns, ys := mat.NewDense(80, 2+strata, nil), mat.NewVecDense(80, nil)
	for i := range 80 {
		stratum, x, z := random.IntN(strata), random.NormFloat64(), random.NormFloat64()
		y := 3*x - 2*z + 5*float64(stratum) + random.NormFloat64()
		rows = append(rows, withinRow{stratum, random.IntN(rounds), y, []float64{x, z}})
		columns.Set(i, 0, x)
		columns.Set(i, 1, z)
		columns.Set(i, 2+stratum, 1)
		ys.SetVec(i, y)
	}
	var want mat.VecDense // by gonum's QR
	if err := want.SolveVec(columns, ys); err != nil {
		t.Fatal(err)
	}
	got := FitWithinStrata(stratumSumsOf(rows), 2, rounds)
	for j := range 2 {
		if !near(got.Coefficients[j], want.AtVec(j), 1e-10) {
			t.Errorf("coefficient %d: %v, with columns %v", j, got.Coefficients[j], want.AtVec(j))
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

// Published: NIST Statistical Reference Datasets, linear regression, Norris; data and certified slope from memory.
func TestWithinFitAgreesWithNISTNorris(t *testing.T) {
	norris := [][2]float64{ // y, x
		{0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3},
		{998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5},
		{668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6}, {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8},
		{888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3}, {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2},
		{998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9},
		{0.2, 0.5},
	}
	var rows []withinRow
	for _, row := range norris {
		rows = append(rows, withinRow{0, 0, row[0], []float64{row[1]}})
	}
	if got := FitWithinStrata(stratumSumsOf(rows), 1, 1).Coefficients[0]; !near(got, 1.00211681802045, 1e-13) {
		t.Errorf("slope %.15v, want 1.00211681802045", got)
	}
}

// Published: Brownlee's stack loss data (Statistical Theory and Methodology, 1965), coefficients 0.7156, 1.2953 and
// -0.1521 in many textbooks; data and figures from memory.
func TestWithinFitAgreesWithStackLoss(t *testing.T) {
	var rows []withinRow
	for _, row := range [][4]float64{ // air flow, water temperature, acid, loss
		{80, 27, 89, 42}, {80, 27, 88, 37}, {75, 25, 90, 37}, {62, 24, 87, 28}, {62, 22, 87, 18}, {62, 23, 87, 18},
		{62, 24, 93, 19}, {62, 24, 93, 20}, {58, 23, 87, 15}, {58, 18, 80, 14}, {58, 18, 89, 14}, {58, 17, 88, 13},
		{58, 18, 82, 11}, {58, 19, 93, 12}, {50, 18, 89, 8}, {50, 18, 86, 7}, {50, 19, 72, 8}, {50, 19, 79, 8},
		{50, 20, 80, 9}, {56, 20, 82, 15}, {70, 20, 91, 15},
	} {
		rows = append(rows, withinRow{0, 0, row[3], row[:3]})
	}
	got := FitWithinStrata(stratumSumsOf(rows), 3, 1)
	for i, want := range []float64{0.7156, 1.2953, -0.1521} {
		if !near(got.Coefficients[i], want, 5e-5) {
			t.Errorf("coefficient %d: %.4f, want %.4f", i, got.Coefficients[i], want)
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
