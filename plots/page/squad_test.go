package page

import (
	"testing"

	"roundmill/metrics"
)

func TestSquadWordsRankNobodyThatTheRoundsDoNot(t *testing.T) {
	players := func(ranks ...metrics.Rank) (all []metrics.SquadPlayer) {
		for i := 0; i < len(ranks); i += 2 {
			all = append(all, metrics.SquadPlayer{Player: string(rune('A' + i/2)), RankFrom: ranks[i], RankTo: ranks[i+1]})
		}
		return all
	}
	said(t, "all settled", rankWords(players(1, 1, 2, 2)), "The rounds tell the 2 players apart.")
	said(t, "one not ranked", rankWords(players(1, 1, 0, 0, 2, 2)), "The rounds tell the 2 players apart. 1 player more has too few rounds with strokes gained to be ranked.")
	said(t, "one first", rankWords(players(2, 3, 2, 3, 1, 1)), "By strokes gained C is first; the others are told apart as far as their ranks say.")
	said(t, "nobody", rankWords(players(1, 3, 1, 3, 1, 3)), "The rounds do not tell the 3 players apart.")
	said(t, "two may be", rankWords(players(1, 2, 1, 2, 3, 3)), "Any of 2 players may be first by strokes gained: the rounds do not tell them apart.")
	said(t, "too few", rankWords(players(0, 0, 1, 1)), "There are too few rounds to set the players against each other.")
	said(t, "range", ranks(players(2, 4)[0]), "2 to 4")
	said(t, "single", ranks(players(2, 2)[0]), "2")
	said(t, "unranked", ranks(players(0, 0)[0]), "–")
}
