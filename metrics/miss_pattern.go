package metrics

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// MissPattern is one row of the table miss_pattern: where the approaches of one
// player from one yardage band finish around the hole, along the line of play
// and across it. Shots with a penalty are left out, since they did not come to
// rest in play.
//
// The ellipses are those of a normal with the mean and covariance of the
// misses, as wide as to hold half and 90 % of it (estimate.Ellipse). Real misses
// have longer tails. The mean is about the hole and not about the target, which
// lies elsewhere when a player aims away from the flag.
type MissPattern struct {
	Player       string  `col:"player" about:"player as named in the log, null when the log names none"`
	BandFromYd   float64 `col:"band_from_yd" unit:"yd" about:"lower edge of the yardage band, included"`
	BandToYd     float64 `col:"band_to_yd" unit:"yd" about:"upper edge of the yardage band, not included"`
	N            int64   `col:"n" about:"shots at the green without a penalty whose miss is logged both along and across the line of play"`
	Rounds       int64   `col:"rounds" about:"rounds with at least one such shot"`
	RightMeanYd  float64 `col:"right_mean_yd" unit:"yd" about:"mean miss from the hole across the line of play, right is positive"`
	RightLoYd    float64 `col:"right_mean_lo_yd" unit:"yd" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	RightHiYd    float64 `col:"right_mean_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	RightSdYd    float64 `col:"right_sd_yd" unit:"yd" about:"standard deviation of the miss across the line of play"`
	LongMeanYd   float64 `col:"long_mean_yd" unit:"yd" about:"mean miss from the hole along the line of play, long is positive"`
	LongLoYd     float64 `col:"long_mean_lo_yd" unit:"yd" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	LongHiYd     float64 `col:"long_mean_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	LongSdYd     float64 `col:"long_sd_yd" unit:"yd" about:"standard deviation of the miss along the line of play"`
	Correlation  float64 `col:"correlation" about:"of the two"`
	Half         float64 `col:"half_semi_major_yd" unit:"yd" about:"long half-axis of the ellipse that holds half of a normal with these moments"`
	HalfMinor    float64 `col:"half_semi_minor_yd" unit:"yd" about:"its short half-axis"`
	Most         float64 `col:"p90_semi_major_yd" unit:"yd" about:"long half-axis of the ellipse that holds 90 %"`
	MostMinor    float64 `col:"p90_semi_minor_yd" unit:"yd" about:"its short half-axis"`
	TurnDeg      float64 `col:"turn_deg" unit:"deg" about:"turn of the long axis from right towards long, more than -90 to 90"`
	NGreenDepth  int64   `col:"n_green_depth" about:"of n, shots at a green whose depth is logged"`
	GreenDepthYd float64 `col:"green_depth_yd" unit:"yd" about:"median depth of these greens, null where none is logged"`
	NGreenWidth  int64   `col:"n_green_width" about:"of n, shots at a green whose width is logged"`
	GreenWidthYd float64 `col:"green_width_yd" unit:"yd" about:"median width of these greens, null where none is logged"`
	Misses       []Miss  // every miss, from left to right, for the chart
}

// Miss is where a shot finished, seen from the hole, in yards.
type Miss struct{ RightYd, LongYd float64 }

// MissPatternFigures adds up misses about the hole.
type MissPatternFigures struct {
	options Options
	players byPlayer[missPlayer]
}

type missPlayer struct {
	rounds  roundList
	bands   map[int8]*missBand
	atGreen int64 // shots at the green without a penalty
	unknown int64 // of these, shots whose miss is not logged
}

type missBand struct {
	misses         []Miss
	pairs          estimate.PairMoments
	rightLong      roundSums
	depthYd, width estimate.Distribution
}

func newMissPatternFigures(options Options) *MissPatternFigures {
	return &MissPatternFigures{options: options, players: byPlayer[missPlayer]{}}
}

// Add adds the shots of a batch that played at the green from a yardage band.
func (f *MissPatternFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		from, end := s.RoundRowRange(round)
		player := f.players.of(s.Player.At(from))
		place := player.rounds.add(keyOf(s, from))
		for row := from; row < end; row++ {
			if !s.AtGreen[row] || s.Band[row] < 0 || s.Penalty[row] > 0 {
				continue
			}
			player.atGreen++
			if math.IsNaN(s.RightYd[row] + s.LongYd[row]) {
				player.unknown++
				continue
			}
			player.band(int8(s.Band[row])).add(s, row, place)
		}
	}
}

func (p *missPlayer) band(at int8) *missBand {
	if p.bands == nil {
		p.bands = map[int8]*missBand{}
	}
	if p.bands[at] == nil {
		p.bands[at] = &missBand{}
	}
	return p.bands[at]
}

func (b *missBand) add(s *transform.Shots, row int, round int32) {
	right, long := s.RightYd[row], s.LongYd[row]
	b.misses = append(b.misses, Miss{right, long})
	b.pairs.Add(right, long)
	b.rightLong.add(round, right, long)
	if depth := s.GreenDepth[row]; depth > 0 {
		b.depthYd.Add(depth)
	}
	if width := s.GreenWide[row]; width > 0 {
		b.width.Add(width)
	}
}

// Rows are the finished rows: players in order, bands; bands without a logged
// miss are left out.
func (f *MissPatternFigures) Rows() []MissPattern {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *missPlayer) (rows []MissPattern) {
		draws := draws.ofPlayer(player.rounds)
		for at := range len(f.options.BandsYd) - 1 {
			if band := player.bands[int8(at)]; band != nil {
				row := band.row(draws)
				row.Player, row.BandFromYd, row.BandToYd = name, f.options.BandsYd[at], f.options.BandsYd[at+1]
				rows = append(rows, row)
			}
		}
		return rows
	})
}

func (b *missBand) row(draws playerDraws) MissPattern {
	sums := b.rightLong.inOrder(draws.ranks)
	row := MissPattern{
		N: int64(len(b.misses)), Rounds: int64(len(sums)),
		NGreenDepth: int64(b.depthYd.N()), GreenDepthYd: b.depthYd.Quantile(0.5),
		NGreenWidth: int64(b.width.N()), GreenWidthYd: b.width.Quantile(0.5),
		Misses: slices.Clone(b.misses),
	}
	right, ofRight := sums.mean(0, draws)
	long, ofLong := sums.mean(1, draws)
	if row.Rounds < leastRounds {
		ofRight, ofLong = estimate.None(), estimate.None()
	}
	row.RightMeanYd, row.RightLoYd, row.RightHiYd = withEnds(right, ofRight)
	row.LongMeanYd, row.LongLoYd, row.LongHiYd = withEnds(long, ofLong)
	row.RightSdYd, row.LongSdYd = b.pairs.StandardDeviations()
	_, _, both := b.pairs.Covariance()
	row.Correlation = both / (row.RightSdYd * row.LongSdYd)
	half, most := b.pairs.Ellipse(0.5), b.pairs.Ellipse(0.9)
	row.Half, row.HalfMinor, row.Most, row.MostMinor = half.SemiMajor, half.SemiMinor, most.SemiMajor, most.SemiMinor
	row.TurnDeg = most.AngleRad * 180 / math.Pi
	slices.SortFunc(row.Misses, func(a, b Miss) int {
		return cmp.Or(cmp.Compare(a.RightYd, b.RightYd), cmp.Compare(a.LongYd, b.LongYd))
	})
	return row
}

// warnings names what the log leaves out.
func (f *MissPatternFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		if player := f.players[name]; player.unknown > 0 {
			warnings = append(warnings, Warning{"miss_pattern", name, fmt.Sprintf(
				"%d of %d shots at the green are left out of the pattern of misses: long_short and left_right are not both written, nor are positions", player.unknown, player.atGreen)})
		}
	}
	return warnings
}
