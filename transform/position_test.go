package transform_test

import (
	"fmt"
	"math"
	"testing"

	"roundmill/transform"
)

// A ball that finishes past the hole and right of the line from where it lay is
// + and +, whichever way the hole is played.
func TestPositionsGiveTheMissAlongAndAcrossTheLine(t *testing.T) {
	for _, hole := range []struct {
		played                  string
		fromX, fromY, endX, end float64 // with the hole at 1000, 2000
		long, right             float64
	}{
		{"north", 1000, 1850, 1005, 2010, 10, 5},
		{"south", 1000, 2150, 995, 1990, 10, 5},
		{"east", 850, 2000, 1010, 1995, 10, 5},
		{"west", 1150, 2000, 990, 2005, 10, 5},
		{"north, short and left", 1000, 1850, 994, 1985, -15, -6},
		{"north-east", 900, 1900, 1000, 1990, -10 / math.Sqrt2, 10 / math.Sqrt2},
	} {
		log := fmt.Sprintf("shot,lie,to_hole,x_yd,y_yd,hole_x_yd,hole_y_yd\n1,tee,,1000,1600,1000,2000\n2,fairway,,%v,%v,1000,2000\n3,rough,,%v,%v,1000,2000",
			hole.fromX, hole.fromY, hole.endX, hole.end)
		shots := enriched(t, logOf(4, log), transform.Options{})
		if long, right := shots.LongYd[secondRow], shots.RightYd[secondRow]; !same(long, hole.long) || !same(right, hole.right) {
			t.Errorf("played %s: %v long and %v right, expected %v and %v", hole.played, long, right, hole.long, hole.right)
		}
		if want := math.Hypot(hole.fromX-1000, hole.fromY-2000); !same(shots.ToHoleYd[secondRow], want) {
			t.Errorf("played %s: %v yd to the hole, expected %v", hole.played, shots.ToHoleYd[secondRow], want)
		}
	}
}

// One degree of latitude at 45 degrees is 111.132 km and one of longitude
// 78.847 km (WGS 84, NIMA TR8350.2), so 0.001 degree is 121.535 and 86.228 yd.
func TestPositionsOnTheGlobe(t *testing.T) {
	shots := enriched(t, logOf(4, `shot,lie,lat,lon,hole_lat,hole_lon
		1,tee,44.997,-3.5,45,-3.5
		2,fairway,44.999,-3.5,45,-3.5
		3,green,45,-3.499,45,-3.5`), transform.Options{})
	for row, want := range []float64{3 * 121.535, 121.535, 86.228} {
		if got := shots.ToHoleYd[row]; math.Abs(got-want) > 0.01 {
			t.Errorf("shot %d is %v yd from the hole, expected %v", row+1, got, want)
		}
	}
	if long, right := shots.LongYd[1], shots.RightYd[1]; math.Abs(long) > 0.01 || math.Abs(right-86.228) > 0.01 {
		t.Errorf("a ball due east of the hole after a stroke to the north: %v long and %v right", long, right)
	}
	if !same(shots.HoleLengthYd[0], shots.ToHoleYd[0]) || !same(shots.FinishYd[0], shots.ToHoleYd[1]) {
		t.Errorf("length %v and finish %v are not by position", shots.HoleLengthYd[0], shots.FinishYd[0])
	}
}

func TestTheHoleNeedsToStandInOneRecordOnly(t *testing.T) {
	shots := enriched(t, logOf(4, `shot,lie,x_yd,y_yd,hole_x_yd,hole_y_yd
		1,tee,0,0,,
		2,fairway,0,250,,
		3,green,0,395,0,400`), transform.Options{})
	for row, want := range []float64{400, 150, 5} {
		if got := shots.ToHoleYd[row]; !same(got, want) {
			t.Errorf("shot %d is %v yd from the hole, expected %v", row+1, got, want)
		}
	}
}

func TestAHoleWithoutAPositionHasNoDistances(t *testing.T) {
	shots := enriched(t, logOf(4, `shot,lie,x_yd,y_yd,hole_x_yd,hole_y_yd
		1,tee,0,0,,
		2,green,0,395,,`), transform.Options{})
	if shots.AtGreen[0] || shots.Band[0] != -1 || !math.IsNaN(shots.StrokesGained[0]) || !math.IsNaN(shots.Holes.StrokesGained[0]) || !math.IsNaN(shots.ProximityFt[0]) {
		t.Errorf("band %d, strokes gained %v, proximity %v from nowhere", shots.Band[0], shots.StrokesGained[0], shots.ProximityFt[0])
	}
}

func TestALoggedDistanceGoesBeforePositions(t *testing.T) {
	shots := enriched(t, logOf(4, `shot,lie,to_hole,x_yd,y_yd,hole_x_yd,hole_y_yd
		1,tee,400,0,0,0,400
		2,fairway,155,0,250,0,400
		3,green,12,0,395,0,400`), transform.Options{})
	if shots.ToHoleYd[1] != 155 || shots.ToHoleYd[2] != 4 {
		t.Errorf("%v and %v yd to the hole, expected 155 and 4 as logged", shots.ToHoleYd[1], shots.ToHoleYd[2])
	}
}

// The ball's position tells the miss better than an eye does.
func TestAMissByPositionGoesBeforeALoggedOne(t *testing.T) {
	shots := enriched(t, logOf(4, `shot,lie,to_hole,x_yd,y_yd,hole_x_yd,hole_y_yd,long_short,left_right
		1,tee,,0,0,0,400,,
		2,fairway,,0,250,0,400,-20,-30
		3,rough,,4,390,0,400,-9,7
		4,green,2,,,,,1,1`), transform.Options{})
	for row, want := range [][2]float64{{-150, 0}, {-10, 4}, {-9, 7}, {1, 1}} {
		if long, right := shots.LongYd[row], shots.RightYd[row]; !same(long, want[0]) || !same(right, want[1]) {
			t.Errorf("shot %d: %v long and %v right, expected %v", row+1, long, right, want)
		}
	}
}

// A holed stroke missed by nothing. Where play resumed after a penalty says
// nothing of the miss, nor does a record behind a gap.
func TestWhatPositionsSayOfAMiss(t *testing.T) {
	unknown := math.NaN()
	shots := enriched(t, logOf(5, `shot,lie,x_yd,y_yd,hole_x_yd,hole_y_yd,penalty
		1,tee,0,0,0,400,1
		3,rough,0,250,0,400,
		4,rough,5,380,0,400,
		6,green,0,399,0,400,`), transform.Options{})
	for row, want := range [][2]float64{{unknown, unknown}, {-20, 5}, {unknown, unknown}, {0, 0}} {
		if long, right := shots.LongYd[row], shots.RightYd[row]; !same(long, want[0]) || !same(right, want[1]) {
			t.Errorf("record %d: %v long and %v right, expected %v", row+1, long, right, want)
		}
	}
}

func TestFromTheHoleItselfThereIsNoLine(t *testing.T) {
	shots := enriched(t, logOf(3, `shot,lie,to_hole,x_yd,y_yd,hole_x_yd,hole_y_yd
		1,tee,150,0,400,0,400
		2,green,3,1,399,0,400`), transform.Options{})
	if !math.IsNaN(shots.LongYd[0]) || !math.IsNaN(shots.RightYd[0]) {
		t.Errorf("%v long and %v right", shots.LongYd[0], shots.RightYd[0])
	}
}

func TestHolesWithAndWithoutPositionsInOneLog(t *testing.T) {
	shots := enriched(t, `date,hole,par,shot,lie,to_hole,x_yd,y_yd,hole_x_yd,hole_y_yd
2026-05-02,1,3,1,tee,150,,,,
2026-05-02,1,3,2,green,9,,,,
2026-05-02,2,3,1,tee,,0,0,0,160
2026-05-02,2,3,2,green,,3,156,0,160`, transform.Options{})
	for row, want := range []float64{150, 3, 160, 5} {
		if got := shots.ToHoleYd[row]; !same(got, want) {
			t.Errorf("record %d is %v yd from the hole, expected %v", row+1, got, want)
		}
	}
	if !math.IsNaN(shots.LongYd[0]) || !same(shots.LongYd[2], -4) || !same(shots.RightYd[2], 3) {
		t.Errorf("%v, and %v long and %v right", shots.LongYd[0], shots.LongYd[2], shots.RightYd[2])
	}
}
