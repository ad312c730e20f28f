package metrics

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"roundmill/ingest"
	"roundmill/transform"
)

// TeeClubDifference is one row of the table tee_club_differences: what a player
// does with the shorter of two clubs off the tee, less what he does with the
// longer, on complete par 4s and 5s of like length. Holes are compared with
// holes of the same par and the same 25 yd of length; such a group counts as
// far as it has both clubs (nm/(n+m) for n and m holes), so that a hole on
// which only one of them is ever taken says nothing.
//
// Paid: the player chose. Where he takes the shorter club on the tighter of two
// holes of like length, part of the difference is the hole's.
type TeeClubDifference struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	LongerClub      string  `col:"longer_club" about:"the club with the longer median distance off the tee"`
	ShorterClub     string  `col:"shorter_club" about:"the club it is compared with"`
	HoleGroups      int64   `col:"hole_groups" about:"groups of holes of one par and 25 yd of length on which both were played"`
	NLonger         int64   `col:"n_longer" about:"holes in these groups begun with the longer club"`
	NShorter        int64   `col:"n_shorter" about:"holes in these groups begun with the shorter club"`
	NLongerAll      int64   `col:"n_longer_all" about:"complete holes begun with the longer club, whatever the length"`
	NShorterAll     int64   `col:"n_shorter_all" about:"complete holes begun with the shorter club, whatever the length"`
	StrokesGained   float64 `col:"strokes_gained_difference" unit:"strokes" about:"strokes gained by the tee shot, shorter less longer club, holes of like length weighed by nm/(n+m): above zero the shorter one is the better"`
	StrokesGainedLo float64 `col:"strokes_gained_difference_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	StrokesGainedHi float64 `col:"strokes_gained_difference_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Score           float64 `col:"score_difference" unit:"strokes" about:"score to par of the hole, shorter less longer club: below zero the shorter one is the better"`
	ScoreLo         float64 `col:"score_difference_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	ScoreHi         float64 `col:"score_difference_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what strokes gained are measured against"`
}

// likeLengthYd is the width of a group of holes of like length.
const likeLengthYd = 25

// teeHole is a group of holes that are alike: of one par, and of the same 25 yd
// of length.
type teeHole struct{ par, step int32 }

// addHole adds the first stroke of a complete hole to its club: strokes gained
// by it, and the score to par of the hole.
func (p *teePlayer) addHole(s *transform.Shots, hole int, round int32) {
	row, _ := s.RowRange(hole)
	name := s.Club.At(row)
	if name == "" || s.Category[row] != ingest.Tee {
		return
	}
	gained, length := s.StrokesGained[row], s.Holes.LengthYd[hole]
	if !s.Holes.Complete[hole] || math.IsNaN(gained) || math.IsNaN(length) {
		p.unplaced++
		return
	}
	club := p.club(name)
	kind := teeHole{s.Par[row], int32(length / likeLengthYd)}
	sums := club.holes[kind]
	sums.add(round, gained, float64(s.Holes.Score[hole]-s.Par[row]))
	club.holes[kind] = sums
}

// DifferenceRows are the finished rows of tee_club_differences: players in
// order, every pair of clubs that were played on holes of like length, longest
// first.
func (f *TeeClubFigures) DifferenceRows() []TeeClubDifference {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *teePlayer) (rows []TeeClubDifference) {
		draws := draws.ofPlayer(player.rounds)
		clubs := player.longestFirst()
		for i, longer := range clubs {
			for _, shorter := range clubs[i+1:] {
				all := alike(player.clubs[longer], player.clubs[shorter], draws.ranks)
				shared := all.shared()
				if len(shared) == 0 {
					continue
				}
				n, nAll := shared.n(), all.n()
				row := TeeClubDifference{
					Player: name, LongerClub: longer, ShorterClub: shorter, HoleGroups: int64(len(shared)),
					NLonger: n[0], NShorter: n[1], NLongerAll: nAll[0], NShorterAll: nAll[1], Baseline: f.options.Baseline,
				}
				gained, ofGained := shared.difference(0, draws)
				score, ofScore := shared.difference(1, draws)
				row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi = gained, ofGained.Lo, ofGained.Hi
				row.Score, row.ScoreLo, row.ScoreHi = score, ofScore.Lo, ofScore.Hi
				rows = append(rows, row)
			}
		}
		return rows
	})
}

// alike puts the holes begun with two clubs side by side, group by group.
func alike(longer, shorter *teeClub, ranks []int32) (groups likeForLike) {
	kinds := slices.AppendSeq(slices.Collect(maps.Keys(longer.holes)), maps.Keys(shorter.holes))
	slices.SortFunc(kinds, func(a, b teeHole) int { return cmp.Or(cmp.Compare(a.par, b.par), cmp.Compare(a.step, b.step)) })
	for _, kind := range slices.Compact(kinds) {
		groups = append(groups, [2]roundSums{longer.holes[kind].inOrder(ranks), shorter.holes[kind].inOrder(ranks)})
	}
	return groups
}
