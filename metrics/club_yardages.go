package metrics

import (
	"fmt"
	"math"

	"roundmill/ingest"
	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// ClubYardage is one row of the table club_yardages: how far one club of a
// player goes from a clean lie, the tee of a par 3 or the fairway, on
// approaches without a penalty that are not meant to lay up or get out. Longest
// clubs come first. Nothing in a log tells a part swing from a full one, so
// that the figures of a wedge take in both.
//
// The distance is the one gained along the line of play, so that a ball past
// the hole has gone farther than to the hole: to_hole_yd + long_yd. Where the
// miss is not logged, to_hole less what is left has to do, which is short by
// about the size of the miss. Where wind or slope is logged the rule of thumb of
// plays_like_yd makes of it what the club would have gone in still air on the
// level.
type ClubYardage struct {
	Player     string  `col:"player" about:"player as named in the log, null when the log names none"`
	Club       string  `col:"club" about:"club in one spelling"`
	N          int64   `col:"n" about:"approaches with it from the tee of a par 3 or the fairway, without penalties, lay ups and getting out"`
	NPlaysLike int64   `col:"n_plays_like" about:"of these, shots brought to still air and level ground, by the rule of plays_like_yd, because wind or slope is logged"`
	NAlong     int64   `col:"n_along" about:"of these, shots whose distance along the line of play is known; the others are to_hole less what is left"`
	MeanYd     float64 `col:"mean_yd" unit:"yd" about:"mean distance"`
	SdYd       float64 `col:"sd_yd" unit:"yd" about:"standard deviation of the distance"`
	P10Yd      float64 `col:"p10_yd" unit:"yd" about:"10th percentile, definition 7 of Hyndman and Fan"`
	P25Yd      float64 `col:"p25_yd" unit:"yd" about:"25th percentile"`
	MedianYd   float64 `col:"median_yd" unit:"yd" about:"median"`
	MedianLoYd float64 `col:"median_lo_yd" unit:"yd" about:"lower end of its 90 % interval (order statistics)"`
	MedianHiYd float64 `col:"median_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	P75Yd      float64 `col:"p75_yd" unit:"yd" about:"75th percentile"`
	P90Yd      float64 `col:"p90_yd" unit:"yd" about:"90th percentile"`
	LongerClub string  `col:"longer_club" about:"the next longer club, by median, among clubs with ten shots or more; null for fewer"`
	GapYd      float64 `col:"gap_yd" unit:"yd" about:"median of the next longer club less median of this one"`
	GapLoYd    float64 `col:"gap_lo_yd" unit:"yd" about:"lower end of its 90 % interval (from those of the medians, Zou and Donner 2008)"`
	GapHiYd    float64 `col:"gap_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	Overlap    float64 `col:"overlap_share" unit:"share" about:"share of the shots with this club that go farther than the median of the next longer one: 0.5 where the two do the same"`
	OverlapLo  float64 `col:"overlap_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson, widened by the interval of the longer club's median)"`
	OverlapHi  float64 `col:"overlap_share_hi" unit:"share" about:"upper end of its 90 % interval"`
}

// fewestInBag is how many shots a club needs to be a neighbour of others.
const fewestInBag = 10

// ClubYardageFigures adds up approaches from clean lies by club, and from near
// by distance.
type ClubYardageFigures struct {
	options Options
	players byPlayer[yardagePlayer]
}

type yardagePlayer struct {
	rounds  roundList
	clubs   map[string]*clubYardage
	asked   askedFor
	steps   [controlSteps]controlStep
	unnamed int64 // shots without a club
	unknown int64 // shots that finished nobody knows where
	offLine int64 // short shots whose miss is not known
}

// clubYardage is the sums of one club.
type clubYardage struct {
	distances        distances
	playsLike, along int64
}

func newClubYardageFigures(options Options) *ClubYardageFigures {
	return &ClubYardageFigures{options: options, players: byPlayer[yardagePlayer]{}}
}

// Add adds the approaches of a batch.
func (f *ClubYardageFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		from, end := s.RoundRowRange(round)
		player := f.players.of(s.Player.At(from))
		place := player.rounds.add(keyOf(s, from))
		for row := from; row < end; row++ {
			if !asksForTheFlag(s, row) {
				continue
			}
			player.asked.add(s, row, place)
			if s.Penalty[row] == 0 {
				player.addClub(s, row, place)
				player.addControl(s, row, place)
			}
		}
	}
}

// asksForTheFlag tells whether a stroke is an approach from the tee of a par 3
// or from the fairway that is not meant to lay up or get out.
func asksForTheFlag(s *transform.Shots, row int) bool {
	if s.Class[row] != transform.Approach || s.Category[row] != ingest.Tee && s.Category[row] != ingest.Fairway {
		return false
	}
	intent := s.Intent.At(row)
	return intent != "lay up" && intent != "get out"
}

// goneYd is how far a stroke went along the line of play, in still air on the
// level as far as wind and slope are logged (playsLike); along tells whether
// the miss is known. It is NaN where nothing is.
func goneYd(s *transform.Shots, row int) (yards float64, playsLike, along bool) {
	yards = s.ToHoleYd[row] - s.FinishYd[row]
	if long := s.LongYd[row]; !math.IsNaN(long) {
		yards, along = s.ToHoleYd[row]+long, true
	}
	if plays := transform.PlaysLikeYd(yards, s.HeadwindMph[row], s.ElevationYd[row]); !math.IsNaN(plays) {
		yards, playsLike = plays, true
	}
	return yards, playsLike, along
}

func (p *yardagePlayer) addClub(s *transform.Shots, row int, round int32) {
	name := s.Club.At(row)
	if name == "" {
		p.unnamed++
		return
	}
	yards, playsLike, along := goneYd(s, row)
	if math.IsNaN(yards) {
		p.unknown++
		return
	}
	club := p.club(name)
	club.distances.add(round, yards)
	if playsLike {
		club.playsLike++
	}
	if along {
		club.along++
	}
}

func (p *yardagePlayer) club(name string) *clubYardage {
	if p.clubs == nil {
		p.clubs = map[string]*clubYardage{}
	}
	if p.clubs[name] == nil {
		p.clubs[name] = &clubYardage{}
	}
	return p.clubs[name]
}

// Rows are the finished rows of club_yardages: players in order, longest clubs
// first.
func (f *ClubYardageFigures) Rows() []ClubYardage {
	return rowsOf(f.players, func(name string, player *yardagePlayer) (rows []ClubYardage) {
		var longer *ClubYardage
		for _, club := range longestFirst(player.clubs, func(c *clubYardage) *distances { return &c.distances }) {
			sums := player.clubs[club]
			row := sums.row()
			row.Player, row.Club = name, club
			if row.N >= fewestInBag {
				if longer != nil {
					row.compare(sums, longer)
				}
				inBag := row
				longer = &inBag
			}
			rows = append(rows, row)
		}
		return rows
	})
}

func (c *clubYardage) row() ClubYardage {
	median, interval := c.distances.median()
	quantile := c.distances.quantiles.Quantile
	unknown := math.NaN()
	return ClubYardage{
		N: int64(c.distances.moments.N()), NPlaysLike: c.playsLike, NAlong: c.along,
		MeanYd: c.distances.moments.Mean(), SdYd: c.distances.moments.StandardDeviation(),
		P10Yd: quantile(0.10), P25Yd: quantile(0.25), MedianYd: median, MedianLoYd: interval.Lo, MedianHiYd: interval.Hi,
		P75Yd: quantile(0.75), P90Yd: quantile(0.90),
		GapYd: unknown, GapLoYd: unknown, GapHiYd: unknown, Overlap: unknown, OverlapLo: unknown, OverlapHi: unknown,
	}
}

// compare fills in what sets the club apart from the next longer one.
func (row *ClubYardage) compare(sums *clubYardage, longer *ClubYardage) {
	row.LongerClub = longer.Club
	row.GapYd = longer.MedianYd - row.MedianYd
	gap := estimate.IndependentDifference(longer.MedianYd, row.MedianYd,
		estimate.Interval{Lo: longer.MedianLoYd, Hi: longer.MedianHiYd}, estimate.Interval{Lo: row.MedianLoYd, Hi: row.MedianHiYd})
	row.GapLoYd, row.GapHiYd = gap.Lo, gap.Hi
	beyond := func(yards float64) (share float64, interval estimate.Interval) {
		nearer := math.Round(sums.distances.quantiles.ShareWithin(yards) * float64(row.N))
		return shareOverRounds(row.N-int64(nearer), row.N, int(sums.distances.rounds.n))
	}
	share, interval := beyond(longer.MedianYd)
	fewest, _ := beyond(longer.MedianHiYd)
	most, _ := beyond(longer.MedianLoYd)
	row.Overlap = share
	if math.IsNaN(longer.MedianLoYd) {
		return
	}
	row.OverlapLo = max(0, share-math.Hypot(share-interval.Lo, share-fewest))
	row.OverlapHi = min(1, share+math.Hypot(interval.Hi-share, most-share))
}

// warnings names what the log leaves out of the yardages.
func (f *ClubYardageFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		player := f.players[name]
		warn := func(figure, format string, args ...any) {
			warnings = append(warnings, Warning{figure, name, fmt.Sprintf(format, args...)})
		}
		var n, along, control int64
		for _, club := range player.clubs {
			n += int64(club.distances.moments.N())
			along += club.along
		}
		for step := range player.steps {
			control += player.steps[step].long.n()
		}
		if player.unnamed > 0 {
			warn("club_yardages", "%d of %d approaches from clean lies are left out: the column club names none", player.unnamed, player.unnamed+player.unknown+n)
		}
		if player.unknown > 0 {
			warn("club_yardages", "approaches from clean lies whose finish is not known, left out: %d", player.unknown)
		}
		if along < n {
			warn("club_yardages", "%d of %d distances of clubs are to_hole less what is left, too short by about the size of the miss: long_short is not written, nor are positions", n-along, n)
		}
		if player.offLine > 0 {
			warn("distance_control", "%d of %d shots are left out of distance control: long_short is not written, nor are positions", player.offLine, player.offLine+control)
		}
	}
	return warnings
}
