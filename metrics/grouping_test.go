package metrics

import (
	"bytes"
	"testing"
	"time"

	"roundmill/testdata/demo/golfer"
)

// scoreGroups are the groups of figures about scores, and all their rows.
func scoreGroups() (groups []Figures, rows func() []any) {
	options := testOptions()
	scoring, bounceBack, holes := newScoringFigures(options), newBounceBackFigures(options), newCourseHoleFigures(options)
	costly, doubles, verdicts := newCostlyShotFigures(options), newDoubleFigures(options), newVerdictFigures(options)
	trend, goal, handicap := newTrendFigures(options, time.Time{}), newGoalFigures(options, GoalScore(74)), newHandicapFigures(options)
	rows = func() (all []any) {
		var after []GoalAfter
		for _, name := range goal.players.names() {
			after = append(after, goal.After(name, []Gain{{"a stroke and a bit", 1.2}})...)
		}
		return []any{
			scoring.Rows(), bounceBack.Rows(), holes.Rows(), holes.ClubRows(), costly.Rows(), doubles.ShotRows(), doubles.CauseRows(), verdicts.Rows(),
			trend.Rows(), trend.ChangeRows(), goal.Rows(), goal.ClassRows(), after, handicap.Rows(),
			scoring.warnings(), holes.warnings(), doubles.warnings(), verdicts.warnings(), trend.warnings(), goal.warnings(), handicap.warnings(),
		}
	}
	return []Figures{scoring, bounceBack, holes, costly, doubles, verdicts, trend, goal, handicap}, rows
}

// Three players in one batch, or round by round from the last: the same rows to
// the last bit.
func TestScoresInAnyBatchesAndOrderGiveTheSameRows(t *testing.T) {
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Field(3, 3, 14)); err != nil {
		t.Fatal(err)
	}
	whole, wholeRows := scoreGroups()
	for _, group := range whole {
		addTo(t, group, log.Bytes())
	}
	oneByOne, rows := scoreGroups()
	logs := roundsOf(log.Bytes())
	if len(logs) != 3*14 {
		t.Fatalf("%d rounds", len(logs))
	}
	for i := range logs {
		round := len(logs) - 1 - i
		for _, group := range oneByOne {
			addTo(t, group, logs[round])
		}
	}
	want, got := wholeRows(), rows()
	for i := range want {
		costly, isCostly := got[i].([]CostlyShot)
		if isCostly { // every round was a file of its own
			for row, whole := range want[i].([]CostlyShot) {
				costly[row].SourceLine = whole.SourceLine
			}
		}
		sameRows(t, "rows", want[i], got[i])
	}
}

// Every row type makes a table.
func TestTheRowsAboutScoresAreTables(t *testing.T) {
	groups, _ := scoreGroups()
	for _, group := range groups {
		addTo(t, group, writtenLog(fourAndFive(1, 6), fourAndFive(2, 18)))
	}
	tables := []Table{
		TableOf("scoring", "", groups[0].(*ScoringFigures).Rows()),
		TableOf("bounce_back", "", groups[1].(*BounceBackFigures).Rows()),
		TableOf("course_holes", "", groups[2].(*CourseHoleFigures).Rows()),
		TableOf("course_hole_clubs", "", groups[2].(*CourseHoleFigures).ClubRows()),
		TableOf("costly_shots", "", groups[3].(*CostlyShotFigures).Rows()),
		TableOf("double_shots", "", groups[4].(*DoubleFigures).ShotRows()),
		TableOf("double_causes", "", groups[4].(*DoubleFigures).CauseRows()),
		TableOf("verdicts", "", groups[5].(*VerdictFigures).Rows()),
		TableOf("trend", "", groups[6].(*TrendFigures).Rows()),
		TableOf("trend_change", "", groups[6].(*TrendFigures).ChangeRows()),
		TableOf("goal", "", groups[7].(*GoalFigures).Rows()),
		TableOf("goal_classes", "", groups[7].(*GoalFigures).ClassRows()),
		TableOf("goal_after", "", groups[7].(*GoalFigures).After("A", []Gain{{"one", 1}})),
		TableOf("handicap", "", groups[8].(*HandicapFigures).Rows()),
	}
	for _, table := range tables {
		record := table.Record()
		if int(record.NumRows()) != table.Rows || table.Columns[0].Name != "player" {
			t.Errorf("%s: %d rows, first column %s", table.Name, record.NumRows(), table.Columns[0].Name)
		}
		seen := map[string]bool{}
		for _, column := range table.Columns {
			if seen[column.Name] || column.About == "" {
				t.Errorf("%s: column %s is there twice, or says nothing", table.Name, column.Name)
			}
			seen[column.Name] = true
		}
		record.Release()
	}
}
