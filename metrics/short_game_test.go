package metrics

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func shortGameOf(t testing.TB, log []byte) *ShortGameFigures {
	t.Helper()
	figures := newShortGameFigures(Options{Baseline: "test", Seed: 1})
	for _, batch := range enriched(t, log) {
		figures.Add(batch)
	}
	return figures
}

func shortGameRow(t *testing.T, rows []ShortGame, lie string, fromYd float64) ShortGame {
	t.Helper()
	return find(t, rows, func(r ShortGame) bool {
		return r.Lie == lie && (r.FromYd == fromYd || math.IsNaN(r.FromYd) && math.IsNaN(fromYd))
	})
}

// Worked by hand with the published values of the 2012 table (from memory):
// rough 10 yd 2.34, rough 30 yd 2.70, sand 50 yd 2.92.
func TestShortGameByHand(t *testing.T) {
	figures := shortGameOf(t, []byte(`date,hole,par,shot,lie,to_hole,left,finish_lie,penalty,holed
2026-05-31,1,3,1,tee,150,,,,
2026-05-31,1,3,2,deep rough,10,,,,
2026-05-31,1,3,3,green,6,,,,
2026-05-31,2,3,1,tee,150,,,,
2026-05-31,2,3,2,bunker,50,,,,
2026-05-31,2,3,3,deep rough,12,,,,
2026-05-31,2,3,4,green,3,,,,
2026-05-31,3,3,1,tee,150,,,,
2026-05-31,3,3,2,deep rough,10,,,,
2026-05-31,4,3,1,tee,150,,,,
2026-05-31,4,3,2,first cut,30,,,1,
2026-05-31,4,3,3,green,30,,,,
2026-05-31,5,3,1,tee,150,,,,
2026-05-31,5,3,2,green,30,,,,
2026-05-31,6,3,1,tee,150,,,,
2026-05-31,6,3,2,deep rough,10,2,green,,no
`))
	rows := figures.Rows()
	all := shortGameRow(t, rows, AnyLie, math.NaN())
	if all.N != 4 || all.UpAndDowns != 2 || all.NLeave != 3 {
		t.Errorf("all: %+v", all)
	}
	mustBe(t, "up and down", all.UpAndDown, 0.5)
	mustBe(t, "strokes to hole out", all.Strokes, (2+3+1+3)/4.0)
	mustBe(t, "expected by the baseline", all.BaselineStrokes, (2.34+2.92+2.34+2.70)/4)
	mustBe(t, "share that implies", all.BaselineShare, 3-(2.34+2.92+2.34+2.70)/4)
	mustBe(t, "median leave of 6, 36 and 0 ft", all.LeaveMedianFt, 6)
	mustBe(t, "quartile of it", all.LeaveP75Ft, 21)

	rough := shortGameRow(t, rows, "deep rough", 10)
	if rough.N != 2 || rough.UpAndDowns != 2 || rough.ToYd != 20 {
		t.Errorf("deep rough from 10: %+v", rough)
	}
	mustBe(t, "strokes from deep rough", rough.Strokes, 1.5)
	bunker := shortGameRow(t, rows, "bunker", 30)
	if bunker.N != 1 || bunker.UpAndDowns != 0 || bunker.ToYd != 50 {
		t.Errorf("50 yd itself belongs to 30 to 50: %+v", bunker)
	}
	if cut := shortGameRow(t, rows, "first cut", 30); cut.UpAndDown != 0 || cut.NLeave != 0 {
		t.Errorf("a penalty is no up and down: %+v", cut)
	}
	mustBe(t, "interval of one round", all.UpAndDownLo, math.NaN())
}

// An identity: up and downs of all lies and distances are those of the season,
// and the lies, and the distances, add up to them.
func TestShortGameAddsUp(t *testing.T) {
	log := simulated(t, 6, steady(), 12)
	rows := shortGameOf(t, log).Rows()
	all := shortGameRow(t, rows, AnyLie, math.NaN())
	season := figuresOf(t, log).Seasons[0]
	mustBe(t, "up and downs of the season", all.UpAndDown, season.UpAndDownShare)
	var byLie, byStep, byBoth, upAndDowns int64
	for _, row := range rows {
		switch anyLie, anyStep := row.Lie == AnyLie, math.IsNaN(row.FromYd); {
		case anyLie && !anyStep:
			byStep += row.N
			upAndDowns += row.UpAndDowns
		case !anyLie && anyStep:
			byLie += row.N
		case !anyLie:
			byBoth += row.N
		}
	}
	if byLie != all.N || byStep != all.N || byBoth != all.N || upAndDowns != all.UpAndDowns {
		t.Errorf("%d by lie, %d by distance, %d by both, %d in all", byLie, byStep, byBoth, all.N)
	}
}

// What 3 less the mean strokes to hole out misses of the share of up and downs
// is P(1) - P(4) - 2 P(5) - ..., an identity. Held against the strokes of the
// invented demo player, it is small within 30 yd, and well below the share from
// farther off, where duffs make fours: there the implied share of a baseline
// must be read as a floor.
func TestImpliedShareHeldAgainstAKnownShare(t *testing.T) {
	rows := shortGameOf(t, simulated(t, 6, steady(), 400)).Rows()
	for _, from := range []float64{0, 10, 20, 30} {
		row := shortGameRow(t, rows, AnyLie, from)
		off := 3 - row.Strokes - row.UpAndDown
		t.Logf("from %v yd: share %.3f, implied by the strokes %+.3f of it", from, row.UpAndDown, off)
		if from < 30 && math.Abs(off) > 0.05 || from == 30 && (off > 0 || off < -0.15) {
			t.Errorf("from %v yd: share %.3f, implied by the strokes %+.3f of it", from, row.UpAndDown, off)
		}
	}
}

const sidedHeader = "date,hole,par,shot,lie,to_hole,left_right,long_short,pin_side,pin_depth,finish_lie\n"

// sidedLog are nine greens missed.
func sidedLog() []byte {
	log, hole := sidedHeader, 0
	line := func(shot int, rest string) {
		log += "2026-05-31," + string(rune('0'+hole/10)) + string(rune('0'+hole%10)) + ",3," + string(rune('0'+shot)) + "," + rest + "\n"
	}
	miss := func(how, toHole string, strokes int) {
		hole++
		line(1, "tee,150,"+how)
		line(2, "rough,"+toHole+",,,,,")
		for putt := range strokes - 1 {
			line(3+putt, "green,6,,,,,")
		}
	}
	const rightOfRight, leftOfRight, longOfBack = "9,0,right,,", "-9,0,right,,", "0,9,,back,"
	miss(rightOfRight, "15", 3)
	miss(longOfBack, "12", 2)
	miss(leftOfRight, "15", 2)
	miss(leftOfRight, "10", 2)
	miss(rightOfRight, "20", 4)
	miss(leftOfRight, "25", 3)
	miss(leftOfRight, "29", 2)
	miss(leftOfRight, "35", 2) // no short-sided miss to compare with
	miss("9,0,,,", "15", 2)    // nobody wrote where the hole was cut
	return []byte(log)
}

// By hand: from 10 to 20 yd short-sided 3 and 2 strokes, otherwise 2 and 2
// (difference 1/2, weight 1); from 20 to 30 yd short-sided 4, otherwise 3 and 2
// (difference 3/2, weight 2/3): (1/2 + 1) / (5/3) = 0.9.
func TestCostOfBeingShortSidedByHand(t *testing.T) {
	figures := shortGameOf(t, sidedLog())
	rows := figures.SidedRows()
	if len(rows) != 3 {
		t.Fatalf("%+v", rows)
	}
	all := rows[0]
	if !math.IsNaN(all.FromYd) || all.N != 3 || all.NOther != 4 {
		t.Errorf("%+v", all)
	}
	mustBe(t, "cost", all.Cost, 0.9)
	mustBe(t, "strokes short-sided", all.Strokes, 3)
	mustBe(t, "strokes otherwise", all.StrokesOther, 9.0/4)
	mustBe(t, "cost from 10 to 20 yd", rows[1].Cost, 0.5)
	mustBe(t, "cost from 20 to 30 yd", rows[2].Cost, 1.5)
	// Rough at 10, 12, 15, 20, 25 and 29 yd: 2.34, 2.39, 2.465, 2.59, 2.645, 2.689.
	near := ((2.465-3)+(2.39-2))/2 - ((2.465-2)+(2.34-2))/2
	far := (2.59 - 4) - ((2.645-3)+(2.689-2))/2
	mustBe(t, "strokes gained", all.StrokesGained, (near+far*2/3)/(1+2.0/3))
	if warnings := figures.warnings(); len(warnings) != 1 || !strings.Contains(warnings[0].Text, "1 of 9 missed greens") {
		t.Errorf("warnings %v", warnings)
	}
}

func TestALieIsOneLieHoweverItIsSpelled(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole\n"
	for i, lie := range []string{"bunker", "Bunker", "BUNKERS", "sand"} {
		log += fmt.Sprintf("2026-05-01,%d,3,1,tee,150\n2026-05-01,%d,3,2,%s,15\n2026-05-01,%d,3,3,green,5\n", i+1, i+1, lie, i+1)
	}
	n := map[string]int64{}
	for _, row := range finished(t, []byte(log)).ShortGame {
		if math.IsNaN(row.FromYd) {
			n[row.Lie] = row.N
		}
	}
	if len(n) != 3 || n[AnyLie] != 4 || n["bunker"] != 3 || n["sand"] != 1 {
		t.Errorf("%v", n)
	}
}

// What the baseline does not know of one stroke is left out, and no more.
func TestShortSidedBesideAStrokeOfUnknownValue(t *testing.T) {
	figures := newShortGameFigures(Options{Baseline: "test"})
	for _, batch := range enriched(t, sidedLog()) {
		batch.ExpectedBefore[1] = math.NaN() // the first, short-sided at 15 yd
		figures.Add(batch)
	}
	all := figures.SidedRows()[0]
	mustBe(t, "cost", all.Cost, 0.9)
	near := (2.39 - 2) - ((2.465-2)+(2.34-2))/2
	far := (2.59 - 4) - ((2.645-3)+(2.689-2))/2
	mustBe(t, "strokes gained", all.StrokesGained, (near+far)/2)
}
