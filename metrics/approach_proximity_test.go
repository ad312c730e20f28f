package metrics

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// holesFrom is a log of par 4s, each with an approach from a distance that
// finishes on the green or short of it in the rough.
func holesFrom(approaches ...float64) []byte {
	var log strings.Builder
	log.WriteString("date,player,hole,par,shot,lie,to_hole\n")
	for i, yd := range approaches {
		hole := fmt.Sprintf("2026-05-%02d,A,%d,4", i/18+1, i%18+1)
		fmt.Fprintf(&log, "%s,1,tee,%v\n%s,2,fairway,%v\n", hole, 150+max(yd, -yd), hole, max(yd, -yd))
		shot := 3
		if yd < 0 {
			fmt.Fprintf(&log, "%s,3,rough,40\n", hole)
			shot++
		}
		fmt.Fprintf(&log, "%s,%d,green,12\n", hole, shot)
	}
	return []byte(log.String())
}

func TestApproachesThatNeverReachTheGreenAreDoubted(t *testing.T) {
	repeated := func(yd float64, times int) (all []float64) {
		for range times {
			all = append(all, yd)
		}
		return all
	}
	short := append(repeated(-180, 12), repeated(-230, 8)...) // below zero: not reached
	metres := testOptions()
	metres.Metres = true
	for _, c := range []struct {
		what       string
		options    Options
		approaches []float64
		want       string
	}{
		{"20 not reached", testOptions(), append(repeated(160, 3), short...),
			"none of 20 approaches from 175 yd and farther finished on the green; if it cannot be reached from there, --reach 175 leaves them out"},
		{"in metres", metres, append(repeated(160, 3), short...),
			"none of 20 approaches from 160 m and farther finished on the green; if it cannot be reached from there, --reach 160 leaves them out"},
		{"19 not reached", testOptions(), append(repeated(160, 3), short[1:]...), ""},
		{"one reached from afar", testOptions(), append(repeated(230, 1), short...), ""},
		{"a miss nearer than one reached", testOptions(), append(repeated(190, 1), repeated(-180, 20)...), ""},
	} {
		got := ""
		for _, warning := range addTo(t, newApproachFigures(c.options), holesFrom(c.approaches...)).warnings() {
			got += warning.Text
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// A ball in the water is a green missed, whether the player then drops or picks up.
func TestAPenaltyCountsWhereThePlayerPicksUp(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,penalty,holed,long_short,left_right,green_depth,green_width\n"
	for hole := 1; hole <= 4; hole++ {
		log += fmt.Sprintf("2026-05-01,%d,3,1,tee,150,,,%d,1,30,25\n2026-05-01,%d,3,2,green,20,,,,,,\n2026-05-01,%d,3,3,green,2,,,,,,\n", hole, hole, hole, hole)
	}
	log += "2026-05-01,5,3,1,tee,150,1,no,-30,9,,\n"
	results := finished(t, []byte(log))
	row := find(t, results.Approach, func(r ApproachProximity) bool { return r.LieGroup == AllLies })
	if row.N != 5 || row.NPenalty != 1 || row.GreenShare != 0.8 {
		t.Errorf("%+v", row)
	}
	mustBe(t, "long, without the ball in the water", row.LongMeanYd, 2.5)
}

// Five rounds have such a shot, one a finish in play: a median with no interval.
func TestAMedianNeedsRoundsAtRest(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,penalty\n"
	for day := 1; day <= 5; day++ {
		penalty := "1"
		if day == 1 {
			penalty = ""
		}
		for hole := 1; hole <= 6; hole++ {
			log += fmt.Sprintf("2026-05-0%d,%d,3,1,tee,150,%s\n2026-05-0%d,%d,3,2,green,20,\n2026-05-0%d,%d,3,3,green,2,\n", day, hole, penalty, day, hole, day, hole)
		}
	}
	row := find(t, finished(t, []byte(log)).Approach, func(r ApproachProximity) bool { return r.LieGroup == AllLies })
	if row.N != 30 || row.MedianFt != 20 || !math.IsNaN(row.MedianLoFt) {
		t.Errorf("%+v", row)
	}
}

// The misses along and across are of the shots that the feet are of: a ball that
// was picked up 20 yd off has neither.
func TestABallThatIsPickedUpHasNoMiss(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,left,finish_lie,long_short_yd,left_right_yd,holed\n"
	for hole := 1; hole <= 3; hole++ {
		log += fmt.Sprintf("2026-05-01,%d,3,1,tee,150,5,green,3,-4,\n2026-05-01,%d,3,2,green,15 ft,,,,,yes\n", hole, hole)
	}
	log += "2026-05-01,4,3,1,tee,150,20,rough,-20,0,no\n"
	rows := addTo(t, newApproachFigures(testOptions()), []byte(log)).Rows()
	if row := rows[0]; row.N != 4 || len(row.FinishesFt) != 3 || row.LongMeanYd != 3 || row.RightMeanYd != -4 {
		t.Errorf("%+v", row)
	}
}
