package estimate

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func alternating(first float64, low, high float64) []float64 {
	values := []float64{first}
	for range 500 {
		values = append(values, low, high)
	}
	return values
}

// Published: NIST Statistical Reference Datasets, univariate summary statistics, certified values (from memory). The
// standard deviation can be no better than the data, which a float64 holds to a relative 1e-16 of their size.
func TestMomentsAgreeWithNIST(t *testing.T) {
	for _, row := range []struct {
		name      string
		values    []float64
		mean, sd  float64
		tolerance float64 // relative, of the standard deviation
	}{
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1, 0},
		{"NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1, 1e-15},
		{"NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 1e-9},
		{"NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 1e-8},
	} {
		var m Moments
		for _, v := range row.values {
			m.Add(v)
		}
		if !near(m.Mean(), row.mean, 1e-15*row.mean) {
			t.Errorf("%s: mean %.17g, want %.17g", row.name, m.Mean(), row.mean)
		}
		if !near(m.StandardDeviation(), row.sd, row.tolerance*row.sd) {
			t.Errorf("%s: standard deviation %.17g, want %.17g", row.name, m.StandardDeviation(), row.sd)
		}
	}
}

func TestMomentsOfLittleAreNotNumbers(t *testing.T) {
	var m Moments
	if !math.IsNaN(m.Mean()) || !math.IsNaN(m.StandardDeviation()) {
		t.Error("moments of nothing")
	}
	m.Add(4)
	if m.Mean() != 4 || !math.IsNaN(m.StandardDeviation()) {
		t.Error("one value has a mean and no standard deviation")
	}
}

func TestStandardDeviationOfEqualValuesIsZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.OneOf(rapid.Float64Range(-1e6, 1e6), rapid.Float64Range(-1e-9, 1e-9)).Draw(t, "value")
		var m Moments
		for range rapid.IntRange(2, 9).Draw(t, "n") {
			m.Add(v)
		}
		if m.StandardDeviation() != 0 {
			t.Fatalf("standard deviation %v", m.StandardDeviation())
		}
	})
}

func TestStandardDeviationIsThatOfTheDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]float64{1e-9, 1, 1e6}).Draw(t, "size")
		values := rapid.SliceOfN(rapid.Float64Range(-size, size), 2, 20).Draw(t, "values")
		var m Moments
		exactMean, n := new(big.Rat), int64(len(values))
		for _, v := range values {
			m.Add(v)
			exactMean.Add(exactMean, new(big.Rat).Mul(new(big.Rat).SetFloat64(v), big.NewRat(1, n)))
		}
		variance := new(big.Rat)
		for _, v := range values {
			distance := new(big.Rat).Sub(new(big.Rat).SetFloat64(v), exactMean)
			variance.Add(variance, distance.Mul(distance, distance))
		}
		want, _ := variance.Mul(variance, big.NewRat(1, n-1)).Float64()
		if got := m.StandardDeviation(); !near(got, math.Sqrt(want), 1e-14*math.Sqrt(want)+1e-19) {
			t.Fatalf("standard deviation %v, want %v", got, math.Sqrt(want))
		}
	})
}

func TestMomentsHaveNoOrderAndNoGrouping(t *testing.T) {
	type pair struct{ x, y float64 }
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-500, 500)
		pairs := rapid.SliceOf(rapid.Custom(func(t *rapid.T) pair {
			return pair{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")}
		})).Draw(t, "pairs")
		shuffled := rapid.Permutation(pairs).Draw(t, "shuffled")
		cut := rapid.IntRange(0, len(pairs)).Draw(t, "cut")

		var single, merged, part Moments
		var singlePair, shuffledPair PairMoments
		for _, p := range pairs {
			single.Add(p.x)
			singlePair.Add(p.x, p.y)
		}
		for i, p := range shuffled {
			if i < cut {
				merged.Add(p.x)
			} else {
				part.Add(p.x)
			}
			shuffledPair.Add(p.x, p.y)
		}
		merged.Merge(part)
		if single != merged || singlePair != shuffledPair {
			t.Fatal("another order or grouping gives other moments")
		}
	})
}

// Mathematics: the definition, computed about the mean.
func TestPairMomentsAgreeWithTheirDefinition(t *testing.T) {
	x := []float64{12.5, -3, 4, 8.25, -7, 0.5}
	y := []float64{-2, 1.5, 6, -4.5, 3, 2}
	var m PairMoments
	var meanX, meanY float64
	for i := range x {
		m.Add(x[i], y[i])
		meanX += x[i] / 6
		meanY += y[i] / 6
	}
	var xx, yy, xy float64
	for i := range x {
		xx += (x[i] - meanX) * (x[i] - meanX) / 5
		yy += (y[i] - meanY) * (y[i] - meanY) / 5
		xy += (x[i] - meanX) * (y[i] - meanY) / 5
	}
	gotXX, gotYY, gotXY := m.Covariance()
	if !near(gotXX, xx, 1e-12) || !near(gotYY, yy, 1e-12) || !near(gotXY, xy, 1e-12) {
		t.Errorf("covariance %v %v %v, want %v %v %v", gotXX, gotYY, gotXY, xx, yy, xy)
	}
	gotMeanX, gotMeanY := m.Mean()
	if !near(gotMeanX, meanX, 1e-12) || !near(gotMeanY, meanY, 1e-12) {
		t.Errorf("means %v %v", gotMeanX, gotMeanY)
	}
	sdX, sdY := m.StandardDeviations()
	if !near(sdX, math.Sqrt(xx), 1e-12) || !near(sdY, math.Sqrt(yy), 1e-12) {
		t.Errorf("standard deviations %v %v", sdX, sdY)
	}
}

func BenchmarkPairMoments(b *testing.B) {
	var m PairMoments
	for b.Loop() {
		m.Add(12.3, -4.56)
	}
}
