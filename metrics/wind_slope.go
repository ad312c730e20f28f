package metrics

import (
	"fmt"
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// WindSlope is one row of the table wind_slope: where the approaches of a player
// at the green finish in one kind of wind, or on one kind of slope, against the
// distance that they play. A player who allows for wind and slope as his ball
// needs it is neither long nor short in any of them.
type WindSlope struct {
	Player      string  `col:"player" about:"player as named in the log, null when the log names none"`
	Kind        string  `col:"condition_kind" about:"wind or slope"`
	Condition   string  `col:"condition" about:"wind: into or down (more than 3 mph), across (more than 3 mph, and no more than 3 into or down), still; of headwind and crosswind the one that is not logged counts as none; slope: uphill or downhill (more than 2 yd), level"`
	N           int64   `col:"n" about:"shots at the green without a penalty whose miss along the line of play and whose wind, or slope, is logged"`
	ToHoleYd    float64 `col:"to_hole_mean_yd" unit:"yd" about:"mean distance to the hole"`
	PlaysLikeYd float64 `col:"plays_like_mean_yd" unit:"yd" about:"mean distance that they play by the rule of thumb"`
	LongMeanYd  float64 `col:"long_mean_yd" unit:"yd" about:"mean finish past the hole along the line of play, short is negative"`
	LongLoYd    float64 `col:"long_mean_lo_yd" unit:"yd" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	LongHiYd    float64 `col:"long_mean_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	LongSdYd    float64 `col:"long_sd_yd" unit:"yd" about:"standard deviation along the line of play"`
}

// Conditions of a shot.
const (
	ByWind = "wind"
	OnRise = "slope"
)

const (
	breezeMph = 3 // less is still air
	riseYd    = 2 // less is level ground
)

var conditions = [...]struct{ kind, name string }{
	{ByWind, "into"}, {ByWind, "down"}, {ByWind, "across"}, {ByWind, "still"},
	{OnRise, "uphill"}, {OnRise, "downhill"}, {OnRise, "level"},
}

// windOf is the place of a shot's wind in conditions; ok is false where none is
// logged.
func windOf(headMph, crossMph float64) (place int, ok bool) {
	switch {
	case math.IsNaN(headMph) && math.IsNaN(crossMph):
		return 0, false
	case headMph > breezeMph:
		return 0, true
	case headMph < -breezeMph:
		return 1, true
	case math.Abs(crossMph) > breezeMph:
		return 2, true
	}
	return 3, true
}

// slopeOf is the place of a shot's slope in conditions; ok is false where none
// is logged.
func slopeOf(elevationYd float64) (place int, ok bool) {
	switch {
	case math.IsNaN(elevationYd):
		return 0, false
	case elevationYd > riseYd:
		return 4, true
	case elevationYd < -riseYd:
		return 5, true
	}
	return 6, true
}

// WindSlopeFigures adds up what wind and slope do to a player's approaches.
type WindSlopeFigures struct {
	options Options
	players byPlayer[windPlayer]
}

type windPlayer struct {
	rounds     roundList
	conditions [len(conditions)]conditionSums
	clubs      map[string][]effectSums // see wind_slope_effect.go
	effectN    int64
	atGreen    int64 // shots at the green without a penalty
	offLine    int64 // of these, shots whose miss is not known
	noWind     int64 // and shots without wind
	noSlope    int64 // and shots without slope
	clubless   int64 // shots left out of the effects, though they name wind or slope and a miss
}

// conditionSums are the sums of one wind or slope.
type conditionSums struct {
	toHole, playsLike estimate.Sum
	moments           estimate.Moments
	long              roundSums
}

func newWindSlopeFigures(options Options) *WindSlopeFigures {
	return &WindSlopeFigures{options: options, players: byPlayer[windPlayer]{}}
}

// Add adds the approaches of a batch.
func (f *WindSlopeFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		from, end := s.RoundRowRange(round)
		player := f.players.of(s.Player.At(from))
		place := player.rounds.add(keyOf(s, from))
		for row := from; row < end; row++ {
			if s.Penalty[row] > 0 {
				continue
			}
			if s.AtGreen[row] {
				player.addConditions(s, row, place)
				if asksForTheFlag(s, row) {
					player.addEffect(s, row, place)
				}
			}
		}
	}
}

func (p *windPlayer) addConditions(s *transform.Shots, row int, round int32) {
	p.atGreen++
	long := s.LongYd[row]
	if math.IsNaN(long) {
		p.offLine++
		return
	}
	playsLike := s.PlaysLikeYd[row]
	if math.IsNaN(playsLike) { // a crosswind alone makes it no longer
		playsLike = s.ToHoleYd[row]
	}
	add := func(place int) {
		sums := &p.conditions[place]
		sums.toHole.Add(s.ToHoleYd[row])
		sums.playsLike.Add(playsLike)
		sums.moments.Add(long)
		sums.long.add(round, long, 0)
	}
	if place, ok := windOf(s.HeadwindMph[row], s.CrosswindMph[row]); ok {
		add(place)
	} else {
		p.noWind++
	}
	if place, ok := slopeOf(s.ElevationYd[row]); ok {
		add(place)
	} else {
		p.noSlope++
	}
}

// Rows are the finished rows of wind_slope: players in order, winds before
// slopes; what was never met is left out.
func (f *WindSlopeFigures) Rows() []WindSlope {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *windPlayer) (rows []WindSlope) {
		draws := draws.ofPlayer(player.rounds)
		for place, condition := range conditions {
			sums := &player.conditions[place]
			if len(sums.long) == 0 {
				continue
			}
			long := sums.long.inOrder(draws.ranks)
			n := long.n()
			mean, ofMean := long.mean(0, draws)
			rows = append(rows, WindSlope{
				Player: name, Kind: condition.kind, Condition: condition.name, N: n,
				ToHoleYd: sums.toHole.Value() / float64(n), PlaysLikeYd: sums.playsLike.Value() / float64(n),
				LongMeanYd: mean, LongLoYd: ofMean.Lo, LongHiYd: ofMean.Hi, LongSdYd: sums.moments.StandardDeviation(),
			})
		}
		return rows
	})
}

// warnings names what the log leaves out of wind and slope.
func (f *WindSlopeFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		player := f.players[name]
		warn := func(figure, format string, args ...any) {
			warnings = append(warnings, Warning{figure, name, fmt.Sprintf(format, args...)})
		}
		if player.offLine > 0 {
			warn("wind_slope", "%d of %d shots at the green are left out of the figures by wind and slope: long_short is not written, nor are positions", player.offLine, player.atGreen)
		}
		known := player.atGreen - player.offLine
		if player.noWind > 0 {
			warn("wind_slope", "%d of %d shots at the green are not in the figures by wind: headwind and crosswind are not written", player.noWind, known)
		}
		if player.noSlope > 0 {
			warn("wind_slope", "%d of %d shots at the green are not in the figures by slope: elevation is not written", player.noSlope, known)
		}
		if player.clubless > 0 {
			warn("wind_slope_effects", "%d of %d shots at the green from clean lies, in known wind or on known slope, are left out: the column club names none", player.clubless, player.clubless+player.effectN)
		}
	}
	return warnings
}
