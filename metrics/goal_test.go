package metrics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"roundmill/testdata/demo"
)

func goalOf(t testing.TB, log []byte, goal Goal) *GoalFigures {
	t.Helper()
	return addTo(t, newGoalFigures(testOptions(), goal), log)
}

// fourAndFive is a round of 18 par 4s with so many fives among them, the rest
// fours.
func fourAndFive(day, fives int) writtenRound {
	holes := eighteen(4)
	for i := range fives {
		holes[i].score = 5
	}
	return writtenRound{date: fmt.Sprintf("2026-05-%02d", day), holes: holes}
}

// Mathematics: fours and fives, half of each, make a round over par by a
// binomial number of 18 tries: par once in 2^18, six over or fewer with chance
// 31180/262144.
func TestChancesByHolesAreTheConvolutionOfHoles(t *testing.T) {
	log := writtenLog(fourAndFive(1, 9), fourAndFive(2, 12), fourAndFive(3, 6), fourAndFive(4, 9))
	for _, want := range []struct {
		goal          Goal
		holes, rounds float64
	}{
		{GoalToPar(0), 1.0 / 262144, 0},
		{GoalToPar(6), 31180.0 / 262144, 0.25},
		{GoalToPar(9), 0.5 + 48620.0/262144/2, 0.75},
		{GoalScore(72 + 9), 0.5 + 48620.0/262144/2, 0.75},
		{GoalToPar(18), 1, 1},
		{GoalToPar(-1), 0, 0},
	} {
		rows := goalOf(t, log, want.goal).Rows()
		holes, rounds := rows[0], rows[1]
		if math.Abs(holes.Chance-want.holes) > 1e-12 || rounds.Chance != want.rounds {
			t.Errorf("%s: %v by holes, %v by rounds; expected %v and %v", want.goal, holes.Chance, rounds.Chance, want.holes, want.rounds)
		}
		if holes.Par != 72 || holes.Par4s != 18 || math.Abs(holes.ToPar-9) > 1e-12 || math.Abs(holes.Spread-math.Sqrt(4.5)) > 1e-12 || holes.N != 72 || rounds.N != 4 ||
			math.Abs(holes.ToGive-(9-float64(holes.Target))) > 1e-12 || !math.IsNaN(holes.ChanceLo) || !math.IsNaN(rounds.ChanceHi) {
			t.Errorf("%+v\n%+v", holes, rounds)
		}
	}
}

// Brute force: 18 holes drawn a hundred thousand times from the holes of the
// season, four of par 3, ten of par 4 and four of par 5.
func TestChancesByHolesAgreeWithDrawingThem(t *testing.T) {
	byPar := map[int][]int{}
	for _, batch := range enriched(t, demo.CSV) {
		for hole, from := range batch.Holes.From {
			if batch.Holes.Complete[hole] {
				par := int(batch.Par[from])
				byPar[par] = append(byPar[par], int(batch.Holes.Score[hole])-par)
			}
		}
	}
	random := rand.New(rand.NewPCG(5, 0))
	const draws = 100_000
	reached := map[int]int{}
	for range draws {
		over := 0
		for hole := range 18 {
			played := byPar[[...]int{3, 4, 4, 4, 5, 3, 4, 4, 5}[hole%9]]
			over += played[random.IntN(len(played))]
		}
		for _, target := range []int{-4, 0, 3} {
			if over <= target {
				reached[target]++
			}
		}
	}
	for _, target := range []int{-4, 0, 3} {
		row := goalOf(t, demo.CSV, GoalToPar(target)).Rows()[0]
		share := float64(reached[target]) / draws
		if row.Par3s != 4 || row.Par4s != 10 || row.Par5s != 4 || row.Par6s != 0 || row.Par != 72 {
			t.Fatalf("%+v", row)
		}
		if math.Abs(row.Chance-share) > 4*math.Sqrt(share*(1-share)/draws) {
			t.Errorf("par%+d: %v, drawn %v", target, row.Chance, share)
		}
		if !(row.ChanceLo < row.Chance && row.Chance < row.ChanceHi) {
			t.Errorf("%+v", row)
		}
	}
}

// A gain of whole strokes is a goal so much nearer; one between is in between;
// none changes nothing.
func TestChancesAfterAGain(t *testing.T) {
	figures := goalOf(t, demo.CSV, GoalToPar(0))
	player := figures.players.names()[0]
	rows := figures.Rows()
	after := figures.After(player, []Gain{{"none", 0}, {"one", 1}, {"half", 1.5}, {"two", 2}, {"all", 40}})
	nearer := goalOf(t, demo.CSV, GoalToPar(1)).Rows()
	if after[0].HolesChance != rows[0].Chance || after[0].RoundsChance != rows[1].Chance || after[0].HolesLo != rows[0].ChanceLo || after[0].RoundsHi != rows[1].ChanceHi {
		t.Errorf("no gain: %+v\n%+v", after[0], rows)
	}
	if after[1].HolesChance != nearer[0].Chance || after[1].RoundsChance != nearer[1].Chance || after[1].HolesHi != nearer[0].ChanceHi || after[1].RoundsLo != nearer[1].ChanceLo {
		t.Errorf("one stroke: %+v\n%+v", after[1], nearer)
	}
	if math.Abs(after[2].HolesChance-(after[1].HolesChance+after[3].HolesChance)/2) > 1e-12 ||
		math.Abs(after[2].RoundsChance-(after[1].RoundsChance+after[3].RoundsChance)/2) > 1e-12 {
		t.Errorf("one and a half: %+v", after[2])
	}
	if math.Abs(after[4].HolesChance-1) > 1e-9 || after[4].RoundsChance != 1 {
		t.Errorf("forty strokes: %+v", after[4])
	}
	for _, row := range after {
		if row.Player != player || row.Goal != "par" {
			t.Errorf("%+v", row)
		}
	}
	if figures.After("nobody", []Gain{{"one", 1}}) != nil {
		t.Error("a chance of nobody")
	}
}

// What the classes give adds up to the way to the goal, each in proportion to
// what it loses; beyond the goal nobody gives anything.
func TestTheClassesGiveTheWholeWay(t *testing.T) {
	figures := goalOf(t, demo.CSV, GoalToPar(0))
	way := figures.Rows()[0].ToGive
	gained := map[string]StrokesGained{}
	for _, row := range figuresOf(t, demo.CSV).StrokesGained {
		if row.GroupKind == ByClass {
			gained[row.Group] = row
		}
	}
	rows := figures.ClassRows()
	if len(rows) != 4 || way <= 0 {
		t.Fatalf("%d classes, %v to go", len(rows), way)
	}
	gives := 0.0
	for _, row := range rows {
		now := gained[row.Class]
		gives += row.Gives
		if math.Abs(row.StrokesGained-now.PerRound) > 1e-9 || math.Abs(row.StrokesGainedLo-now.PerRoundLo) > 1e-9 || math.Abs(row.Alone-now.PerRound-way) > 1e-9 {
			t.Errorf("%+v\n%+v", row, now)
		}
		if math.Abs(row.Gives*rows[0].StrokesGained-rows[0].Gives*row.StrokesGained) > 1e-9 {
			t.Errorf("not in proportion: %+v, %+v", row, rows[0])
		}
		after := figures.After(row.Player, []Gain{{row.Class, -row.StrokesGained}})[0]
		if row.HolesChance != after.HolesChance || row.RoundsChance != after.RoundsChance {
			t.Errorf("%+v, after %+v", row, after)
		}
	}
	if math.Abs(gives-way) > 1e-9 {
		t.Errorf("the classes give %v of %v", gives, way)
	}
	for _, row := range goalOf(t, demo.CSV, GoalToPar(10)).ClassRows() {
		if row.Gives != 0 || row.Alone != row.StrokesGained {
			t.Errorf("past the goal: %+v", row)
		}
	}
	if share := (classFigures{0.1, 0, 0.2, 0}).shareOut(1); !math.IsNaN(share[0]) {
		t.Errorf("nobody loses, yet %v is given", share)
	}
}

func TestWithoutAGoalThereIsNothing(t *testing.T) {
	figures := goalOf(t, demo.CSV, Goal{})
	if figures.Rows() != nil || figures.ClassRows() != nil || figures.warnings() != nil || (Goal{}).String() != "" {
		t.Errorf("%v", figures.Rows())
	}
	for goal, want := range map[Goal]string{GoalToPar(0): "par", GoalToPar(2): "par+2", GoalToPar(-3): "par-3", GoalScore(75): "75"} {
		if goal.String() != want {
			t.Errorf("%q, expected %q", goal, want)
		}
	}
}

// Nine-hole rounds have holes but are no round of 18; a hole picked up leaves
// its round out and is told of.
func TestRoundsThatTheGoalLeavesOut(t *testing.T) {
	nine, picked := fourAndFive(2, 0), fourAndFive(3, 0)
	nine.holes = nine.holes[:9]
	picked.holes[0].pickedUp = true
	figures := goalOf(t, writtenLog(fourAndFive(1, 0), nine, picked), GoalScore(72))
	rows := figures.Rows()
	if rows[0].N != 18+9+17 || rows[0].Rounds != 3 || rows[0].Chance != 1 || rows[1].N != 1 || rows[1].Chance != 1 {
		t.Errorf("%+v", rows)
	}
	if warnings := figures.warnings(); len(warnings) != 2 || warnings[0].Figure != "goal" {
		t.Errorf("%v", warnings)
	}
	noRound := goalOf(t, writtenLog(nine), GoalToPar(0)).Rows()[1]
	if noRound.N != 0 || !math.IsNaN(noRound.Chance) || !math.IsNaN(noRound.ToPar) || !math.IsNaN(noRound.ToGive) {
		t.Errorf("%+v", noRound)
	}
}

// The intervals hold what 8,000 rounds of the same player say: by holes what
// the method gives there, by rounds the share of rounds itself.
func TestGoalIntervalsHoldTheTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 200 seasons")
	}
	goal := GoalToPar(2)
	figures := func(log []byte) map[string][3]float64 {
		rows := goalOf(t, log, goal).Rows()
		return map[string][3]float64{
			"holes": {rows[0].Chance, rows[0].ChanceLo, rows[0].ChanceHi}, "mean by holes": {rows[0].ToPar, rows[0].ToParLo, rows[0].ToParHi},
			"rounds": {rows[1].Chance, rows[1].ChanceLo, rows[1].ChanceHi}, "mean by rounds": {rows[1].ToPar, rows[1].ToParLo, rows[1].ToParHi},
		}
	}
	truth := figures(homeSeason(t, 999, steady(), 8000))
	t.Logf("8,000 rounds: %.4f by holes, %.4f by rounds", truth["holes"][0], truth["rounds"][0])
	if math.Abs(truth["holes"][0]-truth["rounds"][0]) > 0.02 {
		t.Errorf("the methods part: %v", truth)
	}
	checkCoverage(t, truth, 200, 4, func(seed uint64) map[string][3]float64 { return figures(homeSeason(t, seed, steady(), 46)) })
}

// Two of ten rounds took 75 strokes, on a course of par 70; the others 76, on one
// of par 72.
func TestAScoreIsAScoreWhateverThePar(t *testing.T) {
	log := "date,course,hole,par,score\n"
	for day := 1; day <= 10; day++ {
		course, over := "Long example", 4
		if day > 8 {
			course, over = "Short example", 5
		}
		for hole := 1; hole <= 18; hole++ {
			par := 4
			if course == "Short example" && hole <= 2 {
				par = 3
			}
			score := par
			if hole > 18-over {
				score++
			}
			log += fmt.Sprintf("2026-05-%02d,%s,%d,%d,%d\n", day, course, hole, par, score)
		}
	}
	rounds := find(t, goalOf(t, []byte(log), GoalScore(75)).Rows(), func(r GoalChance) bool { return r.Method == ByRounds })
	if rounds.N != 10 || rounds.Chance != 0.2 || math.Abs(rounds.ToGive-0.8) > 1e-12 { // eight of 76, two of 75
		t.Errorf("%+v", rounds)
	}
	if toPar := find(t, goalOf(t, []byte(log), GoalToPar(4)).Rows(), func(r GoalChance) bool { return r.Method == ByRounds }); toPar.Chance != 0.8 {
		t.Errorf("%+v", toPar)
	}
}

// Five scorecards beside two rounds of strokes make no interval of strokes gained.
func TestScorecardsMakeNoIntervalOfStrokes(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole,score\n"
	for day := 1; day <= 7; day++ {
		for hole := 1; hole <= 18; hole++ {
			if day > 2 {
				log += fmt.Sprintf("2026-05-0%d,%d,4,,,,%d\n", day, hole, 4+(hole+day)%3)
				continue
			}
			log += fmt.Sprintf("2026-05-0%d,%d,4,1,tee,400,\n2026-05-0%d,%d,4,2,fairway,%d,\n2026-05-0%d,%d,4,3,green,20,\n2026-05-0%d,%d,4,4,green,2,\n", day, hole, day, hole, 150+hole, day, hole, day, hole)
		}
	}
	for _, row := range goalOf(t, []byte(log), GoalScore(72)).ClassRows() {
		if row.Rounds != 7 || row.N != 36 || !math.IsNaN(row.AloneLo) || !math.IsNaN(row.GivesLo) || !math.IsNaN(row.StrokesGainedLo) {
			t.Errorf("%+v", row)
		}
	}
}
