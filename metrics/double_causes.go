package metrics

import (
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// DoubleCause is one row of the table double_causes: how often strokes of one
// kind made one player's doubles, or worse, and what they cost. Which strokes
// make a double is defined at DoubleShot; one double can have several.
type DoubleCause struct {
	Player         string  `col:"player" about:"player as named in the log, null when the log names none"`
	GroupKind      string  `col:"group_kind" about:"total, class or penalty"`
	Group          string  `col:"group" about:"which class; penalty: strokes that brought a penalty, of any class"`
	Rounds         int64   `col:"rounds" about:"rounds with a complete hole whose strokes are logged"`
	N              int64   `col:"n" about:"doubles or worse, of all kinds"`
	Doubles        int64   `col:"doubles" about:"of these, with at least one such stroke"`
	DoublesShare   float64 `col:"doubles_share" unit:"share" about:"doubles with at least one such stroke, of n; null for all strokes"`
	DoublesLo      float64 `col:"doubles_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	DoublesHi      float64 `col:"doubles_hi" unit:"share" about:"upper end of its 90 % interval"`
	Started        int64   `col:"started" about:"doubles whose first such stroke in order of play, of all kinds, is of this kind"`
	StartedShare   float64 `col:"started_share" unit:"share" about:"doubles that a stroke of this kind started, of n; null for all strokes"`
	StartedLo      float64 `col:"started_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	StartedHi      float64 `col:"started_hi" unit:"share" about:"upper end of its 90 % interval"`
	Shots          int64   `col:"shots" about:"such strokes in the doubles"`
	LostPerShot    float64 `col:"lost_per_shot" unit:"strokes" about:"mean loss of such a stroke"`
	LostPerRound   float64 `col:"lost_per_round" unit:"strokes" about:"what they lose per 18 complete holes"`
	LostPerRoundLo float64 `col:"lost_per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	LostPerRoundHi float64 `col:"lost_per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline       string  `col:"baseline" about:"what strokes gained are measured against"`
}

// ByPenalty is the kind of group of strokes that brought a penalty.
const ByPenalty = "penalty"

// CauseRows are the finished rows: players in order, total, classes, penalties;
// all of them for a player with a double.
func (f *DoubleFigures) CauseRows() []DoubleCause {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *doubleSums) (rows []DoubleCause) {
		player.sort()
		add := func(kind, group string, is func(*loggedStroke) bool) {
			row := player.cause(is, &draws)
			if row.N == 0 {
				return
			}
			if kind == ByTotal { // all of all says nothing
				row.DoublesShare, row.DoublesLo, row.DoublesHi = math.NaN(), math.NaN(), math.NaN()
				row.StartedShare, row.StartedLo, row.StartedHi = math.NaN(), math.NaN(), math.NaN()
			}
			row.Player, row.GroupKind, row.Group, row.Baseline = name, kind, group, f.options.Baseline
			rows = append(rows, row)
		}
		add(ByTotal, "all", func(*loggedStroke) bool { return true })
		for class := range transform.ClassCount {
			add(ByClass, class.String(), func(s *loggedStroke) bool { return s.class == class })
		}
		add(ByPenalty, "penalty", func(s *loggedStroke) bool { return s.penalty > 0 })
		return rows
	})
}

// cause adds up the strokes of one kind over all doubles of a player.
func (p *doubleSums) cause(is func(*loggedStroke) bool, draws *resamplers) DoubleCause {
	row := DoubleCause{Rounds: int64(len(p.rounds)), LostPerShot: math.NaN()}
	lost, per18 := make([]float64, len(p.rounds)), make([]float64, len(p.rounds))
	withSuch := 0
	for i := range p.rounds {
		per18[i] = float64(p.rounds[i].holes) / 18
		before := row.Shots
		for _, d := range p.rounds[i].doubles {
			row.N++
			such := int64(0)
			for shot := range d.shots {
				if is(&d.shots[shot]) {
					such++
					lost[i] -= d.shots[shot].gained
					if shot == 0 {
						row.Started++
					}
				}
			}
			row.Shots += such
			row.Doubles += min(such, 1)
		}
		if row.Shots > before {
			withSuch++
		}
	}
	row.DoublesShare, row.DoublesLo, row.DoublesHi = withEnds(shareOverRounds(row.Doubles, row.N, len(p.rounds)))
	row.StartedShare, row.StartedLo, row.StartedHi = withEnds(shareOverRounds(row.Started, row.N, len(p.rounds)))
	row.LostPerRound, row.LostPerRoundLo, row.LostPerRoundHi = withEnds(ratioOverRounds(lost, per18, draws))
	if withSuch < leastRounds {
		row.LostPerRoundLo, row.LostPerRoundHi = math.NaN(), math.NaN()
	}
	if row.Shots > 0 {
		var total estimate.Sum
		for _, strokes := range lost {
			total.Add(strokes)
		}
		row.LostPerShot = total.Value() / float64(row.Shots)
	}
	return row
}
