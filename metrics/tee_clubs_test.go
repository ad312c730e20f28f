package metrics

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func teeClubsOf(t testing.TB, log string) *TeeClubFigures {
	t.Helper()
	figures := newTeeClubFigures(Options{Baseline: "test", Seed: 1})
	for _, batch := range enriched(t, []byte(log)) {
		figures.Add(batch)
	}
	return figures
}

func mustBe(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.IsNaN(got) != math.IsNaN(want) || math.Abs(got-want) > 1e-9 {
		t.Errorf("%s is %v, expected %v", what, got, want)
	}
}

// Worked by hand with the published values of the 2012 table (from memory): tee
// 400 yd 3.99, fairway 150 yd 2.945, rough 160 yd 3.23.
func TestTeeClubsByHand(t *testing.T) {
	figures := teeClubsOf(t, `date,hole,par,shot,lie,to_hole,club,left,finish_lie,left_right,aim_left_right,penalty
2026-05-31,1,4,1,tee,400,driver,150,fairway,-20,6,
2026-05-31,1,4,2,fairway,150,8i,,,,,
2026-05-31,1,4,3,green,6,putter,,,,,
2026-05-31,2,4,1,tee,400,driver,,,15.5,,1
2026-05-31,2,4,2,tee,400,driver,160,rough,15,,
2026-05-31,2,4,3,rough,160,7i,,,,,
2026-05-31,2,4,4,green,6,putter,,,,,
2026-05-31,3,5,1,tee,500,3 wood,260,fairway,,,
2026-05-31,3,5,2,fairway,260,3 wood,,,,,
2026-05-31,3,5,3,green,6,putter,,,,,
2026-05-31,4,3,1,tee,150,driver,,,,,
2026-05-31,4,3,2,green,6,putter,,,,,
2026-05-31,5,4,1,tee,400,,150,fairway,,,
2026-05-31,5,4,2,fairway,150,8i,,,,,
2026-05-31,5,4,3,green,6,putter,,,,,
`)
	rows := figures.Rows()
	if len(rows) != 2 || rows[0].Club != "driver" || rows[1].Club != "3 wood" {
		t.Fatalf("clubs, longest first: %+v", rows)
	}
	driver := rows[0]
	if driver.N != 3 || driver.NDistance != 2 || driver.NFairway != 3 || driver.NSide != 3 {
		t.Errorf("driver: n %d, distances %d, fairways %d, sides %d", driver.N, driver.NDistance, driver.NFairway, driver.NSide)
	}
	mustBe(t, "median", driver.MedianYd, 245)
	mustBe(t, "spread", driver.SdYd, math.Sqrt(50))
	mustBe(t, "10th percentile", driver.P10Yd, 241)
	mustBe(t, "fairways", driver.FairwayShare, 1.0/3)
	mustBe(t, "penalties", driver.PenaltyShare, 1.0/3)
	mustBe(t, "left", driver.LeftShare, 1.0/3)   // 20 yd left of the target, 14 of the hole
	mustBe(t, "right", driver.RightShare, 1.0/3) // 15.5 yd; 15 is not past 15
	mustBe(t, "strokes gained", driver.StrokesGainedPer, ((3.99-2.945-1)+(0-1-1)+(3.99-3.23-1))/3)
	mustBe(t, "interval of one round", driver.StrokesGainedLo, math.NaN())
	if warnings := figures.warnings(); len(warnings) == 0 || !strings.Contains(warnings[0].Text, "1 of 5 tee shots") {
		t.Errorf("warnings %v", warnings)
	}
}

// By hand, as the weighted difference of estimate.FitWithinStrata: at 400 yd the
// driver scores 0 and +1, the 3 wood +1 (difference 1/2, weight 2/3); at 350 yd
// the driver +1, the 3 wood 0, 0 and +1 (difference -2/3, weight 3/4). At 300 yd
// there is no driver.
func TestTeeClubDifferencesByHand(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,club\n"
	hole := 0
	play := func(lengthYd int, club string, putts int) {
		hole++
		log += fmt.Sprintf("2026-05-31,%d,4,1,tee,%d,%s\n2026-05-31,%d,4,2,fairway,%d,7i\n", hole, lengthYd, club, hole, lengthYd-map[string]int{"driver": 260, "3 wood": 240}[club])
		for putt := range putts {
			log += fmt.Sprintf("2026-05-31,%d,4,%d,green,%d,putter\n", hole, 3+putt, 9-3*putt)
		}
	}
	play(400, "driver", 2)
	play(400, "driver", 3)
	play(410, "3 wood", 3)
	play(350, "driver", 3)
	play(350, "3 wood", 2)
	play(355, "3 wood", 2)
	play(374, "3 wood", 3)
	play(300, "3 wood", 3)
	rows := teeClubsOf(t, log).DifferenceRows()
	if len(rows) != 1 {
		t.Fatalf("%+v", rows)
	}
	row := rows[0]
	if row.LongerClub != "driver" || row.ShorterClub != "3 wood" || row.HoleGroups != 2 ||
		row.NLonger != 3 || row.NShorter != 4 || row.NLongerAll != 3 || row.NShorterAll != 5 {
		t.Errorf("%+v", row)
	}
	mustBe(t, "score", row.Score, (0.5*2/3-2.0/3*3/4)/(2.0/3+3.0/4))
	mustBe(t, "interval of one round", row.ScoreLo, math.NaN())
}

// An identity: in a season of complete holes the strokes gained off the tee by
// all clubs add up to those of the class in strokes_gained.
func TestTeeClubsAddUpToTheClass(t *testing.T) {
	player := steady()
	player.Habits.PicksUpAt = 0
	log := simulated(t, 4, player, 10)
	var clubs, n float64
	for _, row := range teeClubsOf(t, string(log)).Rows() {
		clubs += row.StrokesGainedPer * float64(row.N)
		n += float64(row.N)
	}
	class := find(t, figuresOf(t, log).StrokesGained, func(r StrokesGained) bool { return r.Group == "tee shot" })
	if n != float64(class.N) {
		t.Fatalf("%v tee shots by club, %d in the class", n, class.N)
	}
	mustBe(t, "strokes gained off the tee", clubs, class.Per100*n/100)
}

// 15 yd right of a target 3.6 yd right of the hole is 18.6 yd from the hole, and
// in floating point 15.000000000000002 from the target.
func TestAMissOfExactlyFifteenYardsIsNotWide(t *testing.T) {
	rows := teeClubsOf(t, "date,hole,par,shot,lie,to_hole,club,left_right,aim_left_right\n"+
		"2026-05-01,1,4,1,tee,400,driver,15,3.6\n2026-05-01,1,4,2,rough,150,7i,,\n2026-05-01,1,4,3,green,10,putter,,\n").Rows()
	if len(rows) != 1 || rows[0].NSide != 1 || rows[0].RightShare != 0 {
		t.Errorf("%+v", rows)
	}
}

// Off the tee of a dogleg the line to the hole is nobody's target: positions tell
// left from right where the log says what was aimed at, and only there.
func TestNobodyAimsAtTheHoleOfADogleg(t *testing.T) {
	const drives = "date,hole,par,shot,lie,club,x,y,hole_x,hole_y,aim_left_right\n" +
		"2026-05-01,1,4,1,tee,driver,0,0,200,250,%s\n2026-05-01,1,4,2,fairway,7i,0,250,200,250,\n2026-05-01,1,4,3,green,putter,197,250,200,250,\n"
	for aim, want := range map[string]int64{"": 0, "-100": 1} {
		rows := teeClubsOf(t, fmt.Sprintf(drives, aim)).Rows()
		if len(rows) != 1 || rows[0].NSide != want {
			t.Fatalf("aim %q: %+v", aim, rows)
		}
		if want > 0 && rows[0].LeftShare != 1 { // the ball is 156 yd left of the line to the hole
			t.Errorf("aim %q: %+v", aim, rows)
		}
	}
}

// Five rounds with the club and one whose miss is known have no interval.
func TestSidesOfOneRoundHaveNoInterval(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,club,left_right\n"
	for day, right := range []string{"20", "", "", "", ""} {
		log += fmt.Sprintf("2026-05-0%d,1,4,1,tee,400,driver,%s\n2026-05-0%d,1,4,2,green,10,putter,\n", day+1, right, day+1)
	}
	row := teeClubsOf(t, log).Rows()[0]
	if row.NSide != 1 || row.RightShare != 1 || !math.IsNaN(row.RightLo) || math.IsNaN(row.FairwayLo) {
		t.Errorf("%+v", row)
	}
}
