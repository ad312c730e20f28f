package metrics

import (
	"fmt"
	"math"
	"testing"

	"roundmill/ingest"
	"roundmill/transform/baseline"
)

// By hand: the 8 iron goes 150, the 7 iron 160 yd, so that the middle half of
// the gap is 152.5 to 157.5 and takes in the whole yards 152 to 156. Asked for
// in there: 152 and 156.9 from the fairway, 155 from the tee of a par 3 with a
// penalty, 153 into a wind that makes it 156. Near a club: ten at 150, ten at
// 159.9 and one at 157. Neither: the rough, a lay up, 149.9 and 160.
func TestBetweenClubsByHand(t *testing.T) {
	var approaches []string
	for range 10 {
		approaches = append(approaches, "fairway,150,8i,6,green,0,,,,,", "fairway,159.9,7i,6,green,0.1,,,,,")
	}
	approaches = append(approaches,
		"fairway,152,8i,6,green,-2,,,,,", "fairway,156.9,7i,6,green,3.1,,,,,", "tee,155,7i,6,green,,,,,1,", "fairway,150,8i,6,green,0,,4,,,",
		"fairway,157,7i,6,green,3,,,,,",
		"rough,155,7i,6,green,5,,,,,", "fairway,155,7i,6,green,5,,,,,lay up", "fairway,149.9,8i,6,green,0.1,,,,,", "fairway,160,7i,6,green,0,,,,,")
	rows := yardagesOf(t, approachLog(approaches...)).BetweenRows()
	if len(rows) != 1 {
		t.Fatalf("%+v", rows)
	}
	row := rows[0]
	if row.ShorterClub != "8i" || row.LongerClub != "7i" || row.N != 4 || row.NNear != 21 || row.Rounds != 2 {
		t.Errorf("%+v", row)
	}
	mustBe(t, "from", row.FromYd, 152.5)
	mustBe(t, "to", row.ToYd, 157.5)

	published := baseline.Professional() // of the putt from 5 ft that follows
	gained := func(from float64, lie ingest.Category, penalty float64) float64 {
		return published.Strokes(lie, from) - published.Strokes(ingest.Green, 5.0/3) - 1 - penalty
	}
	between := (gained(152, ingest.Fairway, 0) + gained(156.9, ingest.Fairway, 0) + gained(155, ingest.Tee, 1) + gained(150, ingest.Fairway, 0)) / 4
	near := (10*gained(150, ingest.Fairway, 0) + 10*gained(159.9, ingest.Fairway, 0) + gained(157, ingest.Fairway, 0)) / 21
	mustBe(t, "between", row.Gained, between)
	mustBe(t, "near", row.GainedNear, near)
	mustBe(t, "difference", row.Difference, between-near)
	mustBe(t, "interval of four shots", row.GainedLo, math.NaN())
}

// Known truth: a shot that costs half a stroke more between clubs is found out.
func TestTheCostOfBeingBetweenClubsIsFound(t *testing.T) {
	var approaches []string
	for i := range 30 {
		left := []string{"2", "4", "6"}[i%3]
		approaches = append(approaches,
			fmt.Sprintf("fairway,150,8i,%s,green,0,,,,%s,", left, []string{"", "1"}[i/29]), fmt.Sprintf("fairway,160,7i,%s,green,0,,,,,", left),
			fmt.Sprintf("fairway,155,7i,%s,green,5,,,,%s,", left, []string{"", "1"}[i/4%2]))
	}
	rows := yardagesOf(t, approachLog(approaches...)).BetweenRows()
	if len(rows) != 1 || !(rows[0].DifferenceLo < -0.4 && rows[0].DifferenceHi > -0.6) || rows[0].DifferenceHi >= 0 {
		t.Errorf("half a stroke lost between clubs is shown as %+v", rows)
	}
}
