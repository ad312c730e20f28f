package golfer_test

import (
	"math"
	"testing"
)

// Printed distances are right to a twentieth of a yard; four of them enter the sum.
const printedYd = 0.2

func TestMissAndAimAddUpToWhatIsLeft(t *testing.T) {
	checked := 0
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			if shot["lie"] == "green" || shot["penalty"] != "" {
				continue
			}
			long := shot.number(t, "long_short_yd") + shot.number(t, "aim_long_short_yd")
			right := shot.number(t, "left_right_yd") + shot.number(t, "aim_left_right_yd")
			left := shot.yards(t, "left", "finish_lie")
			if math.Abs(math.Hypot(long, right)-left) > printedYd {
				t.Errorf("%.1f long and %.1f right of the hole, but %.1f left: %v", long, right, left, shot)
			}
			checked++
		}
	}
	if checked < 10000 {
		t.Errorf("only %d shots checked", checked)
	}
}

func TestABallInAPenaltyAreaIsDroppedOnTheLineItFlew(t *testing.T) {
	checked := 0
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			if shot["penalty_kind"] != "penalty area" {
				continue
			}
			toHole := shot.number(t, "to_hole")
			long := toHole + shot.number(t, "long_short_yd") + shot.number(t, "aim_long_short_yd")
			right := shot.number(t, "left_right_yd") + shot.number(t, "aim_left_right_yd")
			left := shot.yards(t, "left", "finish_lie")
			flown := math.Hypot(long, right)
			// The line passes the hole at a distance; the drop is so far before or after that point.
			passes, past := toHole*math.Abs(right)/flown, toHole*long/flown
			off := math.Sqrt(math.Max(left*left-passes*passes, 0))
			before, after := past-off, past+off
			if !(before > -printedYd && before < flown+printedYd) && !(after > -printedYd && after < flown+printedYd) {
				t.Errorf("dropped %.1f yd from the hole, which is not on the way: %v", left, shot)
			}
			checked++
		}
	}
	if checked < 50 {
		t.Errorf("only %d drops checked", checked)
	}
}

func TestTheFirstDistanceIsTheLengthOfTheHoleWithTheDaysMarkersAndPin(t *testing.T) {
	for _, hole := range manySeasons(t) {
		toHole := hole[0].number(t, "to_hole")
		if toHole != math.Trunc(toHole) {
			t.Errorf("a tee shot of %g yards", toHole)
		}
		if off := math.Abs(toHole - hole[0].number(t, "hole_length_yd")); off > 6+14 {
			t.Errorf("%g yards from the card: %v", off, hole[0])
		}
	}
}

func TestPinsAreCutWhereTheLogSays(t *testing.T) {
	// A shot aimed at the middle third sees the pin where its side says: aim is target minus hole.
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			if shot["intent"] != "safe" || shot["lie"] != "tee" || shot["par"] != "3" {
				continue
			}
			aim := shot.number(t, "aim_left_right_yd")
			if shot["pin_side"] == "left" && aim <= 0 || shot["pin_side"] == "right" && aim >= 0 {
				t.Errorf("aimed %g yd to the right of a hole cut %s", aim, shot["pin_side"])
			}
		}
	}
}
