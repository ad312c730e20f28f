package golfer

import "math"

// A plan is a stroke before it is played.
type plan struct {
	stroke Stroke
	club   *Club
	target Point
	riseYd float64
	intent string
}

// plan decides on the next stroke off the green.
func (p *play) plan() plan {
	toHole := p.ball.to(p.pin)
	switch {
	case p.lie == Tee && p.hole.Par > 3:
		return p.planTeeShot()
	case toHole <= ShortGameYd:
		return p.planShortGame(toHole)
	case p.lie == Trees:
		return p.planGetOut(toHole)
	}
	rise := p.riseYd(toHole)
	strike := p.player.reachYd(p.player.longest(p.lie), p.lie)
	if playsLikeYd(toHole, p.wind, rise) <= 1.03*strike {
		return p.planApproach(toHole)
	}
	return p.planAdvance(toHole, carriesYd(strike, p.wind, p.riseYd(strike)))
}

// planTeeShot takes the driver, or less where the fairway is narrow and he feels careful, or where
// water waits at the distance.
func (p *play) planTeeShot() plan {
	clubs := p.player.Clubs
	first, intent := 0, ""
	if p.hole.FairwayYd < p.player.Habits.NarrowYd && p.hole.Par == 4 {
		intent = attack
		if p.rng.Float64() > p.player.Habits.Attack {
			first, intent = 1, safe
		}
	}
	for i := first; ; i++ {
		club := &clubs[i]
		rise := p.riseYd(club.StockYd)
		distance := carriesYd(club.StockYd, p.wind, rise)
		target := Point{p.hole.teeLineX(), p.ball.Y + distance}
		if i+1 < len(clubs) && p.hole.waterNear(target, 12) {
			intent = safe
			continue
		}
		return plan{FromTee, club, target, rise, intent}
	}
}

// planApproach goes at the flag or towards the middle of the green.
func (p *play) planApproach(toHole float64) plan {
	middle := Point{0, p.hole.LengthYd}
	target, intent := p.pin, safe
	if tucked := p.cut.Side != "centre" || p.cut.Depth != "middle"; tucked {
		bold := p.player.Habits.Attack
		if toHole > 165 || p.lie != Fairway && p.lie != Tee {
			bold *= 0.4
		}
		if p.rng.Float64() < bold {
			intent = attack
		} else {
			target = Point{0.4 * p.pin.X, middle.Y + 0.4*(p.pin.Y-middle.Y)}
		}
	} else if toHole < 140 {
		intent = attack
	}
	distance := p.ball.to(target)
	rise := p.riseYd(distance)
	club := p.player.clubFor(playsLikeYd(distance, p.wind, rise), p.lie)
	return plan{ToGreen, club, target, rise, intent}
}

// planAdvance lays up to a distance he likes, or hits all he has when that leaves little, or when
// laying up would gain next to nothing.
func (p *play) planAdvance(toHole, longestYd float64) plan {
	distance, intent := math.Min(toHole-p.player.Habits.LayUpYd, longestYd), layUp
	bold := p.rng.Float64() < p.player.Habits.GoForIt
	if toHole-longestYd < 45 && (bold || distance < longestYd/2) {
		distance = longestYd
		if p.lie == Fairway {
			intent = attack
		}
	}
	toPin := lineTo(p.ball, p.pin)
	target := toPin.at(distance, 0)
	for p.hole.waterNear(target, 12) && distance > 60 {
		distance -= 8
		target, intent = toPin.at(distance, 0), layUp
	}
	rise := p.riseYd(distance)
	club := p.player.clubFor(playsLikeYd(distance, p.wind, rise), p.lie)
	return plan{Advance, club, target, rise, intent}
}

// planGetOut punches the ball back towards the fairway.
func (p *play) planGetOut(toHole float64) plan {
	forward := math.Min(90, 0.6*toHole)
	target := Point{0, math.Min(p.ball.Y+forward, p.hole.LengthYd-p.hole.GreenDepthYd)}
	for p.hole.waterNear(target, 8) && target.Y > p.ball.Y+20 {
		target.Y -= 8
	}
	club := p.player.clubFor(170, p.lie)
	return plan{Advance, club, target, p.riseYd(p.ball.to(target)), getOut}
}

// planShortGame plays at the hole, with the putter from the fringe.
func (p *play) planShortGame(toHole float64) plan {
	clubs := p.player.Clubs
	club, intent := &clubs[len(clubs)-1], ""
	switch {
	case p.lie == Fringe && toHole < 18:
		club = &putter
	case p.lie == Bunker || p.lie == Plugged || p.lie == DeepRough:
		if p.lie == Plugged {
			intent = getOut
		}
	case toHole > 25:
		club = &clubs[len(clubs)-2]
	}
	return plan{ShortGame, club, p.pin, 0, intent}
}

var putter = Club{Name: "putter"}

// riseYd is how far the ground rises to a target so far off, the hole climbing evenly.
func (p *play) riseYd(distance float64) float64 {
	return math.Round(p.hole.ElevationYd * distance / p.hole.LengthYd)
}

// waterNear tells whether a penalty area comes within a margin along the hole of a place.
func (h *Hole) waterNear(p Point, marginYd float64) bool {
	for _, hazard := range h.Hazards {
		if hazard.Kind == PenaltyArea && p.X >= hazard.MinX && p.X <= hazard.MaxX &&
			p.Y >= hazard.MinY-marginYd && p.Y <= hazard.MaxY+marginYd {
			return true
		}
	}
	return false
}
