package metrics

import (
	"math"
	"slices"
	"testing"
	"time"

	"roundmill/testdata/demo"
)

// Two doubles worked by hand with the 2012 and 2014 tables (from memory). Hole
// 1: out of bounds from the tee lost two strokes and alone made the double.
// Hole 2: rough 200 yd 3.42, 80 yd 2.96; putts of 40 ft 2.06, 8 ft 1.50, 1 ft
// 1.00: the strokes gained -0.43, -0.54, -0.10, -0.44, -0.50 and 0; the second
// and the fifth lost more than the one stroke over bogey, neither did alone.
func TestTheStrokesThatMadeADouble(t *testing.T) {
	figures := addTo(t, newDoubleFigures(testOptions()), []byte(`date,player,hole,par,shot,lie,to_hole,penalty,penalty_kind,fault
2026-05-31,A,1,4,1,tee,400,1,out of bounds,decision
2026-05-31,A,1,4,2,tee,400,,,
2026-05-31,A,1,4,3,fairway,160,,,
2026-05-31,A,1,4,4,green,20,,,
2026-05-31,A,1,4,5,green,1,,,
2026-05-31,A,2,4,1,tee,400,,,
2026-05-31,A,2,4,2,rough,200,,,
2026-05-31,A,2,4,3,rough,80,,,
2026-05-31,A,2,4,4,green,40,,,
2026-05-31,A,2,4,5,green,8,,,
2026-05-31,A,2,4,6,green,1,,,
`))
	day := time.Date(2026, time.May, 31, 0, 0, 0, 0, time.UTC)
	for i, want := range []DoubleShot{
		{Hole: 1, Shots: 1, Rank: 1, Shot: 1, First: true, Class: "tee shot", Lie: "tee", ToHoleYd: 400, Penalty: 1, PenaltyKind: "out of bounds", Fault: "decision", StrokesGained: -2},
		{Hole: 2, Shots: 2, Rank: 1, Shot: 2, First: true, Class: "approach", Lie: "rough", ToHoleYd: 200, StrokesGained: -0.54},
		{Hole: 2, Shots: 2, Rank: 2, Shot: 5, Class: "putt", Lie: "green", ToHoleYd: 8.0 / 3, StrokesGained: -0.5},
	} {
		got := figures.ShotRows()[i]
		if math.Abs(got.StrokesGained-want.StrokesGained) > 1e-9 {
			t.Errorf("row %d: strokes gained %v", i, got.StrokesGained)
		}
		want.Player, want.Date, want.Par, want.Score, want.Baseline, want.StrokesGained = "A", day, 4, 6, "test", got.StrokesGained
		if got != want {
			t.Errorf("row %d: %+v\nexpected %+v", i, got, want)
		}
	}
	causes := figures.CauseRows()
	for _, want := range []struct {
		group                   string
		doubles, started, shots int64
		lostPerShot             float64
	}{
		{"all", 2, 2, 3, 3.04 / 3}, {"tee shot", 1, 1, 1, 2}, {"approach", 1, 1, 1, 0.54}, {"short game", 0, 0, 0, math.NaN()},
		{"putt", 1, 0, 1, 0.5}, {"penalty", 1, 1, 1, 2},
	} {
		row := find(t, causes, func(r DoubleCause) bool { return r.Group == want.group })
		if row.N != 2 || row.Doubles != want.doubles || row.Started != want.started || row.Shots != want.shots ||
			math.Abs(row.LostPerShot-want.lostPerShot) > 1e-9 || math.Abs(row.LostPerRound-9*want.lostPerShot*float64(want.shots)) > 1e-9 {
			t.Errorf("%+v", row)
		}
		if !math.IsNaN(row.LostPerRoundLo) || !math.IsNaN(row.DoublesLo) {
			t.Errorf("%s: an interval from one round", want.group)
		}
	}
}

// Doubles in one round of six say nothing of how they come up, the share of
// doubles does.
func TestLossesOfDoublesNeedRoundsWithDoubles(t *testing.T) {
	rounds := []writtenRound{fourAndFive(1, 0), fourAndFive(2, 1), fourAndFive(3, 0), fourAndFive(4, 2), fourAndFive(5, 0), fourAndFive(6, 0)}
	rounds[2].holes[3].score, rounds[2].holes[9].score = 6, 7
	for _, row := range addTo(t, newDoubleFigures(testOptions()), writtenLog(rounds...)).CauseRows() {
		if row.N != 2 || row.Rounds != 6 || !math.IsNaN(row.LostPerRoundLo) || math.IsNaN(row.DoublesLo) != (row.GroupKind == ByTotal) {
			t.Errorf("%+v", row)
		}
	}
}

// For every double of the season: without the losses told of it is a bogey or
// better, without all of them but the smallest it is not.
func TestNoStrokeTooManyMakesADouble(t *testing.T) {
	figures := addTo(t, newDoubleFigures(testOptions()), demo.CSV)
	type hole struct {
		date   time.Time
		course string
		hole   int64
	}
	doubles := map[hole][]DoubleShot{}
	for _, row := range figures.ShotRows() {
		at := hole{row.Date, row.Course, row.Hole}
		doubles[at] = append(doubles[at], row)
	}
	total := scoringOf(t, demo.CSV)[0]
	if n := int64(len(doubles)); n != total.Doubles+total.Worse {
		t.Errorf("%d doubles or worse, of %d", n, total.Doubles+total.Worse)
	}
	first := 0
	for at, shots := range doubles {
		over, smallest := float64(shots[0].Score-shots[0].Par-1), -10.0
		for _, s := range shots {
			over += s.StrokesGained
			smallest = max(smallest, s.StrokesGained)
			if s.First {
				first++
			}
		}
		if over > 1e-9 || over-smallest <= 1e-9 || len(shots) != int(shots[0].Shots) {
			t.Errorf("%v: %+v", at, shots)
		}
	}
	if first != len(doubles) {
		t.Errorf("%d first strokes of %d doubles", first, len(doubles))
	}
	causes := figures.CauseRows()
	var started, shots int64
	lost := 0.0
	for _, row := range causes {
		if row.GroupKind == ByClass {
			started += row.Started
			shots += row.Shots
			lost += row.LostPerRound
		}
	}
	if all := causes[0]; all.Started != started || all.Shots != shots || math.Abs(all.LostPerRound-lost) > 1e-9 {
		t.Errorf("classes start %d with %d strokes that lose %v; in all %+v", started, shots, lost, all)
	}
}

// The twenty costliest are those of all strokes sorted, whatever the batches.
func TestTheCostliestShotsAreTheLowestOfAll(t *testing.T) {
	figures := newCostlyShotFigures(testOptions())
	for _, log := range roundsOf(demo.CSV) {
		addTo(t, figures, log)
	}
	var gained []float64
	for _, batch := range enriched(t, demo.CSV) {
		gained = append(gained, batch.StrokesGained...)
	}
	gained = slices.DeleteFunc(gained, math.IsNaN)
	slices.Sort(gained)
	rows := figures.Rows()
	if len(rows) != 20 {
		t.Fatalf("%d rows", len(rows))
	}
	for i, row := range rows {
		if row.StrokesGained != gained[i] || row.Rank != Rank(i+1) {
			t.Errorf("rank %d: %v, expected %v", row.Rank, row.StrokesGained, gained[i])
		}
	}
}

// The words of each kind, and the strokes without one, add up to all strokes
// gained on complete holes.
func TestVerdictsAddUpToTheTotal(t *testing.T) {
	rows := addTo(t, newVerdictFigures(testOptions()), demo.CSV).Rows()
	total := find(t, figuresOf(t, demo.CSV).StrokesGained, func(r StrokesGained) bool { return r.GroupKind == ByTotal })
	for _, kind := range []string{ByFault, ByIntent} {
		n, perRound := int64(0), 0.0
		for _, row := range rows {
			if row.GroupKind == kind {
				n += row.N
				perRound += row.PerRound
			}
		}
		if n != total.N || math.Abs(perRound-total.PerRound) > 1e-9 {
			t.Errorf("by %s: %d strokes, %v a round; in all %d, %v", kind, n, perRound, total.N, total.PerRound)
		}
	}
	// Counted another way.
	decisions, lost := int64(0), 0.0
	for _, batch := range enriched(t, demo.CSV) {
		for row := range batch.N {
			if batch.Fault.At(row) == "decision" && batch.HoleComplete[row] {
				decisions++
				lost += batch.StrokesGained[row]
			}
		}
	}
	row := find(t, rows, func(r Verdict) bool { return r.Group == "decision" })
	if row.N != decisions || math.Abs(row.StrokesGained-lost) > 1e-9 || math.Abs(row.PerShot-lost/float64(decisions)) > 1e-9 {
		t.Errorf("%+v, expected %d strokes and %v", row, decisions, lost)
	}
	if !(row.PerRoundLo < row.PerRound && row.PerRound < row.PerRoundHi && row.PerShotLo < row.PerShot && row.PerShot < row.PerShotHi) {
		t.Errorf("intervals of %+v", row)
	}
}
