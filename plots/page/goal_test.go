package page

import (
	"testing"

	"roundmill/metrics"
)

func TestGoalWords(t *testing.T) {
	said(t, "par", goalWords([]metrics.GoalChance{{Goal: "par", Method: metrics.ByHoles, Chance: 0.25, ChanceLo: 0.18, ChanceHi: 0.32}, {Goal: "par", Method: metrics.ByRounds, Chance: 0, ChanceLo: 0, ChanceHi: 0.06}}),
		"The chance of par or better in one round now: 25 % (18 to 32 %) made of single holes, under 1 % (0 to 6 %) as rounds were played.")
	said(t, "score", goalWords([]metrics.GoalChance{{Goal: "72", Method: metrics.ByHoles, Chance: 0.25, ChanceLo: unknown, ChanceHi: unknown}}), "The chance of 72 or better in one round now: 25 % made of single holes.")
	said(t, "under par, no whole round", goalWords([]metrics.GoalChance{{Goal: "par-3", Method: metrics.ByHoles, Chance: 0.25, ChanceLo: 0.18, ChanceHi: 0.32}, {Goal: "par-3", Method: metrics.ByRounds, Chance: unknown, ChanceLo: unknown, ChanceHi: unknown}}),
		"The chance of −3 to par or better in one round now: 25 % (18 to 32 %) made of single holes.")
	said(t, "shared", goalPartWords([]metrics.GoalClass{{Class: "tee shot", Gives: 0.9, GivesLo: 0.7, GivesHi: 1.1}, {Class: "putt", Gives: 0.01, GivesLo: 0, GivesHi: 0.9}}),
		"Shared by what each part loses, the strokes on the way there would come from: tee shots 0.9 (0.7 to 1.1).")
}
