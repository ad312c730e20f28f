package metrics

import (
	"math"

	"roundmill/ingest"
	"roundmill/metrics/estimate"
	"roundmill/transform/baseline"
)

// ownStroke is one stroke: from where, and how many it took from there.
type ownStroke struct {
	category    ingest.Category
	tenthsFt    int32
	strokesLeft int32
}

// Tenths of a foot hold putts in feet and the rest in tenths of a yard exactly.
const tenthsPerYard = 30

func tenthsOfAFoot(yards float64) int32 { return int32(math.Round(tenthsPerYard * yards)) }

// ownCounts are strokes added up by category and tenth of a foot.
type ownCounts [ingest.CategoryCount][]ownCount

type ownCount struct{ n, strokesLeft, made int64 }

func (c *ownCounts) add(s ownStroke) {
	counts := c[s.category]
	for int(s.tenthsFt) >= len(counts) {
		counts = append(counts, ownCount{})
	}
	at := &counts[s.tenthsFt]
	at.n++
	at.strokesLeft += int64(s.strokesLeft)
	if s.strokesLeft == 1 {
		at.made++
	}
	c[s.category] = counts
}

// addTimes adds other counts, times of them: -1 takes them away.
func (c *ownCounts) addTimes(other *ownCounts, times int64) {
	for category, counts := range other {
		if more := len(counts) - len(c[category]); more > 0 {
			c[category] = append(c[category], make([]ownCount, more)...)
		}
		for tenth, count := range counts {
			at := &c[category][tenth]
			at.n += times * count.n
			at.strokesLeft += times * count.strokesLeft
			at.made += times * count.made
		}
	}
}

func (c *ownCounts) table(name, source string) *baseline.Table {
	var strokes [ingest.CategoryCount][]baseline.Row
	for category, counts := range c {
		strokes[category] = isotonicRows(counts, func(at ownCount) int64 { return at.strokesLeft })
	}
	missed := isotonicRows(c[ingest.Green], func(at ownCount) int64 { return at.n - at.made })
	for i := range missed {
		missed[i].Value = 1 - missed[i].Value
	}
	return baseline.New(name, source, strokes, missed)
}

// putts are those that a model of putting is fitted to.
func (c *ownCounts) putts() (putts []estimate.PuttCount) {
	for tenth, at := range c[ingest.Green] {
		if tenth > shortestFitTenths && at.n > 0 {
			putts = append(putts, estimate.PuttCount{DistanceFt: float64(tenth) / 10, Tries: int(at.n), Made: int(at.made)})
		}
	}
	return putts
}

// isotonicRows are the corners of the staircase that rises with the distance.
// The rows at 0 and a yard past the last distance keep its ends level: the
// segments that a table carries on could be as steep as two strokes allow.
func isotonicRows(counts []ownCount, total func(ownCount) int64) (rows []baseline.Row) {
	var yards, means, weights []float64
	for tenth, at := range counts {
		if at.n > 0 {
			yards = append(yards, float64(tenth)/tenthsPerYard)
			means = append(means, float64(total(at))/float64(at.n))
			weights = append(weights, float64(at.n))
		}
	}
	fitted := estimate.Isotonic(means, weights)
	for i, value := range fitted {
		if i == 0 && yards[0] > 0 {
			rows = append(rows, baseline.Row{Yd: 0, Value: value})
		}
		if i == 0 || i == len(fitted)-1 || value != fitted[i-1] || value != fitted[i+1] {
			rows = append(rows, baseline.Row{Yd: yards[i], Value: value})
		}
		if i == len(fitted)-1 {
			rows = append(rows, baseline.Row{Yd: yards[i] + 1, Value: value})
		}
	}
	return rows
}
