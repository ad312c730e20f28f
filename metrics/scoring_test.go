package metrics

import (
	"bytes"
	"fmt"
	"math"
	"runtime"
	"testing"

	"golang.org/x/sync/errgroup"

	"roundmill/testdata/demo"
)

func scoringOf(t testing.TB, log []byte) []Scoring {
	t.Helper()
	return addTo(t, newScoringFigures(testOptions()), log).Rows()
}

func bounceBackOf(t testing.TB, log []byte) []BounceBack {
	t.Helper()
	return addTo(t, newBounceBackFigures(testOptions()), log).Rows()
}

// elevenHoles: over par on 1, 5, 6 and 10; under par on 2, 7 and 9; hole 8 was
// picked up.
func elevenHoles() writtenRound {
	return writtenRound{date: "2026-05-01", holes: []writtenHole{
		{par: 4, score: 6, lengthYd: 399}, {par: 5, score: 3, lengthYd: 520}, {par: 3, score: 3, lengthYd: 150}, {par: 4, score: 4, lengthYd: 400},
		{par: 4, score: 5, lengthYd: 350}, {par: 4, score: 7, lengthYd: 449.9}, {par: 4, score: 3, lengthYd: 450}, {par: 4, score: 5, lengthYd: 300, pickedUp: true},
		{par: 3, score: 2, lengthYd: 149}, {par: 4, score: 5, lengthYd: 410}, {par: 4, score: 4, lengthYd: 420},
	}}
}

func TestScoresByParNineAndLengthByHand(t *testing.T) {
	rows := scoringOf(t, writtenLog(elevenHoles()))
	for _, want := range []struct {
		kind, group string
		n           int64
		toPar       float64
		counts      [6]int64
	}{
		{ByTotal, "all", 10, 3, [6]int64{1, 2, 3, 2, 1, 1}},
		{ByPar, "3", 2, -1, [6]int64{0, 1, 1, 0, 0, 0}},
		{ByPar, "4", 7, 6, [6]int64{0, 1, 2, 2, 1, 1}},
		{ByPar, "5", 1, -2, [6]int64{1, 0, 0, 0, 0, 0}},
		{ByNine, "front", 8, 2, [6]int64{1, 2, 2, 1, 1, 1}},
		{ByNine, "back", 2, 1, [6]int64{0, 0, 1, 1, 0, 0}},
		{ByLength, "3, 100-150", 1, -1, [6]int64{0, 1, 0, 0, 0, 0}},
		{ByLength, "3, 150-200", 1, 0, [6]int64{0, 0, 1, 0, 0, 0}},
		{ByLength, "4, 350-400", 2, 3, [6]int64{0, 0, 0, 1, 1, 0}},
		{ByLength, "4, 400-450", 4, 4, [6]int64{0, 0, 2, 1, 0, 1}},
		{ByLength, "4, 450-500", 1, -1, [6]int64{0, 1, 0, 0, 0, 0}},
		{ByLength, "5, 500-550", 1, -2, [6]int64{1, 0, 0, 0, 0, 0}},
	} {
		row := find(t, rows, func(r Scoring) bool { return r.GroupKind == want.kind && r.Group == want.group })
		counts := [6]int64{row.EaglesOrBetter, row.Birdies, row.Pars, row.Bogeys, row.Doubles, row.Worse}
		if row.N != want.n || math.Abs(row.ToPar-18*want.toPar/float64(want.n)) > 1e-12 || counts != want.counts {
			t.Errorf("%s %s: %+v", want.kind, want.group, row)
		}
		if !math.IsNaN(row.ToParLo) || !math.IsNaN(row.DoubleOrWorseHi) || !math.IsNaN(row.StrokesGainedLo) {
			t.Errorf("%s %s: an interval from one round", want.kind, want.group)
		}
	}
	if len(rows) != 12 {
		t.Errorf("%d rows", len(rows))
	}
}

// Straight after holes 1, 5, 6 and 10 came 2 (under), 6, 7 (under) and 11; hole
// 8 breaks off two pairs.
func TestBounceBackByHand(t *testing.T) {
	rows := bounceBackOf(t, writtenLog(elevenHoles()))
	row := rows[0]
	if len(rows) != 1 || row.N != 4 || row.UnderPar != 2 || row.Share != 0.5 || row.OtherwiseN != 4 || row.OtherwiseUnderPar != 0 || row.Difference != 0.5 {
		t.Errorf("%+v", rows)
	}
	if !math.IsNaN(row.ShareLo) || !math.IsNaN(row.DifferenceLo) {
		t.Errorf("an interval from one round: %+v", row)
	}
	// Without hole 6, hole 7 follows straight after nothing.
	var gap []byte
	for line := range bytes.Lines(writtenLog(elevenHoles())) {
		if !bytes.Contains(line, []byte(",,6,4,")) {
			gap = append(gap, line...)
		}
	}
	if row := bounceBackOf(t, gap)[0]; row.N != 2 || row.UnderPar != 1 || row.OtherwiseN != 4 {
		t.Errorf("without hole 6: %+v", row)
	}
}

// A ball with a position on a hole without one has no distance: its score
// counts, and nothing that a distance is needed for.
func TestAHoleWithoutDistancesHasAScore(t *testing.T) {
	log := []byte(`date,player,course,hole,par,shot,lie,x,y
2026-05-31,A,Invented Links,1,4,1,tee,0,0
2026-05-31,A,Invented Links,1,4,2,fairway,0,250
2026-05-31,A,Invented Links,1,4,3,green,3,390
2026-05-31,A,Invented Links,1,4,4,green,0,395
2026-05-31,A,Invented Links,1,4,5,green,0,398
2026-05-31,A,Invented Links,1,4,6,green,0,399
`)
	groups, rows := scoreGroups()
	for _, group := range groups {
		addTo(t, group, log)
	}
	scores := rows()[0].([]Scoring)
	if len(scores) != 3 || scores[0].Doubles != 1 || scores[0].ToPar != 36 || !math.IsNaN(scores[0].StrokesGained) {
		t.Errorf("%+v", scores)
	}
	if doubles := groups[4].(*DoubleFigures); len(doubles.ShotRows()) != 0 || len(doubles.warnings()) != 1 {
		t.Errorf("%+v, %v", doubles.ShotRows(), doubles.warnings())
	}
	if warnings := groups[0].(*ScoringFigures).warnings(); len(warnings) != 1 {
		t.Errorf("%v", warnings)
	}
}

// Pars, nines and lengths each add up to the total, and the total is that of
// the other tables.
func TestScoringAddsUpToTheSeason(t *testing.T) {
	rows, results := scoringOf(t, demo.CSV), figuresOf(t, demo.CSV)
	total := rows[0]
	season := results.Seasons[0]
	gained := find(t, results.StrokesGained, func(r StrokesGained) bool { return r.GroupKind == ByTotal })
	if total.N != season.Holes || math.Abs(total.ToPar-season.ToPar) > 1e-9 || total.ToParLo != season.ToParLo ||
		math.Abs(total.StrokesGained-gained.PerRound) > 1e-9 || math.Abs(total.StrokesGainedHi-gained.PerRoundHi) > 1e-9 {
		t.Errorf("%+v\n%+v\n%+v", total, season, gained)
	}
	for _, kind := range []string{ByPar, ByNine, ByLength} {
		var sum Scoring
		for _, row := range rows {
			if row.GroupKind != kind {
				continue
			}
			share := float64(row.N) / float64(total.N)
			sum.N += row.N
			sum.ToPar += share * row.ToPar
			sum.StrokesGained += share * row.StrokesGained
			sum.Birdies += row.Birdies
			sum.Pars += row.Pars
			sum.Doubles += row.Doubles
			if of := row.EaglesOrBetter + row.Birdies + row.Pars + row.Bogeys + row.Doubles + row.Worse; of != row.N {
				t.Errorf("%s %s: %d of %d holes counted", kind, row.Group, of, row.N)
			}
		}
		if sum.N != total.N || math.Abs(sum.ToPar-total.ToPar) > 1e-9 || math.Abs(sum.StrokesGained-total.StrokesGained) > 1e-9 ||
			sum.Birdies != total.Birdies || sum.Pars != total.Pars || sum.Doubles != total.Doubles {
			t.Errorf("by %s: %+v, in all %+v", kind, sum, total)
		}
	}
}

// The intervals that claim 90 % hold what the same player does over 8,000
// rounds in 85 to 95 of 100 seasons; so do those of bounce back, which are
// Wilson's and take holes as independent. (Of 1,000 seasons, measured once, to
// par held in 89 to 92 %, over all holes in 93: rounds are spread over the
// courses by a plan.)
func TestScoringIntervalsHoldTheTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 400 seasons")
	}
	const rounds = 46
	figures := func(log []byte) map[string][3]float64 {
		scoring, bounceBack, holes := newScoringFigures(testOptions()), newBounceBackFigures(testOptions()), newCourseHoleFigures(testOptions())
		for _, batch := range enriched(t, log) {
			scoring.Add(batch)
			bounceBack.Add(batch)
			holes.Add(batch)
		}
		all := map[string][3]float64{}
		for _, r := range scoring.Rows() {
			if r.Rounds < rounds {
				continue // not on every course
			}
			name := r.GroupKind + " " + r.Group
			all[name] = [3]float64{r.ToPar, r.ToParLo, r.ToParHi}
			if r.GroupKind == ByTotal {
				all["strokes gained"] = [3]float64{r.StrokesGained, r.StrokesGainedLo, r.StrokesGainedHi}
				all["under par"] = [3]float64{r.UnderParShare, r.UnderParLo, r.UnderParHi}
				all["doubles"] = [3]float64{r.DoubleOrWorseShare, r.DoubleOrWorseLo, r.DoubleOrWorseHi}
			}
		}
		b := bounceBack.Rows()[0]
		all["bounce back"] = [3]float64{b.Share, b.ShareLo, b.ShareHi}
		all["bounce back difference"] = [3]float64{b.Difference, b.DifferenceLo, b.DifferenceHi}
		for _, r := range holes.Rows() {
			if r.Course == "Ostlewick Common" && r.Hole <= 3 {
				name := fmt.Sprintf("hole %d", r.Hole)
				all[name] = [3]float64{r.ToPar, r.ToParLo, r.ToParHi}
				all[name+" putts"] = [3]float64{r.Putt, r.PuttLo, r.PuttHi}
			}
		}
		return all
	}
	checkCoverage(t, figures(simulated(t, 999, steady(), 8000)), 400, 18, func(season uint64) map[string][3]float64 {
		return figures(simulated(t, season, steady(), rounds))
	})
}

// checkCoverage counts how often the interval of each figure (estimate, lo, hi)
// holds the truth, in figures that every repeat has, at least so many of them.
func checkCoverage(t *testing.T, truth map[string][3]float64, repeats, atLeast int, figures func(seed uint64) map[string][3]float64) {
	t.Helper()
	held, tried := map[string]int{}, map[string]int{}
	for _, repeat := range inParallel(repeats, figures) {
		for name, figure := range repeat {
			tried[name]++
			if figure[1] <= truth[name][0] && truth[name][0] <= figure[2] {
				held[name]++
			}
		}
	}
	checked := 0
	for name, n := range tried {
		if n < repeats {
			continue
		}
		checked++
		if share := float64(held[name]) / float64(n); share < 0.85 || share > 0.95 {
			t.Errorf("%s: the 90 %% interval holds the truth in %.1f %% of %d", name, 100*share, n)
		}
	}
	if checked < atLeast {
		t.Errorf("only %d figures are in every repeat", checked)
	}
	t.Logf("held of %d: %v", repeats, held)
}

// inParallel makes one result for each of the seeds from 1 up.
func inParallel[R any](n int, one func(seed uint64) R) []R {
	all := make([]R, n)
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range all {
		group.Go(func() error {
			all[i] = one(uint64(i + 1))
			return nil
		})
	}
	group.Wait()
	return all
}
