package metrics

import (
	"fmt"
	"math"
	"testing"

	"roundmill/testdata/demo"
)

// missPatternLog is a log of par 3 tee shots from 160 yd, one a line: the miss long
// and right, depth and width of the green, penalty.
func missPatternLog(shots ...string) string {
	log := "date,hole,par,shot,lie,to_hole,long_short,left_right,green_depth,green_width,penalty\n"
	for i, shot := range shots {
		day, hole := 1+i/3, 1+i%3
		log += fmt.Sprintf("2026-05-%02d,%d,3,1,tee,160,%s\n2026-05-%02d,%d,3,2,green,10,,,,,\n", day, hole, shot, day, hole)
	}
	return log
}

func missRows(t testing.TB, log []byte) []MissPattern {
	t.Helper()
	figures := newMissPatternFigures(testOptions())
	for _, batch := range enriched(t, log) {
		figures.Add(batch)
	}
	return figures.Rows()
}

func TestAMissPatternByHand(t *testing.T) {
	rows := missRows(t, []byte(missPatternLog(
		"-6,-2,30,20,", "-2,2,34,,", "2,6,40,,", // on a line: right is long + 4
		"40,40,30,20,1", // a penalty did not come to rest in play
		",3,30,20,",     // nobody knows how long
	)))
	if len(rows) != 1 {
		t.Fatalf("%+v", rows)
	}
	row := rows[0]
	if row.BandFromYd != 150 || row.BandToYd != 175 || row.N != 3 || row.Rounds != 1 || row.NGreenDepth != 3 || row.NGreenWidth != 1 || len(row.Misses) != 3 {
		t.Errorf("%+v", row)
	}
	mustBe(t, "right", row.RightMeanYd, 2)
	mustBe(t, "long", row.LongMeanYd, -2)
	mustBe(t, "spread to the sides", row.RightSdYd, 4)
	mustBe(t, "spread in length", row.LongSdYd, 4)
	mustBe(t, "correlation", row.Correlation, 1)
	mustBe(t, "turn", row.TurnDeg, 45)
	mustBe(t, "width of a line", row.MostMinor, 0)
	// Radii of a two-dimensional normal, from the chi-squared with two degrees of freedom: √(-2 ln(1 - share)).
	mustBe(t, "half", row.Half, math.Sqrt(32)*math.Sqrt(2*math.Ln2))
	mustBe(t, "90 %", row.Most, math.Sqrt(32)*math.Sqrt(2*math.Log(10)))
	mustBe(t, "depth", row.GreenDepthYd, 34)
	mustBe(t, "width", row.GreenWidthYd, 20)
	mustBe(t, "interval of one round", row.RightLoYd, math.NaN())
	if row.Misses[0] != (Miss{-2, -6}) || row.Misses[2] != (Miss{6, 2}) {
		t.Errorf("misses %v", row.Misses)
	}
}

// The approach table counts the same shots, band by band, where nothing ended
// in a penalty; the ellipses of a normal hold the shares that they are named for.
func TestTheMissPatternOfTheDemoSeasonAgreesWithItsApproaches(t *testing.T) {
	misses, approach := newMissPatternFigures(testOptions()), newApproachFigures(testOptions())
	for _, batch := range enriched(t, demo.CSV) {
		misses.Add(batch)
		approach.Add(batch)
	}
	inside50, inside90, all := 0, 0, 0
	for i, row := range misses.Rows() {
		same := approach.Rows()[i]
		if row.BandFromYd != same.BandFromYd || row.N != same.N-same.NPenalty || int(row.N) != len(row.Misses) {
			t.Errorf("from %v yd: %d misses of %d approaches, %d with a penalty", row.BandFromYd, row.N, same.N, same.NPenalty)
		}
		if !(row.RightLoYd < row.RightMeanYd && row.RightMeanYd < row.RightHiYd && row.LongLoYd < row.LongMeanYd && row.LongMeanYd < row.LongHiYd) {
			t.Errorf("from %v yd: %+v", row.BandFromYd, row)
		}
		sin, cos := math.Sincos(row.TurnDeg * math.Pi / 180)
		for _, miss := range row.Misses {
			right, long := miss.RightYd-row.RightMeanYd, miss.LongYd-row.LongMeanYd
			along, across := cos*right+sin*long, cos*long-sin*right
			all++
			if math.Hypot(along/row.Half, across/row.HalfMinor) <= 1 {
				inside50++
			}
			if math.Hypot(along/row.Most, across/row.MostMinor) <= 1 {
				inside90++
			}
		}
	}
	if half, most := float64(inside50)/float64(all), float64(inside90)/float64(all); math.Abs(half-0.5) > 0.08 || math.Abs(most-0.9) > 0.05 {
		t.Errorf("the ellipses hold %.3f and %.3f of %d misses", half, most, all)
	}
}
