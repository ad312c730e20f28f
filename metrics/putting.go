package metrics

import (
	"fmt"
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// Putting is one row of the table putting: the putts of a player from one
// distance. Putts whose length or end is not known are left out; first putts are those of
// complete holes.
type Putting struct {
	Player           string  `col:"player" about:"player as named in the log, null when the log names none"`
	FromFt           float64 `col:"from_ft" unit:"ft" about:"lower edge of the distance to the nearest tenth of a foot, included; null for all distances"`
	ToFt             float64 `col:"to_ft" unit:"ft" about:"upper edge of the distance, not included; null for all distances, and for the last"`
	N                int64   `col:"n" about:"putts whose length and end are known"`
	NMade            int64   `col:"n_made" about:"of these, putts holed"`
	Made             float64 `col:"made_share" unit:"share" about:"share of n that was holed"`
	MadeLo           float64 `col:"made_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	MadeHi           float64 `col:"made_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	BaselineMade     float64 `col:"baseline_made_share" unit:"share" about:"share that the baseline holes from these distances, null where it does not say"`
	StrokesGainedPer float64 `col:"strokes_gained_per_putt" unit:"strokes" about:"mean strokes gained a putt"`
	StrokesGainedLo  float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	StrokesGainedHi  float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	NFirst           int64   `col:"n_first" about:"complete holes whose first putt was from there"`
	LeaveP25Ft       float64 `col:"first_leave_p25_ft" unit:"ft" about:"25th percentile of what the first putt left, holed ones among them (0 ft), definition 7 of Hyndman and Fan"`
	LeaveMedianFt    float64 `col:"first_leave_median_ft" unit:"ft" about:"median of what the first putt left"`
	LeaveMedianLoFt  float64 `col:"first_leave_median_lo_ft" unit:"ft" about:"lower end of its 90 % interval (order statistics)"`
	LeaveMedianHiFt  float64 `col:"first_leave_median_hi_ft" unit:"ft" about:"upper end of its 90 % interval"`
	LeaveP75Ft       float64 `col:"first_leave_p75_ft" unit:"ft" about:"75th percentile of what the first putt left"`
	NThreePutt       int64   `col:"n_three_putt" about:"of n_first, holes with three putts or more"`
	ThreePutt        float64 `col:"three_putt_share" unit:"share" about:"share of n_first"`
	ThreePuttLo      float64 `col:"three_putt_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	ThreePuttHi      float64 `col:"three_putt_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	Baseline         string  `col:"baseline" about:"what strokes gained and shares made are measured against"`
}

// Edges of the distances at which putts are counted.
var puttStepEdgesFt = [...]float64{0, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50}

const puttSteps = len(puttStepEdgesFt)

// puttStepFt are the edges of a distance, NaN where it has none; -1 is all of
// them.
func puttStepFt(step int) (from, to float64) {
	from, to = math.NaN(), math.NaN()
	if step >= 0 {
		from = puttStepEdgesFt[step]
	}
	if step >= 0 && step+1 < puttSteps {
		to = puttStepEdgesFt[step+1]
	}
	return from, to
}

// puttFt is the length of a putt to a tenth of a foot: yards that feet were made
// into do not always come back whole.
func puttFt(s *transform.Shots, row int) float64 { return math.Round(30*s.ToHoleYd[row]) / 10 }

// PuttingFigures adds up putts by distance and by the ground under them.
type PuttingFigures struct {
	options Options
	table   *baseline.Table
	players byPlayer[puttPlayer]
}

type puttPlayer struct {
	rounds  roundList
	putts   [puttSteps]puttSums
	first   [1 + puttSteps]firstPutts             // of all distances, then of each
	grounds [len(puttGrounds)][puttSteps]puttSums // see putting_ground.go
	tenths  puttTenths                            // see putting_model.go
	holes   int64                                 // complete ones
	taken   int64                                 // putts on these
	unknown int64                                 // putts whose length or end is not known
	noSlope int64                                 // putts without a slope
	noBreak int64
}

// puttSums are the sums of putts from one distance.
type puttSums struct {
	rounds        puttRounds
	baselineMade  estimate.Sum
	baselineKnown bool // all of a table's shares made are known, or none
}

// newPuttingFigures is an empty accumulator that holds putts against the shares
// made of a baseline; one without such shares leaves out the figures that need
// them.
func newPuttingFigures(options Options, table *baseline.Table) *PuttingFigures {
	return &PuttingFigures{options: options, table: table, players: byPlayer[puttPlayer]{}}
}

// madeShare is the baseline's share made from a distance in feet, NaN where it
// has none.
func (f *PuttingFigures) madeShare(feet float64) float64 {
	return f.table.MadeShare(feet / 3)
}

// Add adds the putts of a batch.
func (f *PuttingFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		player := f.players.of(s.Player.At(int(from)))
		place := player.rounds.add(keyOf(s, int(from)))
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			f.addHole(player, s, hole, place)
		}
	}
}

func (f *PuttingFigures) addHole(player *puttPlayer, s *transform.Shots, hole int, round int32) {
	complete := s.Holes.Complete[hole]
	if complete {
		player.holes++
		player.taken += int64(s.Holes.Putts[hole])
	}
	first := complete
	from, to := s.RowRange(hole)
	for row := from; row < to; row++ {
		if s.Class[row] != transform.Putt {
			continue
		}
		feet := puttFt(s, row)
		if last := row+1 == to; math.IsNaN(feet) || last && !s.Holed[row] && math.IsNaN(s.FinishYd[row]) {
			player.unknown++
			first = false
			continue
		}
		step := rangeOf(feet, puttStepEdgesFt[:])
		made := f.madeShare(feet)
		player.putts[step].add(s, row, round, made)
		player.addGround(s, row, round, step, made)
		player.tenths.add(feet, s.Holed[row], first)
		if first {
			for _, place := range [...]int{0, 1 + step} {
				player.first[place].add(s, row, round, s.Holes.ThreePutt[hole] == transform.Yes)
			}
		}
		first = false
	}
}

func (c *puttSums) add(s *transform.Shots, row int, round int32, baselineMade float64) {
	c.rounds.add(round, s.Holed[row], s.StrokesGained[row])
	if !math.IsNaN(baselineMade) {
		c.baselineMade.Add(baselineMade)
		c.baselineKnown = true
	}
}

func (c *puttSums) merge(other *puttSums) {
	c.rounds = append(c.rounds, other.rounds...)
	c.baselineMade.Merge(other.baselineMade)
	c.baselineKnown = c.baselineKnown || other.baselineKnown
}

// Rows are the finished rows of putting: players in order, all distances before
// each; distances without a putt are left out.
func (f *PuttingFigures) Rows() []Putting {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *puttPlayer) (rows []Putting) {
		draws := draws.ofPlayer(player.rounds)
		var all puttSums
		for step := range puttSteps {
			all.merge(&player.putts[step])
		}
		for step := -1; step < puttSteps; step++ {
			sums := &all
			if step >= 0 {
				sums = &player.putts[step]
			}
			if len(sums.rounds) == 0 {
				continue
			}
			row := sums.row(draws)
			row.addFirst(&player.first[1+step])
			row.Player, row.Baseline = name, f.options.Baseline
			row.FromFt, row.ToFt = puttStepFt(step)
			rows = append(rows, row)
		}
		return rows
	})
}

func (c *puttSums) row(draws playerDraws) Putting {
	rounds := c.rounds.inOrder(draws.ranks)
	n, made := rounds.n()
	share, ofShare := shareOverRounds(made, n, len(rounds))
	mean, ofMean := rounds.gained().mean(0, draws)
	return Putting{
		N: n, NMade: made, Made: share, MadeLo: ofShare.Lo, MadeHi: ofShare.Hi, BaselineMade: c.baselineShare(n),
		StrokesGainedPer: mean, StrokesGainedLo: ofMean.Lo, StrokesGainedHi: ofMean.Hi,
	}
}

// baselineShare is what the baseline makes of n putts, NaN where it does not
// say.
func (c *puttSums) baselineShare(n int64) float64 {
	if !c.baselineKnown {
		return math.NaN()
	}
	return c.baselineMade.Value() / float64(n)
}

// warnings names what the log, or the baseline, leaves out of the putting.
func (f *PuttingFigures) warnings() (warnings []Warning) {
	if math.IsNaN(f.madeShare(1)) {
		warnings = append(warnings, Warning{Figure: "putting_model", Text: "the baseline has no made_share: shares made to compare with, and what line and pace would gain, are left out"})
	}
	for _, name := range f.players.names() {
		player := f.players[name]
		warn := func(figure, format string, args ...any) {
			warnings = append(warnings, Warning{figure, name, fmt.Sprintf(format, args...)})
		}
		n := player.tenths.n()
		if player.unknown > 0 {
			warn("putting", "%d of %d putts are left out: how long they were or where they finished is not known", player.unknown, player.unknown+n)
		}
		if player.noSlope > 0 {
			warn("putting_ground", "%d of %d putts are not in the figures by slope: putt_slope is not written", player.noSlope, n)
		}
		if player.noBreak > 0 {
			warn("putting_ground", "%d of %d putts are not in the figures by break: putt_break is not written", player.noBreak, n)
		}
	}
	return warnings
}
