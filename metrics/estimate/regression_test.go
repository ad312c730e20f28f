package estimate

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// Published: NIST Statistical Reference Datasets, linear regression, Norris; data and certified values from memory.
func TestCoefficientsAgreeWithNISTNorris(t *testing.T) {
	norris := [][2]float64{ // y, x
		{0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3},
		{998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5},
		{668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6}, {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8},
		{888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3}, {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2},
		{998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9},
		{0.2, 0.5},
	}
	var sums RegressionSums
	for _, row := range norris {
		sums.Add(row[0], row[1])
	}
	got, ok := Coefficients([]RegressionSums{sums})
	if !ok || !near(got[0], -0.262323073774029, 1e-11) || !near(got[1], 1.00211681802045, 1e-13) {
		t.Errorf("%.15v %v, want -0.262323073774029 and 1.00211681802045", got, ok)
	}
}

// Published: Brownlee's stack loss data (Statistical Theory and Methodology, 1965), coefficients -39.92, 0.7156, 1.2953,
// -0.1521 in many textbooks; data and figures from memory.
func TestCoefficientsAgreeWithStackLoss(t *testing.T) {
	rows := [][4]float64{ // air flow, water temperature, acid, loss
		{80, 27, 89, 42}, {80, 27, 88, 37}, {75, 25, 90, 37}, {62, 24, 87, 28}, {62, 22, 87, 18}, {62, 23, 87, 18},
		{62, 24, 93, 19}, {62, 24, 93, 20}, {58, 23, 87, 15}, {58, 18, 80, 14}, {58, 18, 89, 14}, {58, 17, 88, 13},
		{58, 18, 82, 11}, {58, 19, 93, 12}, {50, 18, 89, 8}, {50, 18, 86, 7}, {50, 19, 72, 8}, {50, 19, 79, 8},
		{50, 20, 80, 9}, {56, 20, 82, 15}, {70, 20, 91, 15},
	}
	perRow := make([]RegressionSums, len(rows))
	for i, row := range rows {
		perRow[i].Add(row[3], row[0], row[1], row[2])
	}
	got, ok := Coefficients(perRow)
	if !ok {
		t.Fatal("not determined")
	}
	for i, want := range []float64{-39.9197, 0.7156, 1.2953, -0.1521} {
		if !near(got[i], want, 5e-5) {
			t.Errorf("coefficient %d: %.4f, want %.4f", i, got[i], want)
		}
	}
}

func TestCoefficientsAreNotGuessed(t *testing.T) {
	var few, still, twins, empty RegressionSums
	few.Add(1, 2)
	few.Add(2, 3)
	for i := range 20 {
		x := float64(i)
		still.Add(x, 0)
		twins.Add(x*x, x, 2*x+1)
	}
	for name, sums := range map[string]RegressionSums{
		"no rows": empty, "two rows": few, "a predictor that is always 0": still, "twin predictors": twins,
	} {
		if got, ok := Coefficients([]RegressionSums{sums}); ok {
			t.Errorf("%s: %v", name, got)
		}
		if got := NewResampler(1, 10, 1).Coefficients([]RegressionSums{sums}, 0.9); got != nil {
			t.Errorf("%s: intervals %v", name, got)
		}
	}
	mustPanic(t, "another number of predictors", func() { few.Add(1, 2, 3) })
}

func TestRegressionSumsHaveNoOrderAndNoGrouping(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-100, 100)
		rows := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) [3]float64 {
			return [3]float64{value.Draw(t, "y"), value.Draw(t, "wind"), value.Draw(t, "slope")}
		}), 0, 20).Draw(t, "rows")
		var whole, left, right RegressionSums
		for _, row := range rows {
			whole.Add(row[0], row[1], row[2])
		}
		cut := rapid.IntRange(0, len(rows)).Draw(t, "cut")
		for i, row := range rapid.Permutation(rows).Draw(t, "shuffled") {
			if i < cut {
				left.Add(row[0], row[1], row[2])
			} else {
				right.Add(row[0], row[1], row[2])
			}
		}
		left.Merge(right)
		if left.N() != whole.N() {
			t.Fatalf("%d rows merged, %d in one", left.N(), whole.N())
		}
		for i := range whole.square {
			if left.square[i] != whole.square[i] {
				t.Fatal("merged parts differ from the whole")
			}
		}
	})
}

// windyRounds are rounds of shots whose finish depends on wind and slope, with a level of each round besides.
func windyRounds(random *rand.Rand, rounds int) []RegressionSums {
	sums := make([]RegressionSums, rounds)
	for i := range sums {
		level, wind := 2*random.NormFloat64(), 6*random.NormFloat64()
		for range 8 + random.IntN(8) {
			mph, climbYd := wind+4*random.NormFloat64(), 5*random.NormFloat64()
			sums[i].Add(3+level-1.4*mph-0.8*climbYd+9*random.NormFloat64(), mph, climbYd)
		}
	}
	return sums
}

func TestCoefficientsCoverAtTheirLevel(t *testing.T) {
	for rounds, limits := range map[int][2]float64{12: {0.82, 0.93}, 46: {0.86, 0.93}} {
		r := NewResampler(rounds, 500, 1)
		for i, truth := range []float64{3, -1.4, -0.8} {
			share := coverage(t, 400, func(random *rand.Rand) (Interval, float64) {
				return r.Coefficients(windyRounds(random, rounds), 0.9)[i], truth
			})
			t.Logf("%d rounds, coefficient %d: %.1f %%", rounds, i, 100*share)
			mustCover(t, share, limits[0], limits[1])
		}
	}
}

func TestCoefficientsHaveNoIntervalUnderFiveRounds(t *testing.T) {
	sums := windyRounds(newRandom(1), 9)
	for i := 4; i < 9; i++ {
		sums[i] = RegressionSums{}
	}
	for i, interval := range NewResampler(9, 200, 1).Coefficients(sums, 0.9) {
		if !interval.IsNone() {
			t.Errorf("coefficient %d: %v from 4 rounds", i, interval)
		}
	}
}

func BenchmarkCoefficients(b *testing.B) {
	sums := windyRounds(newRandom(1), 46)
	r := NewResampler(46, 2000, 1)
	b.ReportAllocs()
	for b.Loop() {
		r.Coefficients(sums, 0.9)
	}
}
