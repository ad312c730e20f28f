package metrics

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roundmill/testdata/demo"
	"roundmill/transform"
)

// scorecardRound is 18 holes of par 4 in these scores, in the columns of the
// demo season and score and putts behind them.
func scorecardRound(date, course string, score func(hole int) int, putts string) string {
	var log strings.Builder
	for hole := 1; hole <= 18; hole++ {
		record := fmt.Sprintf("%s,Wenlo Tarrowby,%s,white,71.8,129,1,%d,4,,%d", date, course, hole, hole)
		separators := strings.Count(strings.SplitN(string(demo.CSV), "\n", 2)[0], ",")
		fmt.Fprintf(&log, "%s%s,%d,%s\n", record, strings.Repeat(",", separators-strings.Count(record, ",")), score(hole), putts)
	}
	return log.String()
}

// withScorecards is the demo season with a round of 18 scorecard holes before
// the first stroke, one amid them and one behind.
func withScorecards() []byte {
	header, strokes, _ := strings.Cut(string(demo.CSV), "\n")
	lines := strings.SplitAfter(strokes, "\n")
	middle := slices.IndexFunc(lines, func(line string) bool { return strings.HasPrefix(line, "2026-07") })
	bad := func(hole int) int { return 5 + hole%4 }
	return []byte(header + ",score,putts\n" +
		scorecardRound("2026-01-02", "Ostlewick Common", bad, "2") + strings.Join(lines[:middle], "") +
		scorecardRound("2026-06-30", "Ostlewick Common", bad, "") + strings.Join(lines[middle:], "") +
		scorecardRound("2026-12-30", "Elsewhere", bad, "3"))
}

// finished is all figures of a log, with a goal.
func finished(t *testing.T, log []byte) *Results {
	t.Helper()
	set := NewSet(Options{Baseline: "test", Goal: GoalScore(75)})
	for _, batch := range enriched(t, log) {
		set.Add(batch)
	}
	return set.Finish()
}

// Every table of strokes is the same to the last bit with scorecards beside
// the strokes; those of scores count them, and keep their strokes gained.
func TestScorecardsChangeNoFigureOfStrokes(t *testing.T) {
	alone, both := finished(t, demo.CSV), finished(t, withScorecards())
	ofScores := []string{"Seasons", "Squad", "Scoring", "BounceBack", "CourseHoles", "Goal", "GoalClasses", "GoalAfter", "Handicap", "Warnings"}
	compared := 0
	for _, field := range reflect.VisibleFields(reflect.TypeFor[Results]()) {
		before, after := reflect.ValueOf(*alone).FieldByIndex(field.Index).Interface(), reflect.ValueOf(*both).FieldByIndex(field.Index).Interface()
		if !slices.Contains(ofScores, field.Name) {
			sameRows(t, field.Name, before, after)
			compared += reflect.ValueOf(before).Len()
		} else if cmp.Equal(before, after, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(SquadPlayer{})) {
			t.Errorf("scorecards do not count in %s", field.Name)
		}
	}
	if compared < 700 {
		t.Errorf("%d rows compared", compared)
	}
	// Strokes gained that stand beside scores.
	scores := func(field string) bool {
		return slices.Contains([]string{"Rounds", "N", "EaglesOrBetter", "Birdies", "Pars", "Bogeys", "Doubles", "Worse"}, field) ||
			strings.HasPrefix(field, "ToPar") || strings.HasPrefix(field, "UnderPar") || strings.HasPrefix(field, "DoubleOrWorse")
	}
	ignored := cmp.FilterPath(func(p cmp.Path) bool {
		step, ok := p.Last().(cmp.StructField)
		return ok && scores(step.Name())
	}, cmp.Ignore())
	for name, rows := range map[string][2]any{"squad": {alone.Squad, both.Squad}, "scoring": {alone.Scoring, both.Scoring}} {
		if diff := cmp.Diff(rows[0], rows[1], ignored, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(SquadPlayer{})); diff != "" {
			t.Errorf("%s (-alone +both):\n%s", name, diff)
		}
	}
	before, after := alone.Seasons[0], both.Seasons[0]
	if after.Shots != before.Shots || after.Rounds != before.Rounds+3 || after.Holes != before.Holes+3*18 ||
		after.Penalties != before.Penalties || after.FairwayShare != before.FairwayShare || after.GreenShare != before.GreenShare || after.UpAndDownShare != before.UpAndDownShare {
		t.Errorf("season %+v\nbefore %+v", after, before)
	}
	holes := float64(before.Holes)
	if want := (before.Putts*holes/18 + 18*2 + 18*3) / (holes + 36) * 18; math.Abs(after.Putts-want) > 1e-9 {
		t.Errorf("%v putts, expected %v: over the holes where they are written", after.Putts, want)
	}
	want := Warning{"seasons", "Wenlo Tarrowby", fmt.Sprintf("holes known by their scorecard alone: 54 of %d complete ones; "+
		"they count in scores, not in strokes gained, penalties, or up and down; left out of putts: 18; left out of fairways: 54; left out of greens: 54", after.Holes)}
	if !slices.Contains(both.Warnings, want) {
		t.Errorf("%q is not among the warnings %q", want, both.Warnings)
	}
	for _, warning := range alone.Warnings {
		if !slices.Contains(both.Warnings, warning) && warning.Figure != "goal" && warning.Figure != "handicap" { // these count rounds
			t.Errorf("%q is not among the warnings %q", warning, both.Warnings)
		}
	}
}

// By hand: three rounds of 18 holes of par 4 in 5 each. Score 90, differential
// (113/113) x (90 - 72.0) = 18.0; of three the lowest less 2.0 is the index
// (Rules of Handicapping, 2024, Rules 5.1a and 5.2a).
func TestARoundOfScorecardHolesHasAScoreAndAnIndexAndNoStrokesGained(t *testing.T) {
	log := "date,player,course,course_rating,slope_rating,hole,par,stroke_index,score,putts\n"
	for day := 1; day <= 3; day++ {
		for hole := 1; hole <= 18; hole++ {
			log += fmt.Sprintf("2026-05-%02d,A,Invented,72,113,%d,4,%d,5,\n", day, hole, hole)
		}
	}
	r := finished(t, []byte(log))
	season := r.Seasons[0]
	if season.Score != 90 || season.ToPar != 18 || season.Shots != 0 || season.CompleteRoundsOf18 != 3 || season.BestToPar != 18 {
		t.Errorf("%+v", season)
	}
	for name, unknown := range map[string]float64{
		"putts": season.Putts, "penalties": season.Penalties, "fairways": season.FairwayShare, "greens": season.GreenShare,
		"up and down": season.UpAndDownShare, "three putts": season.ThreePuttsOrMore,
		"strokes gained": r.Scoring[0].StrokesGained, "squad": r.Squad[0].Gained,
	} {
		if !math.IsNaN(unknown) {
			t.Errorf("%s: %v, expected not to be known", name, unknown)
		}
	}
	if last := r.Handicap[2]; last.Gross != 90 || last.Differential != 18 || last.IndexAfter != 16 {
		t.Errorf("%+v", last)
	}
	if len(r.StrokesGained)+len(r.Approach)+len(r.Putting)+len(r.ShortGame)+len(r.TeeClubs)+len(r.CostlyShots)+len(r.DoubleShots)+len(r.Trend)+len(r.Priorities)+len(r.CourseHoleClubs) > 0 {
		t.Error("there are figures of strokes without a stroke")
	}
	if r.Goal[0].ToPar != 18 || r.Goal[1].Rounds != 3 || r.BounceBack[0].N != 51 {
		t.Errorf("%+v, %+v", r.Goal, r.BounceBack)
	}
	for _, warning := range r.Warnings {
		if strings.Contains(warning.Text, "baseline does not know") || strings.Contains(warning.Text, "distance is not known") || strings.Contains(warning.Text, "without `club`") {
			t.Errorf("%q speaks of strokes", warning.Text)
		}
	}
}

// A hole of a course counts the plays of scorecards for scores alone.
func TestCourseHolesCountTheScoresOfScorecards(t *testing.T) {
	log := "date,course,hole,par,shot,lie,to_hole,club,score\n"
	for day := 1; day <= 4; day++ {
		log += fmt.Sprintf("2026-05-%02d,Invented,1,3,1,tee,150,7i,\n2026-05-%02d,Invented,1,3,2,green,2,putter,\n", day, day)
	}
	log += "2026-05-05,Invented,1,3,,,,,6\n"
	figures := addTo(t, newCourseHoleFigures(testOptions()), []byte(log))
	rows, clubs := figures.Rows(), figures.ClubRows()
	if len(rows) != 1 || rows[0].N != 5 || rows[0].ToPar != (4*-1+3)/5. || rows[0].DoublesOrWorse != 1 || math.IsNaN(rows[0].StrokesGained) {
		t.Errorf("%+v", rows)
	}
	if len(clubs) != 1 || clubs[0].Club != "7i" || clubs[0].N != 4 || len(figures.warnings()) > 0 {
		t.Errorf("%+v %q", clubs, figures.warnings())
	}
}

// A baseline of one's own is made of strokes, and measures them.
func TestScorecardsAreInNoBaselineOfOnesOwn(t *testing.T) {
	measured := func(log []byte) (gained []float64) {
		figures := NewOwnBaselineFigures()
		for _, batch := range enriched(t, log) {
			figures.Add(batch)
		}
		own := figures.Finish()
		for _, batch := range enriched(t, log) {
			own.Measure(batch)
			for _, s := range []*transform.Shots{batch, batch.Strokes()} {
				for row, class := range s.Class {
					if class != transform.NoClass {
						gained = append(gained, s.StrokesGained[row])
					}
				}
			}
		}
		return gained
	}
	if alone, both := measured(demo.CSV), measured(withScorecards()); !cmp.Equal(sortedFinite(alone), sortedFinite(both)) {
		t.Errorf("%d strokes gain something else than %d", len(both), len(alone))
	}
}

func sortedFinite(values []float64) []float64 {
	return slices.Sorted(slices.Values(slices.DeleteFunc(values, math.IsNaN)))
}
