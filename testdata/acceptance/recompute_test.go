package acceptance

import (
	"fmt"
	"testing"
)

func TestTheProgramAndTheSQLAgree(t *testing.T) {
	for _, s := range seasons(t) {
		t.Run(s.name, func(t *testing.T) {
			db := openDatabase(t)
			db.recompute(s)
			db.attach(s.run(t))
			db.derive(s)
			for _, table := range []string{"shots", "holes", "rounds", "strokes_gained", "approach_proximity"} {
				t.Run(table+" from the log", func(t *testing.T) { db.within(t).compare("ours", table) })
				if table != "shots" {
					t.Run(table+" from shots alone", func(t *testing.T) { db.within(t).compare("derived", table) })
				}
			}
			t.Run("every complete hole adds up", func(t *testing.T) { db.within(t).addsUp(s.lacks) })
			t.Run("quantiles are definition 7", func(t *testing.T) { db.within(t).quantilesAreDefinition7() })
			t.Run("intervals hold their estimate and need five rounds", func(t *testing.T) { db.within(t).intervalsNeedFiveRounds() })
		})
	}
}

// addsUp holds every complete hole to the identity of strokes gained: baseline from the tee minus score. Only a baseline
// that lacks a lie may leave strokes unknown.
func (db *database) addsUp(lacks bool) {
	db.t.Helper()
	byHole := `SELECT player, date, course, round, hole, count(*) - count(strokes_gained) AS unknown,
			sum(strokes_gained) AS gained, min_by(expected_before, shot) - count(*) - sum(penalty) AS tee_minus_score
		FROM theirs.shots WHERE hole_complete GROUP BY ALL`
	if lacks {
		byHole += " HAVING unknown = 0"
	}
	db.findsNothing("strokes gained do not add up to baseline from the tee minus score",
		"FROM (%s) WHERE unknown > 0 OR NOT coalesce(abs(gained - tee_minus_score) <= 1e-9, FALSE)", byHole)
	db.findsNothing("the table holes says otherwise", `SELECT * FROM (%s) AS shots
		FULL JOIN (FROM theirs.holes WHERE hole_complete AND (strokes_gained IS NOT NULL OR NOT %t)) AS holes
		ON holes.player IS NOT DISTINCT FROM shots.player AND holes.date = shots.date AND holes.hole = shots.hole
			AND holes.course IS NOT DISTINCT FROM shots.course AND holes.round IS NOT DISTINCT FROM shots.round
		WHERE NOT coalesce(abs(holes.strokes_gained - shots.tee_minus_score) <= 1e-9, FALSE)`, byHole, lacks)
}

// quantilesAreDefinition7 asks DuckDB's own quantile_cont, which is definition 7 of Hyndman and Fan (1996), The American
// Statistician 50(4).
func (db *database) quantilesAreDefinition7() {
	db.t.Helper()
	db.findsNothing("quantiles are off by more than 0.05 ft", `
		WITH approaches AS (
			SELECT player, band_from_yd, proximity_ft, unnest(['all', CASE lie_category WHEN 'tee' THEN 'fairway' ELSE lie_category END]) AS lie_group
			FROM theirs.shots WHERE at_green AND finish_yd IS NOT NULL AND band_from_yd IS NOT NULL
		), found AS (
			SELECT player, lie_group, band_from_yd,
				quantile_cont(proximity_ft, [0.1, 0.25, 0.5, 0.75, 0.9]) AS ours
			FROM approaches GROUP BY ALL
		)
		SELECT found.player, lie_group, band_from_yd, ours, theirs
		FROM found JOIN (SELECT *, [p10_ft, p25_ft, median_ft, p75_ft, p90_ft] AS theirs FROM theirs.approach_proximity) AS written
			USING (lie_group, band_from_yd)
		WHERE found.player IS NOT DISTINCT FROM written.player
			AND list_bool_or(list_transform(list_zip(ours, theirs), lambda pair: NOT coalesce(abs(pair[1] - pair[2]) <= 0.05, pair[1] IS NULL AND pair[2] IS NULL)))`)
}

// intervalsNeedFiveRounds holds every interval to what can be said of a bootstrap from outside: it is there from five
// rounds on and not before, it runs upwards, and its estimate lies inside.
func (db *database) intervalsNeedFiveRounds() {
	db.t.Helper()
	fault := func(estimate, lo, hi string) string {
		return fmt.Sprintf(`(%[2]s IS NULL) <> (%[3]s IS NULL) OR (%[2]s IS NULL) <> (rounds < 5)
			OR NOT coalesce(%[2]s - 1e-9 <= %[1]s AND %[1]s <= %[3]s + 1e-9, TRUE)`, estimate, lo, hi)
	}
	db.findsNothing("strokes_gained", "SELECT player, group_kind, group_name, rounds, per_round_lo, per_round, per_round_hi FROM theirs.strokes_gained WHERE %s",
		fault("per_round", "per_round_lo", "per_round_hi"))
	const cells = `(SELECT written.*, counted.rounds FROM theirs.approach_proximity AS written JOIN (
			SELECT player, lie_group, band_from_yd, count(DISTINCT (date, course, round)) AS rounds
			FROM (SELECT *, unnest(['all', CASE lie_category WHEN 'tee' THEN 'fairway' ELSE lie_category END]) AS lie_group FROM theirs.shots)
			WHERE at_green AND finish_yd IS NOT NULL AND %s AND band_from_yd IS NOT NULL GROUP BY ALL
		) AS counted ON counted.player IS NOT DISTINCT FROM written.player
			AND counted.lie_group = written.lie_group AND counted.band_from_yd = written.band_from_yd)`
	db.findsNothing("strokes gained of approach_proximity", "SELECT player, lie_group, band_from_yd, rounds, strokes_gained_lo, strokes_gained_per_shot, strokes_gained_hi FROM "+
		cells+" WHERE %s", "strokes_gained IS NOT NULL", fault("strokes_gained_per_shot", "strokes_gained_lo", "strokes_gained_hi"))
	db.findsNothing("medians of approach_proximity", "SELECT player, lie_group, band_from_yd, rounds, median_lo_ft, median_ft, median_hi_ft FROM "+
		cells+" WHERE %s", "proximity_ft IS NOT NULL", fault("median_ft", "median_lo_ft", "median_hi_ft"))
}
