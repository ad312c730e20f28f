package metrics

import (
	"math"

	"roundmill/metrics/estimate"
)

// advice makes the rows of one band. The interval of the offset is that of the
// best offset of each resample's own pattern. The interval of the strokes saved
// is that of what the offset advised would save each resample's pattern, so it
// can span zero. Size of green and baseline are taken as known.
func (f *AimFigures) advice(rounds []missSums, draws *estimate.Resampler) (rows []Aim) {
	total := missTotal(rounds)
	penaltyShare, pattern := patternOf(rounds)
	green := aimGreen{depthYd: usualDepthYd, widthYd: usualWidthYd}
	if total.depths > 0 {
		green.depthYd = sumOver(rounds, func(r *missSums) float64 { return r.depthYd }) / float64(total.depths)
	}
	if total.widths > 0 {
		green.widthYd = sumOver(rounds, func(r *missSums) float64 { return r.widthYd }) / float64(total.widths)
	}
	var greens []aimGreen
	for _, cutYd := range aimCutsYd {
		if green.cutYd = cutYd; green.toMiddleYd() > 0 {
			greens = append(greens, green)
		}
	}
	if len(greens) == 0 {
		return nil
	}
	for _, green := range greens {
		for _, side := range [...]string{LeftSide, RightSide} {
			rows = append(rows, Aim{
				Side: side, CutYd: green.cutYd, N: total.misses, Rounds: total.rounds, PenaltyShare: penaltyShare,
				RightMeanYd: pattern.right, RightSdYd: math.Sqrt(pattern.rightVar),
				LongMeanYd: pattern.long, LongSdYd: math.Sqrt(pattern.longVar),
				Correlation:  pattern.covariance / math.Sqrt(pattern.rightVar*pattern.longVar),
				GreenDepthYd: green.depthYd, GreenWidthYd: green.widthYd,
			})
		}
	}
	lattice := newAimLattice(pattern.widened(), greens[0].toMiddleYd())
	rough, onGreens := lattice.strokes(f.table, greens)
	var kernel aimKernel
	// each calls back for every row with the kernel of a pattern at its green.
	each := func(p missPattern, report func(row int, rightYd float64)) {
		for side, p := range [...]missPattern{p, p.mirrored()} {
			kernel.fit(lattice, p.widened())
			kernel.sumRough(rough)
			for i, onGreen := range onGreens {
				kernel.sumGreen(onGreen)
				report(2*i+side, p.right)
			}
		}
	}
	each(pattern, func(row int, rightYd float64) {
		r := &rows[row]
		r.OffsetYd = kernel.best() - rightYd
		r.AfterFlag = kernel.expected(rightYd)
		r.Saved = (1 - penaltyShare) * (r.AfterFlag - kernel.expected(r.OffsetYd+rightYd))
	})
	offsets, saved := make([][]float64, len(rows)), make([][]float64, len(rows))
	resampledPatterns(rounds, draws, func(penaltyShare float64, p missPattern) {
		each(p, func(row int, rightYd float64) {
			offsets[row] = append(offsets[row], kernel.best()-rightYd)
			saved[row] = append(saved[row], (1-penaltyShare)*(kernel.expected(rightYd)-kernel.expected(rows[row].OffsetYd+rightYd)))
		})
	})
	for i := range rows {
		offset := estimate.Percentile(offsets[i], int(total.rounds), Level)
		rows[i].OffsetLoYd, rows[i].OffsetHiYd = offset.Lo, offset.Hi
		interval := estimate.Percentile(saved[i], int(total.rounds), Level)
		rows[i].SavedLo, rows[i].SavedHi = interval.Lo, interval.Hi
	}
	return rows
}

func sumOver(rounds []missSums, get func(*missSums) float64) float64 {
	var sum estimate.Sum
	for i := range rounds {
		sum.Add(get(&rounds[i]))
	}
	return sum.Value()
}

// missColumns are the means per logged miss that make a pattern.
var missColumns = [...]func(*missSums) float64{
	func(r *missSums) float64 { return r.right },
	func(r *missSums) float64 { return r.long },
	func(r *missSums) float64 { return r.rightRight },
	func(r *missSums) float64 { return r.longLong },
	func(r *missSums) float64 { return r.rightLong },
}

func missCount(r *missSums) float64    { return float64(r.misses) }
func shotCount(r *missSums) float64    { return float64(r.shots) }
func penaltyCount(r *missSums) float64 { return float64(r.penalties) }

// patternOf is the share of shots that ended in a penalty, and the mean and
// covariance (divisor n-1) of the misses of the others.
func patternOf(rounds []missSums) (penaltyShare float64, p missPattern) {
	n := sumOver(rounds, missCount)
	var means [len(missColumns)]float64
	for i, column := range missColumns {
		means[i] = sumOver(rounds, column) / n
	}
	return sumOver(rounds, penaltyCount) / sumOver(rounds, shotCount), patternFrom(means, n)
}

func patternFrom(means [len(missColumns)]float64, n float64) missPattern {
	right, long := means[0], means[1]
	unbiased := n / (n - 1)
	return missPattern{
		right: right, long: long,
		rightVar: unbiased * (means[2] - right*right), longVar: unbiased * (means[3] - long*long),
		covariance: unbiased * (means[4] - right*long),
	}
}

// resampledPatterns reports the pattern of every resample of rounds that has a
// miss in it.
func resampledPatterns(rounds []missSums, draws *estimate.Resampler, report func(penaltyShare float64, p missPattern)) {
	column := func(get func(*missSums) float64) []float64 {
		values := make([]float64, len(rounds))
		for i := range rounds {
			values[i] = get(&rounds[i])
		}
		return values
	}
	misses, shots := column(missCount), column(shotCount)
	var replicates [len(missColumns)][]float64
	for i, get := range missColumns {
		replicates[i] = draws.Replicates(column(get), misses)
	}
	n := sumOver(rounds, missCount)
	for i, penaltyShare := range draws.Replicates(column(penaltyCount), shots) {
		var means [len(missColumns)]float64
		for c := range means {
			means[c] = replicates[c][i]
		}
		if !math.IsNaN(means[0]) {
			report(penaltyShare, patternFrom(means, n))
		}
	}
}
