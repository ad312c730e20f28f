package transform

import (
	"math"

	"roundmill/ingest"
)

// span is the rows [from, to) of one hole or round.
type span struct{ from, to int }

// firstNumber is the first value among rows, NaN where there is none.
func firstNumber(values []float64, rows span) float64 {
	for _, v := range values[rows.from:rows.to] {
		if !math.IsNaN(v) {
			return v
		}
	}
	return math.NaN()
}

// walk follows the ball through every hole: where each stroke finished, whether
// it was holed, and whether the hole is complete.
func (s *Shots) walk(lies ingest.Lies) {
	s.FinishCategory = s.FinishLie.categories(lies.FinishCategory)
	s.FinishYd, s.ProximityFt = make([]float64, s.N), make([]float64, s.N)
	s.Holed, s.HoleComplete = make([]bool, s.N), make([]bool, s.N)
	for hole := range s.Holes.Len() {
		s.walkHole(s.Holes.rows(hole, s.N))
	}
}

func (s *Shots) walkHole(hole span) {
	last := hole.to - 1
	s.Holed[last] = s.ends(last)
	for row := hole.from; row < hole.to; row++ {
		if s.Shot[row] == 0 { // no stroke, which finishes nowhere
			s.FinishYd[row], s.ProximityFt[row] = math.NaN(), math.NaN()
			continue
		}
		outOfPlay := s.FinishCategory[row] == ingest.OutOfPlay
		s.finish(row, row < last && s.follows(row))
		s.ProximityFt[row] = 3 * s.FinishYd[row]
		if s.Penalty[row] > 0 || outOfPlay || row == last && s.pickedUp(last) {
			s.ProximityFt[row] = math.NaN()
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

// FinishKnown reports whether it is known how a stroke ended: at a place in play,
// or in a penalty, which is an end even where the ball was then picked up.
func (s *Shots) FinishKnown(row int) bool {
	return s.Penalty[row] > 0 || !math.IsNaN(s.FinishYd[row])
}

// ends reports whether the last record of a hole is the stroke that holed out:
// the log says so, or says nothing against it.
func (s *Shots) ends(row int) bool {
	if s.holedAsLogged[row] != Unknown {
		return s.holedAsLogged[row] == Yes
	}
	finish := s.FinishCategory[row]
	elsewhere := s.left[row] > 0 || finish != ingest.NoCategory && finish != ingest.Holed
	return s.holeState[row] != ingest.Endless && !elsewhere
}

// pickedUp reports whether the ball was picked up after the last record of a
// hole. One that is not the last stroke has only not been holed.
func (s *Shots) pickedUp(row int) bool {
	return s.holedAsLogged[row] == No && s.holeState[row] != ingest.Endless
}

// finish finds where a stroke finished: as logged, which is what FinishCategory
// holds at first, else at the start of the next one. After a penalty that is
// where play resumed.
func (s *Shots) finish(row int, followed bool) {
	yards, category := s.left[row], s.FinishCategory[row]
	if followed && (s.Penalty[row] > 0 || math.IsNaN(yards)) {
		yards = s.ToHoleYd[row+1]
	}
	if followed && (s.Penalty[row] > 0 || category == ingest.NoCategory) {
		category = s.Category[row+1]
	}
	switch {
	case s.Holed[row]:
		yards, category = 0, ingest.Holed
	case category == ingest.OutOfPlay:
		category = ingest.NoCategory
	}
	s.FinishYd[row], s.FinishCategory[row] = yards, category
}
