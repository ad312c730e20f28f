package metrics

import (
	"iter"
	"reflect"
	"slices"
)

// Results are the finished figures.
type Results struct {
	Seasons       []Season
	StrokesGained []StrokesGained
	Approach      []ApproachProximity
	Priorities    []Priority
	Squad         []SquadPlayer

	TeeClubs                 []TeeClub
	TeeClubDifferences       []TeeClubDifference
	ClubYardages             []ClubYardage
	BetweenClubs             []BetweenClubs
	DistanceControl          []DistanceControl
	ShortGame                []ShortGame
	ShortSided               []ShortSided
	Putting                  []Putting
	PuttingGround            []PuttingGround
	PuttingGroundDifferences []PuttingGroundDifference
	PuttingModel             []PuttingModel
	WindSlope                []WindSlope
	WindSlopeEffects         []WindSlopeEffect
	Aim                      []Aim
	MissPattern              []MissPattern
	Scoring                  []Scoring
	BounceBack               []BounceBack
	CourseHoles              []CourseHole
	CourseHoleClubs          []CourseHoleClub
	CostlyShots              []CostlyShot
	DoubleShots              []DoubleShot
	DoubleCauses             []DoubleCause
	Verdicts                 []Verdict
	Trend                    []Trend
	TrendChange              []TrendChange
	Goal                     []GoalChance
	GoalClasses              []GoalClass
	GoalAfter                []GoalAfter
	Handicap                 []Handicap

	Warnings []Warning
}

// Shots is how many strokes the figures were made of.
func (r *Results) Shots() (shots int64) {
	for _, season := range r.Seasons {
		shots += season.Shots
	}
	return shots
}

// Tables are the figures as tables, in the order in which they are listed, each
// made when it is asked for.
func (r *Results) Tables() iter.Seq[Table] {
	return func(yield func(Table) bool) {
		_ = yield(TableOf("seasons", "What each player's log holds, with scores and counts over its complete holes.", r.Seasons)) &&
			yield(TableOf("strokes_gained", "Strokes gained a round and per 100 strokes by group of strokes, over complete holes.", r.StrokesGained)) &&
			yield(TableOf("approach_proximity", "Where approaches at the green finished, by player, lie group and yardage band.", r.Approach)) &&
			yield(TableOf("priorities", "Strokes a round to be had by skill cell, shrunk towards its class, ranked where there are shots enough.", r.Priorities)) &&
			yield(TableOf("squad", "A row a player, with the range of ranks that the rounds cannot tell apart.", r.Squad)) &&
			yield(TableOf("tee_clubs", "What each club does off the tee of a par 4 or 5.", r.TeeClubs)) &&
			yield(TableOf("tee_club_differences", "Each pair of clubs off the tee, on holes of like length.", r.TeeClubDifferences)) &&
			yield(TableOf("club_yardages", "How far each club goes from a clean lie, and the gap to the next.", r.ClubYardages)) &&
			yield(TableOf("between_clubs", "What asking for a distance between two neighbouring clubs costs.", r.BetweenClubs)) &&
			yield(TableOf("distance_control", "Long or short inside 120 yd, by ten-yard step.", r.DistanceControl)) &&
			yield(TableOf("short_game", "Up and down by lie word and distance, beside the baseline.", r.ShortGame)) &&
			yield(TableOf("short_sided", "What being short-sided costs, at like distance.", r.ShortSided)) &&
			yield(TableOf("putting", "Share made, leave, three-putts and strokes gained by length of putt.", r.Putting)) &&
			yield(TableOf("putting_ground", "Putts by slope and by break.", r.PuttingGround)) &&
			yield(TableOf("putting_ground_differences", "Uphill beside downhill and one break beside the other, at like distance.", r.PuttingGroundDifferences)) &&
			yield(TableOf("putting_model", "Start line and pace, and what each would gain at the benchmark's.", r.PuttingModel)) &&
			yield(TableOf("wind_slope", "Long or short against plays-like distance, by wind and slope.", r.WindSlope)) &&
			yield(TableOf("wind_slope_effects", "The player's own yards per mph and per yard of climb, beside the rule of thumb.", r.WindSlopeEffects)) &&
			yield(TableOf("aim", "Where to aim when the hole is cut near a side. "+AimAssumptions, r.Aim)) &&
			yield(TableOf("miss_pattern", "Where approaches finish around the hole, long or short by left or right, with the ellipses of half and of 90 %.", r.MissPattern)) &&
			yield(TableOf("scoring", "Score to par by par, nine and length of hole, and counts from eagle to worse than double.", r.Scoring)) &&
			yield(TableOf("bounce_back", "Under par straight after over par.", r.BounceBack)) &&
			yield(TableOf("course_holes", "The holes of a course played five times or more.", r.CourseHoles)) &&
			yield(TableOf("course_hole_clubs", "The clubs used off the tee of these holes.", r.CourseHoleClubs)) &&
			yield(TableOf("costly_shots", "The costliest shots of the season.", r.CostlyShots)) &&
			yield(TableOf("double_shots", "For each double or worse, the shots that lost the strokes.", r.DoubleShots)) &&
			yield(TableOf("double_causes", "What doubles are made of, by class and penalty.", r.DoubleCauses)) &&
			yield(TableOf("verdicts", "Losses by fault and by intent where noted.", r.Verdicts)) &&
			yield(TableOf("trend", "Rolling strokes gained by class.", r.Trend)) &&
			yield(TableOf("trend_change", "Before against after, with interval and permutation p.", r.TrendChange)) &&
			yield(TableOf("goal", "The chance of the goal in one round.", r.Goal)) &&
			yield(TableOf("goal_classes", "What each class would have to give to bring the mean to the goal.", r.GoalClasses)) &&
			yield(TableOf("goal_after", "The chance of the goal after each priority is closed.", r.GoalAfter)) &&
			yield(TableOf("handicap", "An estimate: only an authorised association issues a Handicap Index.", r.Handicap))
	}
}

// Append adds the results of players that come after these. Ranks of a squad are
// to be found anew (RankSquad) once all are there.
func (r *Results) Append(more *Results) {
	before := r.Warnings
	all, further := reflect.ValueOf(r).Elem(), reflect.ValueOf(more).Elem()
	for i := range all.NumField() {
		all.Field(i).Set(reflect.AppendSlice(all.Field(i), further.Field(i)))
	}
	r.Warnings = before
	for _, warning := range more.Warnings {
		if warning.Player != "" || !slices.Contains(before, warning) { // what is nobody's is said once
			r.Warnings = append(r.Warnings, warning)
		}
	}
}

// OfSquad is what a squad too large to show player by player is shown by: of
// strokes gained only those of all strokes.
func (r *Results) OfSquad() *Results {
	squad := &Results{Seasons: r.Seasons, Squad: r.Squad, Warnings: r.Warnings}
	for _, row := range r.StrokesGained {
		if row.GroupKind == ByTotal {
			squad.StrokesGained = append(squad.StrokesGained, row)
		}
	}
	return squad
}

// Of is the results of one player alone, with the warnings that are nobody's.
func (r *Results) Of(player string) *Results {
	own := &Results{}
	all, kept := reflect.ValueOf(r).Elem(), reflect.ValueOf(own).Elem()
	for i := range all.NumField() {
		rows, into := all.Field(i), kept.Field(i)
		for j := range rows.Len() {
			if name := rows.Index(j).FieldByName("Player").String(); name == player {
				into.Set(reflect.Append(into, rows.Index(j)))
			}
		}
	}
	own.Warnings = nil
	for _, warning := range r.Warnings {
		if warning.Player == player || warning.Player == "" {
			own.Warnings = append(own.Warnings, warning)
		}
	}
	return own
}
