package metrics

import (
	"fmt"
	"hash/fnv"
	"math"

	"roundmill/ingest"
	"roundmill/metrics/estimate"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// OwnBaselineFigures collect, in a first pass over the logs, what `--baseline
// self` is made of: at every distance from every lie category, how many strokes
// were played on complete holes and how many strokes, penalties among them, it
// took from there to hole out.
//
// It lives here and not in transform because isotonic regression is an
// estimator, and imports run one way: the finished tables go down to transform
// as values.
//
// Up to 50 rounds are kept apart, each about a kilobyte. Beyond, they are
// added up into ten folds by a hash of the round, each a count per tenth of a
// foot, so that memory does not grow with the input.
type OwnBaselineFigures struct {
	players map[string]bool
	rounds  []ownRound // nil once there are folds
	folds   []ownCounts
}

const (
	mostRoundsApart = 50
	ownFolds        = 10
	thinStrokes     = 30 // fewer in a category deserve a warning
)

// ownKey identifies a round of any player.
type ownKey struct {
	player string
	roundKey
}

func (k ownKey) fold() int {
	hash := fnv.New32a()
	fmt.Fprintf(hash, "%s\x00%d\x00%s\x00%s", k.player, k.date, k.course, k.round)
	return int(hash.Sum32() % ownFolds)
}

type ownRound struct {
	key     ownKey
	strokes []ownStroke
}

// NewOwnBaselineFigures is an empty accumulator.
func NewOwnBaselineFigures() *OwnBaselineFigures {
	return &OwnBaselineFigures{players: map[string]bool{}}
}

// Add adds the complete holes of a batch.
func (f *OwnBaselineFigures) Add(batch *transform.Shots) {
	s := batch.Strokes()
	for round, from := range s.Rounds.From {
		r := ownRound{key: ownKeyOf(s, int(from))}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] {
				continue
			}
			from, to := s.RowRange(hole)
			left := int32(0)
			for row := to - 1; row >= from; row-- {
				left += 1 + s.Penalty[row]
				if yards := s.ToHoleYd[row]; s.Category[row] != ingest.NoCategory && !math.IsNaN(yards) {
					r.strokes = append(r.strokes, ownStroke{s.Category[row], tenthsOfAFoot(yards), left})
				}
			}
		}
		if len(r.strokes) > 0 {
			f.players[r.key.player] = true
			f.addRound(r)
		}
	}
}

func ownKeyOf(s *transform.Shots, row int) ownKey {
	return ownKey{s.Player.At(row), keyOf(s, row)}
}

func (f *OwnBaselineFigures) addRound(r ownRound) {
	if f.folds == nil {
		if f.rounds = append(f.rounds, r); len(f.rounds) > mostRoundsApart {
			f.fold()
		}
		return
	}
	fold := &f.folds[r.key.fold()]
	for _, stroke := range r.strokes {
		fold.add(stroke)
	}
}

// fold adds rounds that were kept apart up into folds.
func (f *OwnBaselineFigures) fold() {
	rounds := f.rounds
	f.rounds, f.folds = nil, make([]ownCounts, ownFolds)
	for _, r := range rounds {
		f.addRound(r)
	}
}

// Merge adds the rounds of another accumulator.
func (f *OwnBaselineFigures) Merge(from *OwnBaselineFigures) {
	for player := range from.players {
		f.players[player] = true
	}
	for _, r := range from.rounds {
		f.addRound(r)
	}
	if from.folds == nil {
		return
	}
	if f.folds == nil {
		f.fold()
	}
	for i := range from.folds {
		f.folds[i].addTimes(&from.folds[i], 1)
	}
}

// OwnBaseline is the finished `--baseline self`.
type OwnBaseline struct {
	Whole    *baseline.Table      // of all rounds: for its name, and for what a figure says of a distance; not to score strokes
	Putts    []estimate.PuttCount // of all rounds, by distance
	Warnings []Warning
	byRound  map[ownKey]*baseline.Table // up to 50 rounds
	byFold   []*baseline.Table          // beyond
}

// Finish makes the tables: for each lie category the isotonic regression of the
// strokes left on the distance (estimate.Isotonic), each stroke counting once,
// straight between the distances that occur and level beyond the first and the
// last. There is one without each round, up to 50 of them, and one without each
// of ten folds beyond.
//
// The players of a log are taken together: a squad is measured against the
// squad, so that its players can be compared.
//
// What it cannot tell: strokes gained against it add up to about zero over all
// rounds. They say which strokes are better or worse than these logs' average
// from the same place, and nothing of how that average compares with anybody.
// The tables are estimates themselves, which no interval of strokes gained takes
// into account; and a staircase leans outwards at both ends of the distances.
func (f *OwnBaselineFigures) Finish() *OwnBaseline {
	o := &OwnBaseline{}
	name, of := "own rounds", "the rounds of this log"
	if len(f.players) > 1 {
		name, of = "all players' own rounds", fmt.Sprintf("the rounds of the %d players of this log, taken together", len(f.players))
	}
	leftOut, without := "each left out in turn", "each round is measured against a table made without it"
	if f.folds != nil {
		leftOut, without = "a tenth left out in turn", "each round is measured against a table made without its tenth of them"
	}
	name += ", " + leftOut
	source := fmt.Sprintf("Made from %s: isotonic regression of strokes to hole out on distance for each lie category, over complete holes; %s, so that no stroke is part of its own measure.", of, without)
	table := func(counts *ownCounts) *baseline.Table { return counts.table(name, source) }

	var all ownCounts
	if f.folds != nil {
		for i := range f.folds {
			all.addTimes(&f.folds[i], 1)
		}
		for i := range f.folds {
			all.addTimes(&f.folds[i], -1)
			o.byFold = append(o.byFold, table(&all))
			all.addTimes(&f.folds[i], 1)
		}
	} else {
		o.byRound = map[ownKey]*baseline.Table{}
		for _, r := range f.rounds {
			for _, stroke := range r.strokes {
				all.add(stroke)
			}
		}
		for _, r := range f.rounds {
			var own ownCounts
			for _, stroke := range r.strokes {
				own.add(stroke)
			}
			all.addTimes(&own, -1)
			o.byRound[r.key] = table(&all)
			all.addTimes(&own, 1)
		}
	}
	o.Whole = table(&all)
	o.Putts = all.putts()
	o.Warnings = f.warnings(&all)
	return o
}

// Measure works out the strokes gained of a batch anew, each round against the
// table made without it.
func (o *OwnBaseline) Measure(s *transform.Shots) {
	s.MeasureAgainst(o.tableFor)
}

func (o *OwnBaseline) tableFor(s *transform.Shots, round int) *baseline.Table {
	key := ownKeyOf(s, int(s.Rounds.From[round]))
	if o.byFold != nil {
		return o.byFold[key.fold()]
	}
	if table := o.byRound[key]; table != nil {
		return table
	}
	return o.Whole // without a complete hole, no stroke of the round is in it
}

func (f *OwnBaselineFigures) warnings(all *ownCounts) (warnings []Warning) {
	warn := func(format string, args ...any) {
		warnings = append(warnings, Warning{Figure: "strokes gained", Text: fmt.Sprintf(format, args...)})
	}
	if len(f.rounds) < leastRounds && f.folds == nil {
		warn("rounds that the baseline is made from: %d; strokes gained against it mean little", len(f.rounds))
	}
	warnings = append(warnings, Warning{Figure: "priorities", Text: "the baseline is an estimate from the rounds themselves, " +
		"and intervals and chances take it as exact: a small gap that looks certain may be its own noise"})
	for category := ingest.Tee; category <= ingest.Green; category++ {
		var n int64
		for _, at := range all[category] {
			n += at.n
		}
		if n > 0 && n < thinStrokes {
			warn("the baseline rests on %d strokes from %s (complete holes); a hole with a stroke that no other round's strokes can judge has no strokes gained", n, category)
		}
	}
	return warnings
}
