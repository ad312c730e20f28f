// Package golfer plays invented golf, shot by shot, from skill parameters that are known:
// what an estimate finds in the logs can be held against the truth that made them.
//
// Every spread is a standard deviation. The ball moves in two dimensions, so the distances,
// misses and aims of a log agree with one another. The same seed gives the same log.
package golfer

import "math"

// A Player is the whole truth about an invented golfer.
type Player struct {
	Name string

	Clubs   []Club               // longest first, all but the putter
	Lies    [lieCount]LieSkill   // what a lie does to a full or part swing
	Touch   [lieCount]TouchSkill // the short game by lie, within ShortGameYd of the hole
	Putting PuttingSkill
	Weather WeatherSkill
	Habits  Habits

	PartSwing   float64 // factor on the distance spread of a swing well short of the shortest club's stock
	PitchLoss   float64 // share by which the spreads of the short game grow with every ten yards past 20
	StockPull   float64 // share of the gap between wanted and stock distance that a full swing fails to make up
	MishitShare float64 // share of swings that are mishit: 6 to 22 % short, and MishitLine times as wide
	MishitLine  float64

	FormSpread  float64 // round-to-round spread of a factor on all spreads: its logarithm's standard deviation
	Improvement float64 // share by which all spreads have shrunk after one season; levels off later; 0 for none
}

// A Club with the distance it goes from a good lie in still air on the flat, roll included, and
// its spreads from there: start line in degrees, distance in per cent of the distance meant.
type Club struct {
	Name        string
	StockYd     float64
	LineDeg     float64
	DistancePct float64
}

// A LieSkill is what a lie costs: factors on the spreads and on the distance of every club, and
// which of the clubs is the longest that can be played from it.
type LieSkill struct {
	Line, Distance, Carry float64
	Longest               int // index in Clubs
}

// A TouchSkill is a short game: start line in degrees, distance in per cent of (distance + 2 yards),
// and the share of strokes that come out duffed, going 30 to 70 % of the way.
type TouchSkill struct {
	LineDeg     float64
	DistancePct float64
	DuffShare   float64
}

// A PuttingSkill is the truth about putting: start line in degrees, pace in per cent of
// (distance + 1 foot), the ball being meant to stop one foot past the hole.
// Uphill, Downhill and Breaking are factors on both spreads, on the line only for Breaking.
type PuttingSkill struct {
	LineDeg, PacePct           float64
	Uphill, Downhill, Breaking float64
}

// A WeatherSkill is what wind and slope really do to this player's ball. What he plans with is the
// rule of thumb: 1 % a mph into the wind, 0.5 % a mph down it, a yard a yard uphill.
type WeatherSkill struct {
	IntoPct, DownPct float64 // per cent of the distance per mph
	DriftPct         float64 // sideways, per cent of the distance per mph of crosswind, of which
	DriftAllowed     float64 // this share is allowed for
	RiseYd           float64 // yards lost per yard uphill
}

// Habits are how the player decides.
type Habits struct {
	Attack      float64 // chance of going at a hole cut near the edge, from a good lie at short range
	NarrowYd    float64 // fairways narrower than this make him think of less than a driver
	LayUpYd     float64 // the distance he lays up to
	GoForIt     float64 // chance of hitting all he has when that leaves less than 45 yards
	NotesFaults float64 // share of bad shots he writes a verdict on
	PicksUpAt   int     // strokes over par, not yet holed, at which he picks up; 0 for never
}

// ShortGameYd is the distance within which strokes off the green are played by touch.
const ShortGameYd = 50

// reachYd is how far a club goes from a lie in still air.
func (p *Player) reachYd(club *Club, lie Lie) float64 { return club.StockYd * p.Lies[lie].Carry }

// longest is the longest club that can be played from a lie.
func (p *Player) longest(lie Lie) *Club { return &p.Clubs[p.Lies[lie].Longest] }

// clubFor is the club whose distance from the lie is nearest to the distance wanted.
func (p *Player) clubFor(wantedYd float64, lie Lie) *Club {
	best := p.longest(lie)
	for i := p.Lies[lie].Longest; i < len(p.Clubs); i++ {
		club := &p.Clubs[i]
		if math.Abs(p.reachYd(club, lie)-wantedYd) < math.Abs(p.reachYd(best, lie)-wantedYd) {
			best = club
		}
	}
	return best
}
