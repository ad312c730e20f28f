package metrics

import (
	"cmp"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// Priority is one row of the table priorities: what one player has to gain in
// one part of the game, over complete holes. Strokes a round are per 18
// complete holes. Ranks go by the strokes a round to be had.
//
// What it cannot tell: the gap to the baseline is not what practice can win,
// nor what it costs in time. It may be out of reach, and a part without a gap
// may still be the one that improves most easily. The chance is that of the
// part being below this baseline, and not that of the rank being right: parts
// that lie close together in strokes a round would change places in another
// season; and of some 35 parts one passes 95 % by luck now and then (in 21 of 60
// simulated seasons of a player without any gap). Wide ranges hold more strokes than narrow ones, so the ranks hang on
// how the game is cut up. A part that follows from another (short putts after
// poor lags) is charged where the baseline sees the loss.
type Priority struct {
	Player        string  `col:"player" about:"player as named in the log, null when the log names none"`
	Rank          Rank    `col:"rank" about:"1 has the most strokes a round to be had; null: under 10 strokes or 5 rounds, shown and not ranked"`
	Class         string  `col:"class" about:"tee shot, approach, short game or putt"`
	Cell          string  `col:"cell" about:"the part of the game in words"`
	LieGroup      string  `col:"lie_group" about:"fairway (tee of a par 3 taken in), rough, sand, recovery, or lay up or out of reach; null for tee shots and putts"`
	FromYd        float64 `col:"from_yd" unit:"yd" about:"from this distance to the hole, included; of tee shots: this length of hole"`
	ToYd          float64 `col:"to_yd" unit:"yd" about:"to this distance, not included; null: without end"`
	N             int64   `col:"n" about:"strokes counted"`
	Rounds        int64   `col:"rounds" about:"rounds with such a stroke on a complete hole"`
	CountPerRound float64 `col:"count_per_round" about:"such strokes per 18 complete holes"`
	PerShotRaw    float64 `col:"strokes_gained_per_shot_raw" unit:"strokes" about:"mean strokes gained a stroke, as played"`
	PerShot       float64 `col:"strokes_gained_per_shot" unit:"strokes" about:"the same, shrunk towards its class by empirical Bayes, averaged over how widely the cells of a class may scatter (Gelman et al. 2013, section 5.4), its variance over m rounds raised by that of one more stroke of the class and by (m-1)/(m-3); null where not ranked"`
	PerShotLo     float64 `col:"strokes_gained_per_shot_lo" unit:"strokes" about:"lower end of its 90 % interval (empirical Bayes)"`
	PerShotHi     float64 `col:"strokes_gained_per_shot_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	PerRoundRaw   float64 `col:"strokes_gained_per_round_raw" unit:"strokes" about:"strokes gained per 18 complete holes, as played; these add up to the class"`
	StrokesToGain float64 `col:"strokes_per_round" unit:"strokes" about:"to be had a round: count_per_round x strokes_gained_per_shot, the sign turned; below 0: better than the baseline"`
	StrokesLo     float64 `col:"strokes_per_round_lo" unit:"strokes" about:"lower end of its 90 % interval, in which count_per_round is not exact either"`
	StrokesHi     float64 `col:"strokes_per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	ChanceBelow   float64 `col:"chance_below" unit:"share" about:"the chance that the player is below the baseline here, by the same average; null where not ranked"`
	Baseline      string  `col:"baseline" about:"what strokes gained are measured against"`
}

// playedCell is a row on its way, with what its shrinking needs.
type playedCell struct {
	Priority
	class         transform.Class
	standardError float64 // of PerShotRaw
	countSD       float64 // standard error of CountPerRound
}

// What a cell needs to be ranked.
const (
	leastStrokesRanked = 10
	leastRoundsRanked  = leastRounds
)

// PriorityFigures adds up strokes gained by skill cell over complete holes whose
// every stroke the baseline knows, those of strokes_gained.
type PriorityFigures struct {
	options Options
	cells   *skillCells
	players byPlayer[priorityRounds]
	round   []cellSum // of the round at hand, one for each cell
}

type priorityRounds struct{ rounds []priorityRound }

// priorityRound is the sums of one round, of the cells that came up in it: a
// round sees some two dozen of more than sixty.
type priorityRound struct {
	key   roundKey
	holes int32
	cells []cellSum
}

type cellSum struct {
	cell, n int32
	gained  float64
}

func newPriorityFigures(options Options) *PriorityFigures {
	f := &PriorityFigures{options: options, cells: newSkillCells(options.BandsYd), players: byPlayer[priorityRounds]{}}
	f.round = make([]cellSum, len(f.cells.all))
	return f
}

// Add adds the complete holes of a batch.
func (f *PriorityFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		r := priorityRound{key: keyOf(s, int(from))}
		for cell := range f.round {
			f.round[cell] = cellSum{cell: int32(cell)}
		}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] || math.IsNaN(s.Holes.StrokesGained[hole]) {
				continue
			}
			r.holes++
			from, to := s.RowRange(hole)
			for row := from; row < to; row++ {
				sum := &f.round[f.cells.of(s, row, s.Holes.LengthYd[hole])]
				sum.n++
				sum.gained += s.StrokesGained[row]
			}
		}
		if r.holes == 0 {
			continue
		}
		for _, sum := range f.round {
			if sum.n > 0 {
				r.cells = append(r.cells, sum)
			}
		}
		player := f.players.of(s.Player.At(int(from)))
		player.rounds = append(player.rounds, r)
	}
}

// Rows are the finished rows: players in order, ranks, then the cells without a
// rank in the order of the classes. A cell without a stroke is left out.
func (f *PriorityFigures) Rows() []Priority {
	return rowsOf(f.players, func(name string, player *priorityRounds) []Priority {
		slices.SortFunc(player.rounds, func(a, b priorityRound) int { return a.key.compare(b.key) })
		cells := f.asPlayed(player.rounds)
		for class := range transform.ClassCount {
			shrinkClass(cells, class)
		}
		rows := make([]Priority, len(cells))
		for i, cell := range cells {
			rows[i] = cell.Priority
			rows[i].Player, rows[i].Baseline = name, f.options.Baseline
		}
		rank(rows)
		return rows
	})
}

// asPlayed are the cells that occur, before any shrinking.
func (f *PriorityFigures) asPlayed(rounds []priorityRound) (cells []playedCell) {
	per18 := make([]float64, len(rounds))
	n, gained := make([][]float64, len(f.cells.all)), make([][]float64, len(f.cells.all)) // by cell and round
	strokes := make([]int64, len(f.cells.all))
	for i, r := range rounds {
		per18[i] = float64(r.holes) / 18
		for _, sum := range r.cells {
			if strokes[sum.cell] == 0 {
				n[sum.cell], gained[sum.cell] = make([]float64, len(rounds)), make([]float64, len(rounds))
			}
			strokes[sum.cell] += int64(sum.n)
			n[sum.cell][i], gained[sum.cell][i] = float64(sum.n), sum.gained
		}
	}
	for at, cell := range f.cells.all {
		if strokes[at] == 0 {
			continue
		}
		row := playedCell{class: cell.class, Priority: Priority{
			Class: cell.class.String(), Cell: cell.name, LieGroup: cell.lieGroup, FromYd: cell.fromYd, ToYd: cell.toYd, N: strokes[at],
			PerShot: math.NaN(), PerShotLo: math.NaN(), PerShotHi: math.NaN(),
			StrokesToGain: math.NaN(), StrokesLo: math.NaN(), StrokesHi: math.NaN(), ChanceBelow: math.NaN(),
		}}
		var with int
		row.PerShotRaw, row.standardError, with = estimate.RatioError(gained[at], n[at])
		row.Rounds = int64(with)
		row.CountPerRound, row.countSD, _ = estimate.RatioError(n[at], per18)
		row.PerRoundRaw, _, _ = estimate.RatioError(gained[at], per18)
		cells = append(cells, row)
	}
	return cells
}

func (p *Priority) ranked() bool { return p.N >= leastStrokesRanked && p.Rounds >= leastRoundsRanked }

// shrinkClass fills in what the cells of a class say once each has borrowed from
// the others (estimate.Shrink). Cells with too few strokes take no part.
//
// Shrink takes standard errors as known, and these come from few rounds: a cell
// whose rounds happen to agree would pass for certain. So every cell counts as
// if it held one more stroke as far from its mean as strokes of the class are,
// and its variance is that of Student's t with its rounds less one degrees of
// freedom: (m-1)/(m-3) times as large.
func shrinkClass(all []playedCell, class transform.Class) {
	var cells []*playedCell
	var squares, strokes float64 // Σ of the cells' variances of a stroke, weighted by their strokes
	for i := range all {
		if row := &all[i]; row.class == class && row.ranked() {
			cells = append(cells, row)
			total := row.standardError * float64(row.N)
			squares += total * total
			strokes += float64(row.N)
		}
	}
	if len(cells) == 0 {
		return
	}
	const leastVariance = 1e-6 // of a stroke: a class without any spread is still not known exactly
	ofStroke := max(squares/strokes, leastVariance)
	var means, errors []float64
	for _, row := range cells {
		n, m := float64(row.N), float64(row.Rounds)
		total := row.standardError * n
		means = append(means, row.PerShotRaw)
		errors = append(errors, math.Sqrt((total*total+ofStroke)*(m-1)/(m-3))/n)
	}
	z := estimate.NormalReach(Level)
	for i, shrunken := range estimate.Shrink(means, errors).Cells {
		row := cells[i]
		row.PerShot, row.ChanceBelow = shrunken.Mean, shrunken.ChanceBelowZero
		row.PerShotLo, row.PerShotHi = shrunken.Mean-z*shrunken.SD, shrunken.Mean+z*shrunken.SD
		// To first order, how often the cell comes up and what it costs being taken as independent.
		half := z * math.Hypot(row.CountPerRound*shrunken.SD, shrunken.Mean*row.countSD)
		row.StrokesToGain = -row.CountPerRound * row.PerShot
		row.StrokesLo, row.StrokesHi = row.StrokesToGain-half, row.StrokesToGain+half
	}
}

// rank puts the rows into their order and numbers those that may be ranked.
func rank(rows []Priority) {
	slices.SortStableFunc(rows, func(a, b Priority) int {
		switch {
		case a.ranked() != b.ranked():
			if a.ranked() {
				return -1
			}
			return 1
		case a.ranked():
			return cmp.Compare(b.StrokesToGain, a.StrokesToGain)
		}
		return 0
	})
	for i := range rows {
		if rows[i].ranked() {
			rows[i].Rank = Rank(i + 1)
		}
	}
}
