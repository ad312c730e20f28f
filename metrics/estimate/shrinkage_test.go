package estimate

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Published: Rubin's eight schools, in Gelman and others (2013), Bayesian Data Analysis, section 5.5: posterior medians
// of 200 simulations 10, 8, 7, 7, 5, 6, 10, 8, and 8 for the class (from memory). A mean lies a little above the median
// of the first, whose posterior leans to the right, and below that of the third, which leans to the left.
func TestShrinkAgreesWithTheEightSchools(t *testing.T) {
	got := Shrink([]float64{28, 8, -3, 7, -1, 1, 18, 12}, []float64{15, 10, 16, 11, 9, 11, 10, 18})
	if !near(got.ClassMean, 8, 0.6) {
		t.Errorf("class mean %.2f", got.ClassMean)
	}
	for i, want := range []float64{10, 8, 7, 7, 5, 6, 10, 8} {
		if !near(got.Cells[i].Mean, want, 1.5) {
			t.Errorf("school %d: %.1f, want about %v", i, got.Cells[i].Mean, want)
		}
	}
}

// Mathematics: brute force. Classes and cells drawn from the prior, weighted by how likely they make the data.
func TestShrinkAgreesWithWeightedSimulation(t *testing.T) {
	means, errors := []float64{-0.30, 0.05, -0.12, -0.20}, []float64{0.10, 0.08, 0.20, 0.15}
	got := Shrink(means, errors)
	random := newRandom(1)
	var cells [4]struct{ mean, square, belowZero float64 }
	var total, between float64
	for range 2_000_000 {
		tau, mu := 4*0.20*random.Float64(), -1.6+3*random.Float64()
		var truth [4]float64
		var distance float64
		for i := range truth {
			truth[i] = mu + tau*random.NormFloat64()
			distance += (truth[i] - means[i]) * (truth[i] - means[i]) / (errors[i] * errors[i])
		}
		weight := math.Exp(-distance / 2)
		total += weight
		between += weight * tau
		for i := range truth {
			cells[i].mean += weight * truth[i]
			cells[i].square += weight * truth[i] * truth[i]
			if truth[i] < 0 {
				cells[i].belowZero += weight
			}
		}
	}
	if !near(got.BetweenSD, between/total, 0.005) {
		t.Errorf("between %v, simulated %v", got.BetweenSD, between/total)
	}
	for i, cell := range cells {
		mean := cell.mean / total
		sd := math.Sqrt(cell.square/total - mean*mean)
		if !near(got.Cells[i].Mean, mean, 0.003) || !near(got.Cells[i].SD, sd, 0.003) ||
			!near(got.Cells[i].ChanceBelowZero, cell.belowZero/total, 0.01) {
			t.Errorf("cell %d: %+v, simulated mean %.4f, sd %.4f, chance %.4f", i, got.Cells[i], mean, sd, cell.belowZero/total)
		}
	}
}

func TestShrinkLeavesASingleCellAsItIs(t *testing.T) {
	got := Shrink([]float64{-0.4}, []float64{0.2}).Cells[0]
	if !near(got.Mean, -0.4, 1e-12) || !near(got.SD, 0.2, 1e-12) || !near(got.ChanceBelowZero, 0.97725, 1e-5) {
		t.Errorf("%+v", got)
	}
	if nothing := Shrink(nil, nil); len(nothing.Cells) != 0 || !math.IsNaN(nothing.ClassMean) {
		t.Errorf("figures out of nothing: %+v", nothing)
	}
	mustPanic(t, "a standard error of zero", func() { Shrink([]float64{1}, []float64{0}) })
}

func TestShrinkPullsNoisyCellsMost(t *testing.T) {
	got := Shrink([]float64{-0.5, -0.5, 0.1, 0.1, 0.1}, []float64{0.05, 0.5, 0.05, 0.05, 0.05})
	if sure, noisy := got.Cells[0].Mean, got.Cells[1].Mean; sure > -0.4 || noisy < -0.3 {
		t.Errorf("of two cells at -0.5 the sure one became %v, the noisy one %v", sure, noisy)
	}
}

func TestShrinkMovesCellsInwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		means := rapid.SliceOfN(rapid.Float64Range(-2, 2), n, n).Draw(t, "means")
		errors := rapid.SliceOfN(rapid.Float64Range(0.02, 1), n, n).Draw(t, "errors")
		got := Shrink(means, errors)
		low, high := math.Inf(1), math.Inf(-1)
		for _, mean := range means {
			low, high = min(low, mean), max(high, mean)
		}
		for i, cell := range got.Cells {
			if cell.Mean < low-1e-9 || cell.Mean > high+1e-9 {
				t.Fatalf("cell %d: %v became %v, outside all of them", i, means[i], cell.Mean)
			}
			if !(cell.SD > 0) || cell.ChanceBelowZero < 0 || cell.ChanceBelowZero > 1+1e-12 {
				t.Fatalf("cell %d: %+v", i, cell)
			}
		}
	})
}

// Classes of skill cells with true means about -0.05 strokes, standard deviation 0.1, seen with noise of 0.04 to 0.2.
func TestShrinkKnowsWhatItKnows(t *testing.T) {
	for _, count := range []int{2, 5, 8, 20} {
		random := newRandom(uint64(count))
		var n, held, shrunkenError, rawError, claimed, below float64
		for range 2000 {
			truth, means, errors := make([]float64, count), make([]float64, count), make([]float64, count)
			for i := range truth {
				truth[i] = -0.05 + 0.1*random.NormFloat64()
				errors[i] = 0.04 + 0.16*random.Float64()
				means[i] = truth[i] + errors[i]*random.NormFloat64()
			}
			for i, cell := range Shrink(means, errors).Cells {
				n++
				if near(cell.Mean, truth[i], standardScore(0.9)*cell.SD) {
					held++
				}
				shrunkenError += (cell.Mean - truth[i]) * (cell.Mean - truth[i])
				rawError += (means[i] - truth[i]) * (means[i] - truth[i])
				if cell.ChanceBelowZero > 0.9 {
					claimed++
					if truth[i] < 0 {
						below++
					}
				}
			}
		}
		t.Logf("%d cells: 90 %% held in %.1f %%, squared error %.2f of raw, of chances over 90 %% right: %.1f %%",
			count, 100*held/n, shrunkenError/rawError, 100*below/claimed)
		mustCover(t, held/n, 0.87, 0.93)
		mustCover(t, below/claimed, 0.9, 1)
		if shrunkenError > 0.85*rawError {
			t.Errorf("%d cells: squared error %.2f of the raw means'", count, shrunkenError/rawError)
		}
	}
}

func BenchmarkShrink(b *testing.B) {
	means := []float64{-0.30, 0.05, -0.12, -0.20, 0.02, -0.03, 0.11, -0.08}
	errors := []float64{0.10, 0.08, 0.20, 0.15, 0.05, 0.11, 0.07, 0.19}
	for b.Loop() {
		Shrink(means, errors)
	}
}
