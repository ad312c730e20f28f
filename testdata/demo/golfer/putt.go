package golfer

import "math"

// Radius of the hole and of the ball in feet: 4.25 and 1.68 inches across (Equipment Rules, R&A and USGA).
const (
	holeRadiusFt = 2.125 / 12
	ballRadiusFt = 0.84 / 12
	meantPastFt  = 1 // where a putt is meant to stop
	takenPastFt  = 3 // no faster does the hole take it
)

// putt plays a putt. It drops when its line crosses the hole by more than half the ball and its
// pace would have carried it no more than three feet past: the two errors of Broadie (2018), "Two
// simple putting models in golf", in the form of Gelman (2019), so that the model's own parameters are the truth.
func (p *play) putt(shot *Shot) {
	shot.Stroke, shot.Club = Putt, putter.Name
	toHole := lineTo(p.ball, p.pin)
	shot.Putting = p.contour(toHole)

	skill := p.player.Putting
	ease, curve := 1.0, 1.0
	switch shot.Putting.Slope {
	case uphill:
		ease = skill.Uphill
	case downhill:
		ease = skill.Downhill
	}
	if shot.Putting.Break != straight {
		curve = skill.Breaking
	}
	q := quality{lineZ: p.rng.NormFloat64(), distanceZ: p.rng.NormFloat64(), pastFt: takenPastFt}
	meant := toHole.lengthYd + meantPastFt/3.0
	roll := meant * (1 + skill.PacePct/100*p.scale*ease*q.distanceZ)
	finish := toHole.off(math.Max(roll, 0), radians(skill.LineDeg*p.scale*ease*curve*q.lineZ))
	if p.drops(toHole, finish, q.pastFt) {
		finish = p.pin
	}
	p.settle(shot, finish)
	p.judge(shot, finish, q)
}

// drops tells whether a ball that would end at finish falls into the hole on its way.
func (p *play) drops(toHole line, finish Point, pastFt float64) bool {
	along, right := toHole.split(finish)
	roll := math.Hypot(along, right)
	past := 3 * (roll - toHole.lengthYd)
	if past < 0 || past > pastFt || along <= 0 {
		return false
	}
	return 3*toHole.lengthYd*math.Abs(right)/roll < holeRadiusFt-ballRadiusFt
}

// contour is the ground between ball and hole, from the way the green falls there.
func (p *play) contour(toHole line) Contour {
	sin, cos := math.Sincos(radians(p.fallDeg))
	fall := line{forward: toHole.forward}
	along, right := fall.split(Point{p.steep * sin, p.steep * cos})
	contour := Contour{level, straight}
	switch {
	case along > 0.35:
		contour.Slope = downhill
	case along < -0.35:
		contour.Slope = uphill
	}
	switch {
	case right > 0.3:
		contour.Break = leftToRight
	case right < -0.3:
		contour.Break = rightToLeft
	}
	return contour
}
