package metrics

import (
	"fmt"
	"math"

	"roundmill/ingest"
	"roundmill/transform"
)

// TeeClub is one row of the table tee_clubs: what one club of a player does off
// the tee of par 4s and 5s. Longest clubs come first.
type TeeClub struct {
	Player           string  `col:"player" about:"player as named in the log, null when the log names none"`
	Club             string  `col:"club" about:"club in one spelling"`
	N                int64   `col:"n" about:"strokes with it from the tee of par 4s and 5s, second balls among them; par 6s are left out"`
	NDistance        int64   `col:"n_distance" about:"of these, strokes without a penalty whose finish is known: distances are over them"`
	MedianYd         float64 `col:"median_yd" unit:"yd" about:"median distance gained towards the hole: to_hole before less after"`
	MedianLoYd       float64 `col:"median_lo_yd" unit:"yd" about:"lower end of its 90 % interval (order statistics)"`
	MedianHiYd       float64 `col:"median_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	P10Yd            float64 `col:"p10_yd" unit:"yd" about:"10th percentile of the distance, definition 7 of Hyndman and Fan"`
	P90Yd            float64 `col:"p90_yd" unit:"yd" about:"90th percentile of the distance"`
	MeanYd           float64 `col:"mean_yd" unit:"yd" about:"mean distance"`
	SdYd             float64 `col:"sd_yd" unit:"yd" about:"standard deviation of the distance"`
	NFairway         int64   `col:"n_fairway_known" about:"of n, strokes of which it is known whether they hit the fairway"`
	FairwayShare     float64 `col:"fairway_share" unit:"share" about:"share of these that finished on the fairway or the green without a penalty"`
	FairwayLo        float64 `col:"fairway_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	FairwayHi        float64 `col:"fairway_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	PenaltyShare     float64 `col:"penalty_share" unit:"share" about:"share of n that cost a penalty"`
	PenaltyLo        float64 `col:"penalty_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	PenaltyHi        float64 `col:"penalty_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	NSide            int64   `col:"n_side_known" about:"of n, strokes whose miss to the side of the target is known, with a penalty or without: from left_right, or from positions and aim_left_right"`
	LeftShare        float64 `col:"left_15yd_share" unit:"share" about:"share of these that missed the target by more than 15 yd to the left"`
	LeftLo           float64 `col:"left_15yd_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	LeftHi           float64 `col:"left_15yd_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	RightShare       float64 `col:"right_15yd_share" unit:"share" about:"share of these that missed the target by more than 15 yd to the right"`
	RightLo          float64 `col:"right_15yd_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	RightHi          float64 `col:"right_15yd_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	StrokesGainedPer float64 `col:"strokes_gained_per_shot" unit:"strokes" about:"mean strokes gained a stroke"`
	StrokesGainedLo  float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	StrokesGainedHi  float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline         string  `col:"baseline" about:"what strokes gained are measured against"`
}

// wideYd is the miss to the side past which a tee shot counts as left or right:
// about half a fairway.
const wideYd = 15

// TeeClubFigures adds up strokes from the tee of par 4s and 5s by club.
type TeeClubFigures struct {
	options Options
	players byPlayer[teePlayer]
}

type teePlayer struct {
	rounds   roundList
	clubs    map[string]*teeClub
	unnamed  int64 // tee shots without a club
	unplaced int64 // holes that name a club and are left out of the differences
}

// teeClub is the sums of one club.
type teeClub struct {
	penalties int64
	distances distances
	fairways  roundSums             // hit, of those of which it is known
	sides     roundSums             // far left and far right, of those of which the miss is known
	strokes   roundSums             // strokes gained where known, and how often they are
	holes     map[teeHole]roundSums // see tee_club_differences.go
}

func newTeeClubFigures(options Options) *TeeClubFigures {
	return &TeeClubFigures{options: options, players: byPlayer[teePlayer]{}}
}

// Add adds the tee shots of a batch.
func (f *TeeClubFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		player := f.players.of(s.Player.At(int(from)))
		place := player.rounds.add(keyOf(s, int(from)))
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			from, to := s.RowRange(hole)
			if s.Par[from] != 4 && s.Par[from] != 5 {
				continue
			}
			player.addHole(s, hole, place)
			for row := from; row < to; row++ {
				if s.Class[row] != transform.TeeShot {
					continue
				}
				if name := s.Club.At(row); name != "" {
					player.club(name).add(s, row, place)
				} else {
					player.unnamed++
				}
			}
		}
	}
}

func (p *teePlayer) club(name string) *teeClub {
	if p.clubs == nil {
		p.clubs = map[string]*teeClub{}
	}
	club := p.clubs[name]
	if club == nil {
		club = &teeClub{holes: map[teeHole]roundSums{}}
		p.clubs[name] = club
	}
	return club
}

func (c *teeClub) add(s *transform.Shots, row int, round int32) {
	switch finish := s.FinishCategory[row]; {
	case s.Penalty[row] > 0:
		c.penalties++
		c.fairways.add(round, 0, 0)
	case finish != ingest.NoCategory:
		c.fairways.add(round, indicator(finish == ingest.Fairway || finish == ingest.Green || finish == ingest.Holed), 0)
	}
	if yards := s.ToHoleYd[row] - s.FinishYd[row]; s.Penalty[row] == 0 && !math.IsNaN(yards) {
		c.distances.add(round, yards)
	}
	if right := s.RightOfTargetYd(row); !math.IsNaN(right) {
		c.sides.add(round, indicator(right < -wideYd), indicator(right > wideYd))
	}
	if gained := s.StrokesGained[row]; math.IsNaN(gained) {
		c.strokes.add(round, 0, 0)
	} else {
		c.strokes.add(round, gained, 1)
	}
}

// Rows are the finished rows: players in order, longest clubs first.
func (f *TeeClubFigures) Rows() []TeeClub {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *teePlayer) (rows []TeeClub) {
		draws := draws.ofPlayer(player.rounds)
		for _, club := range player.longestFirst() {
			row := player.clubs[club].row(draws)
			row.Player, row.Club, row.Baseline = name, club, f.options.Baseline
			rows = append(rows, row)
		}
		return rows
	})
}

func (p *teePlayer) longestFirst() []string {
	return longestFirst(p.clubs, func(c *teeClub) *distances { return &c.distances })
}

func (c *teeClub) row(draws playerDraws) TeeClub {
	strokes := c.strokes.inOrder(draws.ranks)
	median, ofMedian := c.distances.median()
	fairway, ofFairway := c.fairways.share(0)
	penalty, ofPenalty := shareOverRounds(c.penalties, strokes.n(), len(strokes))
	left, ofLeft := c.sides.share(0)
	right, ofRight := c.sides.share(1)
	gained, ofGained := ratioOverRounds(strokes.values(0, draws.rounds), strokes.values(1, draws.rounds), draws.from)
	return TeeClub{
		N: strokes.n(), NDistance: int64(c.distances.moments.N()),
		MedianYd: median, MedianLoYd: ofMedian.Lo, MedianHiYd: ofMedian.Hi,
		P10Yd: c.distances.quantiles.Quantile(0.10), P90Yd: c.distances.quantiles.Quantile(0.90),
		MeanYd: c.distances.moments.Mean(), SdYd: c.distances.moments.StandardDeviation(),
		NFairway: c.fairways.n(), FairwayShare: fairway, FairwayLo: ofFairway.Lo, FairwayHi: ofFairway.Hi,
		PenaltyShare: penalty, PenaltyLo: ofPenalty.Lo, PenaltyHi: ofPenalty.Hi,
		NSide: c.sides.n(), LeftShare: left, LeftLo: ofLeft.Lo, LeftHi: ofLeft.Hi,
		RightShare: right, RightLo: ofRight.Lo, RightHi: ofRight.Hi,
		StrokesGainedPer: gained, StrokesGainedLo: ofGained.Lo, StrokesGainedHi: ofGained.Hi,
	}
}

// warnings names what the log leaves out of the figures off the tee.
func (f *TeeClubFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		player := f.players[name]
		warn := func(format string, args ...any) {
			warnings = append(warnings, Warning{"tee_clubs", name, fmt.Sprintf(format, args...)})
		}
		var n, sides int64
		for _, club := range player.clubs {
			n += club.strokes.n()
			sides += club.sides.n()
		}
		if player.unnamed > 0 {
			warn("%d of %d tee shots on par 4s and 5s are left out: the column club names none", player.unnamed, player.unnamed+n)
		}
		if sides < n {
			warn("left or right is not known of %d of %d tee shots: left_right is not written, nor are positions of ball and target", n-sides, n)
		}
		if player.unplaced > 0 {
			warn("holes that are not complete or out of the baseline's reach, left out of the differences between clubs: %d", player.unplaced)
		}
	}
	return warnings
}
