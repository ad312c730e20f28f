package metrics

import (
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// firstPutts are the sums of first putts from one distance.
type firstPutts struct {
	n, threePutts int64
	rounds        int64
	lastRound     int32
	leaveFt       estimate.Distribution
}

func (c *firstPutts) add(s *transform.Shots, row int, round int32, threePutt bool) {
	if c.n == 0 || c.lastRound != round {
		c.rounds++
		c.lastRound = round
	}
	c.n++
	if threePutt {
		c.threePutts++
	}
	if feet := s.ProximityFt[row]; !math.IsNaN(feet) {
		c.leaveFt.Add(feet)
	}
}

// addFirst fills in what the first putts did.
func (row *Putting) addFirst(first *firstPutts) {
	share, ofShare := shareOverRounds(first.threePutts, first.n, int(first.rounds))
	leave := estimate.None()
	if first.rounds >= leastRounds {
		leave = first.leaveFt.MedianInterval(Level)
	}
	row.NFirst, row.NThreePutt = first.n, first.threePutts
	row.ThreePutt, row.ThreePuttLo, row.ThreePuttHi = share, ofShare.Lo, ofShare.Hi
	row.LeaveP25Ft, row.LeaveMedianFt, row.LeaveP75Ft = first.leaveFt.Quantile(0.25), first.leaveFt.Quantile(0.5), first.leaveFt.Quantile(0.75)
	row.LeaveMedianLoFt, row.LeaveMedianHiFt = leave.Lo, leave.Hi
}
