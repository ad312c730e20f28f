package metrics

import (
	"math"
	"slices"
	"strings"
	"time"

	"roundmill/transform"
)

// CostlyShot is one row of the table costly_shots: one of the twenty strokes
// that lost one player most against the baseline over all that was logged.
//
// A stroke counts when its strokes gained are known, also on a hole that was
// not finished: a ball put out of bounds before a pick-up is as costly.
type CostlyShot struct {
	Player         string    `col:"player" about:"player as named in the log, null when the log names none"`
	Rank           Rank      `col:"rank" about:"1 for the stroke that lost most; of equal ones the earlier is first"`
	Date           time.Time `col:"date" about:"day played"`
	Course         string    `col:"course" about:"course as named in the log"`
	Round          string    `col:"round" about:"round as named in the log"`
	Hole           int64     `col:"hole" about:"number of the hole"`
	Par            int64     `col:"par" about:"par of the hole"`
	Shot           int64     `col:"shot" about:"number of the stroke on the hole"`
	Class          string    `col:"shot_class" about:"tee shot, approach (the tee of a par 3 among them), short game or putt"`
	Lie            string    `col:"lie" about:"lie as logged"`
	ToHoleYd       float64   `col:"to_hole_yd" unit:"yd" about:"distance to the hole before the stroke"`
	Club           string    `col:"club" about:"club as logged"`
	FinishCategory string    `col:"finish_category" about:"lie category after the stroke; after a penalty, where play resumed"`
	FinishYd       float64   `col:"finish_yd" unit:"yd" about:"distance to the hole after the stroke; after a penalty, where play resumed"`
	Penalty        int64     `col:"penalty" unit:"strokes" about:"penalty strokes it brought"`
	PenaltyKind    string    `col:"penalty_kind" about:"what the penalty was for"`
	StrokesGained  float64   `col:"strokes_gained" unit:"strokes" about:"strokes gained, below zero when lost"`
	Intent         string    `col:"intent" about:"what the stroke was meant to do, where written"`
	Fault          string    `col:"fault" about:"the player's own verdict, where written"`
	Note           string    `col:"note" about:"the player's note"`
	HoleComplete   bool      `col:"hole_complete" about:"whether the hole was finished and so counts in the other figures"`
	SourceFile     string    `col:"source_file" about:"file that the stroke stands in"`
	SourceLine     int64     `col:"source_line" about:"its line there"`
	Baseline       string    `col:"baseline" about:"what strokes gained are measured against"`
}

// mostCostly is how many strokes of a player are kept.
const mostCostly = 20

// CostlyShotFigures keep the costliest strokes of every player.
type CostlyShotFigures struct {
	options Options
	players byPlayer[costlyShots]
}

// costlyShots are at most mostCostly strokes, the one that lost most first.
type costlyShots struct{ shots []costlyShot }

type costlyShot struct {
	loggedStroke
	finish           string
	finishYd         float64
	note, sourceFile string
	sourceLine       int32
	holeComplete     bool
}

func newCostlyShotFigures(options Options) *CostlyShotFigures {
	return &CostlyShotFigures{options: options, players: byPlayer[costlyShots]{}}
}

// Add looks through the strokes of a batch.
func (f *CostlyShotFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		from, end := s.RoundRowRange(round)
		player, key := f.players.of(s.Player.At(from)), keyOf(s, from)
		for row := from; row < end; row++ {
			if gained := s.StrokesGained[row]; !math.IsNaN(gained) && gained < 0 && player.mightKeep(gained) {
				player.keep(costlyShot{
					loggedStroke: strokeAt(s, row, key), finish: s.FinishCategory[row].String(), finishYd: s.FinishYd[row],
					note:       strings.Clone(s.Note.At(row)), // lest it hold on to all the notes of its batch
					sourceFile: s.SourceFile.At(row), sourceLine: s.SourceLine[row], holeComplete: s.HoleComplete[row],
				})
			}
		}
	}
}

func (c *costlyShots) mightKeep(gained float64) bool {
	return len(c.shots) < mostCostly || gained <= c.shots[len(c.shots)-1].gained
}

func (c *costlyShots) keep(shot costlyShot) {
	at, _ := slices.BinarySearchFunc(c.shots, shot, func(a, b costlyShot) int { return a.byLoss(&b.loggedStroke) })
	c.shots = slices.Insert(c.shots, at, shot)
	c.shots = c.shots[:min(len(c.shots), mostCostly)]
}

// Rows are the finished rows: players in order, the costliest stroke first.
func (f *CostlyShotFigures) Rows() []CostlyShot {
	return rowsOf(f.players, func(name string, player *costlyShots) (rows []CostlyShot) {
		for i, s := range player.shots {
			rows = append(rows, CostlyShot{
				Player: name, Rank: Rank(i + 1), Date: s.key.day(), Course: s.key.course, Round: s.key.round,
				Hole: int64(s.hole), Par: int64(s.par), Shot: int64(s.shot), Class: s.class.String(), Lie: s.lie, ToHoleYd: s.toHoleYd,
				Club: s.club, FinishCategory: s.finish, FinishYd: s.finishYd, Penalty: int64(s.penalty), PenaltyKind: s.penaltyKind,
				StrokesGained: s.gained, Intent: s.intent, Fault: s.fault, Note: s.note, HoleComplete: s.holeComplete,
				SourceFile: s.sourceFile, SourceLine: int64(s.sourceLine), Baseline: f.options.Baseline,
			})
		}
		return rows
	})
}
