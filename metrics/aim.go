package metrics

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/ingest"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// Aim is one row of the table aim: where one player should aim from one
// yardage band when the hole is cut so near one side of the green, by the
// player's own misses, and what aiming at the flag costs. AimAssumptions says
// what is taken for granted. A hole cut further from the side than the middle
// of the green has no row.
type Aim struct {
	Player       string  `col:"player" about:"player as named in the log, null when the log names none"`
	BandFromYd   float64 `col:"band_from_yd" unit:"yd" about:"lower edge of the yardage band, included"`
	BandToYd     float64 `col:"band_to_yd" unit:"yd" about:"upper edge of the yardage band, not included"`
	Side         string  `col:"side" about:"side of the green that the hole is near: left or right"`
	CutYd        float64 `col:"cut_yd" unit:"yd" about:"from that side to the hole, in yards or paces"`
	N            int64   `col:"n" about:"shots at the green, without a penalty, whose miss is logged"`
	Rounds       int64   `col:"rounds" about:"rounds with at least one such shot"`
	OffsetYd     float64 `col:"offset_yd" unit:"yd" about:"best target: from the hole towards the middle of the green; negative is away from the middle"`
	OffsetLoYd   float64 `col:"offset_lo_yd" unit:"yd" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	OffsetHiYd   float64 `col:"offset_hi_yd" unit:"yd" about:"upper end of its 90 % interval"`
	Saved        float64 `col:"strokes_saved" unit:"strokes" about:"strokes a shot that this target saves against the flag as target; a penalty saves none"`
	SavedLo      float64 `col:"strokes_saved_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	SavedHi      float64 `col:"strokes_saved_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	AfterFlag    float64 `col:"strokes_after_flag" unit:"strokes" about:"strokes to hole out after a shot aimed at the flag, penalties apart"`
	RightMeanYd  float64 `col:"right_mean_yd" unit:"yd" about:"mean miss across the line of play, from the target, right is positive"`
	RightSdYd    float64 `col:"right_sd_yd" unit:"yd" about:"its standard deviation"`
	LongMeanYd   float64 `col:"long_mean_yd" unit:"yd" about:"mean miss along the line of play, from the target, long is positive"`
	LongSdYd     float64 `col:"long_sd_yd" unit:"yd" about:"its standard deviation"`
	Correlation  float64 `col:"correlation" about:"of the two"`
	PenaltyShare float64 `col:"penalty_share" unit:"share" about:"share of shots at the green that ended in a penalty"`
	GreenDepthYd float64 `col:"green_depth_yd" unit:"yd" about:"depth of the green taken: the mean of those logged, else 30"`
	GreenWidthYd float64 `col:"green_width_yd" unit:"yd" about:"width of the green taken: the mean of those logged, else 25"`
	Baseline     string  `col:"baseline" about:"what strokes to hole out are taken from"`
}

// Sides of the green that a hole is cut near, in the words of a log.
const (
	LeftSide  = "left"
	RightSide = "right"
)

const (
	fewestAimShots = 20
	usualDepthYd   = 30
	usualWidthYd   = 25
)

// aimCutsYd are the distances of the hole from the side, a pace being a yard.
var aimCutsYd = [...]float64{3, 5, 7, 10}

// AimFigures adds up misses about the target.
type AimFigures struct {
	options Options
	table   *baseline.Table
	players byPlayer[aimMisses]
}

// aimMisses are the sums of a player by band and round.
type aimMisses struct{ bands [][]missSums }

// missSums are the sums of one round from one band.
type missSums struct {
	key                             roundKey
	shots, penalties, misses        int32
	right, long                     float64
	rightRight, longLong, rightLong float64
	depthYd, widthYd                float64
	depths, widths                  int32
}

// newAimFigures is empty; the table gives strokes to hole out.
func newAimFigures(options Options, table *baseline.Table) *AimFigures {
	return &AimFigures{options: options, table: table, players: byPlayer[aimMisses]{}}
}

// Add adds the shots of a batch that played at the green and whose finish is
// known.
func (f *AimFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		first, end := s.RoundRowRange(round)
		player, key := f.players.of(s.Player.At(first)), keyOf(s, first)
		for row := first; row < end; row++ {
			if s.AtGreen[row] && s.Band[row] >= 0 && s.FinishKnown(row) {
				player.round(len(f.options.BandsYd)-1, int(s.Band[row]), key).add(s, row)
			}
		}
	}
}

// round is the sums of the round that is being added.
func (a *aimMisses) round(bands, band int, key roundKey) *missSums {
	if a.bands == nil {
		a.bands = make([][]missSums, bands)
	}
	rounds := a.bands[band]
	if last := len(rounds) - 1; last < 0 || rounds[last].key != key {
		rounds = append(rounds, missSums{key: key})
		a.bands[band] = rounds
	}
	return &rounds[len(rounds)-1]
}

func (m *missSums) add(s *transform.Shots, row int) {
	m.shots++
	if s.Penalty[row] > 0 {
		m.penalties++
		return
	}
	right, long := fromTarget(s.RightYd[row], s.AimRightYd[row]), fromTarget(s.LongYd[row], s.AimLongYd[row])
	if math.IsNaN(right) || math.IsNaN(long) {
		return
	}
	m.misses++
	m.right += right
	m.long += long
	m.rightRight += right * right
	m.longLong += long * long
	m.rightLong += right * long
	if depth := s.GreenDepth[row]; depth > 0 {
		m.depths++
		m.depthYd += depth
	}
	if width := s.GreenWide[row]; width > 0 {
		m.widths++
		m.widthYd += width
	}
}

// fromTarget is the miss from the target, given the miss from the hole and
// where the target lay from it, if logged.
func fromTarget(missYd, aimYd float64) float64 {
	if math.IsNaN(aimYd) {
		return missYd
	}
	return missYd - aimYd
}

// aimResamples are fewer than elsewhere, because each is a refit: with 2,000 a
// player takes a tenth of a second.
const aimResamples = 400

// mostAimedFor bounds the work of a whole club's log in one run.
const mostAimedFor = 30

// Rows are the finished rows: players in order, bands, cuts, the left side
// before the right. Bands with fewer than 20 logged misses or 5 rounds of them
// have none.
func (f *AimFigures) Rows() []Aim {
	if len(f.unknownLies()) > 0 || f.options.playersOfLog(len(f.players)) > mostAimedFor {
		return nil
	}
	draws := resamplers{seed: f.options.Seed, resamples: aimResamples}
	return rowsOf(f.players, func(name string, player *aimMisses) (rows []Aim) {
		for band, rounds := range player.bands {
			total := missTotal(rounds)
			if !total.enough() {
				continue
			}
			slices.SortFunc(rounds, func(a, b missSums) int { return a.key.compare(b.key) })
			for _, row := range f.advice(rounds, draws.of(len(rounds))) {
				row.Player, row.Baseline = name, f.options.Baseline
				row.BandFromYd, row.BandToYd = f.options.BandsYd[band], f.options.BandsYd[band+1]
				rows = append(rows, row)
			}
		}
		return rows
	})
}

// aimTotal counts what a band has.
type aimTotal struct{ shots, misses, rounds, depths, widths int64 }

func (t aimTotal) enough() bool { return t.misses >= fewestAimShots && t.rounds >= leastRounds }

func missTotal(rounds []missSums) (t aimTotal) {
	for _, r := range rounds {
		t.shots += int64(r.shots)
		t.misses += int64(r.misses)
		t.depths += int64(r.depths)
		t.widths += int64(r.widths)
		if r.misses > 0 {
			t.rounds++
		}
	}
	return t
}

// unknownLies are the lies that the advice needs and the baseline has not.
func (f *AimFigures) unknownLies() (names []string) {
	for _, lie := range [...]ingest.Category{ingest.Green, ingest.Rough} {
		if math.IsNaN(f.table.Strokes(lie, 10)) {
			names = append(names, lie.String())
		}
	}
	return names
}

// warnings says for whom, and for which bands, there is no advice, and what was
// taken in place of what is not logged.
func (f *AimFigures) warnings() (warnings []Warning) {
	if lies := f.unknownLies(); len(lies) > 0 {
		return []Warning{{Figure: "aim", Text: "no advice on aim: the baseline has no strokes to hole out from " + strings.Join(lies, " and ")}}
	}
	if players := f.options.playersOfLog(len(f.players)); players > mostAimedFor {
		return []Warning{{Figure: "aim", Text: fmt.Sprintf("no advice on aim: it is worked out for up to %d players at once, and these are %d; --player NAME narrows them", mostAimedFor, players)}}
	}
	for _, name := range f.players.names() {
		warn := func(format string, args ...any) {
			warnings = append(warnings, Warning{Figure: "aim", Player: name, Text: fmt.Sprintf(format, args...)})
		}
		var all aimTotal
		var few []string
		for band, rounds := range f.players[name].bands {
			total := missTotal(rounds)
			all.shots += total.shots
			all.misses += total.misses
			all.depths += total.depths
			all.widths += total.widths
			if total.shots > 0 && !total.enough() {
				few = append(few, fmt.Sprintf("%s (shots: %d, rounds: %d)", f.options.distance(f.options.BandsYd[band:band+2]...), total.misses, total.rounds))
			}
		}
		switch {
		case all.shots == 0:
			continue
		case all.misses == 0:
			warn("no advice on aim: no shot at the green has its miss logged (long_short and left_right, or positions)")
			continue
		case len(few) > 0:
			warn("no advice on aim from bands with fewer than %d shots or %d rounds with the miss logged (long_short and left_right): %s",
				fewestAimShots, leastRounds, strings.Join(few, ", "))
		}
		if all.depths == 0 {
			warn("the log has no green_depth: greens %s deep are taken", f.options.distance(usualDepthYd))
		}
		if all.widths == 0 {
			warn("the log has no green_width: greens %s wide are taken", f.options.distance(usualWidthYd))
		}
	}
	return warnings
}
