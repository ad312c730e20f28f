package transform

import "roundmill/transform/baseline"

// gain works out strokes gained of all strokes against one table.
func (s *Shots) gain(table *baseline.Table) {
	s.ExpectedBefore, s.ExpectedAfter, s.StrokesGained = make([]float64, s.N), make([]float64, s.N), make([]float64, s.N)
	for hole := range s.Holes.Len() {
		s.gainHole(s.Holes.rows(hole, s.N), table)
	}
}

// gainHole fills in strokes gained: E(before) - E(after) - 1 - penalty, Broadie
// (2012). What is expected after a stroke is what is expected before the next
// one, so that the strokes gained over a complete hole add up to E(tee) - score
// also where the log's two distances differ by a rounding.
func (s *Shots) gainHole(rows span, table *baseline.Table) {
	for row := rows.from; row < rows.to; row++ {
		s.ExpectedBefore[row] = table.Strokes(s.Category[row], s.ToHoleYd[row])
	}
	for row := rows.from; row < rows.to; row++ {
		if row+1 < rows.to && s.follows(row) {
			s.ExpectedAfter[row] = s.ExpectedBefore[row+1]
		} else {
			s.ExpectedAfter[row] = table.Strokes(s.FinishCategory[row], s.FinishYd[row])
		}
		s.StrokesGained[row] = s.ExpectedBefore[row] - s.ExpectedAfter[row] - 1 - float64(s.Penalty[row])
	}
}

// MeasureAgainst works out strokes gained anew, of strokes, holes and rounds,
// each round of the batch against the table that tableOf gives for it: s or its
// Strokes, and the round there.
func (s *Shots) MeasureAgainst(tableOf func(s *Shots, round int) *baseline.Table) {
	s.measureAgainst(tableOf)
	if s.strokes != s {
		s.strokes.measureAgainst(tableOf)
	}
}

func (s *Shots) measureAgainst(tableOf func(s *Shots, round int) *baseline.Table) {
	for round := range s.Rounds.Len() {
		table := tableOf(s, round)
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			s.gainHole(s.Holes.rows(hole, s.N), table)
		}
	}
	s.addHoles()
	s.addRounds()
}
