package metrics

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"roundmill/ingest"
	"roundmill/testdata/demo"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

func ownOf(batches []*transform.Shots) *OwnBaseline {
	figures := NewOwnBaselineFigures()
	for _, batch := range batches {
		figures.Add(batch)
	}
	return figures.Finish()
}

func measured(batches []*transform.Shots, own *OwnBaseline) {
	for _, batch := range batches {
		own.Measure(batch)
	}
}

// Putts worked by hand: from 10 ft it took 2 and 1, from 20 ft 1 and, a penalty
// counted, 3. So 1.5 from 10 ft, 2 from 20. Without the last round, 1.5 from 10 ft
// and 1 from 20 are out of order and pooled to (2 + 1 + 1)/3. Without the first,
// 10 ft lies between 1 ft in 1 and 20 ft in 2.
func TestOwnBaselineByHand(t *testing.T) {
	batches := enriched(t, []byte(`date,hole,par,shot,lie,to_hole,penalty
2026-05-01,1,3,1,tee,160,
2026-05-01,1,3,2,green,10,
2026-05-01,1,3,3,green,10,
2026-05-02,1,3,1,tee,160,
2026-05-02,1,3,2,green,20,
2026-05-03,1,3,1,tee,160,
2026-05-03,1,3,2,green,20,1
2026-05-03,1,3,3,green,1,
`))
	own := ownOf(batches)
	without := func(round int) *baseline.Table { return own.tableFor(batches[0], round) }
	for _, want := range []struct {
		name    string
		table   *baseline.Table
		ft      float64
		strokes float64
	}{
		{"whole", own.Whole, 1, 1},
		{"whole", own.Whole, 10, 1.5},
		{"whole", own.Whole, 15, 1.75},
		{"whole", own.Whole, 20, 2},
		{"whole, level past the last distance", own.Whole, 60, 2},
		{"without the first round", without(0), 10, 1 + 9.0/19},
		{"without the first round", without(0), 20, 2},
		{"without the second", without(1), 10, 1.5},
		{"without the second", without(1), 20, 3},
		{"without the third", without(2), 1, 4.0 / 3},
		{"without the third", without(2), 10, 4.0 / 3},
		{"without the third", without(2), 20, 4.0 / 3},
	} {
		if got := want.table.Strokes(ingest.Green, want.ft/3); math.Abs(got-want.strokes) > 1e-9 {
			t.Errorf("%s: %v strokes from %v ft, by hand %v", want.name, got, want.ft, want.strokes)
		}
	}
	// Made: 1 of 2 from 10 ft, 1 of 2 from 20, 1 of 1 from 1 ft.
	if made := own.Whole.MadeShare(10.0 / 3); math.Abs(made-0.5) > 1e-9 {
		t.Errorf("%v made from 10 ft", made)
	}
	if !math.IsNaN(own.Whole.Strokes(ingest.Fairway, 100)) {
		t.Error("strokes from the fairway, where none was played")
	}
	if len(own.Warnings) != 4 { // few rounds, an estimate itself, few strokes from the tee, few from the green
		t.Errorf("warnings %v", own.Warnings)
	}
}

func TestOwnBaselineNeverFallsWithTheDistance(t *testing.T) {
	own := ownOf(enriched(t, demo.CSV))
	for category := ingest.Tee; category <= ingest.Green; category++ {
		last, lastMade := 0.0, 1.0
		for yards := 0.0; yards < 700; yards += 0.1 {
			strokes := own.Whole.Strokes(category, yards)
			if strokes < last-1e-12 || strokes < 1 || strokes > 8 {
				t.Fatalf("%s, %.1f yd: %v strokes after %v", category, yards, strokes, last)
			}
			made := own.Whole.MadeShare(yards)
			if made > lastMade+1e-12 {
				t.Fatalf("%.1f yd: %v of putts made after %v", yards, made, lastMade)
			}
			last, lastMade = strokes, made
		}
	}
}

// Whatever happens in a round does not enter its own table, and does that of
// the others. Rounds past 50 are told apart in tenths.
func TestARoundIsMeasuredWithoutItself(t *testing.T) {
	for _, rounds := range []int{46, 120} {
		log := simulated(t, 3, steady(), rounds)
		logs := roundsOf(log)
		changed := slices.Clone(logs)
		const spoiled = 7
		changed[spoiled] = withExtraPutts(t, logs[spoiled])

		before, after := oneBatchEach(t, logs), oneBatchEach(t, changed)
		ownBefore, ownAfter := ownOf(before), ownOf(after)
		measured(before, ownBefore)
		measured(after, ownAfter)
		differ := 0
		for round := range logs {
			a, b := ownBefore.tableFor(before[round], 0), ownAfter.tableFor(after[round], 0)
			if same := sameStrokes(a, b); round == spoiled && !same {
				t.Errorf("of %d rounds: the spoiled round changed its own table", rounds)
			} else if !same {
				differ++
			}
		}
		least := rounds - 1
		if rounds > mostRoundsApart {
			least = rounds / 2 // the rounds of its fold are measured without it too
		}
		if differ < least {
			t.Errorf("of %d rounds only %d tables know the spoiled round", rounds, differ)
		}
	}
}

func sameStrokes(a, b *baseline.Table) bool {
	for feet := 0.0; feet < 60; feet++ {
		if a.Strokes(ingest.Green, feet/3) != b.Strokes(ingest.Green, feet/3) {
			return false
		}
	}
	return true
}

// withExtraPutts gives the first putt of the round a penalty of two.
func withExtraPutts(t *testing.T, log []byte) []byte {
	lines := strings.Split(string(log), "\n")
	penalty := slices.Index(strings.Split(lines[0], ","), "penalty")
	for i, line := range lines {
		fields := strings.Split(line, ",")
		if len(fields) > penalty && fields[12] == "green" {
			fields[penalty] = "2"
			lines[i] = strings.Join(fields, ",")
			return []byte(strings.Join(lines, "\n"))
		}
	}
	t.Fatal("a round without a putt")
	return nil
}

func oneBatchEach(t *testing.T, logs [][]byte) (batches []*transform.Shots) {
	for _, log := range logs {
		batches = append(batches, enriched(t, log)...)
	}
	return batches
}

// Mathematics: over a complete hole the strokes gained add up to what the table
// expects from the tee less the score, whichever the table; and isotonic
// regression keeps means, so that over all rounds they come to about zero.
func TestStrokesGainedAgainstOwnRoundsAddUpAndAverageToNought(t *testing.T) {
	for _, rounds := range []int{46, 400} {
		batches := enriched(t, simulated(t, 5, steady(), rounds))
		own := ownOf(batches)
		measured(batches, own)
		var gained, holes float64
		var byClass [transform.ClassCount]float64
		for _, batch := range batches {
			for round := range batch.Rounds.Len() {
				first, end := batch.Rounds.HoleRange(round, &batch.Holes)
				table := own.tableFor(batch, round)
				for hole := first; hole < end; hole++ {
					if !batch.Holes.Complete[hole] || math.IsNaN(batch.Holes.StrokesGained[hole]) {
						continue
					}
					row, _ := batch.RowRange(hole)
					want := table.Strokes(batch.Category[row], batch.ToHoleYd[row]) - float64(batch.Holes.Score[hole])
					if math.Abs(batch.Holes.StrokesGained[hole]-want) > 1e-9 {
						t.Fatalf("a hole gains %v, from the tee less score %v", batch.Holes.StrokesGained[hole], want)
					}
					gained += want
					holes++
				}
				for class := range byClass {
					byClass[class] += batch.Rounds.ByClass[class][round]
				}
			}
		}
		perRound := gained / holes * 18
		t.Logf("%d rounds: %.3f strokes gained a round; by class %.3f in all", rounds, perRound, byClass)
		if math.Abs(perRound) > 0.1 {
			t.Errorf("%d rounds gain %v a round on themselves", rounds, perRound)
		}
	}
}

// A limit: a golfer has nothing to gain from his own line and pace.
func TestNothingToGainFromOnesOwnLineAndPace(t *testing.T) {
	own := ownOf(enriched(t, demo.CSV))
	figures := newPuttingFigures(Options{Baseline: "test", Seed: 1, OwnPutts: own.Putts}, own.Whole)
	row := addTo(t, figures, demo.CSV).ModelRows()[0]
	if math.Abs(row.LineGain) > 1e-9 || math.Abs(row.PaceGain) > 1e-9 || row.BaselineLineDeg != row.StartLineDeg {
		t.Errorf("%.3f degrees against %.3f: line gains %.2f, pace %.2f", row.StartLineDeg, row.BaselineLineDeg, row.LineGain, row.PaceGain)
	}
}

func TestMeasuringAgainstOneTableIsEnriching(t *testing.T) {
	want, got := enriched(t, demo.CSV), enriched(t, demo.CSV)
	measured(got, ownOf(got))
	table := baseline.Professional()
	for i, batch := range got {
		batch.MeasureAgainst(func(*transform.Shots, int) *baseline.Table { return table })
		sameRows(t, "strokes gained", want[i].StrokesGained, batch.StrokesGained)
		sameRows(t, "holes", want[i].Holes, batch.Holes)
		sameRows(t, "rounds", want[i].Rounds, batch.Rounds)
	}
}

func TestOwnBaselineIsTheSameInAnyGroupingOfBatches(t *testing.T) {
	for _, rounds := range []int{46, 60, 130} {
		logs := roundsOf(simulated(t, 9, steady(), rounds))
		batches := oneBatchEach(t, logs)
		whole := ownOf(batches)
		parts := [3]*OwnBaselineFigures{NewOwnBaselineFigures(), NewOwnBaselineFigures(), NewOwnBaselineFigures()}
		for i := range batches {
			back := len(batches) - 1 - i
			parts[back*back%3%2].Add(batches[back]) // uneven, the last of three empty
		}
		parts[2].Merge(parts[1])
		parts[2].Merge(parts[0])
		merged := parts[2].Finish()
		for round, batch := range batches {
			if !sameTable(whole.tableFor(batch, 0), merged.tableFor(batch, 0)) {
				t.Fatalf("of %d rounds, round %d has another table", rounds, round)
			}
		}
		if whole.Whole.Name != merged.Whole.Name || !sameTable(whole.Whole, merged.Whole) {
			t.Errorf("%d rounds: %s and %s differ", rounds, whole.Whole.Name, merged.Whole.Name)
		}
	}
}

func sameTable(a, b *baseline.Table) bool {
	for category := ingest.Tee; category <= ingest.Green; category++ {
		for yards := 0.0; yards < 600; yards += 0.7 {
			x, y := a.Strokes(category, yards), b.Strokes(category, yards)
			if x != y && !(math.IsNaN(x) && math.IsNaN(y)) {
				return false
			}
		}
	}
	return true
}

// Strokes that no other round can judge leave their hole without strokes gained.
func TestALieOfOneRoundOnlyHasNoOwnBaseline(t *testing.T) {
	log := "date,hole,par,shot,lie,to_hole\n"
	for day := 1; day <= 5; day++ {
		log += fmt.Sprintf("2026-05-0%d,1,3,1,tee,160\n2026-05-0%d,1,3,2,green,10\n", day, day)
	}
	log += "2026-05-05,2,3,1,tee,160\n2026-05-05,2,3,2,bunker,20\n2026-05-05,2,3,3,green,10\n"
	batches := enriched(t, []byte(log))
	measured(batches, ownOf(batches))
	holes := batches[0].Holes
	for hole := range holes.Len() {
		if only := hole == holes.Len()-1; only != math.IsNaN(holes.StrokesGained[hole]) {
			t.Errorf("hole %d gains %v", hole, holes.StrokesGained[hole])
		}
	}
	scoring := newScoringFigures(Options{Baseline: "test"})
	scoring.Add(batches[0])
	if warnings := scoring.warnings(); len(warnings) != 1 || !strings.Contains(warnings[0].Text, "is not known: 1;") {
		t.Errorf("warnings %v", warnings)
	}
}

func BenchmarkOwnBaselineAdd(b *testing.B) {
	batches := enriched(b, simulated(b, 1, steady(), 1000))
	shots := 0
	for _, batch := range batches {
		shots += batch.N
	}
	figures := NewOwnBaselineFigures()
	for b.Loop() {
		for _, batch := range batches {
			figures.Add(batch)
		}
	}
	b.ReportMetric(float64(shots*b.N)/b.Elapsed().Seconds()/1e6, "Mshots/s")
}
