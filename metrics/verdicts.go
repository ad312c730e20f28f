package metrics

import (
	"fmt"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// Verdict is one row of the table verdicts: what the strokes of one player with
// one word in `fault`, or in `intent`, gained or lost, over complete holes whose
// every stroke the baseline knows. The rows of one kind add up to the strokes
// gained in all.
//
// The words are the player's own. `fault` is written beside bad strokes, so its
// rows are below zero by choice and tell the split of what was lost, not a
// skill; strokes that nobody judged are in the row not noted. A stroke with
// `intent` attack was attacked for a reason: like is not compared with like.
type Verdict struct {
	Player        string  `col:"player" about:"player as named in the log, null when the log names none"`
	GroupKind     string  `col:"group_kind" about:"fault or intent"`
	Group         string  `col:"group" about:"the word written; not noted: strokes without one"`
	Rounds        int64   `col:"rounds" about:"rounds with at least one such stroke on a complete hole"`
	N             int64   `col:"n" about:"strokes counted"`
	StrokesGained float64 `col:"strokes_gained" unit:"strokes" about:"strokes gained in all"`
	PerRound      float64 `col:"per_round" unit:"strokes" about:"strokes gained per 18 complete holes"`
	PerRoundLo    float64 `col:"per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	PerRoundHi    float64 `col:"per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	PerShot       float64 `col:"per_shot" unit:"strokes" about:"strokes gained per such stroke"`
	PerShotLo     float64 `col:"per_shot_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	PerShotHi     float64 `col:"per_shot_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline      string  `col:"baseline" about:"what strokes gained are measured against"`
}

// Kinds of groups in verdicts.
const (
	ByFault  = "fault"
	ByIntent = "intent"
	NotNoted = "not noted"
)

// verdictGroups are the rows of a player, those of a kind side by side.
var verdictGroups = [...]strokesGroup{
	{ByFault, "decision"}, {ByFault, "execution"}, {ByFault, NotNoted},
	{ByIntent, "attack"}, {ByIntent, "safe"}, {ByIntent, "lay up"}, {ByIntent, "get out"}, {ByIntent, NotNoted},
}

// VerdictFigures add up strokes gained by what the player wrote.
type VerdictFigures struct {
	options Options
	players byPlayer[verdictSums]
}

type verdictSums struct{ rounds []verdictRound }

type verdictRound struct {
	key    roundKey
	holes  int32
	n      [len(verdictGroups)]int32
	gained [len(verdictGroups)]float64
}

func newVerdictFigures(options Options) *VerdictFigures {
	return &VerdictFigures{options: options, players: byPlayer[verdictSums]{}}
}

// Add adds the complete holes of a batch.
func (f *VerdictFigures) Add(s *transform.Shots) {
	faults, intents := verdictPlaces(ByFault, s.Fault.List), verdictPlaces(ByIntent, s.Intent.List)
	for round, from := range s.Rounds.From {
		sums := verdictRound{key: keyOf(s, int(from))}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] || math.IsNaN(s.Holes.StrokesGained[hole]) {
				continue
			}
			sums.holes++
			from, to := s.RowRange(hole)
			for row := from; row < to; row++ {
				for _, place := range [...]int{faults[s.Fault.Codes[row]+1], intents[s.Intent.Codes[row]+1]} {
					sums.n[place]++
					sums.gained[place] += s.StrokesGained[row]
				}
			}
		}
		if sums.holes > 0 {
			player := f.players.of(s.Player.At(int(from)))
			player.rounds = append(player.rounds, sums)
		}
	}
}

// verdictPlaces are the places in verdictGroups of the words of a list, after
// that of no word.
func verdictPlaces(kind string, words []string) []int {
	notNoted := slices.Index(verdictGroups[:], strokesGroup{kind, NotNoted})
	places := []int{notNoted}
	for _, word := range words {
		place := slices.Index(verdictGroups[:], strokesGroup{kind, word})
		if place < 0 {
			place = notNoted
		}
		places = append(places, place)
	}
	return places
}

// Rows are the finished rows: players in order, faults, intents. A kind of
// which a player wrote no word has none.
func (f *VerdictFigures) Rows() []Verdict {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *verdictSums) (rows []Verdict) {
		slices.SortFunc(player.rounds, func(a, b verdictRound) int { return a.key.compare(b.key) })
		for place, group := range verdictGroups {
			if player.noted(group.kind) == 0 {
				continue
			}
			if row := player.row(place, &draws); row.N > 0 {
				row.Player, row.GroupKind, row.Group, row.Baseline = name, group.kind, group.name, f.options.Baseline
				rows = append(rows, row)
			}
		}
		return rows
	})
}

// noted counts the strokes with a word of one kind.
func (p *verdictSums) noted(kind string) (n int64) {
	for i := range p.rounds {
		for place, group := range verdictGroups {
			if group.kind == kind && group.name != NotNoted {
				n += int64(p.rounds[i].n[place])
			}
		}
	}
	return n
}

func (p *verdictSums) row(place int, draws *resamplers) (row Verdict) {
	gained, n, per18 := make([]float64, len(p.rounds)), make([]float64, len(p.rounds)), make([]float64, len(p.rounds))
	var total estimate.Sum
	for i := range p.rounds {
		round := &p.rounds[i]
		gained[i], n[i], per18[i] = round.gained[place], float64(round.n[place]), float64(round.holes)/18
		total.Add(gained[i])
		row.N += int64(round.n[place])
		if round.n[place] > 0 {
			row.Rounds++
		}
	}
	row.StrokesGained = total.Value()
	row.PerRound, row.PerRoundLo, row.PerRoundHi = withEnds(ratioOverRounds(gained, per18, draws))
	row.PerShot, row.PerShotLo, row.PerShotHi = withEnds(ratioOverRounds(gained, n, draws))
	if row.Rounds < leastRounds {
		row.PerRoundLo, row.PerRoundHi = math.NaN(), math.NaN()
	}
	return row
}

// warnings names the columns that a player left empty.
func (f *VerdictFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		for _, kind := range [...]string{ByFault, ByIntent} {
			if f.players[name].noted(kind) == 0 {
				warnings = append(warnings, Warning{Figure: "verdicts", Player: name,
					Text: fmt.Sprintf("no stroke has a word in `%s`: nothing can be split by it", kind)})
			}
		}
	}
	return warnings
}
