package metrics

import (
	"fmt"
	"math"
	"slices"
	"time"

	"roundmill/transform"
)

// DoubleShot is one row of the table double_shots: a stroke that made one hole
// a double bogey or worse.
//
// These are the strokes of the hole that lost most, taken in order of their
// loss until the score less what they lost is a bogey or better: without them
// it would have been no double. A fixed threshold was the alternative; it names
// no stroke where four small losses made the double, and too many where one
// would have done. Against a baseline that itself expects worse than a bogey,
// all that lost anything are named.
type DoubleShot struct {
	Player        string    `col:"player" about:"player as named in the log, null when the log names none"`
	Date          time.Time `col:"date" about:"day played"`
	Course        string    `col:"course" about:"course as named in the log"`
	Round         string    `col:"round" about:"round as named in the log"`
	Hole          int64     `col:"hole" about:"number of the hole"`
	Par           int64     `col:"par" about:"par of the hole"`
	Score         int64     `col:"score" unit:"strokes" about:"score on the hole, two over par or more"`
	Shots         int64     `col:"shots" about:"how many strokes of the hole are told of, largest losses first until the rest is a bogey or better"`
	Rank          Rank      `col:"rank" about:"1 for the one of these that lost most"`
	Shot          int64     `col:"shot" about:"number of the stroke on the hole"`
	First         bool      `col:"first" about:"whether it is the first of these in order of play: what started the double"`
	Class         string    `col:"shot_class" about:"tee shot, approach (the tee of a par 3 among them), short game or putt"`
	Lie           string    `col:"lie" about:"lie as logged"`
	ToHoleYd      float64   `col:"to_hole_yd" unit:"yd" about:"distance to the hole before the stroke"`
	Club          string    `col:"club" about:"club as logged"`
	Penalty       int64     `col:"penalty" unit:"strokes" about:"penalty strokes it brought"`
	PenaltyKind   string    `col:"penalty_kind" about:"what the penalty was for"`
	StrokesGained float64   `col:"strokes_gained" unit:"strokes" about:"strokes gained, below zero"`
	Intent        string    `col:"intent" about:"what the stroke was meant to do, where written"`
	Fault         string    `col:"fault" about:"the player's own verdict, where written"`
	Baseline      string    `col:"baseline" about:"what strokes gained are measured against"`
}

// DoubleFigures keep the doubles, and worse, of every player with the strokes
// that made them. Complete holes count whose every stroke the baseline knows.
type DoubleFigures struct {
	options Options
	players byPlayer[doubleSums]
}

type doubleSums struct {
	rounds  []doubleRound
	unknown int64 // doubles with a stroke that the baseline does not know
}

type doubleRound struct {
	key     roundKey
	holes   int32 // complete, their strokes gained known
	doubles []double
}

// double is a hole two over par or worse with the strokes that made it, in
// order of play.
type double struct {
	score int32
	shots []loggedStroke
}

func newDoubleFigures(options Options) *DoubleFigures {
	return &DoubleFigures{options: options, players: byPlayer[doubleSums]{}}
}

// Add looks through the complete holes of a batch.
func (f *DoubleFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		player := f.players.of(s.Player.At(int(from)))
		sums := doubleRound{key: keyOf(s, int(from))}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] {
				continue
			}
			isDouble := s.Holes.Score[hole]-s.Par[s.Holes.From[hole]] >= 2
			switch known := !math.IsNaN(s.Holes.StrokesGained[hole]); {
			case known && isDouble:
				sums.holes++
				sums.doubles = append(sums.doubles, doubleOf(s, hole, sums.key))
			case known:
				sums.holes++
			case isDouble:
				player.unknown++
			}
		}
		if sums.holes > 0 {
			player.rounds = append(player.rounds, sums)
		}
	}
}

// doubleOf finds the strokes that made a hole a double.
func doubleOf(s *transform.Shots, hole int, key roundKey) double {
	from, to := s.RowRange(hole)
	losing := make([]loggedStroke, 0, to-from)
	for row := from; row < to; row++ {
		if s.StrokesGained[row] < 0 {
			losing = append(losing, strokeAt(s, row, key))
		}
	}
	slices.SortFunc(losing, func(a, b loggedStroke) int { return a.byLoss(&b) })
	const rounding = 1e-9 // a loss of one stroke is seldom exactly -1
	over := float64(s.Holes.Score[hole]-s.Par[from]) - 1
	made := 0
	for ; made < len(losing) && over > rounding; made++ {
		over += losing[made].gained
	}
	losing = slices.Clone(losing[:made])
	slices.SortFunc(losing, func(a, b loggedStroke) int { return int(a.shot - b.shot) })
	return double{s.Holes.Score[hole], losing}
}

// ShotRows are the finished rows, one for each stroke that made a double:
// players, rounds, holes and strokes in order.
func (f *DoubleFigures) ShotRows() []DoubleShot {
	return rowsOf(f.players, func(name string, player *doubleSums) (rows []DoubleShot) {
		player.sort()
		for _, round := range player.rounds {
			for _, d := range round.doubles {
				for i := range d.shots {
					row := d.row(i)
					row.Player, row.Baseline = name, f.options.Baseline
					rows = append(rows, row)
				}
			}
		}
		return rows
	})
}

func (p *doubleSums) sort() {
	slices.SortFunc(p.rounds, func(a, b doubleRound) int { return a.key.compare(b.key) })
}

func (d *double) row(i int) DoubleShot {
	s := &d.shots[i]
	rank := 1
	for other := range d.shots {
		if d.shots[other].byLoss(s) < 0 {
			rank++
		}
	}
	return DoubleShot{
		Date: s.key.day(), Course: s.key.course, Round: s.key.round, Hole: int64(s.hole), Par: int64(s.par), Score: int64(d.score),
		Shots: int64(len(d.shots)), Rank: Rank(rank), Shot: int64(s.shot), First: i == 0,
		Class: s.class.String(), Lie: s.lie, ToHoleYd: s.toHoleYd, Club: s.club, Penalty: int64(s.penalty), PenaltyKind: s.penaltyKind,
		StrokesGained: s.gained, Intent: s.intent, Fault: s.fault,
	}
}

// warnings counts the doubles that cannot be told apart into strokes.
func (f *DoubleFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		if n := f.players[name].unknown; n > 0 {
			warnings = append(warnings, Warning{Figure: "double_shots", Player: name,
				Text: fmt.Sprintf("doubles or worse with a stroke whose distance, or value by the baseline, is not known, left out: %d", n)})
		}
	}
	return warnings
}
