package metrics

import (
	"fmt"
	"math"

	"roundmill/ingest"
	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// ApproachProximity is one row of the table approach_proximity: where the
// approaches of one player from one yardage band and lie group finished.
// Counts are of at_green shots whose finish is known, penalties included;
// feet are over those that came to rest in play (holed: 0 ft).
type ApproachProximity struct {
	Player           string    `col:"player" about:"player as named in the log, null when the log names none"`
	LieGroup         string    `col:"lie_group" about:"all, fairway (the tee of a par 3 taken in), rough or sand"`
	BandFromYd       float64   `col:"band_from_yd" unit:"yd" about:"lower edge of the yardage band, included"`
	BandToYd         float64   `col:"band_to_yd" unit:"yd" about:"upper edge of the yardage band, not included"`
	N                int64     `col:"n" about:"shots at the green whose finish is known, penalties included"`
	NPenalty         int64     `col:"n_penalty" about:"of these, shots that ended in a penalty"`
	GreenShare       float64   `col:"green_share" unit:"share" about:"share of n that finished on the green or in the hole"`
	MeanFt           float64   `col:"mean_ft" unit:"ft" about:"mean distance from the hole of shots at rest in play; a ball that was picked up has none"`
	P10Ft            float64   `col:"p10_ft" unit:"ft" about:"10th percentile, definition 7 of Hyndman and Fan"`
	P25Ft            float64   `col:"p25_ft" unit:"ft" about:"25th percentile"`
	MedianFt         float64   `col:"median_ft" unit:"ft" about:"median"`
	MedianLoFt       float64   `col:"median_lo_ft" unit:"ft" about:"lower end of the 90 % interval of the median (order statistics)"`
	MedianHiFt       float64   `col:"median_hi_ft" unit:"ft" about:"upper end of the 90 % interval of the median"`
	P75Ft            float64   `col:"p75_ft" unit:"ft" about:"75th percentile"`
	P90Ft            float64   `col:"p90_ft" unit:"ft" about:"90th percentile"`
	Inside15ftShare  float64   `col:"inside_15ft_share" unit:"share" about:"share of n at rest 15 ft from the hole or nearer"`
	Inside30ftShare  float64   `col:"inside_30ft_share" unit:"share" about:"share of n at rest 30 ft from the hole or nearer"`
	StrokesGainedPer float64   `col:"strokes_gained_per_shot" unit:"strokes" about:"mean strokes gained a shot"`
	StrokesGainedLo  float64   `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	StrokesGainedHi  float64   `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	LongMeanYd       float64   `col:"long_mean_yd" unit:"yd" about:"mean miss along the line of play, long is positive, of the shots that the feet are of"`
	LongSdYd         float64   `col:"long_sd_yd" unit:"yd" about:"standard deviation of the miss along the line of play"`
	RightMeanYd      float64   `col:"right_mean_yd" unit:"yd" about:"mean miss across the line of play, right is positive"`
	RightSdYd        float64   `col:"right_sd_yd" unit:"yd" about:"standard deviation of the miss across the line of play"`
	Baseline         string    `col:"baseline" about:"what strokes gained are measured against"`
	FinishesFt       []float64 // every finish at rest in play, sorted, for the chart
}

// The lie groups of approach proximity.
const (
	AllLies      = "all"
	FromFairway  = "fairway"
	FromRough    = "rough"
	FromSand     = "sand"
	insideNearFt = 15
	insideFarFt  = 30
)

var lieGroups = [...]string{AllLies, FromFairway, FromRough, FromSand}

// ApproachFigures adds up where approaches that played at the green finished.
type ApproachFigures struct {
	options Options
	players byPlayer[approachCells]
}

type approachCells struct {
	rounds roundList
	cells  map[approachCell]*approachSums
}

type approachCell struct{ group, band int }

type approachSums struct {
	n, penalty, green, near, far int64
	feet                         estimate.Distribution
	right, long                  estimate.Moments // misses
	gained                       roundSums        // strokes gained where known
	atRest                       roundCount       // rounds with a shot at rest in play
}

func newApproachFigures(options Options) *ApproachFigures {
	return &ApproachFigures{options: options, players: byPlayer[approachCells]{}}
}

// Add adds the shots of a batch that played at the green and whose finish is
// known.
func (f *ApproachFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		from, end := s.RoundRowRange(round)
		player := f.players.of(s.Player.At(from))
		place := player.rounds.add(keyOf(s, from))
		for row := from; row < end; row++ {
			if !s.AtGreen[row] || s.Band[row] < 0 || !s.FinishKnown(row) {
				continue
			}
			player.cell(approachCell{0, int(s.Band[row])}).add(s, row, place)
			if group := lieGroupOf(s.Category[row]); group > 0 {
				player.cell(approachCell{group, int(s.Band[row])}).add(s, row, place)
			}
		}
	}
}

func lieGroupOf(lie ingest.Category) int {
	switch lie {
	case ingest.Tee, ingest.Fairway:
		return 1
	case ingest.Rough:
		return 2
	case ingest.Sand:
		return 3
	}
	return 0
}

func (p *approachCells) cell(at approachCell) *approachSums {
	if p.cells == nil {
		p.cells = map[approachCell]*approachSums{}
	}
	if p.cells[at] == nil {
		p.cells[at] = &approachSums{}
	}
	return p.cells[at]
}

func (a *approachSums) add(s *transform.Shots, row int, round int32) {
	a.n++
	if s.Penalty[row] > 0 {
		a.penalty++
	} else {
		a.addRest(s, row, round)
	}
	if gained := s.StrokesGained[row]; !math.IsNaN(gained) {
		a.gained.add(round, gained, 0)
	}
}

// addRest adds where a shot without a penalty finished.
func (a *approachSums) addRest(s *transform.Shots, row int, round int32) {
	if finish := s.FinishCategory[row]; finish == ingest.Green || finish == ingest.Holed {
		a.green++
	}
	feet := s.ProximityFt[row]
	if math.IsNaN(feet) { // picked up
		return
	}
	a.feet.Add(feet)
	a.atRest.add(round)
	if feet <= insideNearFt {
		a.near++
	}
	if feet <= insideFarFt {
		a.far++
	}
	if right := s.RightYd[row]; !math.IsNaN(right) {
		a.right.Add(right)
	}
	if long := s.LongYd[row]; !math.IsNaN(long) {
		a.long.Add(long)
	}
}

// Rows are the finished rows: players in order, lie groups, bands; cells
// without a shot are left out.
func (f *ApproachFigures) Rows() []ApproachProximity {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *approachCells) (rows []ApproachProximity) {
		draws := draws.ofPlayer(player.rounds)
		for group := range lieGroups {
			for band := range len(f.options.BandsYd) - 1 {
				if sums := player.cells[approachCell{group, band}]; sums != nil {
					row := sums.row(draws)
					row.Player, row.LieGroup, row.Baseline = name, lieGroups[group], f.options.Baseline
					row.BandFromYd, row.BandToYd = f.options.BandsYd[band], f.options.BandsYd[band+1]
					rows = append(rows, row)
				}
			}
		}
		return rows
	})
}

func (a *approachSums) row(draws playerDraws) ApproachProximity {
	share := func(k int64) float64 { return float64(k) / float64(a.n) }
	median := estimate.None()
	if a.atRest.n >= leastRounds {
		median = a.feet.MedianInterval(Level)
	}
	gained, ofGained := a.gained.inOrder(draws.ranks).mean(0, draws)
	return ApproachProximity{
		N: a.n, NPenalty: a.penalty, GreenShare: share(a.green),
		MeanFt: a.feet.Mean(), MedianFt: a.feet.Quantile(0.5), MedianLoFt: median.Lo, MedianHiFt: median.Hi,
		P10Ft: a.feet.Quantile(0.10), P25Ft: a.feet.Quantile(0.25), P75Ft: a.feet.Quantile(0.75), P90Ft: a.feet.Quantile(0.90),
		Inside15ftShare: share(a.near), Inside30ftShare: share(a.far),
		StrokesGainedPer: gained, StrokesGainedLo: ofGained.Lo, StrokesGainedHi: ofGained.Hi,
		LongMeanYd: a.long.Mean(), LongSdYd: a.long.StandardDeviation(),
		RightMeanYd: a.right.Mean(), RightSdYd: a.right.StandardDeviation(),
		FinishesFt: a.feet.Values(),
	}
}

// fewestNotReached is how many approaches from afar must have missed the green,
// and none hit it, before the green is taken to be out of reach.
const fewestNotReached = 20

// warnings name players who do not reach the green from where the run takes them
// to: what they play there is laid up, and weighs on approach play.
func (f *ApproachFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		shots, fromYd := f.notReached(f.players[name])
		if shots < fewestNotReached {
			continue
		}
		warnings = append(warnings, Warning{Figure: "approach_proximity", Player: name, Text: fmt.Sprintf(
			"none of %d approaches from %s and farther finished on the green; if it cannot be reached from there, --reach %s leaves them out",
			shots, f.options.distance(fromYd), f.options.distanceNumber(fromYd))})
	}
	return warnings
}

// notReached counts the approaches from beyond the farthest band from which one
// finished on the green, and says where they begin.
func (f *ApproachFigures) notReached(player *approachCells) (shots int64, fromYd float64) {
	for band := len(f.options.BandsYd) - 2; band >= 0; band-- {
		sums := player.cells[approachCell{0, band}]
		if sums == nil {
			continue
		}
		if sums.green > 0 {
			break
		}
		shots, fromYd = shots+sums.n, f.options.BandsYd[band]
	}
	return shots, fromYd
}
