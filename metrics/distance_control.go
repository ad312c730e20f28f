package metrics

import (
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// DistanceControl is one row of the table distance_control: how well a player
// controls the distance of approaches from clean lies inside 120 yd, by
// ten-yard step, over the shots whose miss is logged. The lies and the shots
// are those of club_yardages.
type DistanceControl struct {
	Player     string  `col:"player" about:"player as named in the log, null when the log names none"`
	FromYd     float64 `col:"from_yd" unit:"yd" about:"lower edge of the step of to_hole, included"`
	ToYd       float64 `col:"to_yd" unit:"yd" about:"upper edge of the step, not included"`
	N          int64   `col:"n" about:"approaches from the tee of a par 3 or the fairway, without penalties, lay ups and getting out, whose miss along the line of play is known"`
	LongMeanYd float64 `col:"long_mean_yd" unit:"yd" about:"mean finish past the hole along the line of play, short is negative"`
	LongLoYd   float64 `col:"long_mean_lo_yd" unit:"yd" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	LongHiYd   float64 `col:"long_mean_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	LongSdYd   float64 `col:"long_sd_yd" unit:"yd" about:"standard deviation along the line of play"`
	LongSdLoYd float64 `col:"long_sd_lo_yd" unit:"yd" about:"lower end of its 90 % interval (bootstrap over rounds, to first order, of its logarithm, with the correction for few shots of Bonett 2006)"`
	LongSdHiYd float64 `col:"long_sd_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	Within     float64 `col:"within_5pct_share" unit:"share" about:"share of n that finished within 5 % of the distance along the line of play, short or long"`
	WithinLo   float64 `col:"within_5pct_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	WithinHi   float64 `col:"within_5pct_share_hi" unit:"share" about:"upper end of its 90 % interval"`
}

const (
	controlStepYd = 10
	controlSteps  = 12 // up to 120 yd
	controlled    = 0.05
)

// controlStep is the sums of one step: miss along the line and its square.
type controlStep struct {
	within int64
	long   roundSums
}

func (p *yardagePlayer) addControl(s *transform.Shots, row int, round int32) {
	toHole, long := s.ToHoleYd[row], s.LongYd[row]
	if !(toHole < controlStepYd*controlSteps) {
		return
	}
	if math.IsNaN(long) {
		p.offLine++
		return
	}
	sums := &p.steps[int(toHole/controlStepYd)]
	sums.long.add(round, long, long*long)
	if math.Abs(long) <= controlled*toHole {
		sums.within++
	}
}

// ControlRows are the finished rows of distance_control: players in order,
// nearest steps first; steps without a shot are left out.
func (f *ClubYardageFigures) ControlRows() []DistanceControl {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *yardagePlayer) (rows []DistanceControl) {
		draws := draws.ofPlayer(player.rounds)
		for step := range player.steps {
			if sums := &player.steps[step]; len(sums.long) > 0 {
				row := sums.row(draws)
				row.Player, row.FromYd, row.ToYd = name, float64(step*controlStepYd), float64((step+1)*controlStepYd)
				rows = append(rows, row)
			}
		}
		return rows
	})
}

func (c *controlStep) row(draws playerDraws) DistanceControl {
	long := c.long.inOrder(draws.ranks)
	mean, ofMean := long.mean(0, draws)
	sd, ofSd := long.spread(draws)
	within, ofWithin := shareOverRounds(c.within, long.n(), len(long))
	return DistanceControl{
		N: long.n(), LongMeanYd: mean, LongLoYd: ofMean.Lo, LongHiYd: ofMean.Hi,
		LongSdYd: sd, LongSdLoYd: ofSd.Lo, LongSdHiYd: ofSd.Hi,
		Within: within, WithinLo: ofWithin.Lo, WithinHi: ofWithin.Hi,
	}
}

// spread is the standard deviation of values whose sums and sums of squares
// these are, with its interval; NaN under two values.
//
// The interval is by the bootstrap over rounds, to first order, of the logarithm
// of the spread, in which its error is more nearly even. The logarithm is that
// of Bonett's c s², c = n/(n-z), for the spread that few values show is on the
// whole too narrow: D. G. Bonett (2006), "Approximate confidence interval for
// standard deviation of nonnormal distributions", Computational Statistics &
// Data Analysis 50:775-782.
func (r roundSums) spread(draws playerDraws) (sd float64, interval estimate.Interval) {
	n := float64(r.n())
	z := estimate.NormalReach(Level)
	if n < 2 {
		return math.NaN(), estimate.None()
	}
	mean, _ := r.mean(0, draws)
	squares := make([]float64, draws.rounds) // about the mean
	var total estimate.Sum
	for _, sum := range r {
		square := sum.sums[1] - 2*mean*sum.sums[0] + float64(sum.n)*mean*mean
		squares[sum.round] = square
		total.Add(square)
	}
	sd = math.Sqrt(total.Value() / (n - 1))
	if sd == 0 || n <= z {
		return sd, estimate.None()
	}
	influences := make([]float64, draws.rounds)
	for round, count := range r.counts(draws.rounds) {
		influences[round] = (squares[round]/total.Value() - count/n) / 2 * n / (n - z)
	}
	logarithm := draws.Linear(math.Log(sd*math.Sqrt(n/(n-z))), influences, len(r), Level)
	return sd, estimate.Interval{Lo: min(sd, math.Exp(logarithm.Lo)), Hi: math.Exp(logarithm.Hi)}
}
