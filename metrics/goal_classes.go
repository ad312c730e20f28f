package metrics

import (
	"math"

	"roundmill/metrics/estimate"
)

// GoalClass is one row of the table goal_classes: what one class of strokes
// would have to give to bring one player's mean round to the goal.
//
// The way to go is the mean over par of the player's usual 18 holes (method
// holes of the table goal) less the goal. Gives shares it among the classes in
// proportion to what each loses to the baseline, nothing of it to a class that
// loses nothing; alone is where one class would have to be if it gave all of it,
// which may be further than anybody has got. At the baseline, the class gives
// what it loses now, alike on every round, and the others stay as they are.
type GoalClass struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	Goal            string  `col:"goal" about:"par, par and strokes over it, or a score over 18 holes"`
	Class           string  `col:"shot_class" about:"tee shot, approach, short game or putt"`
	Rounds          int64   `col:"rounds" about:"rounds with a complete hole"`
	N               int64   `col:"n" about:"complete holes whose strokes gained are known"`
	StrokesGained   float64 `col:"strokes_gained" unit:"strokes" about:"strokes gained per 18 complete holes now"`
	StrokesGainedLo float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	StrokesGainedHi float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Gives           float64 `col:"gives" unit:"strokes" about:"its share of the way to the goal, in proportion to what the classes lose; 0 where it loses nothing or the goal is met, null when none loses"`
	GivesLo         float64 `col:"gives_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	GivesHi         float64 `col:"gives_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Alone           float64 `col:"alone_strokes_gained" unit:"strokes" about:"strokes gained a round that the class would need to go all the way alone"`
	AloneLo         float64 `col:"alone_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	AloneHi         float64 `col:"alone_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	HolesChance     float64 `col:"at_baseline_chance_by_holes" unit:"share" about:"chance of the goal in one round with the class at the baseline, by holes; a class above it stays as it is"`
	HolesLo         float64 `col:"at_baseline_chance_by_holes_lo" unit:"share" about:"lower end of its 90 % interval, the gain taken as given"`
	HolesHi         float64 `col:"at_baseline_chance_by_holes_hi" unit:"share" about:"upper end of its 90 % interval"`
	RoundsChance    float64 `col:"at_baseline_chance_by_rounds" unit:"share" about:"the same by rounds"`
	RoundsLo        float64 `col:"at_baseline_chance_by_rounds_lo" unit:"share" about:"lower end of its 90 % interval, the gain taken as given"`
	RoundsHi        float64 `col:"at_baseline_chance_by_rounds_hi" unit:"share" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what strokes gained are measured against"`
}

// ClassRows are the finished rows: players in order, the four classes.
func (f *GoalFigures) ClassRows() []GoalClass {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *goalRounds) (rows []GoalClass) {
		o := player.outlook(f.goal, &draws)
		gains := make([]classGain, len(player.rounds))
		known, rounds := int64(0), 0 // with strokes gained
		for i := range player.rounds {
			gains[i] = player.rounds[i].classGain
			known += int64(gains[i].holes)
			if gains[i].holes > 0 {
				rounds++
			}
		}
		if known == 0 {
			return nil
		}
		var now classFigures
		var drawn [allPlace][]float64
		for class := range now {
			gained, per18 := columns(gains, class)
			row := GoalClass{
				Player: name, Goal: f.goal.String(), Class: className(class), Rounds: int64(len(gains)), N: known, Baseline: f.options.Baseline,
			}
			row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi = withEnds(ratioOverRounds(gained, per18, &draws))
			now[class], drawn[class] = row.StrokesGained, draws.of(len(gains)).Replicates(gained, per18)
			atBaseline := max(0, -now[class])
			row.HolesChance, row.HolesLo, row.HolesHi = o.byHoles(atBaseline)
			row.RoundsChance, row.RoundsLo, row.RoundsHi = o.byRounds(atBaseline)
			rows = append(rows, row)
		}
		way := o.byHole.mean() - float64(o.target)
		gives, alone := now.shareOut(way), now.goAlone(way)
		var givesDrawn, aloneDrawn [allPlace][]float64
		for i := range Resamples {
			var then classFigures
			for class := range then {
				then[class] = drawn[class][i]
			}
			way := o.meanDrawn[i] - float64(o.target)
			gives, alone := then.shareOut(way), then.goAlone(way)
			for class := range then {
				givesDrawn[class] = append(givesDrawn[class], gives[class])
				aloneDrawn[class] = append(aloneDrawn[class], alone[class])
			}
		}
		for class := range rows {
			row := &rows[class]
			row.Alone, row.AloneLo, row.AloneHi = withEnds(alone[class], estimate.Percentile(aloneDrawn[class], rounds, Level))
			ofGives := estimate.Percentile(givesDrawn[class], rounds, Level)
			if math.IsNaN(gives[class]) {
				ofGives = estimate.None()
			}
			row.Gives, row.GivesLo, row.GivesHi = withEnds(gives[class], ofGives)
		}
		return rows
	})
}

// classFigures is a figure of every class.
type classFigures [allPlace]float64

// shareOut is what each class gives of the way, in proportion to the strokes
// that it loses; NaN when none loses any and there is a way to go.
func (gained classFigures) shareOut(way float64) (gives classFigures) {
	if way <= 0 {
		return gives
	}
	lost := 0.0
	for _, strokes := range gained {
		lost += max(0, -strokes)
	}
	for class, strokes := range gained {
		gives[class] = way * max(0, -strokes) / lost
	}
	return gives
}

// goAlone is where each class would be if it alone gave all of the way.
func (gained classFigures) goAlone(way float64) classFigures {
	for class := range gained {
		gained[class] += max(0, way)
	}
	return gained
}
