package metrics

import (
	"fmt"
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform/baseline"
)

// PuttingModel is one row of the table putting_model: line or pace? The
// two-parameter geometry model of estimate.LineAndPacePutting, fitted to the
// putts of a player by maximum likelihood, beside the same model fitted to the
// baseline's shares made; and what it would gain the player to start the ball
// as straight, or to pace it as well, as the baseline does, the other staying
// as it is.
//
// The gain is in expected putts (estimate.ExpectedPutts): from each of the
// player's first putts, by the player's model less by the model with one of
// the two taken from the baseline, over his complete holes. Second putts are
// in it, which is where better pace pays from afar. The interval of a gain is
// to first order, from the covariance of line and pace: a season tells both
// together far better than it tells them apart, so that the gain of each may
// be wide open where that of both is not.
//
// The fit is to putts made and missed. What first putts leave is not in it, so
// that pace, which shows in the leave, is known less well than it could be; the
// putts that the model needs stand beside those taken, and a warning is given
// where they are more than half a putt a round apart.
//
// Putts of a foot or less are left out of the fit: the model all but rules out
// that they are missed, so that one tap-in missed in a hurry would outweigh a
// hundred honest putts.
type PuttingModel struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	N               int64   `col:"n" about:"putts over a foot whose length and end are known: the fit is to them"`
	StartLineDeg    float64 `col:"start_line_deg" unit:"deg" about:"standard deviation of the angle at which putts start off line, misread greens among it; where two pairs of line and pace fit best, the one nearer to usual putting; null where the putts do not tell line from pace"`
	StartLineLoDeg  float64 `col:"start_line_lo_deg" unit:"deg" about:"lower end of its 90 % interval (profile likelihood)"`
	StartLineHiDeg  float64 `col:"start_line_hi_deg" unit:"deg" about:"upper end of its 90 % interval"`
	PacePct         float64 `col:"pace_pct" unit:"%" about:"standard deviation of the length of a putt, in per cent of the length that reaches a foot past the hole"`
	PaceLoPct       float64 `col:"pace_lo_pct" unit:"%" about:"lower end of its 90 % interval (profile likelihood)"`
	PaceHiPct       float64 `col:"pace_hi_pct" unit:"%" about:"upper end of its 90 % interval"`
	BaselineLineDeg float64 `col:"baseline_start_line_deg" unit:"deg" about:"the angle of the model fitted to the shares that the baseline makes, or to the putts of an own baseline"`
	BaselinePacePct float64 `col:"baseline_pace_pct" unit:"%" about:"the pace of that model"`
	PuttsPerRound   float64 `col:"putts_per_round" unit:"strokes" about:"putts taken in 18 complete holes"`
	ModelPutts      float64 `col:"model_putts_per_round" unit:"strokes" about:"putts that the player's own line and pace need from the same first putts by the model; where it is far from the putts taken, the gains are as far off"`
	NFirst          int64   `col:"n_first" about:"first putts of complete holes: the gains are over them"`
	LineGain        float64 `col:"line_gain_per_round" unit:"strokes" about:"putts saved in 18 holes with the baseline's start line and the player's own pace"`
	LineGainLo      float64 `col:"line_gain_per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (to first order)"`
	LineGainHi      float64 `col:"line_gain_per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	PaceGain        float64 `col:"pace_gain_per_round" unit:"strokes" about:"putts saved in 18 holes with the baseline's pace and the player's own start line"`
	PaceGainLo      float64 `col:"pace_gain_per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (to first order)"`
	PaceGainHi      float64 `col:"pace_gain_per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	BothGain        float64 `col:"both_gain_per_round" unit:"strokes" about:"putts saved in 18 holes with the baseline's start line and pace"`
	BothGainLo      float64 `col:"both_gain_per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (to first order)"`
	BothGainHi      float64 `col:"both_gain_per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what line and pace are compared with"`
}

// shortestFitTenths is the longest putt, in tenths of a foot, that is left out
// of the fit.
const shortestFitTenths = 10

// puttTenths counts putts by their length in tenths of a foot.
type puttTenths []puttTenth

type puttTenth struct{ n, made, first int64 }

func (t *puttTenths) add(feet float64, made, first bool) {
	tenth := int(math.Round(10 * feet))
	t.reserve(tenth + 1)
	count := &(*t)[tenth]
	count.n++
	if made {
		count.made++
	}
	if first {
		count.first++
	}
}

func (t *puttTenths) reserve(n int) {
	if n > len(*t) {
		*t = append(*t, make([]puttTenth, n-len(*t))...)
	}
}

// n is the number of putts.
func (t puttTenths) n() (n int64) {
	for _, count := range t {
		n += count.n
	}
	return n
}

// counts are the putts that the model is fitted to.
func (t puttTenths) counts() (counts []estimate.PuttCount, n int64) {
	for tenth, count := range t {
		if tenth > shortestFitTenths && count.n > 0 {
			counts = append(counts, estimate.PuttCount{DistanceFt: float64(tenth) / 10, Tries: int(count.n), Made: int(count.made)})
			n += count.n
		}
	}
	return counts, n
}

// putts is how many a player needs from all his first putts by a model.
func (t puttTenths) putts(model estimate.LineAndPacePutting) (putts float64) {
	expected := model.ExpectedPutts()
	for tenth, count := range t {
		if count.first > 0 {
			putts += float64(count.first) * expected.From(float64(tenth)/10)
		}
	}
	return putts
}

func (t puttTenths) first() (n int64) {
	for _, count := range t {
		n += count.first
	}
	return n
}

// benchmark is the model of the baseline. An own baseline's is fitted to the putts
// that it is made of: its shares made are a staircase with steps as wide as putts
// are few, and read off at a few distances they make another golfer of it.
func (f *PuttingFigures) benchmark() (estimate.LineAndPacePutting, bool) {
	if f.options.OwnPutts == nil {
		return baselineModel(f.table)
	}
	fit, ok := estimate.FitLineAndPace(f.options.OwnPutts, Level)
	return fit.LineAndPacePutting, ok
}

// baselineModel fits the model to the shares that a baseline makes. Each
// distance counts as 1,000 putts, and what the model cannot follow, or rounded
// shares hide, goes into the spread of the bins.
func baselineModel(table *baseline.Table) (estimate.LineAndPacePutting, bool) {
	if math.IsNaN(table.MadeShare(1)) {
		return estimate.LineAndPacePutting{}, false
	}
	const putts = 1000
	var counts []estimate.PuttCount
	for _, feet := range [...]float64{2, 3, 4, 5, 6, 7, 8, 9, 10, 15, 20, 30, 40, 50, 60} {
		made := int(math.Round(putts * table.MadeShare(feet/3)))
		counts = append(counts, estimate.PuttCount{DistanceFt: feet, Tries: putts, Made: made})
	}
	model, _, ok := estimate.FitLineAndPaceBinned(counts)
	return model, ok
}

// ModelRows are the finished rows of putting_model, players in order.
func (f *PuttingFigures) ModelRows() []PuttingModel {
	benchmark, known := f.benchmark()
	return rowsOf(f.players, func(name string, player *puttPlayer) []PuttingModel {
		row := emptyPuttingModel()
		row.Player, row.Baseline, row.NFirst = name, f.options.Baseline, player.tenths.first()
		if known {
			row.BaselineLineDeg, row.BaselinePacePct = degrees(benchmark.StartLineRad), 100*benchmark.PaceError
		}
		counts, n := player.tenths.counts()
		row.N = n
		if n == 0 {
			return nil
		}
		fit, ok := estimate.FitLineAndPace(counts, Level)
		if !ok {
			return []PuttingModel{row}
		}
		if player.roundsWithPutts() < leastRounds {
			fit.StartLineInterval, fit.PaceInterval = estimate.None(), estimate.None()
		}
		row.StartLineDeg, row.PacePct = degrees(fit.StartLineRad), 100*fit.PaceError
		row.StartLineLoDeg, row.StartLineHiDeg = degrees(fit.StartLineInterval.Lo), degrees(fit.StartLineInterval.Hi)
		row.PaceLoPct, row.PaceHiPct = 100*fit.PaceInterval.Lo, 100*fit.PaceInterval.Hi
		if player.holes > 0 {
			row.PuttsPerRound = 18 * float64(player.taken) / float64(player.holes)
			row.ModelPutts = 18 * player.tenths.putts(fit.LineAndPacePutting) / float64(player.holes)
		}
		if known && player.holes > 0 {
			row.addGains(player, counts, fit, benchmark)
		}
		return []PuttingModel{row}
	})
}

func emptyPuttingModel() PuttingModel {
	unknown := math.NaN()
	return PuttingModel{
		StartLineDeg: unknown, StartLineLoDeg: unknown, StartLineHiDeg: unknown, PacePct: unknown, PaceLoPct: unknown, PaceHiPct: unknown,
		BaselineLineDeg: unknown, BaselinePacePct: unknown, PuttsPerRound: unknown, ModelPutts: unknown,
		LineGain: unknown, LineGainLo: unknown, LineGainHi: unknown, PaceGain: unknown, PaceGainLo: unknown, PaceGainHi: unknown,
		BothGain: unknown, BothGainLo: unknown, BothGainHi: unknown,
	}
}

// puttsNeeded is how many putts a model needs in 18 holes, with its slopes in
// the logarithms of the player's own line and pace, 0 where the model has the
// baseline's.
type puttsNeeded struct{ perRound, line, pace float64 }

// addGains fills in what line and pace of the baseline would gain.
func (row *PuttingModel) addGains(player *puttPlayer, counts []estimate.PuttCount, fit estimate.LineAndPaceFit, benchmark estimate.LineAndPacePutting) {
	need := func(ownLine, ownPace bool) puttsNeeded {
		const step = 0.01
		perRound := func(model estimate.LineAndPacePutting) float64 {
			return 18 * player.tenths.putts(model) / float64(player.holes)
		}
		model := benchmark
		if ownLine {
			model.StartLineRad = fit.StartLineRad
		}
		if ownPace {
			model.PaceError = fit.PaceError
		}
		needed := puttsNeeded{perRound: perRound(model)}
		if ownLine {
			turned := model
			turned.StartLineRad *= math.Exp(step)
			needed.line = (perRound(turned) - needed.perRound) / step
		}
		if ownPace {
			turned := model
			turned.PaceError *= math.Exp(step)
			needed.pace = (perRound(turned) - needed.perRound) / step
		}
		return needed
	}
	covariance, ok := fit.Covariance(counts)
	own := need(true, true)
	gain := func(other puttsNeeded) (gain, lo, hi float64) {
		gain = own.perRound - other.perRound
		if !ok || fit.StartLineInterval.IsNone() {
			return gain, math.NaN(), math.NaN()
		}
		line, pace := own.line-other.line, own.pace-other.pace
		variance := line*line*covariance.Line + 2*line*pace*covariance.LinePace + pace*pace*covariance.Pace
		reach := estimate.NormalReach(Level) * math.Sqrt(variance)
		return gain, gain - reach, gain + reach
	}
	row.LineGain, row.LineGainLo, row.LineGainHi = gain(need(false, true))
	row.PaceGain, row.PaceGainLo, row.PaceGainHi = gain(need(true, false))
	row.BothGain, row.BothGainLo, row.BothGainHi = gain(need(false, false))
}

// modelWarnings names the players whose putting the model does not describe.
func modelWarnings(rows []PuttingModel) (warnings []Warning) {
	const apart = 0.5
	for _, row := range rows {
		if math.Abs(row.ModelPutts-row.PuttsPerRound) > apart {
			warnings = append(warnings, Warning{"putting_model", row.Player, fmt.Sprintf(
				"the model of line and pace needs %.1f putts a round where %.1f were taken: what either would gain is off by as much", row.ModelPutts, row.PuttsPerRound)})
		}
	}
	return warnings
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

// roundsWithPutts is the number of rounds that have a putt.
func (p *puttPlayer) roundsWithPutts() int {
	seen := map[int32]bool{}
	for _, putts := range p.putts {
		for _, round := range putts.rounds {
			seen[round.round] = true
		}
	}
	return len(seen)
}
