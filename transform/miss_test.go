package transform_test

import (
	"math"
	"testing"

	"roundmill/transform"
)

func TestTheMissFromTheHoleIsTheMissFromTheTargetAndTheAim(t *testing.T) {
	unknown := math.NaN()
	for _, stroke := range []struct {
		values      string // long_short, left_right, aim_long_short, aim_left_right
		long, right float64
	}{
		{"5,-3,,", 5, -3},
		{"5,-3,0,0", 5, -3},
		{"5,-3,-10,4", -5, 1},
		{"5,-3,-10,", -5, -3},
		{",-3,-10,4", unknown, 1},
		{",,-10,4", unknown, unknown},
		{",,,", unknown, unknown},
		{"0,0,,", 0, 0},
	} {
		shots := secondStroke(t, "long_short,left_right,aim_long_short,aim_left_right", "fairway,150,"+stroke.values, transform.Options{})
		if long, right := shots.LongYd[secondRow], shots.RightYd[secondRow]; !same(long, stroke.long) || !same(right, stroke.right) {
			t.Errorf("%s: %v long and %v right, expected %v and %v", stroke.values, long, right, stroke.long, stroke.right)
		}
	}
}

func TestShortSided(t *testing.T) {
	const missed, hit = "rough", "green"
	for _, stroke := range []struct {
		name, finish, values string // long_short, left_right, pin_side, pin_depth, intent
		want                 transform.Known
	}{
		{"left of a hole cut left", missed, "0,-12,left,,", transform.Yes},
		{"right of a hole cut left", missed, "0,12,left,,", transform.No},
		{"right of a hole cut right", missed, "0,12,right,,", transform.Yes},
		{"left of a hole cut right", missed, "0,-12,right,,", transform.No},
		{"short of a hole cut in front", missed, "-12,0,,front,", transform.Yes},
		{"past a hole cut in front", missed, "12,0,,front,", transform.No},
		{"past a hole cut at the back", missed, "12,0,,back,", transform.Yes},
		{"short of a hole cut at the back", missed, "-12,0,,back,", transform.No},
		{"beside a hole cut in the centre", missed, "0,12,centre,middle,", transform.No},
		{"right of a hole cut left, but past one cut at the back", missed, "12,12,left,back,", transform.Yes},
		{"right of a hole cut left, short of one cut at the back", missed, "-12,12,left,back,", transform.No},
		{"well short and a little right of a hole cut right at the back", missed, "-22,0.6,right,back,", transform.No},
		{"well left and a little past a hole cut in the centre at the back", missed, "0.2,-15.2,centre,back,", transform.No},
		{"well left and a little short of a hole cut left at the back", missed, "-2,-15,left,back,", transform.Yes},
		{"well short of a hole of which only the side is known", missed, "-22,3,right,,", transform.Unknown},
		{"level with the hole", missed, "0,0,left,back,", transform.No},
		{"on the green", hit, "0,-6,left,,", transform.No},
		{"where the hole is cut is not known", missed, "0,-12,,,", transform.Unknown},
		{"the miss is not known", missed, ",,left,front,", transform.Unknown},
		{"the miss across is not known, that in depth is", missed, "12,,left,back,", transform.Yes},
		{"where it finished is not known", "", "0,-12,left,,", transform.Unknown},
		{"a lay up", missed, "0,-12,left,,lay up", transform.Unknown},
	} {
		values := "2," + stroke.finish + ",fairway,150," + stroke.values
		next := "3"
		if stroke.finish == "" {
			next = "4" // a gap, so that no next stroke tells
		}
		shots := enriched(t, logOf(5, "shot,finish_lie,lie,to_hole,long_short,left_right,pin_side,pin_depth,intent\n"+
			"1,,tee,560,,,,,\n"+values+"\n"+next+",,green,3,,,,,"), transform.Options{})
		if got := shots.ShortSided[secondRow]; got != stroke.want {
			t.Errorf("%s: short sided %v, expected %v", stroke.name, got, stroke.want)
		}
	}
}

// The target is aimed 5 yd right of a hole cut right and missed by 3 yd left:
// still right of the hole.
func TestShortSidedGoesByTheMissFromTheHole(t *testing.T) {
	shots := enriched(t, logOf(4, `shot,finish_lie,lie,to_hole,left_right,aim_left_right,pin_side
		1,,tee,400,,,
		2,rough,fairway,150,-3,5,right
		3,,rough,4,,,`), transform.Options{})
	if shots.RightYd[secondRow] != 2 || shots.ShortSided[secondRow] != transform.Yes {
		t.Errorf("%v yd right of the hole, short sided %v", shots.RightYd[secondRow], shots.ShortSided[secondRow])
	}
}
