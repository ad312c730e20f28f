package transform_test

import (
	"math"
	"strconv"
	"testing"

	"roundmill/testdata/reference"
	"roundmill/transform"
)

func playsLike(t *testing.T, toHole, wind string) float64 {
	t.Helper()
	return secondStroke(t, "headwind,crosswind,elevation", "fairway,"+toHole+","+wind, transform.Options{}).PlaysLikeYd[secondRow]
}

// Golf Monthly, "How to calculate distance in the wind".
func TestPlaysLikeDistanceInThePrintedWinds(t *testing.T) {
	rows := reference.Numbers(t, "plays-like-wind.csv")
	for _, row := range rows {
		toHole, headwind := strconv.FormatFloat(row[0], 'g', -1, 64), strconv.FormatFloat(row[1], 'g', -1, 64)
		if got := playsLike(t, toHole, headwind+",,"); math.Abs(got-row[2]) > 1e-9 {
			t.Errorf("%s yd into %s mph play like %v, printed %v", toHole, headwind, got, row[2])
		}
	}
	if len(rows) != 5 {
		t.Errorf("%d rows, expected 5", len(rows))
	}
}

// One yard longer per yard uphill, one shorter per yard downhill (common
// practice), after the wind.
func TestPlaysLikeDistanceUphillAndDownhill(t *testing.T) {
	for _, shot := range []struct {
		toHole, wind string // headwind, crosswind, elevation
		want         float64
	}{
		{"150", ",,10", 160},
		{"150", ",,-10", 140},
		{"150", ",,0", 150},
		{"150", "0,,", 150},
		{"150", "0,,-5", 145},
		{"200", "10,,10", 230},
		{"200", "-10,,-10", 180},
		{"150", ",,", math.NaN()},
		{"150", ",12,", math.NaN()}, // across the line, it is not known how far it plays
	} {
		if got := playsLike(t, shot.toHole, shot.wind); !same(got, shot.want) {
			t.Errorf("%s yd with %s play like %v, expected %v", shot.toHole, shot.wind, got, shot.want)
		}
	}
}
