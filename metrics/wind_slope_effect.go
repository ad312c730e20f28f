package metrics

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// WindSlopeEffect is one row of the table wind_slope_effects: what wind and
// slope really do to a player's ball, beside the rule of thumb by which
// plays_like_yd is worked out (1 % a mph into the wind, Golf Monthly; a yard a
// yard of climb, common practice).
//
// It asks how far the same club goes. The distance along the line of play,
// to_hole_yd + long_yd, is brought to still air and level ground by the rule;
// where the rule is right for this player, wind and slope make no difference
// to what comes out. A least squares line of it on target x headwind, target x
// tailwind and climb, with a level of its own for every club, finds how far
// the rule is off, over the shots of club_yardages that play at the green and
// whose miss and wind or slope are logged. The target is as far as the hole,
// or as the aim where that is logged. As in plays_like_yd, of wind and slope
// the one that is not logged counts as none. How much the player allowed for
// does not come into it, only which club he took.
//
// Paid: whoever swings harder into the wind has that counted as wind. Part
// swings with one club, whose length goes by the distance, make its line
// wider.
type WindSlopeEffect struct {
	Player    string  `col:"player" about:"player as named in the log, null when the log names none"`
	N         int64   `col:"n" about:"shots at the green from the tee of a par 3 or the fairway, without a penalty, whose club, miss and wind or slope are logged"`
	Clubs     int64   `col:"clubs" about:"clubs they were played with"`
	IntoPct   float64 `col:"into_pct_per_mph" unit:"%/mph" about:"how much longer a shot plays per mph into the wind: the rule, mended by what regression, with a level of its own for every club, finds in the distances of their targets (to_hole and the aim), brought to still air by the rule; null where there was none"`
	IntoLoPct float64 `col:"into_pct_per_mph_lo" unit:"%/mph" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	IntoHiPct float64 `col:"into_pct_per_mph_hi" unit:"%/mph" about:"upper end of its 90 % interval"`
	IntoRule  float64 `col:"into_rule_pct_per_mph" unit:"%/mph" about:"rule of thumb"`
	DownPct   float64 `col:"down_pct_per_mph" unit:"%/mph" about:"how much shorter a shot plays per mph down the wind; null where there was none"`
	DownLoPct float64 `col:"down_pct_per_mph_lo" unit:"%/mph" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	DownHiPct float64 `col:"down_pct_per_mph_hi" unit:"%/mph" about:"upper end of its 90 % interval"`
	DownRule  float64 `col:"down_rule_pct_per_mph" unit:"%/mph" about:"rule of thumb"`
	ClimbYd   float64 `col:"climb_yd_per_yd" unit:"yd/yd" about:"how many yards longer a shot plays per yard of climb; null where there was none"`
	ClimbLoYd float64 `col:"climb_yd_per_yd_lo" unit:"yd/yd" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	ClimbHiYd float64 `col:"climb_yd_per_yd_hi" unit:"yd/yd" about:"upper end of its 90 % interval"`
	ClimbRule float64 `col:"climb_rule_yd_per_yd" unit:"yd/yd" about:"rule of thumb"`
}

// The rule of thumb, as in plays_like_yd.
const (
	intoRulePct = 1.0
	downRulePct = 0.5
	climbRuleYd = 1.0
)

// Predictors of the distance: the target's x mph into and down the wind, and
// climb.
const (
	intoWind = iota
	downWind
	climbing
	windPredictors
)

// effectSums are the sums of one club in one round that the line needs.
type effectSums struct {
	round int32
	n, y  float64
	x, xy [windPredictors]float64
	xx    [windPredictors * (windPredictors + 1) / 2]float64 // upper triangle, row by row
	met   [windPredictors]bool                               // whether there was any
}

func (p *windPlayer) addEffect(s *transform.Shots, row int, round int32) {
	head, climb, long := s.HeadwindMph[row], s.ElevationYd[row], s.LongYd[row]
	if math.IsNaN(head) && math.IsNaN(climb) || math.IsNaN(long) {
		return
	}
	name := s.Club.At(row)
	if name == "" {
		p.clubless++
		return
	}
	p.effectN++
	if p.clubs == nil {
		p.clubs = map[string][]effectSums{}
	}
	rounds := p.clubs[name]
	if last := len(rounds) - 1; last < 0 || rounds[last].round != round {
		rounds = append(rounds, effectSums{round: round})
		p.clubs[name] = rounds
	}
	target := s.ToHoleYd[row]
	if aim := s.AimLongYd[row]; !math.IsNaN(aim) {
		target += aim
	}
	if math.IsNaN(head) {
		head = 0
	}
	if math.IsNaN(climb) {
		climb = 0
	}
	into, down := max(0, head), max(0, -head)
	still := transform.PlaysLikeYd(s.ToHoleYd[row]+long, head, climb)
	rounds[len(rounds)-1].add(still, [windPredictors]float64{intoWind: target * into, downWind: target * down, climbing: climb})
}

func (e *effectSums) add(y float64, x [windPredictors]float64) {
	e.n++
	e.y += y
	at := 0
	for i, v := range x {
		e.x[i] += v
		e.xy[i] += v * y
		e.met[i] = e.met[i] || v != 0
		for _, w := range x[i:] {
			e.xx[at] += v * w
			at++
		}
	}
}

// EffectRows are the finished rows of wind_slope_effects, players in order; a
// player without a shot in known wind or slope has none.
func (f *WindSlopeFigures) EffectRows() []WindSlopeEffect {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *windPlayer) []WindSlopeEffect {
		if player.effectN == 0 {
			return nil
		}
		draws := draws.ofPlayer(player.rounds)
		sums, met := player.strata(draws.ranks)
		fit := estimate.FitWithinStrata(sums, windPredictors, draws.rounds)
		effect := func(predictor int, rule, perUnit float64) (value, lo, hi float64) {
			influences := make([]float64, draws.rounds)
			for round, influence := range fit.Influences[predictor] {
				influences[round] = perUnit * influence
			}
			value = rule + perUnit*fit.Coefficients[predictor]
			interval := draws.Linear(value, influences, met[predictor], Level)
			return value, interval.Lo, interval.Hi
		}
		row := WindSlopeEffect{
			Player: name, N: player.effectN, Clubs: int64(len(player.clubs)),
			IntoRule: intoRulePct, DownRule: downRulePct, ClimbRule: climbRuleYd,
		}
		row.IntoPct, row.IntoLoPct, row.IntoHiPct = effect(intoWind, intoRulePct, -100)
		row.DownPct, row.DownLoPct, row.DownHiPct = effect(downWind, downRulePct, 100)
		row.ClimbYd, row.ClimbLoYd, row.ClimbHiYd = effect(climbing, climbRuleYd, -1)
		return []WindSlopeEffect{row}
	})
}

// strata are the sums with a stratum for every club, rounds in order, and the
// number of rounds in which each predictor was met.
func (p *windPlayer) strata(ranks []int32) (sums []estimate.StratumSums, met [windPredictors]int) {
	var seen [windPredictors]map[int32]bool
	for predictor := range seen {
		seen[predictor] = map[int32]bool{}
	}
	for stratum, name := range slices.Sorted(maps.Keys(p.clubs)) {
		rounds := slices.Clone(p.clubs[name])
		slices.SortFunc(rounds, func(a, b effectSums) int { return cmp.Compare(ranks[a.round], ranks[b.round]) })
		for i := range rounds {
			club := &rounds[i]
			sums = append(sums, estimate.StratumSums{
				Stratum: stratum, Round: int(ranks[club.round]), N: club.n, Y: club.y, X: club.x[:], XY: club.xy[:], XX: club.xx[:],
			})
			for predictor, was := range club.met {
				if was {
					seen[predictor][club.round] = true
				}
			}
		}
	}
	for predictor := range met {
		met[predictor] = len(seen[predictor])
	}
	return sums, met
}
