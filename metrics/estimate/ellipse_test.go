package estimate

import (
	"math"
	"testing"
)

// Mathematics: the radius of a two-dimensional standard normal is 1.1774 for 50 % and 2.1460 for 90 %.
func TestEllipseOfUncorrelatedPairs(t *testing.T) {
	var m PairMoments
	// The corners of a rectangle: variances 4/3 x 3² and 4/3 x 1², no covariance.
	for _, x := range []float64{-3, 3} {
		for _, y := range []float64{-1, 1} {
			m.Add(10+x, 20+y)
		}
	}
	sdX, sdY := math.Sqrt(4*9.0/3), math.Sqrt(4*1.0/3)
	for share, radius := range map[float64]float64{0.5: 1.1774, 0.9: 2.1460} {
		got := m.Ellipse(share)
		if !near(got.SemiMajor/sdX, radius, 5e-5) || !near(got.SemiMinor/sdY, radius, 5e-5) {
			t.Errorf("ellipse of %v: %v", share, got)
		}
		if got.AngleRad != 0 || got.CentreX != 10 || got.CentreY != 20 {
			t.Errorf("ellipse of %v lies at %v", share, got)
		}
	}
}

func TestEllipseTurnsWithItsPairs(t *testing.T) {
	for _, turn := range []float64{-1.2, -0.3, 0.4, 1.5} {
		var m PairMoments
		for _, long := range []float64{-3, 3} {
			for _, short := range []float64{-1, 1} {
				m.Add(long*math.Cos(turn)-short*math.Sin(turn), long*math.Sin(turn)+short*math.Cos(turn))
			}
		}
		got := m.Ellipse(0.5)
		if !near(got.AngleRad, turn, 1e-12) || !near(got.SemiMajor/got.SemiMinor, 3, 1e-12) {
			t.Errorf("pairs turned by %v give %v", turn, got)
		}
	}
}

func TestEllipseHoldsItsShare(t *testing.T) {
	random := newRandom(3)
	var m PairMoments
	type point struct{ x, y float64 }
	var points []point
	for range 20_000 {
		a, b := random.NormFloat64(), random.NormFloat64()
		p := point{12*a + 2, 5*a + 7*b - 4}
		points = append(points, p)
		m.Add(p.x, p.y)
	}
	for _, share := range []float64{0.5, 0.9} {
		e := m.Ellipse(share)
		cos, sin := math.Cos(e.AngleRad), math.Sin(e.AngleRad)
		inside := 0
		for _, p := range points {
			dx, dy := p.x-e.CentreX, p.y-e.CentreY
			if math.Hypot((dx*cos+dy*sin)/e.SemiMajor, (dy*cos-dx*sin)/e.SemiMinor) <= 1 {
				inside++
			}
		}
		mustCover(t, float64(inside)/20_000, share-0.01, share+0.01)
	}
}

func TestEllipseOfLittle(t *testing.T) {
	var m PairMoments
	m.Add(1, 2)
	m.Add(3, 4)
	if got := m.Ellipse(0.5); !math.IsNaN(got.SemiMajor) || !math.IsNaN(got.AngleRad) {
		t.Errorf("ellipse of two pairs: %v", got)
	}
	m.Add(5, 6)
	if got := m.Ellipse(0.5); got.SemiMinor > 1e-6 || !near(got.AngleRad, math.Pi/4, 1e-12) {
		t.Errorf("ellipse of three pairs on a line: %v", got)
	}
}
