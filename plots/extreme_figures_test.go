package plots

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"roundmill/metrics"
)

// Figures of any size, names of any length, bands of any number: no text leaves
// its place in the charts of a player.
func TestNoTextTouchesAnotherInAnyChartOfAPlayer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		season := Season{Player: rapid.String().Draw(t, "player"), Baseline: rapid.String().Draw(t, "baseline"), Rounds: 1_000_000,
			Units: rapid.SampledFrom([]Units{Yards, Metres}).Draw(t, "units")}
		size := rapid.SampledFrom([]float64{0.001, 0.1, 1, 30}).Draw(t, "size")
		count := rapid.SampledFrom([]int64{1, 9, 10, 300, 34_000_000})
		value := func() float64 { return rapid.Float64Range(-size, size).Draw(t, "value") }
		interval := func(of float64) (lo, hi float64) {
			if rapid.IntRange(0, 5).Draw(t, "known") == 0 {
				return math.NaN(), math.NaN()
			}
			half := rapid.Float64Range(0, size).Draw(t, "half")
			return of - half, of + half
		}
		draw := func(chart *Chart, _ *Missing) {
			if chart != nil {
				assertLabelsHaveTheirPlace(t, chart)
			}
		}
		width := rapid.SampledFrom([]float64{5, 25, 100}).Draw(t, "band width")

		var parts []metrics.Priority
		var after []metrics.GoalAfter
		for i := range rapid.IntRange(1, 12).Draw(t, "parts") {
			row := part("short game", metrics.FromRecovery, 1000, math.NaN(), value(), 0, 0.5)
			row.Player, row.Cell, row.N, row.Rank = season.Player, fmt.Sprint(i), count.Draw(t, "n"), metrics.Rank(i%9)
			row.StrokesLo, row.StrokesHi = interval(row.StrokesToGain)
			row.PerRoundRaw = value()
			parts = append(parts, row)
			chance := rapid.Float64Range(0, 1).Draw(t, "chance")
			after = append(after, metrics.GoalAfter{Player: season.Player, Gain: row.Cell, HolesChance: chance, HolesLo: 0, HolesHi: 1, RoundsChance: chance, RoundsLo: chance, RoundsHi: 1})
		}
		draw(PrioritiesChart(season, parts))
		chances := chancesOf("par", rapid.Float64Range(0, 1).Draw(t, "by holes"), rapid.Float64Range(0, 1).Draw(t, "by rounds"), 0)
		for i := range chances {
			chances[i].Player, chances[i].N = season.Player, count.Draw(t, "n")
		}
		draw(GoalChart(season, chances, after, parts))

		rounds := rapid.IntRange(12, 40).Draw(t, "rounds")
		trend := rolling(rounds, "tee shot", "approach", "short game", "putt")
		var changes []metrics.TrendChange
		for i := range trend {
			trend[i].Player, trend[i].RoundGained = season.Player, value()
			if !math.IsNaN(trend[i].PerRound) {
				trend[i].PerRound = value()
				trend[i].PerRoundLo, trend[i].PerRoundHi = interval(trend[i].PerRound)
			}
		}
		for _, class := range []string{"all", "tee shot", "approach", "short game", "putt"} {
			change := changedBy(class, value(), size, 0.5)
			change.Player, change.BeforeRounds = season.Player, int64(rapid.IntRange(0, rounds).Draw(t, "before"))
			changes = append(changes, change)
		}
		draw(StrokesGainedTrendChart(season, trend, changes))

		var approaches []metrics.ApproachProximity
		var misses []metrics.MissPattern
		var aims []metrics.Aim
		for fromYd := 0.0; fromYd < 250; fromYd += width {
			for _, lie := range valueLies {
				row := worth(lie, fromYd, count.Draw(t, "n"), value(), 0)
				row.Player, row.StrokesGainedLo, row.StrokesGainedHi = season.Player, row.StrokesGainedPer-size, row.StrokesGainedPer+size
				approaches = append(approaches, row)
			}
			miss := leant(fromYd, rapid.SampledFrom([]int64{1, 12}).Draw(t, "misses"), value(), value(), size/2)
			miss.Player, miss.Most = season.Player, 3*size
			misses = append(misses, miss)
			for _, side := range []string{metrics.LeftSide, metrics.RightSide} {
				aim := aimed(fromYd, side, count.Draw(t, "n"), value(), size, value(), size)
				aim.Player = season.Player
				aims = append(aims, aim)
			}
		}
		draw(ApproachValueChart(season, approaches))
		draw(MissPatternChart(season, misses))
		draw(AimChart(season, aims))

		var clubs []metrics.TeeClub
		for range rapid.IntRange(1, 10).Draw(t, "clubs") {
			club := offTheTee(rapid.String().Draw(t, "club"), count.Draw(t, "n"), value(), size)
			club.Player = season.Player
			clubs = append(clubs, club)
		}
		pair := onLikeHoles(count.Draw(t, "holes"), value(), size)
		pair.Player, pair.NLonger, pair.ShorterClub, pair.LongerClub = season.Player, 34_000_000, clubs[0].Club, clubs[len(clubs)-1].Club
		draw(TeeClubsChart(season, clubs, []metrics.TeeClubDifference{pair}))
	})
}
