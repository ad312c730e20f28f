package ingest

import (
	"fmt"
	"math"
	"slices"
)

// refuseFar refuses the records of a hole whose position cannot be, as that of
// a ball on the hole; latitude and longitude that changed places show so.
func (c *checker) refuseFar(kept []int32) []int32 {
	r := c.rows
	if r.numbers[latitude.number()] == nil && r.numbers[x.number()] == nil {
		return kept
	}
	first := func(f field) float64 { return r.firstNumber(f, kept) }
	north, east := first(holeLatitude), first(holeLongitude)
	farthest := definitions[toHole].max
	return slices.DeleteFunc(kept, func(at int32) bool {
		latitudeOf, longitudeOf := r.number(latitude, int(at)), r.number(longitude, int(at))
		if away := roughYards(latitudeOf, longitudeOf, north, east); away > farthest {
			hint := "look for a digit that is wrong, or a position of another hole"
			if roughYards(longitudeOf, latitudeOf, north, east) <= farthest {
				hint = "latitude and longitude of the ball, or of the hole, have changed places"
			}
			c.refuse(at, RecordScope, latitude, fmt.Sprintf("expected a position within %.0f yd of the hole, this one is %.0f yd away", farthest, away), hint)
			return true
		}
		if away := math.Hypot(r.number(x, int(at))-first(holeX), r.number(y, int(at))-first(holeY)); away > farthest {
			c.refuse(at, RecordScope, x, fmt.Sprintf("expected a position within %.0f yd of the hole, this one is %.0f yd away", farthest, away), "positions are in yards unless the header names a unit")
			return true
		}
		return false
	})
}

// firstNumber is the first value of a field among records, missing where none has
// one.
func (r *rows) firstNumber(f field, kept []int32) float64 {
	for _, at := range kept {
		if v := r.number(f, int(at)); !isMissing(v) {
			return v
		}
	}
	return missing
}

// yardsFrom is how far from the hole a record lies: as written, else by positions,
// roughly; missing where neither tells.
func (c *checker) yardsFrom(kept []int32, at int) float64 {
	r := c.rows
	if yards := r.number(toHole, at); !isMissing(yards) {
		return yards
	}
	if yards := math.Hypot(r.number(x, at)-r.firstNumber(holeX, kept), r.number(y, at)-r.firstNumber(holeY, kept)); !isMissing(yards) {
		return yards
	}
	return roughYards(r.number(latitude, at), r.number(longitude, at), r.firstNumber(holeLatitude, kept), r.firstNumber(holeLongitude, kept))
}

// roughYards is the distance of two places on a sphere (haversine), which is
// good enough to tell a place on a golf hole from one that is not. It is NaN
// when any of the degrees is missing.
func roughYards(latitude, longitude, otherLatitude, otherLongitude float64) float64 {
	const earthRadiusYd, radian = 6371008.8 / MetresPerYard, math.Pi / 180
	square := func(v float64) float64 { return v * v }
	h := square(math.Sin((latitude-otherLatitude)*radian/2)) +
		math.Cos(latitude*radian)*math.Cos(otherLatitude*radian)*square(math.Sin((longitude-otherLongitude)*radian/2))
	return 2 * earthRadiusYd * math.Asin(math.Min(1, math.Sqrt(h)))
}
