package metrics

import (
	"maps"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// BetweenClubs is one row of the table between_clubs: the approaches of a player
// from a clean lie that asked for a distance between two neighbouring clubs, the
// middle half of the gap between their medians, beside those that asked for one
// near either club, the rest of the gap. It tells how often the player lives
// between clubs and whether that costs. Clubs are neighbours by
// [ClubYardage.LongerClub]; a distance is the one asked for, plays-like where
// wind or slope is logged, in whole yards. Penalties count here, lay ups and
// getting out do not.
type BetweenClubs struct {
	Player       string  `col:"player" about:"player as named in the log, null when the log names none"`
	ShorterClub  string  `col:"shorter_club" about:"the shorter of two neighbouring clubs"`
	LongerClub   string  `col:"longer_club" about:"the longer one"`
	FromYd       float64 `col:"from_yd" unit:"yd" about:"lower edge of the middle half of the gap between their medians"`
	ToYd         float64 `col:"to_yd" unit:"yd" about:"upper edge"`
	Rounds       int64   `col:"rounds" about:"rounds of the player whose strokes are logged"`
	N            int64   `col:"n" about:"approaches from clean lies, with any club, that asked for a distance in the middle half: plays_like_yd, else to_hole_yd, one of 152.9 yd as the middle of its whole yard, 152.5; those with a penalty count"`
	Gained       float64 `col:"strokes_gained_per_shot" unit:"strokes" about:"mean strokes gained of these"`
	GainedLo     float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	GainedHi     float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	NNear        int64   `col:"n_near" about:"approaches that asked for a distance in the rest of the gap, near either club"`
	GainedNear   float64 `col:"near_strokes_gained_per_shot" unit:"strokes" about:"mean strokes gained of these"`
	Difference   float64 `col:"difference" unit:"strokes" about:"strokes gained a shot between clubs less near one: below zero it costs to be between"`
	DifferenceLo float64 `col:"difference_lo" unit:"strokes" about:"lower end of its 90 % interval (from those of the means, Zou and Donner 2008)"`
	DifferenceHi float64 `col:"difference_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline     string  `col:"baseline" about:"what strokes gained are measured against"`
}

// askedFor are the strokes gained of approaches from clean lies by the whole
// yards asked for.
type askedFor map[int]*roundSums

func (a *askedFor) at(yards int) *roundSums {
	if *a == nil {
		*a = askedFor{}
	}
	if (*a)[yards] == nil {
		(*a)[yards] = &roundSums{}
	}
	return (*a)[yards]
}

func (a *askedFor) add(s *transform.Shots, row int, round int32) {
	yards := s.PlaysLikeYd[row]
	if math.IsNaN(yards) {
		yards = s.ToHoleYd[row]
	}
	if gained := s.StrokesGained[row]; !math.IsNaN(gained) && !math.IsNaN(yards) {
		a.at(int(math.Floor(yards))).add(round, gained, 0)
	}
}

// where are the approaches the middle of whose whole yard is chosen, in the order
// of the rounds, each round once.
func (a askedFor) where(draws playerDraws, chosen func(yards float64) bool) roundSums {
	byRank := make(roundSums, draws.rounds)
	for _, yards := range slices.Sorted(maps.Keys(a)) {
		if !chosen(float64(yards) + 0.5) {
			continue
		}
		for _, sum := range *a[yards] {
			rank := draws.ranks[sum.round]
			byRank[rank].round = rank
			byRank[rank].n += sum.n
			byRank[rank].sums[0] += sum.sums[0]
		}
	}
	return slices.DeleteFunc(byRank, func(sum roundSum) bool { return sum.n == 0 })
}

// BetweenRows are the finished rows of between_clubs: a row for each two
// neighbouring clubs, longest first, where anything was asked for between them.
func (f *ClubYardageFigures) BetweenRows() []BetweenClubs {
	median := map[[2]string]float64{}
	clubs := f.Rows()
	for _, club := range clubs {
		median[[2]string{club.Player, club.Club}] = club.MedianYd
	}
	draws := resamplers{seed: f.options.Seed}
	var rows []BetweenClubs
	for _, club := range clubs {
		if club.LongerClub == "" {
			continue
		}
		player := f.players[club.Player]
		shorter, longer := club.MedianYd, median[[2]string{club.Player, club.LongerClub}]
		quarter := (longer - shorter) / 4
		draws := draws.ofPlayer(player.rounds)
		inMiddle := func(yards float64) bool { return yards >= shorter+quarter && yards < longer-quarter }
		between := player.asked.where(draws, inMiddle)
		if between.n() == 0 {
			continue
		}
		near := player.asked.where(draws, func(yards float64) bool { return yards >= shorter && yards < longer && !inMiddle(yards) })
		row := BetweenClubs{
			Player: club.Player, ShorterClub: club.Club, LongerClub: club.LongerClub, FromYd: shorter + quarter, ToYd: longer - quarter,
			Rounds: int64(len(player.rounds)), N: between.n(), NNear: near.n(), Baseline: f.options.Baseline,
		}
		gained, ofGained := between.mean(0, draws)
		gainedNear, ofNear := near.mean(0, draws)
		row.Gained, row.GainedLo, row.GainedHi = withEnds(gained, ofGained)
		row.GainedNear, row.Difference = gainedNear, gained-gainedNear
		difference := estimate.IndependentDifference(gained, gainedNear, ofGained, ofNear)
		row.DifferenceLo, row.DifferenceHi = difference.Lo, difference.Hi
		rows = append(rows, row)
	}
	return rows
}
