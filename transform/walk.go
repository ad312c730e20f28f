package transform

import (
	"math"

	"roundmill/ingest"
)

// span is the rows [from, to) of one hole or round.
type span struct{ from, to int }

// walk follows the ball through a hole: where each stroke finished, whether it
// was holed, and whether the hole is complete.
func (s *Shots) walk(hole span, lies ingest.Lies) {
	last := hole.to - 1
	for row := hole.from; row < hole.to; row++ {
		next := -1
		if row < last && s.follows(row) {
			next = row + 1
		}
		s.Holed[row] = row == last && s.ends(row, lies)
		s.finish(row, next, lies)
		// Where records are missing behind the last one, "no" is no pick-up.
		pickedUp := row == last && s.holedAsLogged[row] == No && s.holeState[row] != ingest.Endless
		s.ProximityFt[row] = math.NaN()
		if s.Penalty[row] == 0 && !pickedUp {
			s.ProximityFt[row] = 3 * s.FinishYd[row]
		}
	}
	complete := s.holeState[hole.from] == ingest.Sound && s.Holed[last]
	for row := hole.from; row < hole.to; row++ {
		s.HoleComplete[row] = complete
	}
}

// follows reports whether the next record is the next stroke, with or without
// penalty strokes counted in the numbering.
func (s *Shots) follows(row int) bool {
	step := s.Shot[row+1] - s.Shot[row]
	return step == 1 || s.Penalty[row] > 0 && step == 1+s.Penalty[row]
}

// ends reports whether the last record of a hole is the stroke that holed out:
// the log says so, or says nothing against it.
func (s *Shots) ends(row int, lies ingest.Lies) bool {
	if s.holedAsLogged[row] != Unknown {
		return s.holedAsLogged[row] == Yes
	}
	finish := s.FinishLie.At(row)
	elsewhere := s.left[row] > 0 || finish != "" && lies.FinishCategory(finish) != ingest.Holed
	return s.holeState[row] != ingest.Endless && !elsewhere
}

// finish finds where a stroke finished: as logged, else at the start of the
// next one. After a penalty that is where play resumed.
func (s *Shots) finish(row, next int, lies ingest.Lies) {
	yards, category := s.left[row], ingest.NoCategory
	if word := s.FinishLie.At(row); word != "" {
		category = lies.FinishCategory(word)
	}
	if next >= 0 && (s.Penalty[row] > 0 || math.IsNaN(yards)) {
		yards = s.ToHoleYd[next]
	}
	if next >= 0 && (s.Penalty[row] > 0 || category == ingest.NoCategory) {
		category = s.Category[next]
	}
	if s.Holed[row] {
		yards, category = 0, ingest.Holed
	}
	if category == ingest.OutOfPlay {
		category = ingest.NoCategory
	}
	s.FinishYd[row], s.FinishCategory[row] = yards, category
}

// gain fills in strokes gained: E(before) - E(after) - 1 - penalty, Broadie
// (2012). What is expected after a stroke is what is expected before the next
// one, so that the strokes gained over a complete hole add up to E(tee) - score
// also where the log's two distances differ by a rounding.
func (s *Shots) gain(table interface {
	Strokes(ingest.Category, float64) float64
}) {
	s.ExpectedBefore, s.ExpectedAfter, s.StrokesGained = make([]float64, s.N), make([]float64, s.N), make([]float64, s.N)
	for row := range s.N {
		s.ExpectedBefore[row] = table.Strokes(s.Category[row], s.ToHoleYd[row])
	}
	for hole := range s.Holes.Len() {
		rows := s.Holes.rows(hole, s.N)
		for row := rows.from; row < rows.to; row++ {
			if row+1 < rows.to && s.follows(row) {
				s.ExpectedAfter[row] = s.ExpectedBefore[row+1]
			} else {
				s.ExpectedAfter[row] = table.Strokes(s.FinishCategory[row], s.FinishYd[row])
			}
			s.StrokesGained[row] = s.ExpectedBefore[row] - s.ExpectedAfter[row] - 1 - float64(s.Penalty[row])
		}
	}
}
