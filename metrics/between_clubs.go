package metrics

import (
	"math"

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
	N            int64   `col:"n" about:"approaches from clean lies, with any club, that asked for a distance in the middle half: plays_like_yd, else to_hole_yd, in whole yards"`
	Gained       float64 `col:"strokes_gained_per_shot" unit:"strokes" about:"mean strokes gained of these"`
	GainedLo     float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (Student)"`
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
type askedFor map[int]*estimate.Moments

func (a *askedFor) at(yards int) *estimate.Moments {
	if *a == nil {
		*a = askedFor{}
	}
	if (*a)[yards] == nil {
		(*a)[yards] = &estimate.Moments{}
	}
	return (*a)[yards]
}

func (a *askedFor) add(s *transform.Shots, row int) {
	yards := s.PlaysLikeYd[row]
	if math.IsNaN(yards) {
		yards = s.ToHoleYd[row]
	}
	if gained := s.StrokesGained[row]; !math.IsNaN(gained) && !math.IsNaN(yards) {
		a.at(int(math.Floor(yards))).Add(gained)
	}
}

// within are the approaches whose whole yard has its middle between two
// distances, the lower one included.
func (a askedFor) within(fromYd, toYd float64) (gained estimate.Moments) {
	for yards, at := range a {
		if middle := float64(yards) + 0.5; middle >= fromYd && middle < toYd {
			gained.Merge(*at)
		}
	}
	return gained
}

// BetweenRows are the finished rows of between_clubs: a row for each two
// neighbouring clubs, longest first, where anything was asked for between them.
func (f *ClubYardageFigures) BetweenRows() []BetweenClubs {
	median := map[[2]string]float64{}
	clubs := f.Rows()
	for _, club := range clubs {
		median[[2]string{club.Player, club.Club}] = club.MedianYd
	}
	var student studentIntervals
	var rows []BetweenClubs
	for _, club := range clubs {
		if club.LongerClub == "" {
			continue
		}
		player := f.players[club.Player]
		shorter, longer := club.MedianYd, median[[2]string{club.Player, club.LongerClub}]
		quarter := (longer - shorter) / 4
		between := player.asked.within(shorter+quarter, longer-quarter)
		if between.N() == 0 {
			continue
		}
		near := player.asked.within(shorter, shorter+quarter)
		near.Merge(player.asked.within(longer-quarter, longer))
		row := BetweenClubs{
			Player: club.Player, ShorterClub: club.Club, LongerClub: club.LongerClub, FromYd: shorter + quarter, ToYd: longer - quarter,
			Rounds: int64(len(player.rounds)), N: int64(between.N()), NNear: int64(near.N()), Baseline: f.options.Baseline,
		}
		row.Gained, row.GainedLo, row.GainedHi = student.mean(between)
		var nearInterval estimate.Interval
		row.GainedNear, nearInterval.Lo, nearInterval.Hi = student.mean(near)
		row.Difference = row.Gained - row.GainedNear
		difference := estimate.IndependentDifference(row.Gained, row.GainedNear, estimate.Interval{Lo: row.GainedLo, Hi: row.GainedHi}, nearInterval)
		row.DifferenceLo, row.DifferenceHi = difference.Lo, difference.Hi
		rows = append(rows, row)
	}
	return rows
}
