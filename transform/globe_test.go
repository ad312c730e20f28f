package transform

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"roundmill/testdata/reference"
)

// The usual table of degree lengths on the WGS 84 ellipsoid (NIMA TR8350.2),
// printed to a metre. The radii at mid-latitude are for short distances: a
// thousandth of a degree, scaled. On the equator a degree of longitude is
// 6378137 m x pi / 180 = 111319.49 m, which the table rounds up to 111.320 km: it
// agrees to a metre, not to half of one.
func TestDegreeLengthsOfWGS84(t *testing.T) {
	rows := reference.Numbers(t, "degree-lengths-wgs84.csv")
	const (
		arc               = 0.001
		kilometresPerYard = 0.0009144 // exactly: international yard and pound agreement, 1959
		metre             = 0.001
	)
	for _, printed := range rows {
		latitude := printed[0]
		east, north := offsetYd(latitude+arc/2, -3, latitude-arc/2, -3)
		if got := north / arc * kilometresPerYard; math.Abs(got-printed[1]) > metre || east != 0 {
			t.Errorf("a degree of latitude at %v is %.4f km, printed %v", latitude, got, printed[1])
		}
		east, north = offsetYd(latitude, -3+arc, latitude, -3)
		if got := east / arc * kilometresPerYard; math.Abs(got-printed[2]) > metre || north != 0 {
			t.Errorf("a degree of longitude at %v is %.4f km, printed %v", latitude, got, printed[2])
		}
	}
	if len(rows) != 3 {
		t.Errorf("%d rows, expected 3", len(rows))
	}
}

// offsetYd is a plane laid on the globe: what it says of a ball seen from the
// hole is the reverse of what it says of the hole seen from the ball.
func TestAnOffsetReversed(t *testing.T) {
	east, north := offsetYd(50.0003, 10.0029, 50.0031, 9.9981)
	backEast, backNorth := offsetYd(50.0031, 9.9981, 50.0003, 10.0029)
	if east != -backEast || north != -backNorth {
		t.Errorf("%v, %v there and %v, %v back", east, north, backEast, backNorth)
	}
}

// On the equator a degree of longitude is the 360th part of the ellipsoid's
// greatest circle (mathematics).
func TestADegreeOfLongitudeOnTheEquator(t *testing.T) {
	const arc = 0.001
	east, _ := offsetYd(0, arc, 0, 0)
	if got, want := east*0.9144/arc, 6378137*math.Pi/180; math.Abs(got-want) > 1e-6 {
		t.Errorf("%v m, expected %v", got, want)
	}
}

func TestAHoleAcrossTheDateLine(t *testing.T) {
	over, _ := offsetYd(-16, -179.999, -16, 179.999)
	plain, _ := offsetYd(-16, 10.001, -16, 9.999)
	if math.Abs(over-plain) > 1e-6 {
		t.Errorf("%v yd, expected %v", over, plain)
	}
}

// The straight line through the globe between two points of the ellipsoid
// (mathematics) is shorter than the way over it by less than a thousandth of a
// millimetre over a golf hole.
func TestDistancesOnTheGlobeAreExactToAMillimetre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		latitude := rapid.Float64Range(-70, 70).Draw(t, "latitude")
		longitude := rapid.Float64Range(-180, 180).Draw(t, "longitude")
		const farthest = 0.003 // degrees: 330 m
		otherLatitude := latitude + rapid.Float64Range(-farthest, farthest).Draw(t, "northward")
		otherLongitude := longitude + rapid.Float64Range(-farthest, farthest).Draw(t, "eastward")
		east, north := offsetYd(otherLatitude, otherLongitude, latitude, longitude)
		a, b := onEllipsoid(latitude, longitude), onEllipsoid(otherLatitude, otherLongitude)
		through := math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
		if got := math.Hypot(east, north) * 0.9144; math.Abs(got-through) > 0.001 {
			t.Fatalf("%v m, through the globe %v m", got, through)
		}
	})
}

// onEllipsoid is a point at height nought in metres from the middle of the
// globe.
func onEllipsoid(latitude, longitude float64) [3]float64 {
	sinLatitude, cosLatitude := math.Sincos(latitude * math.Pi / 180)
	sinLongitude, cosLongitude := math.Sincos(longitude * math.Pi / 180)
	const a, f = 6378137.0, 1 / 298.257223563
	n := a / math.Sqrt(1-f*(2-f)*sinLatitude*sinLatitude)
	return [3]float64{n * cosLatitude * cosLongitude, n * cosLatitude * sinLongitude, n * (1 - f) * (1 - f) * sinLatitude}
}
