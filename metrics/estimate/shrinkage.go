package estimate

import "math"

// Shrunken are the cells of one class after each has borrowed from the others.
type Shrunken struct {
	ClassMean              float64 // precision-weighted mean of the cells
	ClassMeanStandardError float64
	BetweenSD              float64 // how much the true means of the cells differ; 0 when their spread is all noise
	Cells                  []ShrunkenCell
}

// ShrunkenCell is what is known of the true mean of a cell: normal with this mean and standard deviation.
type ShrunkenCell struct {
	Mean            float64
	SD              float64
	ChanceBelowZero float64
}

// Shrink pulls the means of the cells of a class towards the mean of the class, those with large standard errors
// most, because the lowest of many noisy means is mostly low by chance. The unit is that of the means.
//
// Empirical Bayes, normal cells within a normal class: mean_i is normal about true_i with the given standard error
// s_i > 0, true_i is normal about μ with variance τ². τ² is estimated by the method of moments,
//
//	τ² = max(0, (Q - (k-1)) / (Σw - Σw²/Σw)), w_i = 1/s_i², Q = Σ w_i (mean_i - Σ w mean/Σ w)²
//
// of R. DerSimonian and N. Laird (1986), "Meta-analysis in clinical trials", Controlled Clinical Trials 7:177-188; μ is
// the mean weighted by 1/(s_i² + τ²). With B_i = s_i²/(s_i² + τ²) a cell then has the mean B_i μ + (1-B_i) mean_i and
// the variance (1-B_i) s_i² + B_i² var(μ): B. Efron and C. Morris (1975), "Data analysis using Stein's estimator and
// its generalizations", Journal of the American Statistical Association 70:311-319; the term in var(μ) is that of
// C. N. Morris (1983), "Parametric empirical Bayes inference: theory and applications", ibid. 78:47-55. A class of one
// cell has nobody to borrow from and stays as it is.
//
// Paid: the standard errors are taken as known, and so is τ², which with a handful of cells it is not: chances are a
// little too sure. Cells that differ for a reason (a real hole in a player's game) are pulled in as well.
func Shrink(means, standardErrors []float64) Shrunken {
	if len(means) != len(standardErrors) {
		panic("estimate: shrinkage with another number of standard errors")
	}
	for _, s := range standardErrors {
		if !(s > 0) {
			panic("estimate: shrinkage with a standard error that is not above zero")
		}
	}
	between := betweenVariance(means, standardErrors)
	classMean, classWeight := weightedMean(means, standardErrors, between)
	shrunken := Shrunken{
		ClassMean:              classMean,
		ClassMeanStandardError: math.Sqrt(1 / classWeight),
		BetweenSD:              math.Sqrt(between),
	}
	for i, mean := range means {
		within := standardErrors[i] * standardErrors[i]
		pull := within / (within + between)
		cell := ShrunkenCell{
			Mean: mean + pull*(classMean-mean),
			SD:   math.Sqrt((1-pull)*within + pull*pull/classWeight),
		}
		cell.ChanceBelowZero = normalBelow(-cell.Mean / cell.SD)
		shrunken.Cells = append(shrunken.Cells, cell)
	}
	return shrunken
}

// betweenVariance is DerSimonian and Laird's τ².
func betweenVariance(means, standardErrors []float64) float64 {
	if len(means) < 2 {
		return 0
	}
	centre, weightSum := weightedMean(means, standardErrors, 0)
	var spread, squaredWeights float64
	for i, mean := range means {
		weight := 1 / (standardErrors[i] * standardErrors[i])
		spread += weight * (mean - centre) * (mean - centre)
		squaredWeights += weight * weight
	}
	return max(0, (spread-float64(len(means)-1))/(weightSum-squaredWeights/weightSum))
}

// weightedMean weighs by 1/(standard error² + between) and returns the sum of the weights too.
func weightedMean(means, standardErrors []float64, between float64) (mean, weightSum float64) {
	for i, m := range means {
		weight := 1 / (standardErrors[i]*standardErrors[i] + between)
		weightSum += weight
		mean += weight * m
	}
	return mean / weightSum, weightSum
}
