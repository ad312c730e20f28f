package metrics

import "reflect"

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

// Tables are the figures as tables, in the order in which they are listed.
func (r *Results) Tables() []Table {
	return []Table{
		TableOf("seasons", "What each player's log holds, with scores and counts over its complete holes.", r.Seasons),
		TableOf("strokes_gained", "Strokes gained a round and per 100 strokes by group of strokes, over complete holes.", r.StrokesGained),
		TableOf("approach_proximity", "Where approaches at the green finished, by player, lie group and yardage band.", r.Approach),
		TableOf("priorities", "Strokes a round to be had by skill cell, shrunk towards its class, ranked where there are shots enough.", r.Priorities),
		TableOf("squad", "A row a player, with the range of ranks that the rounds cannot tell apart.", r.Squad),
		TableOf("tee_clubs", "What each club does off the tee of a par 4 or 5.", r.TeeClubs),
		TableOf("tee_club_differences", "Each pair of clubs off the tee, on holes of like length.", r.TeeClubDifferences),
		TableOf("club_yardages", "How far each club goes from a clean lie, and the gap to the next.", r.ClubYardages),
		TableOf("between_clubs", "What asking for a distance between two neighbouring clubs costs.", r.BetweenClubs),
		TableOf("distance_control", "Long or short inside 120 yd, by ten-yard step.", r.DistanceControl),
		TableOf("short_game", "Up and down by lie word and distance, beside the baseline.", r.ShortGame),
		TableOf("short_sided", "What being short-sided costs, at like distance.", r.ShortSided),
		TableOf("putting", "Share made, leave, three-putts and strokes gained by length of putt.", r.Putting),
		TableOf("putting_ground", "Putts by slope and by break.", r.PuttingGround),
		TableOf("putting_ground_differences", "Uphill beside downhill and one break beside the other, at like distance.", r.PuttingGroundDifferences),
		TableOf("putting_model", "Start line and pace, and what each would gain at the benchmark's.", r.PuttingModel),
		TableOf("wind_slope", "Long or short against plays-like distance, by wind and slope.", r.WindSlope),
		TableOf("wind_slope_effects", "The player's own yards per mph and per yard of climb, beside the rule of thumb.", r.WindSlopeEffects),
		TableOf("aim", "Where to aim when the hole is cut near a side. "+AimAssumptions, r.Aim),
		TableOf("miss_pattern", "Where approaches finish around the hole, long or short by left or right, with the ellipses of half and of 90 %.", r.MissPattern),
		TableOf("scoring", "Score to par by par, nine and length of hole, and counts from eagle to worse than double.", r.Scoring),
		TableOf("bounce_back", "Under par straight after over par.", r.BounceBack),
		TableOf("course_holes", "The holes of a course played five times or more.", r.CourseHoles),
		TableOf("course_hole_clubs", "The clubs used off the tee of these holes.", r.CourseHoleClubs),
		TableOf("costly_shots", "The costliest shots of the season.", r.CostlyShots),
		TableOf("double_shots", "For each double or worse, the shots that lost the strokes.", r.DoubleShots),
		TableOf("double_causes", "What doubles are made of, by class and penalty.", r.DoubleCauses),
		TableOf("verdicts", "Losses by fault and by intent where noted.", r.Verdicts),
		TableOf("trend", "Rolling strokes gained by class.", r.Trend),
		TableOf("trend_change", "Before against after, with interval and permutation p.", r.TrendChange),
		TableOf("goal", "The chance of the goal in one round.", r.Goal),
		TableOf("goal_classes", "What each class would have to give to bring the mean to the goal.", r.GoalClasses),
		TableOf("goal_after", "The chance of the goal after each priority is closed.", r.GoalAfter),
		TableOf("handicap", "An estimate: only an authorised association issues a Handicap Index.", r.Handicap),
	}
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
