package estimate

import "math"

// Shrunken are the cells of one class after each has borrowed from the others.
type Shrunken struct {
	ClassMean   float64 // what the true means of the cells scatter about
	ClassMeanSD float64
	BetweenSD   float64 // how widely they scatter
	Cells       []ShrunkenCell
}

// ShrunkenCell is what is known of the true mean of a cell.
type ShrunkenCell struct {
	Mean            float64
	SD              float64
	ChanceBelowZero float64
}

// betweenSteps is the number of values of the spread between cells that are averaged over.
const betweenSteps = 200

// Shrink pulls the means of the cells of a class towards the mean of the class, those with large standard errors
// most, because the lowest of many noisy means is mostly low by chance. The unit is that of the means; without cells
// the figures of the class are NaN.
//
// Normal cells within a normal class: mean_i is normal about true_i with standard error s_i > 0, true_i is normal about
// μ with standard deviation τ. Given τ, with B_i = s_i²/(s_i² + τ²), μ is the mean weighted by 1/(s_i² + τ²), and true_i
// has the mean B_i μ + (1-B_i) mean_i and the variance (1-B_i) s_i² + B_i² var(μ). Empirical Bayes goes on with one
// estimate of τ (B. Efron and C. Morris 1975, "Data analysis using Stein's estimator and its generalizations", Journal
// of the American Statistical Association 70:311-319). Here the answers are averaged over 200 values of τ, weighted by
// their likelihood with μ integrated out: A. Gelman, J. B. Carlin, H. S. Stern, D. B. Dunson, A. Vehtari and D. B. Rubin
// (2013), Bayesian Data Analysis, 3rd edition, Chapman & Hall, section 5.4, with their uniform prior for τ. The one
// estimate was tried first, that of R. DerSimonian and N. Laird (1986), "Meta-analysis in clinical trials", Controlled
// Clinical Trials 7:177-188, which is often zero: with 5, 8 and 20 cells 90 % ranges held the truth in 78, 79 and 83 %,
// and of the chances over 90 % of being below zero 89, 89 and 91 % were right. Now it is 92, 90 and 88 %, and 94, 94 and
// 93 %, in 2,000 simulated classes each.
//
// Paid: the standard errors are taken as known. The prior for τ ends at four times the larger of the spread of the means
// and the largest standard error; two or three cells hardly tell τ, so there that end has a say. Cells that differ for
// a reason (a real hole in a player's game) are pulled in as well.
func Shrink(means, standardErrors []float64) Shrunken {
	if len(means) != len(standardErrors) {
		panic("estimate: shrinkage with another number of standard errors")
	}
	var spread Moments
	var largest float64
	for i, standardError := range standardErrors {
		if !(standardError > 0) {
			panic("estimate: shrinkage with a standard error that is not above zero")
		}
		spread.Add(means[i])
		largest = max(largest, standardError)
	}
	if spread.N() > 1 {
		largest = max(largest, spread.StandardDeviation())
	}

	classes := make([]class, betweenSteps)
	highest := math.Inf(-1)
	for step := range classes {
		// Squares lie closest near zero, where one precise cell would slip through even steps; each stands for a
		// range as wide as its root.
		root := (float64(step) + 0.5) / betweenSteps
		classes[step] = classGiven(4*largest*root*root, means, standardErrors)
		classes[step].logWeight += math.Log(root)
		highest = max(highest, classes[step].logWeight)
	}

	var classMean, betweenSD mixture
	cells := make([]mixture, len(means))
	for _, class := range classes {
		weight := math.Exp(class.logWeight - highest)
		classMean.add(weight, class.mean, class.variance)
		betweenSD.add(weight, class.between, 0)
		for i, mean := range means {
			within := standardErrors[i] * standardErrors[i]
			pull := within / (within + class.between*class.between)
			cells[i].add(weight, mean+pull*(class.mean-mean), (1-pull)*within+pull*pull*class.variance)
		}
	}
	shrunken := Shrunken{ClassMean: classMean.mean(), ClassMeanSD: classMean.sd(), BetweenSD: betweenSD.mean()}
	for _, cell := range cells {
		shrunken.Cells = append(shrunken.Cells, ShrunkenCell{cell.mean(), cell.sd(), cell.belowZero / cell.weight})
	}
	return shrunken
}

// class is the normal that the true means of cells come from, given the spread between them.
type class struct {
	between        float64
	mean, variance float64 // what is known of its mean
	logWeight      float64 // log-likelihood of the spread, the mean integrated out, up to a constant
}

func classGiven(between float64, means, standardErrors []float64) class {
	c := class{between: between}
	var precision float64
	for i, mean := range means {
		weight := 1 / (standardErrors[i]*standardErrors[i] + between*between)
		precision += weight
		c.mean += weight * mean
	}
	c.mean /= precision
	c.variance = 1 / precision
	c.logWeight = math.Log(c.variance) / 2
	for i, mean := range means {
		variance := standardErrors[i]*standardErrors[i] + between*between
		c.logWeight -= (math.Log(variance) + (mean-c.mean)*(mean-c.mean)/variance) / 2
	}
	return c
}

// mixture adds up weighted normals.
type mixture struct{ weight, sum, squares, belowZero float64 }

func (m *mixture) add(weight, mean, variance float64) {
	m.weight += weight
	m.sum += weight * mean
	m.squares += weight * (variance + mean*mean)
	m.belowZero += weight * normalBelow(-mean/math.Sqrt(variance))
}

func (m mixture) mean() float64 { return m.sum / m.weight }

func (m mixture) sd() float64 { return math.Sqrt(max(0, m.squares/m.weight-m.mean()*m.mean())) }
