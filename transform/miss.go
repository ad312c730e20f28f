package transform

import (
	"math"

	"roundmill/ingest"
)

// miss finds how far from the hole every stroke finished along and across the
// line of play: by positions where there are any, else by the logged miss from
// the target and the target's distance from the hole.
func (s *Shots) miss() {
	s.LongYd, s.RightYd = missed(s.longShort, s.AimLongYd), missed(s.leftRight, s.AimRightYd)
	if s.ballX == nil {
		return
	}
	for hole := range s.Holes.Len() {
		rows := s.Holes.rows(hole, s.N)
		for row := rows.from; row < rows.to; row++ {
			if long, right := s.missByPosition(row, rows); !math.IsNaN(long + right) {
				s.LongYd[row], s.RightYd[row] = long, right
			}
		}
	}
}

// RightOfTargetYd is how far right of its target a stroke finished: as logged, or
// by positions where the log says where the target lay. It is NaN where neither
// tells: off the tee of a dogleg nobody aims at the hole.
func (s *Shots) RightOfTargetYd(row int) float64 {
	if logged := s.leftRight[row]; !math.IsNaN(logged) {
		return logged
	}
	return s.RightYd[row] - s.AimRightYd[row]
}

// missed is the miss from the hole: that from the target, which is the hole
// unless the log says otherwise, and the target's distance from the hole.
func missed(fromTarget, aim []float64) []float64 {
	miss := make([]float64, len(fromTarget))
	for row, m := range fromTarget {
		if !math.IsNaN(aim[row]) {
			m += aim[row]
		}
		miss[row] = m
	}
	return miss
}

// missByPosition is NaN where the ball's position after the stroke is not
// known. Where play resumed after a penalty is not where the stroke finished.
func (s *Shots) missByPosition(row int, hole span) (long, right float64) {
	switch {
	case s.Penalty[row] > 0:
	case s.Holed[row]:
		return acrossLine(s.ballX[row], s.ballY[row], 0, 0)
	case row+1 < hole.to && s.follows(row):
		return acrossLine(s.ballX[row], s.ballY[row], s.ballX[row+1], s.ballY[row+1])
	}
	return math.NaN(), math.NaN()
}

// acrossLine resolves where a ball finished along and across the line of play
// from where it lay to the hole, which is the origin; x is east, y north, a
// ball past the hole and one right of the line are positive. It is NaN where
// the ball lay at the hole, from where there is no line.
func acrossLine(fromX, fromY, toX, toY float64) (long, right float64) {
	distance := math.Hypot(fromX, fromY)
	alongX, alongY := -fromX/distance, -fromY/distance
	return toX*alongX + toY*alongY, toX*alongY - toY*alongX
}

// shortSide reports of every stroke at the green whether it missed it on the
// side, or at the depth, where the hole is cut. A miss is a matter of side or of
// depth by the larger of the two: a ball 20 yd short and one yard right of a
// hole cut right has the whole green to play with.
func (s *Shots) shortSide() {
	s.ShortSided = make([]Known, s.N)
	for row := range s.N {
		s.ShortSided[row] = s.shortSided(row)
	}
}

func (s *Shots) shortSided(row int) Known {
	if !s.AtGreen[row] || s.FinishCategory[row] == ingest.NoCategory {
		return Unknown
	}
	if onGreen(s.FinishCategory[row]) {
		return No
	}
	answer := Unknown
	right, long := s.RightYd[row], s.LongYd[row]
	for _, side := range [...]struct {
		cut         string
		low, high   string
		miss, other float64
	}{
		{s.PinSide.At(row), "left", "right", right, long},
		{s.PinDepth.At(row), "front", "back", long, right},
	} {
		if side.cut == "" || math.IsNaN(side.miss) || math.Abs(side.miss) < math.Abs(side.other) {
			continue
		}
		if side.cut == side.low && side.miss < 0 || side.cut == side.high && side.miss > 0 {
			return Yes
		}
		answer = No
	}
	return answer
}

func onGreen(c ingest.Category) bool { return c == ingest.Green || c == ingest.Holed }
