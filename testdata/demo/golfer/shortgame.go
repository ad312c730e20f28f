package golfer

import "math"

// chip plays a stroke of the short game at the target and returns where the ball ends.
func (p *play) chip(plan plan) (Point, quality) {
	aim := lineTo(p.ball, plan.target)
	touch := p.player.Touch[p.lie]
	scale := p.scale * (1 + p.player.PitchLoss*math.Max(aim.lengthYd-20, 0)/10)
	q := quality{lineZ: p.rng.NormFloat64(), distanceZ: p.rng.NormFloat64(), pastFt: 5} // the flagstick stops some
	distance := aim.lengthYd + touch.DistancePct/100*scale*(aim.lengthYd+2)*q.distanceZ
	if p.rng.Float64() < touch.DuffShare {
		q.spoiled = true
		distance *= 0.3 + 0.4*p.rng.Float64()
	}
	return aim.off(math.Max(distance, 0.3), radians(touch.LineDeg*scale*q.lineZ)), q
}
