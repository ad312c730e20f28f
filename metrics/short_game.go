package metrics

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// ShortGame is one row of the table short_game: how often a player gets up and
// down from one kind of lie and distance, over the first short-game stroke of
// complete holes.
//
// Beside it stand the strokes to hole out that the baseline expects from the
// same lies and distances, and the share of up and downs that this implies: 3
// less the expected strokes, because a hole finished in two or three strokes
// and no other number has a mean of 3 less that share.
//
// Paid: holing out in one makes the true share lower than implied, four strokes
// or more make it higher, each by its share of the holes. Of the invented demo
// player, whose strokes are known, 3 less the mean is 4 points above his share
// from within 10 yd, 4 below it from 20 to 30 yd and 12 below it from 30 yd on.
// Mean strokes beside expected strokes are free of this.
type ShortGame struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	Lie             string  `col:"lie" about:"all, or the lie in the spelling of the lie table"`
	FromYd          float64 `col:"from_yd" unit:"yd" about:"lower edge of the distance, included; null for all distances"`
	ToYd            float64 `col:"to_yd" unit:"yd" about:"upper edge of the distance, not included (50 yd itself is); null for all distances, and beyond 50 yd"`
	N               int64   `col:"n" about:"complete holes whose first short-game stroke was played from there"`
	UpAndDowns      int64   `col:"n_up_and_down" about:"of these, holes finished in two strokes or fewer, penalties counted"`
	UpAndDown       float64 `col:"up_and_down_share" unit:"share" about:"share of n"`
	UpAndDownLo     float64 `col:"up_and_down_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	UpAndDownHi     float64 `col:"up_and_down_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	BaselineShare   float64 `col:"baseline_up_and_down_share" unit:"share" about:"share that the baseline implies, an approximation: 3 less its expected strokes, within 0 and 1"`
	Strokes         float64 `col:"strokes_mean" unit:"strokes" about:"mean strokes to hole out, this one and penalties counted"`
	StrokesLo       float64 `col:"strokes_mean_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	StrokesHi       float64 `col:"strokes_mean_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	BaselineStrokes float64 `col:"baseline_strokes" unit:"strokes" about:"mean strokes to hole out that the baseline expects from these lies and distances"`
	NLeave          int64   `col:"n_leave" about:"of n, strokes at rest in play or holed (0 ft): the leave is over them"`
	LeaveP25Ft      float64 `col:"leave_p25_ft" unit:"ft" about:"25th percentile of the distance left by this stroke, definition 7 of Hyndman and Fan"`
	LeaveMedianFt   float64 `col:"leave_median_ft" unit:"ft" about:"median of the distance left"`
	LeaveMedianLoFt float64 `col:"leave_median_lo_ft" unit:"ft" about:"lower end of its 90 % interval (order statistics)"`
	LeaveMedianHiFt float64 `col:"leave_median_hi_ft" unit:"ft" about:"upper end of its 90 % interval"`
	LeaveP75Ft      float64 `col:"leave_p75_ft" unit:"ft" about:"75th percentile of the distance left"`
	Baseline        string  `col:"baseline" about:"what the implied share and the expected strokes are from"`
}

// AnyLie is the lie of the rows over all lies.
const AnyLie = "all"

// The distances of the short game. The first place is for all of them, the
// last for those past 50 yd, which --short-game may let in.
var shortStepEdgesYd = [...]float64{0, 10, 20, 30, 50}

const shortSteps = len(shortStepEdgesYd) + 1

// shortStep is the place of a distance.
func shortStep(yards float64) int {
	last := len(shortStepEdgesYd) - 1
	if yards == shortStepEdgesYd[last] {
		return last
	}
	return 1 + rangeOf(yards, shortStepEdgesYd[:])
}

// shortStepYd are the edges of a place, NaN where it has none.
func shortStepYd(step int) (from, to float64) {
	from, to = math.NaN(), math.NaN()
	if step > 0 {
		from = shortStepEdgesYd[step-1]
	}
	if step > 0 && step < len(shortStepEdgesYd) {
		to = shortStepEdgesYd[step]
	}
	return from, to
}

// ShortGameFigures adds up the short game by lie and distance, and what being
// short-sided costs.
type ShortGameFigures struct {
	options Options
	players byPlayer[shortPlayer]
}

type shortPlayer struct {
	rounds      roundList
	lies        map[string]*[shortSteps]shortSums
	sided       sidedSums // strokes to hole out, see short_sided.go
	sidedGained sidedSums // strokes gained from there to the hole, where known
	sideKnown   int64     // missed greens of which it is known whether they were short-sided
	sideMissed  int64     // missed greens of which it is not
}

// shortSums are the sums of one lie and distance.
type shortSums struct {
	upAndDowns, expectedKnown int64
	strokes                   roundSums // to hole out
	expected, implied         estimate.Sum
	leaveFt                   estimate.Distribution
}

func newShortGameFigures(options Options) *ShortGameFigures {
	return &ShortGameFigures{options: options, players: byPlayer[shortPlayer]{}}
}

// Add adds the complete holes of a batch.
func (f *ShortGameFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		player := f.players.of(s.Player.At(int(from)))
		place := player.rounds.add(keyOf(s, int(from)))
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if s.Holes.Complete[hole] {
				player.addHole(s, hole, place)
				player.addSided(s, hole, place)
			}
		}
	}
}

// addHole adds the first short-game stroke of a hole.
func (p *shortPlayer) addHole(s *transform.Shots, hole int, round int32) {
	from, to := s.RowRange(hole)
	for row := from; row < to; row++ {
		if s.Class[row] != transform.ShortGame {
			continue
		}
		step := shortStep(s.ToHoleYd[row])
		for _, lie := range [...]string{AnyLie, s.LieSpelled.At(row)} {
			steps := p.lie(lie)
			for _, place := range [...]int{0, step} {
				steps[place].add(s, row, to, round, s.Holes.UpAndDown[hole] == transform.Yes)
			}
		}
		return
	}
}

func (p *shortPlayer) lie(word string) *[shortSteps]shortSums {
	if p.lies == nil {
		p.lies = map[string]*[shortSteps]shortSums{}
	}
	if p.lies[word] == nil {
		p.lies[word] = &[shortSteps]shortSums{}
	}
	return p.lies[word]
}

func (c *shortSums) add(s *transform.Shots, row, holeEnd int, round int32, upAndDown bool) {
	if upAndDown {
		c.upAndDowns++
	}
	c.strokes.add(round, float64(strokesToHoleOut(s, row, holeEnd)), 0)
	if expected := s.ExpectedBefore[row]; !math.IsNaN(expected) {
		c.expectedKnown++
		c.expected.Add(expected)
		c.implied.Add(min(1, max(0, 3-expected)))
	}
	if feet := s.ProximityFt[row]; !math.IsNaN(feet) {
		c.leaveFt.Add(feet)
	}
}

// strokesToHoleOut are the strokes and penalties from a stroke of a complete
// hole on to its end.
func strokesToHoleOut(s *transform.Shots, row, holeEnd int) (strokes int32) {
	for ; row < holeEnd; row++ {
		strokes += 1 + s.Penalty[row]
	}
	return strokes
}

// Rows are the finished rows of short_game: players in order, all lies before
// each, all distances before each; what was never played is left out.
func (f *ShortGameFigures) Rows() []ShortGame {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *shortPlayer) (rows []ShortGame) {
		draws := draws.ofPlayer(player.rounds)
		words := slices.DeleteFunc(slices.Sorted(maps.Keys(player.lies)), func(word string) bool { return word == AnyLie })
		for _, word := range append([]string{AnyLie}, words...) {
			for step := range player.lie(word) {
				if sums := &player.lies[word][step]; len(sums.strokes) > 0 {
					row := sums.row(draws)
					row.Player, row.Lie, row.Baseline = name, word, f.options.Baseline
					row.FromYd, row.ToYd = shortStepYd(step)
					rows = append(rows, row)
				}
			}
		}
		return rows
	})
}

func (c *shortSums) row(draws playerDraws) ShortGame {
	strokes := c.strokes.inOrder(draws.ranks)
	share, ofShare := shareOverRounds(c.upAndDowns, strokes.n(), len(strokes))
	mean, ofMean := strokes.mean(0, draws)
	leave := estimate.None()
	if len(strokes) >= leastRounds {
		leave = c.leaveFt.MedianInterval(Level)
	}
	return ShortGame{
		N: strokes.n(), UpAndDowns: c.upAndDowns, UpAndDown: share, UpAndDownLo: ofShare.Lo, UpAndDownHi: ofShare.Hi,
		BaselineShare: c.implied.Value() / float64(c.expectedKnown),
		Strokes:       mean, StrokesLo: ofMean.Lo, StrokesHi: ofMean.Hi,
		BaselineStrokes: c.expected.Value() / float64(c.expectedKnown),
		NLeave:          int64(c.leaveFt.N()), LeaveP25Ft: c.leaveFt.Quantile(0.25), LeaveMedianFt: c.leaveFt.Quantile(0.5),
		LeaveMedianLoFt: leave.Lo, LeaveMedianHiFt: leave.Hi, LeaveP75Ft: c.leaveFt.Quantile(0.75),
	}
}

// warnings names what the log leaves out of the cost of being short-sided.
func (f *ShortGameFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		if player := f.players[name]; player.sideMissed > 0 {
			warnings = append(warnings, Warning{"short_sided", name, fmt.Sprintf(
				"%d of %d missed greens are left out: whether they were short-sided needs pin_side with left_right, or pin_depth with long_short",
				player.sideMissed, player.sideMissed+player.sideKnown)})
		}
	}
	return warnings
}
