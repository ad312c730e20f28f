package metrics

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"

	"roundmill/transform"
)

// Scoring is one row of the table scoring: how one player scores on one group
// of complete holes, per 18 such holes.
//
// Lengths are bands of 50 yd within a par, the lower edge included: absolute
// bands, and not terciles of what was played, so that players, courses and
// seasons can be laid side by side. A longer hole is a harder one, which to par
// does not know and strokes gained does: they stand side by side.
type Scoring struct {
	Player             string  `col:"player" about:"player as named in the log, null when the log names none"`
	GroupKind          string  `col:"group_kind" about:"total, par, nine (by hole number) or length (par and band of 50 yd)"`
	Group              string  `col:"group" about:"which par, nine, or par and band of length in yards"`
	LengthFromYd       float64 `col:"length_from_yd" unit:"yd" about:"lower edge of the band of length, included; null for other kinds"`
	LengthToYd         float64 `col:"length_to_yd" unit:"yd" about:"upper edge of the band of length, not included"`
	Rounds             int64   `col:"rounds" about:"rounds with at least one such complete hole"`
	N                  int64   `col:"n" about:"complete holes"`
	ToPar              float64 `col:"to_par_per_18" unit:"strokes" about:"mean score above par per 18 such holes"`
	ToParLo            float64 `col:"to_par_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	ToParHi            float64 `col:"to_par_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	EaglesOrBetter     int64   `col:"eagles_or_better" about:"holes two under par or better"`
	Birdies            int64   `col:"birdies" about:"holes one under par"`
	Pars               int64   `col:"pars" about:"holes in par"`
	Bogeys             int64   `col:"bogeys" about:"holes one over par"`
	Doubles            int64   `col:"doubles" about:"holes two over par"`
	Worse              int64   `col:"worse" about:"holes three over par or more"`
	UnderParShare      float64 `col:"under_par_share" unit:"share" about:"holes under par, of n"`
	UnderParLo         float64 `col:"under_par_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	UnderParHi         float64 `col:"under_par_hi" unit:"share" about:"upper end of its 90 % interval"`
	DoubleOrWorseShare float64 `col:"double_or_worse_share" unit:"share" about:"holes two over par or more, of n"`
	DoubleOrWorseLo    float64 `col:"double_or_worse_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	DoubleOrWorseHi    float64 `col:"double_or_worse_hi" unit:"share" about:"upper end of its 90 % interval"`
	StrokesGained      float64 `col:"strokes_gained_per_18" unit:"strokes" about:"strokes gained per 18 such holes, of those whose every stroke the baseline knows"`
	StrokesGainedLo    float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	StrokesGainedHi    float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline           string  `col:"baseline" about:"what strokes gained are measured against"`
}

// Kinds of groups in scoring, beside ByTotal and ByPar.
const (
	ByNine   = "nine"
	ByLength = "length"
)

var (
	scoringKinds = [...]string{ByTotal, ByPar, ByNine, ByLength}
	nineNames    = [...]string{"front", "back", "third", "fourth"} // holes 1-9, 10-18, 19-27, 28-36
)

const lengthBandYd = 50

// scoringGroup is a group of holes: kind is a place in scoringKinds.
type scoringGroup struct{ kind, par, nine, band int16 }

func (g scoringGroup) compare(other scoringGroup) int {
	return cmp.Or(cmp.Compare(g.kind, other.kind), cmp.Compare(g.par, other.par), cmp.Compare(g.nine, other.nine), cmp.Compare(g.band, other.band))
}

func (g scoringGroup) name() string {
	switch scoringKinds[g.kind] {
	case ByPar:
		return strconv.Itoa(int(g.par))
	case ByNine:
		return nineNames[g.nine]
	case ByLength:
		return fmt.Sprintf("%d, %d-%d", g.par, g.band*lengthBandYd, (g.band+1)*lengthBandYd)
	}
	return "all"
}

// ScoringFigures add up scores over complete holes.
type ScoringFigures struct {
	options Options
	players byPlayer[scoringSums]
}

type scoringSums struct{ rounds []scoringRound }

type scoringRound struct {
	key    roundKey
	cards  int // holes of scorecards, whose strokes gained nobody knows
	groups []scoringCell
}

// scoringCell is a group of holes of one round. Known are the holes whose
// strokes gained are known; scores count from eagle or better to worse than a
// double.
type scoringCell struct {
	group               scoringGroup
	holes, toPar, known int16
	scores              [6]uint8
	gained              float64
}

func newScoringFigures(options Options) *ScoringFigures {
	return &ScoringFigures{options: options, players: byPlayer[scoringSums]{}}
}

// Add adds the complete holes of a batch.
func (f *ScoringFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		if s.Rounds.Holes[round] == 0 {
			continue
		}
		sums := scoringRound{key: keyOf(s, int(from)), cards: int(s.Rounds.Scorecards[round])}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] {
				continue
			}
			toPar := s.Holes.Score[hole] - s.Par[s.Holes.From[hole]]
			groups, n := scoringGroupsOf(s, hole)
			for _, group := range groups[:n] {
				sums.of(group).add(toPar, s.Holes.StrokesGained[hole])
			}
		}
		player := f.players.of(s.Player.At(int(from)))
		player.rounds = append(player.rounds, sums)
	}
}

// scoringGroupsOf are the groups that a hole belongs to: one of each kind, but
// none by length where that is not known.
func scoringGroupsOf(s *transform.Shots, hole int) (groups [len(scoringKinds)]scoringGroup, n int) {
	row := s.Holes.From[hole]
	par, length := int16(s.Par[row]), s.Holes.LengthYd[hole]
	groups = [...]scoringGroup{
		{},
		{kind: 1, par: par},
		{kind: 2, nine: int16(s.Hole[row]-1) / 9},
		{kind: 3, par: par},
	}
	if math.IsNaN(length) {
		return groups, 3
	}
	groups[3].band = int16(length / lengthBandYd)
	return groups, len(groups)
}

func (r *scoringRound) of(group scoringGroup) *scoringCell {
	for i := range r.groups {
		if r.groups[i].group == group {
			return &r.groups[i]
		}
	}
	r.groups = append(r.groups, scoringCell{group: group})
	return &r.groups[len(r.groups)-1]
}

func (c *scoringCell) add(toPar int32, gained float64) {
	c.holes++
	c.toPar += int16(toPar)
	c.scores[min(max(toPar, -2), 3)+2]++
	if !math.IsNaN(gained) {
		c.known++
		c.gained += gained
	}
}

// Rows are the finished rows: players in order, total, pars, nines, lengths.
func (f *ScoringFigures) Rows() []Scoring {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *scoringSums) (rows []Scoring) {
		slices.SortFunc(player.rounds, func(a, b scoringRound) int { return a.key.compare(b.key) })
		for _, group := range player.groups() {
			row := player.row(group, &draws)
			row.Player, row.Baseline = name, f.options.Baseline
			rows = append(rows, row)
		}
		return rows
	})
}

// groups are the groups of holes that the player has played.
func (p *scoringSums) groups() []scoringGroup {
	played := map[scoringGroup]bool{}
	for i := range p.rounds {
		for _, cell := range p.rounds[i].groups {
			played[cell.group] = true
		}
	}
	return slices.SortedFunc(maps.Keys(played), scoringGroup.compare)
}

func (p *scoringSums) row(group scoringGroup, draws *resamplers) Scoring {
	row := Scoring{GroupKind: scoringKinds[group.kind], Group: group.name(), LengthFromYd: math.NaN(), LengthToYd: math.NaN()}
	if row.GroupKind == ByLength {
		row.LengthFromYd, row.LengthToYd = lengthBandYd*float64(group.band), lengthBandYd*float64(group.band+1)
	}
	toPar, per18 := make([]float64, len(p.rounds)), make([]float64, len(p.rounds))
	var gained, known18 []float64 // of the rounds that have any
	var scores [6]int64
	for i := range p.rounds {
		anyKnown := p.rounds[i].of(scoringGroup{}).known > 0
		if anyKnown {
			gained, known18 = append(gained, 0), append(known18, 0)
		}
		at := slices.IndexFunc(p.rounds[i].groups, func(c scoringCell) bool { return c.group == group })
		if at < 0 {
			continue
		}
		cell := p.rounds[i].groups[at]
		if anyKnown {
			gained[len(gained)-1], known18[len(gained)-1] = cell.gained, float64(cell.known)/18
		}
		row.Rounds++
		row.N += int64(cell.holes)
		for place, n := range cell.scores {
			scores[place] += int64(n)
		}
		toPar[i], per18[i] = float64(cell.toPar), float64(cell.holes)/18
	}
	row.ToPar, row.ToParLo, row.ToParHi = withEnds(ratioOverRounds(toPar, per18, draws))
	row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi = withEnds(ratioOverRounds(gained, known18, draws))
	row.EaglesOrBetter, row.Birdies, row.Pars, row.Bogeys, row.Doubles, row.Worse = scores[0], scores[1], scores[2], scores[3], scores[4], scores[5]
	row.UnderParShare, row.UnderParLo, row.UnderParHi = withEnds(shareOverRounds(scores[0]+scores[1], row.N, int(row.Rounds)))
	row.DoubleOrWorseShare, row.DoubleOrWorseLo, row.DoubleOrWorseHi = withEnds(shareOverRounds(scores[4]+scores[5], row.N, int(row.Rounds)))
	return row
}

// warnings counts the complete holes that strokes gained leave out.
func (f *ScoringFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		unknown := 0
		for i := range f.players[name].rounds {
			all := f.players[name].rounds[i].of(scoringGroup{})
			unknown += int(all.holes-all.known) - f.players[name].rounds[i].cards
		}
		if unknown > 0 {
			warnings = append(warnings, Warning{Figure: "strokes gained", Player: name,
				Text: fmt.Sprintf("complete holes with a stroke whose distance, or value by the baseline, is not known: %d; they count in scores, not in strokes gained or, without a length, by length", unknown)})
		}
	}
	return warnings
}
