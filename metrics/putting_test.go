package metrics

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"roundmill/testdata/demo/golfer"
	"roundmill/transform/baseline"
)

func puttingOf(t testing.TB, log []byte, table *baseline.Table) *PuttingFigures {
	t.Helper()
	figures := newPuttingFigures(Options{Baseline: "test", Seed: 1}, table)
	for _, batch := range enriched(t, log) {
		figures.Add(batch)
	}
	return figures
}

// puttedHoles is a log of par 3s that are hit on the green: each hole is its
// putts, a length in feet with what is logged of them, apart by semicolons.
func puttedHoles(holes ...string) []byte {
	var log strings.Builder
	log.WriteString("date,hole,par,shot,lie,to_hole,left,finish_lie,putt_slope,putt_break,holed\n")
	for i, hole := range holes {
		date, number := fmt.Sprintf("2026-05-%02d", 1+i/18), 1+i%18
		fmt.Fprintf(&log, "%s,%d,3,1,tee,150,,,,,\n", date, number)
		for j, putt := range strings.Split(hole, ";") {
			fmt.Fprintf(&log, "%s,%d,3,%d,green,%s%s\n", date, number, j+2, putt, strings.Repeat(",", 5-strings.Count(putt, ",")))
		}
	}
	return []byte(log.String())
}

func puttingRow(t *testing.T, rows []Putting, fromFt float64) Putting {
	t.Helper()
	return find(t, rows, func(r Putting) bool { return r.FromFt == fromFt || math.IsNaN(r.FromFt) && math.IsNaN(fromFt) })
}

// Worked by hand with the published values of the 2014 table (from memory): 3 ft
// 1.04 putts, 96 % made; 8 ft 1.50, 50 %; 10 ft 1.61, 40 %; 30 ft 1.98, 7 %.
func TestPuttingByHand(t *testing.T) {
	figures := puttingOf(t, puttedHoles("8;3", "8", "30;10;3", "10,2,green,,,no"), baseline.Professional())
	rows := figures.Rows()
	all := puttingRow(t, rows, math.NaN())
	if all.N != 7 || all.NMade != 3 || all.NFirst != 3 || all.NThreePutt != 1 {
		t.Errorf("all: %+v", all)
	}
	mustBe(t, "median leave of 3, 0 and 10 ft", all.LeaveMedianFt, 3)
	eight := puttingRow(t, rows, 8)
	if eight.N != 2 || eight.NMade != 1 || eight.ToFt != 10 || eight.NFirst != 2 || eight.NThreePutt != 0 {
		t.Errorf("from 8 ft: %+v", eight)
	}
	mustBe(t, "made from 8 ft", eight.Made, 0.5)
	mustBe(t, "made by the baseline from 8 ft", eight.BaselineMade, 0.50)
	mustBe(t, "strokes gained from 8 ft", eight.StrokesGainedPer, ((1.50-1.04-1)+(1.50-0-1))/2)
	mustBe(t, "leave from 8 ft", eight.LeaveMedianFt, 1.5)
	ten := puttingRow(t, rows, 10) // one goes on from 3 ft, one was picked up at 2 ft
	if ten.N != 2 || ten.NMade != 0 || ten.NFirst != 0 || !math.IsNaN(ten.ThreePutt) {
		t.Errorf("from 10 ft: %+v", ten)
	}
	mustBe(t, "made by the baseline from 10 ft", ten.BaselineMade, 0.40)
	mustBe(t, "three-putts from 30 ft", puttingRow(t, rows, 30).ThreePutt, 1)
	mustBe(t, "three-putts", all.ThreePutt, 1.0/3)
	mustBe(t, "interval of one round", all.MadeLo, math.NaN())
	mustBe(t, "made by no baseline", puttingRow(t, puttingOf(t, puttedHoles("8"), &baseline.Table{}).Rows(), 8).BaselineMade, math.NaN())
}

func TestEveryFootOfAPuttComesBackWhole(t *testing.T) {
	var holes []string
	for feet := 1; feet <= 54; feet++ {
		holes = append(holes, fmt.Sprint(feet))
	}
	for _, row := range puttingOf(t, puttedHoles(holes...), &baseline.Table{}).Rows() {
		want := row.ToFt - row.FromFt
		switch {
		case row.FromFt == 0:
			want = 2 // 1 and 2 ft
		case row.FromFt == 50:
			want = 5
		case math.IsNaN(row.FromFt):
			want = 54
		}
		if float64(row.N) != want {
			t.Errorf("%v to %v ft: %d putts, expected %v", row.FromFt, row.ToFt, row.N, want)
		}
	}
}

func TestAPuttWhoseEndIsNotKnownIsLeftOut(t *testing.T) {
	figures := puttingOf(t, puttedHoles("8;3", "9,,,,,no"), &baseline.Table{})
	if n := figures.Rows()[0].N; n != 2 {
		t.Errorf("%d putts", n)
	}
	warnings := figures.warnings()
	if !strings.Contains(warnings[0].Text, "no made_share") || !strings.Contains(warnings[1].Text, "1 of 3 putts") {
		t.Errorf("%v", warnings)
	}
}

// By hand: from 8 ft downhill 0 of 2, uphill 1 of 1 (difference -1, weight 2/3);
// from 20 ft downhill 1 of 2, uphill 0 of 2 (difference 1/2, weight 1); from 30
// ft downhill only: (-2/3 + 1/2) / (5/3) = -0.1.
func TestGroundsAtLikeDistanceByHand(t *testing.T) {
	figures := puttingOf(t, puttedHoles(
		"8,,,downhill,straight;1", "9,,,downhill,straight;1", "8,,,uphill,straight",
		"20,,,downhill,left to right", "20,,,downhill,;1", "22,,,uphill,;1", "24,,,uphill,;1",
		"30,,,downhill,;1",
	), baseline.Professional())
	rows := figures.GroundDifferenceRows()
	if len(rows) != 1 {
		t.Fatalf("%+v", rows)
	}
	row := rows[0]
	if row.Kind != BySlope || row.Ground != "downhill" || row.Other != "uphill" || row.N != 4 || row.NOther != 3 {
		t.Errorf("%+v", row)
	}
	mustBe(t, "share made", row.Made, -0.1)
	downhill := find(t, figures.GroundRows(), func(r PuttingGround) bool { return r.Ground == "downhill" && r.FromFt == 20 })
	if downhill.N != 2 || downhill.NMade != 1 {
		t.Errorf("%+v", downhill)
	}
	mustBe(t, "made by the baseline from 20 ft", downhill.BaselineMade, 0.15)
}

// Published: M. Broadie (2018), in the form of A. Gelman (2019): the tour's own
// putts give 1.02 degrees and 8.0 %. The shares made of the 2014 table (from
// memory), rounded to a per cent and of other years, should come near.
func TestBaselineModelComesNearThePublishedFit(t *testing.T) {
	model, ok := baselineModel(baseline.Professional())
	if !ok {
		t.Fatal("no fit")
	}
	line, pace := degrees(model.StartLineRad), 100*model.PaceError
	t.Logf("%.3f degrees and %.2f %%", line, pace)
	if math.Abs(line-1.02) > 0.05 || math.Abs(pace-8.0) > 0.5 {
		t.Errorf("%.3f degrees and %.2f %%, published 1.02 and 8.0", line, pace)
	}
}

// flatPutter is the demo player on greens that are all alike to him, without
// days of good and bad form.
func flatPutter() golfer.Player {
	player := steady()
	player.FormSpread = 0
	player.Putting.Uphill, player.Putting.Downhill, player.Putting.Breaking = 1, 1, 1
	return player
}

// Known truth: putts played one by one with 1.1 degrees and 8.5 %, and with 1.6
// degrees and 6 %.
func TestPuttingModelRecoversTheGolfer(t *testing.T) {
	for _, truth := range []struct{ lineDeg, pacePct float64 }{{1.1, 8.5}, {1.6, 6}} {
		player := flatPutter()
		player.Putting.LineDeg, player.Putting.PacePct = truth.lineDeg, truth.pacePct
		row := puttingOf(t, simulated(t, 12, player, 1000), baseline.Professional()).ModelRows()[0]
		t.Logf("%v: %.3f degrees (%.3f to %.3f), %.2f %% (%.2f to %.2f)", truth,
			row.StartLineDeg, row.StartLineLoDeg, row.StartLineHiDeg, row.PacePct, row.PaceLoPct, row.PaceHiPct)
		if math.Abs(row.StartLineDeg-truth.lineDeg) > 0.05 || math.Abs(row.PacePct-truth.pacePct) > 0.8 {
			t.Errorf("%.3f degrees and %.2f %%, the truth is %v", row.StartLineDeg, row.PacePct, truth)
		}
	}
}

func TestPuttingModelIntervalsHoldTheGolfer(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 200 seasons")
	}
	const seasons = 200
	player := flatPutter()
	line, pace := 0, 0
	for season := range uint64(seasons) {
		row := puttingOf(t, simulated(t, season+1, player, 46), baseline.Professional()).ModelRows()[0]
		if row.StartLineLoDeg <= player.Putting.LineDeg && player.Putting.LineDeg <= row.StartLineHiDeg {
			line++
		}
		if row.PaceLoPct <= player.Putting.PacePct && player.Putting.PacePct <= row.PaceHiPct {
			pace++
		}
	}
	t.Logf("of %d seasons: start line held in %d, pace in %d", seasons, line, pace)
	for name, held := range map[string]int{"start line": line, "pace": pace} {
		if share := float64(held) / seasons; share < 0.85 || share > 0.95 {
			t.Errorf("%s: the 90 %% interval holds the truth in %.1f %%", name, 100*share)
		}
	}
}

// Brute force: what the model says line or pace would gain is what the golfer
// gains who plays the same courses with the line, or the pace, of the baseline.
func TestGainsOfLineAndPaceAreWhatTheGolferGains(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 4,500 rounds")
	}
	const rounds = 1500
	player := flatPutter()
	player.Putting.LineDeg, player.Putting.PacePct = 1.5, 13
	player.Habits.PicksUpAt = 0
	benchmark, _ := baselineModel(baseline.Professional())
	played := func(lineDeg, pacePct float64) (*PuttingModel, float64) {
		putter := player
		putter.Putting.LineDeg, putter.Putting.PacePct = lineDeg, pacePct
		log := simulated(t, 31, putter, rounds)
		return &puttingOf(t, log, baseline.Professional()).ModelRows()[0], figuresOf(t, log).Seasons[0].Putts
	}
	row, putts := played(1.5, 13)
	_, withLine := played(degrees(benchmark.StartLineRad), 13)
	_, withPace := played(1.5, 100*benchmark.PaceError)
	if math.Abs(row.PuttsPerRound-putts) > 1e-9 || math.Abs(row.ModelPutts-putts) > 0.25 {
		t.Errorf("%.3f putts a round taken, the season says %.3f; the model needs %.3f", row.PuttsPerRound, putts, row.ModelPutts)
	}
	t.Logf("line: %.2f a round, played %.2f; pace: %.2f, played %.2f", row.LineGain, putts-withLine, row.PaceGain, putts-withPace)
	if math.Abs(row.LineGain-(putts-withLine)) > 0.25 || math.Abs(row.PaceGain-(putts-withPace)) > 0.25 {
		t.Errorf("line: %.2f a round, played %.2f; pace: %.2f, played %.2f", row.LineGain, putts-withLine, row.PaceGain, putts-withPace)
	}
}

// A limit: putts made as often as the baseline's own model makes them leave
// nothing to gain.
func TestNothingToGainFromOnesOwnModel(t *testing.T) {
	table := baseline.Professional()
	benchmark, _ := baselineModel(table)
	figures := newPuttingFigures(Options{Baseline: "test", Seed: 1}, table)
	player := figures.players.of("")
	player.holes = 18
	for feet := 2; feet <= 60; feet++ {
		const tries = 1_000_000
		made := int64(math.Round(tries * benchmark.ShareMade(float64(feet))))
		player.tenths.reserve(10*feet + 1)
		player.tenths[10*feet] = puttTenth{n: tries, made: made, first: 1}
	}
	row := figures.ModelRows()[0]
	if math.Abs(row.LineGain) > 0.01 || math.Abs(row.PaceGain) > 0.01 || math.Abs(row.BothGain) > 0.01 {
		t.Errorf("line %v, pace %v, both %v", row.LineGain, row.PaceGain, row.BothGain)
	}
	mustBe(t, "interval of no rounds", row.LineGainLo, math.NaN())
}

func TestPuttsThatTellNothingHaveNoModel(t *testing.T) {
	row := puttingOf(t, puttedHoles("8;3", "30;2"), baseline.Professional()).ModelRows()[0]
	if !math.IsNaN(row.StartLineDeg) || !math.IsNaN(row.LineGain) || math.IsNaN(row.BaselineLineDeg) || row.N != 4 {
		t.Errorf("%+v", row)
	}
}

func TestAModelFarFromThePuttsTakenIsWarnedOf(t *testing.T) {
	warnings := modelWarnings([]PuttingModel{
		{Player: "Ardis Askelind", PuttsPerRound: 30.8, ModelPutts: 31.2},
		{Player: "Brevik Brindmoor", PuttsPerRound: 32.0, ModelPutts: 32.8},
		{Player: "Calla Corvasse", PuttsPerRound: math.NaN(), ModelPutts: math.NaN()},
	})
	want := []Warning{{"putting_model", "Brevik Brindmoor", "the model of line and pace needs 32.8 putts a round where 32.0 were taken: what either would gain is off by as much"}}
	if !slices.Equal(warnings, want) {
		t.Errorf("%v", warnings)
	}
}

// A hole may have the ball's positions and not its own: how long its putts are is then not known.
func TestPuttsOfUnknownLengthAreLeftOut(t *testing.T) {
	results := finished(t, []byte("date,hole,par,shot,lie,x,y,hole_x,hole_y\n"+
		"2026-05-01,1,3,1,tee,0,0,0,150\n2026-05-01,1,3,2,green,0,145,0,150\n2026-05-01,1,3,3,green,0,149,0,150\n"+
		"2026-05-01,2,3,1,tee,0,0,,\n2026-05-01,2,3,2,green,0,145,,\n2026-05-01,2,3,3,green,0,149,,\n"))
	all := puttingRow(t, results.Putting, math.NaN())
	if all.N != 2 || all.NFirst != 1 || results.PuttingModel[0].N != 2 {
		t.Errorf("%+v", all)
	}
	if !slices.ContainsFunc(results.Warnings, func(w Warning) bool { return strings.HasPrefix(w.Text, "2 of 4 putts are left out") }) {
		t.Errorf("%v", results.Warnings)
	}
}
