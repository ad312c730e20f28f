package estimate

import "math"

// Ellipse is the region of a two-dimensional normal around its mean that holds a given share of it. Lengths are in
// the unit of the pairs. AngleRad turns from the x axis towards the y axis to the long axis, in (-π/2, π/2].
type Ellipse struct {
	CentreX, CentreY     float64
	SemiMajor, SemiMinor float64
	AngleRad             float64
}

// Ellipse returns the coverage ellipse of the pairs, with every field NaN under three pairs: their semi-axes are the
// roots of the eigenvalues of the covariance matrix, times the radius √(-2 ln(1 - share)), which is 1.1774 standard
// deviations for a share of one half and 2.1460 for 90 %.
//
// Paid: pairs are taken as normal, and their estimated mean and covariance as the true ones, so that with few pairs
// the next one falls inside a little less often than the share says.
func (m PairMoments) Ellipse(share float64) Ellipse {
	if !(share > 0 && share < 1) {
		panic("estimate: share of an ellipse outside (0, 1)")
	}
	if m.n < 3 {
		nan := math.NaN()
		return Ellipse{nan, nan, nan, nan, nan}
	}
	xx, yy, xy := m.Covariance()
	radius := math.Sqrt(-2 * math.Log1p(-share))
	middle, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	x, y := m.Mean()
	return Ellipse{
		CentreX:   x,
		CentreY:   y,
		SemiMajor: radius * math.Sqrt(middle+half),
		// Pairs on one line leave no width; rounding could leave less.
		SemiMinor: radius * math.Sqrt(max(0, middle-half)),
		AngleRad:  math.Atan2(2*xy, xx-yy) / 2,
	}
}
