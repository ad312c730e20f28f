package golfer

import "time"

// A Round is what all shots of one round share.
type Round struct {
	Number int // from 1 in the player's own order
	Date   time.Time
	Player string
	Course *Course
}

// A Stroke is the kind of shot, which settles what a player writes down about it.
type Stroke uint8

// Kinds of stroke.
const (
	FromTee   Stroke = iota // from the tee of a par 4 or 5
	ToGreen                 // from beyond ShortGameYd, meant to reach the green
	Advance                 // a lay up, or out of trouble
	ShortGame               // off the green, within ShortGameYd
	Putt
)

// A Shot is one stroke at the ball, with all that a log says about it. Distances are yards, on the
// green too. Along is towards the hole from where the ball lay, right across that line.
type Shot struct {
	Round    *Round
	Hole     *Hole
	Number   int // of the stroke on the hole, penalties not counted
	Stroke   Stroke
	Lie      Lie
	ToHoleYd float64
	Club     string
	LeftYd   float64 // from where play goes on; 0 when holed
	Finish   Lie     // where play goes on; NoLie when holed
	Aim      Miss    // of the target from the hole; not on putts
	Miss     Miss    // of the ball, where it came to rest, from the target; not on putts
	Pin      Pin
	Wind     Wind
	RiseYd   float64 // of the target above the ball
	Putting  Contour // on putts only

	Penalty     int
	PenaltyKind string
	Intent      string
	Fault       string
	Holed       bool
	PickedUp    bool // after this stroke
	Note        string
}

// A Miss is a distance on the ground in yards: long is positive, right is positive.
type Miss struct{ LongYd, RightYd float64 }

// A Pin is where the hole is cut: left, centre or right; front, middle or back.
type Pin struct{ Side, Depth string }

// A Wind in whole miles an hour: head is positive into the player, cross positive from the left.
type Wind struct{ HeadMph, CrossMph float64 }

// A Contour is the ground under a putt: uphill, level or downhill; left to right, straight or right to left.
type Contour struct{ Slope, Break string }

// Words of a shot log.
const (
	uphill, level, downhill            = "uphill", "level", "downhill"
	leftToRight, straight, rightToLeft = "left to right", "straight", "right to left"

	attack, safe, layUp, getOut = "attack", "safe", "lay up", "get out"
	decision, execution         = "decision", "execution"

	penaltyArea, outOfBounds, lostBall, unplayable = "penalty area", "out of bounds", "lost ball", "unplayable"
)
