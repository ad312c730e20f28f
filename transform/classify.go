package transform

import (
	"math"
	"slices"

	"roundmill/ingest"
)

// classify gives every stroke its class, whether it played at the green, its
// yardage band, its miss, its plays-like distance and whether it was short
// sided.
func (s *Shots) classify(o Options) {
	s.Class, s.AtGreen, s.Band = make([]Class, s.N), make([]bool, s.N), make([]int32, s.N)
	s.ShortSided = make([]Known, s.N)
	laysUp := make([]bool, len(s.Intent.List))
	for code, word := range s.Intent.List {
		laysUp[code] = word == "lay up" || word == "get out"
	}
	for row := range s.N {
		s.Class[row] = s.classOf(row, o.ShortGameYd)
		code := s.Intent.Codes[row]
		s.AtGreen[row] = s.Class[row] == Approach && s.ToHoleYd[row] <= o.ReachYd &&
			s.Category[row] != ingest.Recovery && !(code >= 0 && laysUp[code])
		s.Band[row] = bandOf(s.ToHoleYd[row], o.BandsYd)
	}
	s.LongYd, s.RightYd = missed(s.LongYd, s.longShort, s.AimLongYd), missed(s.RightYd, s.leftRight, s.AimRightYd)
	s.PlaysLikeYd = make([]float64, s.N)
	for row := range s.N {
		s.PlaysLikeYd[row] = playsLikeYd(s.ToHoleYd[row], s.HeadwindMph[row], s.ElevationYd[row])
		s.ShortSided[row] = s.shortSided(row)
	}
}

func (s *Shots) classOf(row int, shortGameYd float64) Class {
	switch {
	case s.Category[row] == ingest.Green:
		return Putt
	case s.Category[row] == ingest.Tee && s.Par[row] >= 4:
		return TeeShot
	case s.ToHoleYd[row] <= shortGameYd:
		return ShortGame
	}
	return Approach
}

// bandOf is the index of the band that holds a distance, lower edge included
// and upper not; -1 outside all.
func bandOf(yards float64, edges []float64) int32 {
	i, found := slices.BinarySearch(edges, yards)
	if !found {
		i--
	}
	if math.IsNaN(yards) || i < 0 || i >= len(edges)-1 {
		return -1
	}
	return int32(i)
}

// missed is the miss from the hole: the miss from the target plus the target's
// distance from the hole, where the log gives the first; else what positions
// say.
func missed(fromPositions, fromTarget, aim []float64) []float64 {
	miss := make([]float64, len(fromTarget))
	for row, m := range fromTarget {
		switch {
		case math.IsNaN(m) && fromPositions != nil:
			m = fromPositions[row]
		case !math.IsNaN(aim[row]):
			m += aim[row]
		}
		miss[row] = m
	}
	return miss
}

// playsLikeYd is the distance in yards that a shot plays in still air on the
// level: 1 % longer per mph of headwind, half a per cent shorter per mph of
// tailwind (Golf Monthly, "How to calculate distance in the wind"), one yard
// per yard of climb (common practice). It is NaN where neither wind nor climb
// is logged.
func playsLikeYd(toHoleYd, headwindMph, elevationYd float64) float64 {
	if math.IsNaN(headwindMph) && math.IsNaN(elevationYd) {
		return math.NaN()
	}
	yards := toHoleYd
	switch {
	case headwindMph > 0:
		yards *= 1 + 0.01*headwindMph
	case headwindMph < 0:
		yards *= 1 + 0.005*headwindMph
	}
	if !math.IsNaN(elevationYd) {
		yards += elevationYd
	}
	return yards
}

// shortSided reports whether a stroke at the green missed it on the side, or at
// the depth, where the hole is cut.
func (s *Shots) shortSided(row int) Known {
	if !s.AtGreen[row] || s.FinishCategory[row] == ingest.NoCategory {
		return Unknown
	}
	if onGreen(s.FinishCategory[row]) {
		return No
	}
	answer := Unknown
	for _, side := range [...]struct {
		cut       string
		low, high string
		miss      float64
	}{
		{s.PinSide.At(row), "left", "right", s.RightYd[row]},
		{s.PinDepth.At(row), "front", "back", s.LongYd[row]},
	} {
		if side.cut == "" || math.IsNaN(side.miss) {
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
