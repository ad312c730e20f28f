package metrics

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// SquadPlayer is one row of the table squad: one player beside the others, over
// complete holes, figures per 18 of them.
//
// The ranks from RankFrom to RankTo are those that a player may hold by total
// strokes gained: as many players are clearly better as RankFrom leaves above,
// and as many clearly worse as RankTo leaves below. Of two players one is
// clearly better when the interval of the difference, at a level that holds for
// all pairs together, leaves out zero. With 90 % all the true ranks lie within
// these ranges (M. Klein, T. Wright and J. Wieczorek 2020, "A joint confidence
// region for an overall ranking of populations", Journal of the Royal
// Statistical Society C 69:589-606; citation from memory).
//
// What it cannot tell: who played the harder courses, or in worse weather. The
// baseline knows distances and lies only.
type SquadPlayer struct {
	Player      string  `col:"player" about:"player as named in the log, null when the log names none"`
	RankFrom    Rank    `col:"rank_from" about:"the best rank by strokes_gained that cannot be ruled out, at 90 % for all players together; null: under 5 rounds or nobody to compare with"`
	RankTo      Rank    `col:"rank_to" about:"the worst rank that cannot be ruled out"`
	Rounds      int64   `col:"rounds" about:"rounds with a complete hole"`
	N           int64   `col:"n" about:"complete holes"`
	ToPar       float64 `col:"to_par" unit:"strokes" about:"score above par"`
	ToParLo     float64 `col:"to_par_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	ToParHi     float64 `col:"to_par_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Gained      float64 `col:"strokes_gained" unit:"strokes" about:"strokes gained by all strokes"`
	GainedLo    float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	GainedHi    float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	TeeShot     float64 `col:"tee_shot" unit:"strokes" about:"strokes gained by tee shots"`
	TeeShotLo   float64 `col:"tee_shot_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	TeeShotHi   float64 `col:"tee_shot_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Approach    float64 `col:"approach" unit:"strokes" about:"strokes gained by approaches"`
	ApproachLo  float64 `col:"approach_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	ApproachHi  float64 `col:"approach_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	ShortGame   float64 `col:"short_game" unit:"strokes" about:"strokes gained by the short game"`
	ShortGameLo float64 `col:"short_game_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	ShortGameHi float64 `col:"short_game_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Putt        float64 `col:"putt" unit:"strokes" about:"strokes gained by putts"`
	PuttLo      float64 `col:"putt_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	PuttHi      float64 `col:"putt_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline    string  `col:"baseline" about:"what strokes gained are measured against"`

	standardError float64 // of Gained
	rated         int     // rounds behind Gained
}

// SquadFigures adds up what a squad table needs of every round.
type SquadFigures struct {
	options Options
	players byPlayer[squadRounds]
}

type squadRounds struct{ rounds []squadRound }

// squadRound is the sums of one round: over its complete holes, and over those
// whose every stroke the baseline knows.
type squadRound struct {
	key          roundKey
	holes, toPar int32
	rated, cards int32                             // cards: holes of scorecards, which are not rated
	gained       [1 + transform.ClassCount]float64 // in all, then by class
}

func newSquadFigures(options Options) *SquadFigures {
	return &SquadFigures{options: options, players: byPlayer[squadRounds]{}}
}

// Add adds the complete holes of a batch.
func (f *SquadFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		r := squadRound{
			key: keyOf(s, int(from)), holes: s.Rounds.Holes[round], toPar: s.Rounds.Score[round] - s.Rounds.Par[round],
			cards: s.Rounds.Scorecards[round],
		}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] || math.IsNaN(s.Holes.StrokesGained[hole]) {
				continue
			}
			r.rated++
			from, to := s.RowRange(hole)
			for row := from; row < to; row++ {
				r.gained[0] += s.StrokesGained[row]
				r.gained[1+s.Class[row]] += s.StrokesGained[row]
			}
		}
		if r.holes > 0 {
			player := f.players.of(s.Player.At(int(from)))
			player.rounds = append(player.rounds, r)
		}
	}
}

// Rows are the finished rows, players in the order of their names, so that the
// order ranks nobody.
func (f *SquadFigures) Rows() []SquadPlayer {
	draws := resamplers{seed: f.options.Seed}
	rows := rowsOf(f.players, func(name string, player *squadRounds) []SquadPlayer {
		slices.SortFunc(player.rounds, func(a, b squadRound) int { return a.key.compare(b.key) })
		row := squadPlayer(player.rounds, &draws)
		row.Player, row.Baseline = name, f.options.Baseline
		return []SquadPlayer{row}
	})
	RankSquad(rows)
	return rows
}

func squadPlayer(rounds []squadRound, draws *resamplers) SquadPlayer {
	row := SquadPlayer{Rounds: int64(len(rounds))}
	values, per18 := make([]float64, len(rounds)), make([]float64, len(rounds))
	figure := func(value, lo, hi *float64) (standardError float64, informative int) {
		interval := draws.of(len(values)).Ratio(values, per18, Level)
		*value, standardError, informative = estimate.RatioError(values, per18)
		*lo, *hi = interval.Lo, interval.Hi
		return standardError, informative
	}
	for i, r := range rounds {
		row.N += int64(r.holes)
		values[i], per18[i] = float64(r.toPar), float64(r.holes)/18
	}
	figure(&row.ToPar, &row.ToParLo, &row.ToParHi)
	rounds = slices.DeleteFunc(slices.Clone(rounds), func(r squadRound) bool { return r.rated == 0 })
	values, per18 = values[:len(rounds)], per18[:len(rounds)]
	for i, r := range rounds {
		per18[i] = float64(r.rated) / 18
	}
	for group, at := range [...]struct{ value, lo, hi *float64 }{
		{&row.Gained, &row.GainedLo, &row.GainedHi},
		{&row.TeeShot, &row.TeeShotLo, &row.TeeShotHi},
		{&row.Approach, &row.ApproachLo, &row.ApproachHi},
		{&row.ShortGame, &row.ShortGameLo, &row.ShortGameHi},
		{&row.Putt, &row.PuttLo, &row.PuttHi},
	} {
		for i, r := range rounds {
			values[i] = r.gained[group]
		}
		standardError, informative := figure(at.value, at.lo, at.hi)
		if group == 0 {
			row.standardError, row.rated = standardError, informative
		}
	}
	return row
}

// RankSquad finds the ranks that every player may hold among all of these,
// whatever ranks they held among others.
//
// A pair is told apart by Welch's t over the rounds of both, the level of each
// pair being 1 - (1 - Level)/pairs (Bonferroni): B. L. Welch (1947), "The
// generalization of Student's problem when several different population
// variances are involved", Biometrika 34:28-35. Not by the bootstrap that draws
// the intervals: with ten players a pair needs the outermost thousandth on
// either side, two of 2,000 resamples, and with thirty less than one.
func RankSquad(rows []SquadPlayer) {
	var compared []*SquadPlayer
	for i := range rows {
		rows[i].RankFrom, rows[i].RankTo = 0, 0
		if rows[i].rated >= leastRounds {
			compared = append(compared, &rows[i])
		}
	}
	if len(compared) < 2 {
		return
	}
	pairs := float64(len(compared)*(len(compared)-1)) / 2
	apart := newTellsApart((1 - Level) / pairs)
	for _, player := range compared {
		player.RankFrom, player.RankTo = 1, Rank(len(compared))
	}
	for i, a := range compared {
		for _, b := range compared[i+1:] {
			switch apart.clearly(a, b) {
			case 1:
				b.RankFrom++
				a.RankTo--
			case -1:
				a.RankFrom++
				b.RankTo--
			}
		}
	}
}

// tellsApart compares players at one level; it keeps Student's percentiles,
// which are slow, by whole degrees of freedom.
type tellsApart struct {
	tail     float64
	critical map[int]float64
}

func newTellsApart(error float64) *tellsApart { return &tellsApart{error / 2, map[int]float64{}} }

// clearly is 1 when a is clearly better than b, -1 when clearly worse, else 0.
func (t *tellsApart) clearly(a, b *SquadPlayer) int {
	varianceA, varianceB := a.standardError*a.standardError, b.standardError*b.standardError
	variance := varianceA + varianceB
	difference := a.Gained - b.Gained
	if variance == 0 {
		return 0 // rounds without any spread say nothing of how far they would spread
	}
	// Welch and Satterthwaite; rounded down, which is on the safe side.
	freedom := int(variance * variance / (varianceA*varianceA/float64(a.rated-1) + varianceB*varianceB/float64(b.rated-1)))
	critical, known := t.critical[freedom]
	if !known {
		critical = distuv.StudentsT{Sigma: 1, Nu: float64(freedom)}.Quantile(1 - t.tail)
		t.critical[freedom] = critical
	}
	switch {
	case difference > critical*math.Sqrt(variance):
		return 1
	case difference < -critical*math.Sqrt(variance):
		return -1
	}
	return 0
}

// warnings names the players who are not ranked.
func (f *SquadFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		rounds := 0
		for _, r := range f.players[name].rounds {
			if r.rated > 0 {
				rounds++
			}
		}
		if rounds < leastRounds && f.options.playersOfLog(len(f.players)) > 1 {
			warnings = append(warnings, Warning{Figure: "squad", Player: name,
				Text: fmt.Sprintf("%d of the %d rounds with strokes gained that a rank needs: not ranked", rounds, leastRounds)})
		}
	}
	return warnings
}
