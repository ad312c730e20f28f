package golfer

import (
	"math"
	"math/rand/v2"
)

// play is a hole being played: the day's conditions, and how it stands.
type play struct {
	rng    *rand.Rand
	player *Player
	scale  float64 // the day's factor on all spreads: form and improvement
	round  *Round
	course *Course
	hole   *Hole

	pin     Point
	cut     Pin
	fallDeg float64 // the way the green falls round the hole, clockwise from the line of play
	steep   float64 // how much, 0 to 1
	wind    Wind

	ball   Point
	lie    Lie
	number int // of the next stroke
	taken  int // strokes and penalties
}

// playHole plays a hole to the end, a shot at a time, and reports whether more are wanted.
func (p *play) playHole(hole *Hole, weather weather, yield func(Shot) bool) bool {
	p.hole = hole
	p.wind = weather.on(hole, p.rng)
	p.cutHole()
	p.teeUp()
	for p.number, p.taken = 1, 0; ; p.number++ {
		shot := p.stroke()
		p.taken += 1 + shot.Penalty
		limit := p.player.Habits.PicksUpAt
		shot.PickedUp = !shot.Holed && limit > 0 && p.taken >= hole.Par+limit
		if !yield(shot) {
			return false
		}
		if shot.Holed || shot.PickedUp {
			return true
		}
	}
}

// stroke plays one stroke from where the ball lies and leaves the ball where play goes on.
func (p *play) stroke() Shot {
	shot := Shot{
		Round: p.round, Hole: p.hole, Number: p.number,
		Lie: p.lie, ToHoleYd: p.ball.to(p.pin),
		Pin: p.cut, Wind: p.wind,
	}
	if p.lie == Green {
		p.putt(&shot)
		return shot
	}
	plan := p.plan()
	shot.Stroke, shot.Club, shot.Intent, shot.RiseYd = plan.stroke, plan.club.Name, plan.intent, plan.riseYd

	toHole := lineTo(p.ball, p.pin)
	aimLong, aimRight := toHole.split(plan.target)
	var finish Point
	var quality quality
	if plan.stroke == ShortGame {
		finish, quality = p.chip(plan)
	} else {
		finish, quality = p.swing(plan)
	}
	if p.drops(toHole, finish, quality.pastFt) {
		finish = p.pin
	}
	long, right := toHole.split(finish)
	shot.Aim = Miss{aimLong - toHole.lengthYd, aimRight}
	shot.Miss = Miss{long - aimLong, right - aimRight}
	p.settle(&shot, finish)
	p.judge(&shot, finish, quality)
	return shot
}

// cutHole chooses where the hole is cut: in a third of the green each way, at the sides some four to
// seven paces from the edge.
func (p *play) cutHole() {
	third := func() int {
		switch luck := p.rng.Float64(); {
		case luck < 0.32:
			return -1
		case luck < 0.68:
			return 0
		}
		return 1
	}
	side, depth := third(), third()
	reach := 0.62
	if side != 0 && depth != 0 {
		reach = 0.5 // an ellipse has no corners
	}
	jitter := func() float64 { return 0.08 * (2*p.rng.Float64() - 1) }
	p.cut = Pin{[]string{"left", "centre", "right"}[side+1], []string{"front", "middle", "back"}[depth+1]}
	p.pin = Point{
		p.hole.GreenWidthYd / 2 * (reach*float64(side) + jitter()),
		p.hole.LengthYd + p.hole.GreenDepthYd/2*(reach*float64(depth)+jitter()),
	}
	p.fallDeg = 180 + 40*p.rng.NormFloat64()
	p.steep = p.rng.Float64()
}

// teeUp puts the ball on the tee, the markers up to six yards from the plate, so that the distance
// to the hole is whole yards, as a player reads it.
func (p *play) teeUp() {
	markers := math.Round(12*p.rng.Float64() - 6)
	toHole := math.Round(p.pin.Y + markers)
	p.ball = Point{0, p.pin.Y - math.Sqrt(toHole*toHole-p.pin.X*p.pin.X)}
	p.lie = Tee
}
