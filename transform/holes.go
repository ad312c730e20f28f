package transform

import (
	"math"
	"time"

	"roundmill/ingest"
)

// Holes are the holes of a batch, as columns. Score and what follows from it
// are only meaningful where Complete. Of a hole on a scorecard the strokes, the
// penalties and maybe the putts are -1, not known, and strokes gained are NaN.
type Holes struct {
	From          []int32 // first row of the hole
	LengthYd      []float64
	Strokes       []int32 // as logged
	Penalties     []int32
	Score         []int32
	Putts         []int32
	FairwayHit    []Known // Unknown on a par 3
	GreenInReg    []Known
	UpAndDown     []Known // Unknown without a short-game stroke
	SandSave      []Known // Unknown without a stroke from sand within the short game
	ThreePutt     []Known
	StrokesGained []float64
	Complete      []bool
}

// Len is the number of holes.
func (h *Holes) Len() int { return len(h.From) }

// RowRange is the rows [from, to) of a hole.
func (s *Shots) RowRange(hole int) (from, to int) {
	rows := s.Holes.rows(hole, s.N)
	return rows.from, rows.to
}

// rows is the span of a hole in a batch of n rows.
func (h *Holes) rows(hole, n int) span {
	if hole+1 < len(h.From) {
		return span{int(h.From[hole]), int(h.From[hole+1])}
	}
	return span{int(h.From[hole]), n}
}

// spanHoles finds where rounds and holes begin, and each row's season.
func (s *Shots) spanHoles(roundRows []int) {
	row := 0
	for _, n := range roundRows {
		s.Rounds.From = append(s.Rounds.From, int32(row))
		s.Rounds.FromHole = append(s.Rounds.FromHole, int32(len(s.Holes.From)))
		for end := row + n; row < end; row++ {
			if first := row == end-n; first || s.Hole[row] != s.Hole[row-1] {
				s.Holes.From = append(s.Holes.From, int32(row))
			}
		}
	}
	s.Season = make([]int32, s.N)
	for row, day := range s.Date {
		if row > 0 && day == s.Date[row-1] {
			s.Season[row] = s.Season[row-1]
			continue
		}
		s.Season[row] = int32(time.Unix(int64(day)*24*60*60, 0).UTC().Year())
	}
}

// addHoles scores every hole.
func (s *Shots) addHoles() {
	h := &s.Holes
	n := h.Len()
	lengths := make([]float64, s.N)
	h.LengthYd, h.StrokesGained = make([]float64, n), make([]float64, n)
	h.Strokes, h.Penalties, h.Score, h.Putts = make([]int32, n), make([]int32, n), make([]int32, n), make([]int32, n)
	for _, column := range []*[]Known{&h.FairwayHit, &h.GreenInReg, &h.UpAndDown, &h.SandSave, &h.ThreePutt} {
		*column = make([]Known, n)
	}
	h.Complete = make([]bool, n)
	for hole := range n {
		rows := h.rows(hole, s.N)
		length := s.lengthOf(rows)
		h.LengthYd[hole] = length
		h.Complete[hole] = s.HoleComplete[rows.from]
		if s.isScorecard(rows.from) {
			lengths[rows.from] = length
			s.addScorecard(hole, rows.from)
			continue
		}
		for row := rows.from; row < rows.to; row++ {
			lengths[row] = length
			h.Strokes[hole]++
			h.Penalties[hole] += s.Penalty[row]
			h.StrokesGained[hole] += s.StrokesGained[row]
			if s.Class[row] == Putt {
				h.Putts[hole]++
			}
		}
		h.Score[hole] = h.Strokes[hole] + h.Penalties[hole]
		h.FairwayHit[hole] = s.fairwayHit(rows)
		h.GreenInReg[hole] = known(s.strokesToGreen(rows) <= s.Par[rows.from]-2)
		h.UpAndDown[hole] = s.upAndDown(rows, func(row int) bool { return true })
		h.SandSave[hole] = s.upAndDown(rows, func(row int) bool { return s.Category[row] == ingest.Sand })
		h.ThreePutt[hole] = known(h.Putts[hole] >= 3)
	}
	s.HoleLengthYd = lengths
}

// addScorecard takes what is known of a hole from the record of a scorecard. A
// par 3 has no fairway to hit, whatever is written there.
func (s *Shots) addScorecard(hole, row int) {
	h := &s.Holes
	h.Strokes[hole], h.Penalties[hole], h.Putts[hole] = -1, -1, s.putts[row]
	h.Score[hole], h.StrokesGained[hole] = s.score[row], math.NaN()
	h.FairwayHit[hole], h.GreenInReg[hole] = s.fairway[row], s.green[row]
	h.UpAndDown[hole], h.SandSave[hole], h.ThreePutt[hole] = Unknown, Unknown, Unknown
	if s.Par[row] == 3 {
		h.FairwayHit[hole] = Unknown
	}
	if putts := s.putts[row]; putts >= 0 {
		h.ThreePutt[hole] = known(putts >= 3)
	}
}

// IsScorecard reports whether of a hole the score alone is known, and maybe
// putts, fairway and green: strokes, penalties and strokes gained are not.
func (h *Holes) IsScorecard(hole int) bool { return h.Strokes[hole] < 0 }

// StrokeIndexOf is the first stroke index that a record of the hole has, 0 where
// none has.
func (s *Shots) StrokeIndexOf(hole int) int32 {
	from, to := s.RowRange(hole)
	for _, index := range s.StrokeIndex[from:to] {
		if index > 0 {
			return index
		}
	}
	return 0
}

// lengthOf is the length of a hole in yards: as logged, else the first distance to
// the hole, which of a hole without its tee shot is less.
func (s *Shots) lengthOf(rows span) float64 {
	if length := firstNumber(s.HoleLengthYd, rows); !math.IsNaN(length) {
		return length
	}
	return s.ToHoleYd[rows.from]
}

// fairwayHit reports whether the first stroke of a par 4 or more finished on
// the fairway or the green.
func (s *Shots) fairwayHit(rows span) Known {
	if s.Class[rows.from] != TeeShot || s.FinishCategory[rows.from] == ingest.NoCategory && s.Penalty[rows.from] == 0 {
		return Unknown
	}
	finish := s.FinishCategory[rows.from]
	return known(s.Penalty[rows.from] == 0 && (finish == ingest.Fairway || onGreen(finish)))
}

// strokesToGreen is the strokes and penalties it took to be on the green, or in
// the hole.
func (s *Shots) strokesToGreen(rows span) int32 {
	var strokes int32
	for row := rows.from; row < rows.to; row++ {
		if s.Category[row] == ingest.Green {
			return strokes
		}
		strokes += 1 + s.Penalty[row]
		if onGreen(s.FinishCategory[row]) {
			return strokes
		}
	}
	return strokes
}

// upAndDown reports whether the hole was finished in two strokes or fewer,
// penalties counted, from the first short-game stroke that counts.
func (s *Shots) upAndDown(rows span, counts func(row int) bool) Known {
	for row := rows.from; row < rows.to; row++ {
		if s.Class[row] != ShortGame || !counts(row) {
			continue
		}
		strokes := int32(rows.to - row)
		for ; row < rows.to; row++ {
			strokes += s.Penalty[row]
		}
		return known(strokes <= 2)
	}
	return Unknown
}
