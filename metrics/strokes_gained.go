package metrics

import (
	"math"
	"slices"
	"strconv"

	"roundmill/ingest"
	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// StrokesGained is one row of the table strokes_gained: what one player gains
// or loses against the baseline in one group of strokes, over complete holes.
type StrokesGained struct {
	Player     string  `col:"player" about:"player as named in the log, null when the log names none"`
	GroupKind  string  `col:"group_kind" about:"total, class, lie, band or par"`
	Group      string  `col:"group" about:"which class (approach takes in the tee of a par 3), lie category, yardage band played from whatever the class, or par"`
	Rounds     int64   `col:"rounds" about:"rounds with at least one such stroke on a complete hole"`
	N          int64   `col:"n" about:"strokes counted"`
	PerRound   float64 `col:"per_round" unit:"strokes" about:"strokes gained per 18 complete holes, a ratio of sums"`
	PerRoundLo float64 `col:"per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	PerRoundHi float64 `col:"per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Per100     float64 `col:"per_100_shots" unit:"strokes" about:"strokes gained per 100 such strokes"`
	Baseline   string  `col:"baseline" about:"what strokes gained are measured against"`
}

// Kinds of groups in strokes_gained.
const (
	ByTotal = "total"
	ByClass = "class"
	ByLie   = "lie"
	ByBand  = "band"
	ByPar   = "par"
)

const (
	lowestPar  = 3
	highestPar = 6
)

// StrokesGainedFigures adds up strokes gained over complete holes whose every
// stroke the baseline knows.
type StrokesGainedFigures struct {
	options Options
	groups  []strokesGroup
	players byPlayer[roundGains]
}

type strokesGroup struct{ kind, name string }

type roundGains struct{ rounds []roundGain }

// roundGain is the sums of one round: holes counted, and strokes and strokes
// gained of each group.
type roundGain struct {
	key    roundKey
	holes  int32
	n      []int32
	gained []float64
}

func newStrokesGainedFigures(options Options) *StrokesGainedFigures {
	f := &StrokesGainedFigures{options: options, players: byPlayer[roundGains]{}}
	f.groups = append(f.groups, strokesGroup{ByTotal, "all"})
	for class := range transform.ClassCount {
		f.groups = append(f.groups, strokesGroup{ByClass, class.String()})
	}
	for lie := ingest.Tee; lie <= ingest.Green; lie++ {
		f.groups = append(f.groups, strokesGroup{ByLie, lie.String()})
	}
	for par := lowestPar; par <= highestPar; par++ {
		f.groups = append(f.groups, strokesGroup{ByPar, strconv.Itoa(par)})
	}
	for band := range len(options.BandsYd) - 1 {
		f.groups = append(f.groups, strokesGroup{ByBand, bandName(options.BandsYd, band)})
	}
	return f
}

// bandName names a band by its edges in yards, such as 50-75.
func bandName(edges []float64, band int) string {
	return oneDecimal(edges[band]) + "-" + oneDecimal(edges[band+1])
}

// Places of the first group of each kind.
const (
	totalGroup = 0
	classGroup = totalGroup + 1
	lieGroup   = classGroup + int(transform.ClassCount)
	parGroup   = lieGroup + int(ingest.Green-ingest.Tee) + 1
	bandGroup  = parGroup + highestPar - lowestPar + 1
)

// Add adds the complete holes of a batch.
func (f *StrokesGainedFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		gain := roundGain{
			key: keyOf(s, int(from)),
			n:   make([]int32, len(f.groups)), gained: make([]float64, len(f.groups)),
		}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] || math.IsNaN(s.Holes.StrokesGained[hole]) {
				continue
			}
			gain.holes++
			from, to := s.RowRange(hole)
			for row := from; row < to; row++ {
				gain.add(s, row)
			}
		}
		if gain.holes > 0 {
			player := f.players.of(s.Player.At(int(from)))
			player.rounds = append(player.rounds, gain)
		}
	}
}

func (g *roundGain) add(s *transform.Shots, row int) {
	groups := [...]int{
		totalGroup,
		classGroup + int(s.Class[row]),
		lieGroup + int(s.Category[row]-ingest.Tee),
		parGroup + int(s.Par[row]) - lowestPar,
		bandGroup + int(s.Band[row]),
	}
	for _, group := range groups[:len(groups)-1] {
		g.n[group]++
		g.gained[group] += s.StrokesGained[row]
	}
	if s.Band[row] >= 0 {
		g.n[groups[4]]++
		g.gained[groups[4]] += s.StrokesGained[row]
	}
}

// Rows are the finished rows: players in order, total, classes, lies, bands,
// pars.
func (f *StrokesGainedFigures) Rows() []StrokesGained {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *roundGains) (rows []StrokesGained) {
		rounds := player.rounds
		slices.SortFunc(rounds, func(a, b roundGain) int { return a.key.compare(b.key) })
		per18 := make([]float64, len(rounds))
		for i, r := range rounds {
			per18[i] = float64(r.holes) / 18
		}
		for group := range f.groups {
			if row, any := f.row(name, group, rounds, per18, draws.of(len(rounds))); any {
				rows = append(rows, row)
			}
		}
		return rows
	})
}

func (f *StrokesGainedFigures) row(player string, group int, rounds []roundGain, per18 []float64, draws *estimate.Resampler) (StrokesGained, bool) {
	row := StrokesGained{
		Player: player, GroupKind: f.groups[group].kind, Group: f.groups[group].name,
		Baseline: f.options.Baseline, PerRoundLo: math.NaN(), PerRoundHi: math.NaN(),
	}
	gained := make([]float64, len(rounds))
	var total, eighteens estimate.Sum
	for i, r := range rounds {
		gained[i] = r.gained[group]
		total.Add(r.gained[group])
		eighteens.Add(per18[i])
		row.N += int64(r.n[group])
		if r.n[group] > 0 {
			row.Rounds++
		}
	}
	if row.N == 0 {
		return row, false
	}
	row.PerRound = total.Value() / eighteens.Value()
	row.Per100 = 100 * total.Value() / float64(row.N)
	if row.Rounds >= leastRounds {
		interval := draws.Ratio(gained, per18, Level)
		row.PerRoundLo, row.PerRoundHi = interval.Lo, interval.Hi
	}
	return row, true
}

// leastRounds is how many rounds an interval needs.
const leastRounds = 5
