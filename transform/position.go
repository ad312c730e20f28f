package transform

import (
	"math"

	"roundmill/ingest"
)

// WGS 84 ellipsoid (NGA, TR8350.2).
const (
	semiMajorM = 6378137.0
	flattening = 1 / 298.257223563
)

// offsetYd is where a point lies seen from another, in yards east and north,
// both given in WGS 84 degrees. It takes the meridian and prime-vertical radii
// at mid-latitude: distances are exact to a millimetre over a golf hole.
func offsetYd(latitude, longitude, fromLatitude, fromLongitude float64) (east, north float64) {
	const radian = math.Pi / 180
	eccentricity2 := flattening * (2 - flattening)
	middle := (latitude + fromLatitude) / 2 * radian
	w2 := 1 - eccentricity2*math.Sin(middle)*math.Sin(middle)
	primeVertical := semiMajorM / math.Sqrt(w2)
	meridian := primeVertical * (1 - eccentricity2) / w2
	north = (latitude - fromLatitude) * radian * meridian
	east = math.Remainder(longitude-fromLongitude, 360) * radian * primeVertical * math.Cos(middle)
	return east / ingest.MetresPerYard, north / ingest.MetresPerYard
}

// locate works out where the ball lay, seen from the hole, for records that have
// positions, and from that the distance to the hole where none is logged.
func (s *Shots) locate() {
	if allAbsent(s.latitude) && allAbsent(s.localX) {
		return
	}
	s.ballX, s.ballY = make([]float64, s.N), make([]float64, s.N)
	toHole := make([]float64, s.N)
	for hole := range s.Holes.Len() {
		rows := s.Holes.rows(hole, s.N)
		cut := s.holePosition(rows)
		for row := rows.from; row < rows.to; row++ {
			s.ballX[row], s.ballY[row] = s.fromHole(row, cut)
			toHole[row] = s.ToHoleYd[row]
			if math.IsNaN(toHole[row]) {
				toHole[row] = math.Hypot(s.ballX[row], s.ballY[row])
			}
		}
	}
	s.ToHoleYd = toHole
}

// A cut is where the hole is, as the log gives it, on the globe or on a plane.
type cut struct{ latitude, longitude, x, y float64 }

// holePosition is the first position given for the hole among its records.
func (s *Shots) holePosition(rows span) cut {
	first := func(values []float64) float64 { return firstNumber(values, rows) }
	return cut{first(s.holeLatitude), first(s.holeLongitude), first(s.holeX), first(s.holeY)}
}

func (s *Shots) fromHole(row int, hole cut) (x, y float64) {
	if x, y = s.localX[row]-hole.x, s.localY[row]-hole.y; !math.IsNaN(x + y) {
		return x, y
	}
	return offsetYd(s.latitude[row], s.longitude[row], hole.latitude, hole.longitude)
}

func allAbsent(values []float64) bool {
	for _, v := range values {
		if !math.IsNaN(v) {
			return false
		}
	}
	return true
}
