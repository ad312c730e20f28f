package golfer

import "math"

// quality is how well a stroke came off.
type quality struct {
	lineZ, distanceZ float64 // errors in standard deviations
	spoiled          bool    // mishit or duffed
	pastFt           float64 // how fast the hole still takes the ball: feet it would have run past
}

// playsLikeYd is the distance a player allows for: 1 % a mph more into the wind, 0.5 % a mph less
// down it ("How to calculate distance in the wind", Golf Monthly), a yard a yard uphill (common practice).
func playsLikeYd(distance float64, wind Wind, riseYd float64) float64 {
	return distance*ruleOfThumb(wind) + riseYd
}

// carriesYd is the inverse of playsLikeYd: how far a strike good for so many yards in still air is expected to go.
func carriesYd(strikeYd float64, wind Wind, riseYd float64) float64 {
	return (strikeYd - riseYd) / ruleOfThumb(wind)
}

func ruleOfThumb(wind Wind) float64 {
	if wind.HeadMph > 0 {
		return 1 + 0.01*wind.HeadMph
	}
	return 1 + 0.005*wind.HeadMph
}

// swing plays a full or part swing at the target and returns where the ball ends.
func (p *play) swing(plan plan) (Point, quality) {
	aim := lineTo(p.ball, plan.target)
	player, club, lie := p.player, plan.club, p.player.Lies[p.lie]
	reach := player.reachYd(club, p.lie)

	meant := playsLikeYd(aim.lengthYd, p.wind, plan.riseYd)
	distancePct := club.DistancePct * lie.Distance * p.scale
	switch shortest := club == &player.Clubs[len(player.Clubs)-1]; {
	case plan.intent == getOut || shortest && meant < 0.92*reach:
		distancePct *= player.PartSwing
	default:
		meant += player.StockPull * (reach - meant)
	}
	q := quality{lineZ: p.rng.NormFloat64(), distanceZ: p.rng.NormFloat64(), pastFt: 3}
	lineDeg := club.LineDeg * lie.Line * p.scale
	strike := meant * (1 + distancePct/100*q.distanceZ)
	if p.rng.Float64() < player.MishitShare {
		q.spoiled = true
		strike *= 0.94 - 0.16*p.rng.Float64()
		lineDeg *= player.MishitLine
	}

	weather := player.Weather
	perMph := weather.IntoPct
	if p.wind.HeadMph < 0 {
		perMph = weather.DownPct
	}
	distance := (strike - weather.RiseYd*plan.riseYd) / (1 + perMph/100*p.wind.HeadMph)
	drift := weather.DriftPct / 100 * (1 - weather.DriftAllowed) * p.wind.CrossMph
	return aim.off(math.Max(distance, 1), radians(lineDeg*q.lineZ)+drift), q
}
