package golfer

import "math"

// judge writes the player's own verdict on a bad shot, when he takes the trouble, and a note on some.
func (p *play) judge(shot *Shot, finish Point, q quality) {
	if shot.Holed {
		if shot.Stroke == ToGreen || shot.Stroke == ShortGame {
			shot.Note = "holed from off the green"
		}
		return
	}
	wild := q.spoiled || math.Abs(q.lineZ) > 1.8 || math.Abs(q.distanceZ) > 1.8
	var fault string
	switch {
	case shot.Intent == attack && (shot.Penalty > 0 || p.shortSided(shot, finish)):
		fault = decision
	case shot.Stroke == Putt:
		if shot.ToHoleYd < 1.7 && wild || shot.LeftYd > 2 && wild {
			fault = execution
		}
	case wild && (shot.Penalty > 0 || shot.Finish != Fairway && shot.Finish != Green):
		fault = execution
	}
	if fault == "" || p.rng.Float64() > p.player.Habits.NotesFaults {
		return
	}
	shot.Fault = fault
	if p.rng.Float64() < 0.3 {
		shot.Note = note(shot, q)
	}
}

// shortSided tells whether a shot at the green missed it on the side where the hole is cut.
func (p *play) shortSided(shot *Shot, finish Point) bool {
	if shot.Stroke != ToGreen || shot.Finish == Green {
		return false
	}
	return p.cut.Side == "left" && finish.X < p.pin.X || p.cut.Side == "right" && finish.X > p.pin.X
}

func note(shot *Shot, q quality) string {
	switch {
	case shot.Fault == decision && shot.Penalty > 0:
		return "took on too much"
	case shot.Fault == decision:
		return "short-sided when the middle was enough"
	case shot.Stroke == Putt && q.distanceZ < -1.8:
		return "left it short"
	case shot.Stroke == Putt && q.distanceZ > 1.8:
		return "hit it too hard"
	case shot.Stroke == Putt:
		return "off line from the start"
	case shot.Stroke == ShortGame && q.spoiled:
		return "heavy"
	case q.spoiled:
		return "thin"
	case q.lineZ < -1.8:
		return "pulled"
	case q.lineZ > 1.8:
		return "pushed"
	case q.distanceZ < 0:
		return "came up short"
	}
	return "went too far"
}
