package estimate

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Published: Rubin's eight schools, in Gelman, Carlin, Stern, Dunson, Vehtari and Rubin, Bayesian Data Analysis, chapter
// 5: pooled estimate 7.7 with standard error 4.1 (from memory). Their spread is less than their noise, so τ is 0.
func TestShrinkPoolsTheEightSchools(t *testing.T) {
	got := Shrink([]float64{28, 8, -3, 7, -1, 1, 18, 12}, []float64{15, 10, 16, 11, 9, 11, 10, 18})
	if !near(got.ClassMean, 7.7, 0.05) || !near(got.ClassMeanStandardError, 4.1, 0.05) || got.BetweenSD != 0 {
		t.Errorf("class mean %.2f ± %.2f, between %.2f", got.ClassMean, got.ClassMeanStandardError, got.BetweenSD)
	}
	for i, cell := range got.Cells {
		if !near(cell.Mean, got.ClassMean, 1e-12) || !near(cell.SD, got.ClassMeanStandardError, 1e-12) {
			t.Errorf("school %d keeps %+v", i, cell)
		}
	}
}

// Published: thirteen trials of a vaccine against tuberculosis (G. A. Colditz and others, 1994, JAMA 271:698-702),
// log relative risks, pooled by DerSimonian and Laird: τ² = 0.3088, mean -0.7141, standard error 0.1787, in many
// textbooks and the documentation of statistics packages (data and figures from memory).
func TestShrinkAgreesWithDerSimonianAndLaird(t *testing.T) {
	trials := [][4]float64{ // cases and others among the vaccinated, cases and others among the rest
		{4, 119, 11, 128}, {6, 300, 29, 274}, {3, 228, 11, 209}, {62, 13536, 248, 12619}, {33, 5036, 47, 5761},
		{180, 1361, 372, 1079}, {8, 2537, 10, 619}, {505, 87886, 499, 87892}, {29, 7470, 45, 7232},
		{17, 1699, 65, 1600}, {186, 50448, 141, 27197}, {5, 2493, 3, 2338}, {27, 16886, 29, 17825},
	}
	var logRisks, standardErrors []float64
	for _, n := range trials {
		vaccinated, rest := n[0]+n[1], n[2]+n[3]
		logRisks = append(logRisks, math.Log((n[0]/vaccinated)/(n[2]/rest)))
		standardErrors = append(standardErrors, math.Sqrt(1/n[0]-1/vaccinated+1/n[2]-1/rest))
	}
	got := Shrink(logRisks, standardErrors)
	if !near(got.BetweenSD*got.BetweenSD, 0.3088, 5e-5) || !near(got.ClassMean, -0.7141, 5e-5) ||
		!near(got.ClassMeanStandardError, 0.1787, 5e-5) {
		t.Errorf("τ² %.4f, mean %.4f ± %.4f", got.BetweenSD*got.BetweenSD, got.ClassMean, got.ClassMeanStandardError)
	}
}

func TestShrinkLeavesASingleCellAsItIs(t *testing.T) {
	got := Shrink([]float64{-0.4}, []float64{0.2}).Cells[0]
	if !near(got.Mean, -0.4, 1e-12) || !near(got.SD, 0.2, 1e-12) || !near(got.ChanceBelowZero, 0.97725, 1e-5) {
		t.Errorf("%+v", got)
	}
	if len(Shrink(nil, nil).Cells) != 0 {
		t.Error("cells out of nothing")
	}
	mustPanic(t, "a standard error of zero", func() { Shrink([]float64{1}, []float64{0}) })
}

func TestShrinkMovesCellsTowardsTheirClassOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		means := rapid.SliceOfN(rapid.Float64Range(-2, 2), n, n).Draw(t, "means")
		errors := rapid.SliceOfN(rapid.Float64Range(0.02, 1), n, n).Draw(t, "errors")
		got := Shrink(means, errors)
		for i, cell := range got.Cells {
			low, high := min(means[i], got.ClassMean), max(means[i], got.ClassMean)
			if cell.Mean < low-1e-12 || cell.Mean > high+1e-12 {
				t.Fatalf("cell %d: %v became %v, class %v", i, means[i], cell.Mean, got.ClassMean)
			}
			if cell.SD > errors[i]+1e-12 {
				t.Fatalf("cell %d: less certain than alone", i)
			}
		}
	})
}

// shrunkenSeason draws true cell means and noisy ones of a class.
func shrunkenSeason(seed uint64, cells int) (truth []float64, got Shrunken, means, errors []float64) {
	random := newRandom(seed)
	for range cells {
		mean := -0.05 + 0.1*random.NormFloat64()
		standardError := 0.04 + 0.16*random.Float64()
		truth = append(truth, mean)
		errors = append(errors, standardError)
		means = append(means, mean+standardError*random.NormFloat64())
	}
	return truth, Shrink(means, errors), means, errors
}

func TestShrinkKnowsWhatItKnows(t *testing.T) {
	for _, cells := range []int{5, 8, 20} {
		held, n := 0, 0
		var shrunkenError, rawError, claimed, below float64
		for seed := range uint64(1500) {
			truth, got, means, _ := shrunkenSeason(seed, cells)
			for i, cell := range got.Cells {
				n++
				if math.Abs(cell.Mean-truth[i]) <= standardScore(0.9)*cell.SD {
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
		t.Logf("%d cells: 90 %% held in %.1f %%, squared error %.2f of raw, over 90 %% below zero and is: %.1f %%",
			cells, 100*float64(held)/float64(n), shrunkenError/rawError, 100*below/claimed)
		mustCover(t, float64(held)/float64(n), 0.78, 0.92)
		if shrunkenError > 0.7*rawError {
			t.Errorf("%d cells: squared error %.2f of the raw means'", cells, shrunkenError/rawError)
		}
		mustCover(t, below/claimed, 0.9, 1)
	}
}
