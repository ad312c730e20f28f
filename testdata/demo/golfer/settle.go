package golfer

// closestYd is the nearest a ball at rest can be to the hole without being in it.
const closestYd = 0.2 / 3

// settle says what becomes of a ball that ends at finish, and moves play to where it goes on.
func (p *play) settle(shot *Shot, finish Point) {
	if finish == p.pin {
		shot.Holed = true
		return
	}
	from, fromLie := p.ball, p.lie
	hazard := p.hole.penaltyAt(finish)
	switch {
	case hazard == nil:
		p.ball, p.lie = finish, p.course.lieAt(p.hole, finish, p.rng)
		if past := p.ball.to(p.pin); past < closestYd {
			p.ball = lineTo(p.pin, p.ball).at(closestYd, 0)
		}
		p.misfortune(shot, from, fromLie)
	case hazard.Kind == PenaltyArea:
		shot.Penalty, shot.PenaltyKind = 1, penaltyArea
		p.ball = p.drop(from, finish)
		p.lie = p.course.lieAt(p.hole, p.ball, p.rng)
	default:
		shot.Penalty, shot.PenaltyKind = 1, outOfBounds
		p.ball, p.lie = from, fromLie
	}
	shot.LeftYd, shot.Finish = p.ball.to(p.pin), p.lie
}

// misfortune is what happens to some balls among trees: not found, or not playable.
func (p *play) misfortune(shot *Shot, from Point, fromLie Lie) {
	if p.lie != p.course.Beyond || p.hole.asideYd(p.ball) < p.course.RoughYd {
		return
	}
	switch luck := p.rng.Float64(); {
	case luck < 0.06:
		shot.Penalty, shot.PenaltyKind = 1, lostBall
		p.ball, p.lie = from, fromLie
	case luck < 0.10:
		shot.Penalty, shot.PenaltyKind = 1, unplayable
		p.lie = p.course.Rough
	}
}

// drop is where the ball last crossed into the penalty area, on the side it came from.
func (p *play) drop(from, finish Point) Point {
	back := lineTo(finish, from)
	for yd := 0.5; yd < back.lengthYd; yd += 0.5 {
		if spot := back.at(yd, 0); p.hole.penaltyAt(spot) == nil {
			return spot
		}
	}
	return from
}
