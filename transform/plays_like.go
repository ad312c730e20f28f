package transform

import "math"

// playLike works out every stroke's plays-like distance.
func (s *Shots) playLike() {
	s.PlaysLikeYd = make([]float64, s.N)
	for row := range s.N {
		s.PlaysLikeYd[row] = PlaysLikeYd(s.ToHoleYd[row], s.HeadwindMph[row], s.ElevationYd[row])
	}
}

// PlaysLikeYd is the distance in yards that a shot plays in still air on the
// level, or that a ball which went so far would have gone there: 1 % longer per
// mph of headwind, half a per cent shorter per mph of tailwind (Golf Monthly,
// "How to calculate distance in the wind"), one yard per yard of climb (common
// practice). It is NaN where neither wind nor climb is logged.
func PlaysLikeYd(distanceYd, headwindMph, elevationYd float64) float64 {
	if math.IsNaN(headwindMph) && math.IsNaN(elevationYd) {
		return math.NaN()
	}
	yards := distanceYd
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
