package metrics

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"testing"

	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
)

func squadOf(t testing.TB, logs ...[]byte) []SquadPlayer {
	t.Helper()
	figures := newSquadFigures(Options{Baseline: "test", Seed: 1})
	for _, log := range logs {
		for _, batch := range enriched(t, log) {
			figures.Add(batch)
		}
	}
	return figures.Rows()
}

func named(player golfer.Player, name string) golfer.Player {
	player.Name = name
	return player
}

// Players of the same skill are told apart in no more than one squad of ten, for
// a whole squad together: that is what 90 % for all pairs says. The bound is
// three standard errors above, 0.1 + 3 √(0.1 x 0.9/200).
func TestEqualPlayersAreSeldomToldApart(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 1,000 seasons")
	}
	const squads, players, rounds = 200, 5, 20
	apart := 0
	for squad := range uint64(squads) {
		var logs [][]byte
		for i := range uint64(players) {
			logs = append(logs, simulated(t, 1+squad*players+i, named(steady(), fmt.Sprint("Player ", i)), rounds))
		}
		rows := squadOf(t, logs...)
		if len(rows) != players {
			t.Fatalf("%d rows", len(rows))
		}
		if slices.ContainsFunc(rows, func(r SquadPlayer) bool { return r.RankFrom != 1 || r.RankTo != players }) {
			apart++
		}
	}
	t.Logf("told apart in %d of %d squads of equals", apart, squads)
	if apart > 32 {
		t.Errorf("equal players are told apart in %d of %d squads", apart, squads)
	}
}

func TestClearlyDifferentPlayersAreToldApart(t *testing.T) {
	worse := steady()
	for i := range worse.Clubs {
		worse.Clubs[i].LineDeg *= 2
		worse.Clubs[i].DistancePct *= 2
	}
	rows := squadOf(t,
		simulated(t, 1, named(steady(), "Ardis Askelind"), 20), simulated(t, 2, named(worse, "Brevik Brindmoor"), 20),
		simulated(t, 3, named(steady(), "Calla Corvasse"), 20), simulated(t, 4, named(worse, "Dunmar Dellowin"), 3))
	var ranks [][2]Rank
	for _, row := range rows {
		ranks = append(ranks, [2]Rank{row.RankFrom, row.RankTo})
	}
	want := [][2]Rank{{1, 2}, {3, 3}, {1, 2}, {0, 0}} // the last has too few rounds, and is nobody's rank
	if !slices.Equal(ranks, want) {
		t.Errorf("ranks %v, expected %v: %+v", ranks, want, rows)
	}
	if last := rows[3]; last.Rounds != 3 || math.IsNaN(last.Gained) || !math.IsNaN(last.GainedLo) || !math.IsNaN(last.PuttHi) {
		t.Errorf("three rounds: %+v", last)
	}
}

// The true order lies in the ranges of nine squads of ten; more, since
// Bonferroni errs on the safe side.
func TestTrueRanksLieInTheRanges(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 480 seasons")
	}
	const players, squads, rounds, manyRounds = 6, 60, 40, 3000
	var field []golfer.Player
	for i := range players {
		player := named(golfer.Amateur(21, i), fmt.Sprint("Player ", i))
		player.Improvement = 0
		field = append(field, player)
	}
	var truth []float64
	for _, player := range field {
		truth = append(truth, squadOf(t, simulated(t, 5000, player, manyRounds))[0].Gained)
	}
	held, ranks := 0, Rank(0)
	for squad := range uint64(squads) {
		var logs [][]byte
		for i, player := range field {
			logs = append(logs, simulated(t, 10000+squad*players+uint64(i), player, rounds))
		}
		all := true
		for i, row := range squadOf(t, logs...) {
			rank := Rank(1)
			for _, other := range truth {
				if other > truth[i] {
					rank++
				}
			}
			all = all && row.RankFrom <= rank && rank <= row.RankTo
			ranks += row.RankTo - row.RankFrom + 1
		}
		if all {
			held++
		}
	}
	t.Logf("truth %.2f; all ranks held in %d of %d squads; %.1f ranks wide", truth, held, squads, float64(ranks)/players/squads)
	if held < squads*85/100 {
		t.Errorf("all true ranks lie in the ranges in %d of %d squads", held, squads)
	}
	if ranks == players*players*squads {
		t.Error("nobody was ever told apart: the test says nothing")
	}
}

func TestSquadFiguresAreThoseOfTheOtherTables(t *testing.T) {
	results := figuresOf(t, demo.CSV)
	row := squadOf(t, demo.CSV)[0]
	season := results.Seasons[0]
	if row.ToPar != season.ToPar || row.ToParLo != season.ToParLo || row.ToParHi != season.ToParHi || row.N != season.Holes {
		t.Errorf("to par %v (%v to %v), season %v (%v to %v)", row.ToPar, row.ToParLo, row.ToParHi, season.ToPar, season.ToParLo, season.ToParHi)
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
	for group, got := range map[string][3]float64{
		"all": {row.Gained, row.GainedLo, row.GainedHi}, "tee shot": {row.TeeShot, row.TeeShotLo, row.TeeShotHi},
		"approach": {row.Approach, row.ApproachLo, row.ApproachHi}, "short game": {row.ShortGame, row.ShortGameLo, row.ShortGameHi},
		"putt": {row.Putt, row.PuttLo, row.PuttHi},
	} {
		want := find(t, results.StrokesGained, func(r StrokesGained) bool { return r.Group == group })
		if !near(got[0], want.PerRound) || !near(got[1], want.PerRoundLo) || !near(got[2], want.PerRoundHi) {
			t.Errorf("%s: %v, in strokes_gained %v (%v to %v)", group, got, want.PerRound, want.PerRoundLo, want.PerRoundHi)
		}
	}
	if !near(row.TeeShot+row.Approach+row.ShortGame+row.Putt, row.Gained) {
		t.Errorf("classes do not add up to %v: %+v", row.Gained, row)
	}
	if row.RankFrom != 0 || row.RankTo != 0 {
		t.Errorf("the only player is ranked %d to %d", row.RankFrom, row.RankTo)
	}
}

func TestSquadIsTheSameInAnyBatchesAndOrder(t *testing.T) {
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Field(1, 4, 12)); err != nil {
		t.Fatal(err)
	}
	whole := squadOf(t, log.Bytes())
	figures := newSquadFigures(Options{Baseline: "test", Seed: 1})
	rounds := roundsOf(log.Bytes())
	for _, round := range slices.Backward(rounds) {
		for _, batch := range enriched(t, round) {
			figures.Add(batch)
		}
	}
	sameRows(t, "squad", whole, figures.Rows())
}
