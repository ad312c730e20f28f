package transform

import (
	"fmt"
	"math"
	"strings"
)

// Rounds are the rounds of a batch, as columns. Scores and counts are over the
// complete holes; -1, or NaN of strokes gained, where a scorecard's hole among
// them does not say, and of fairways where none does.
type Rounds struct {
	From          []int32 // first row of the round
	FromHole      []int32 // first hole of the round in Holes
	HolesLogged   []int32
	Holes         []int32 // complete
	Scorecards    []int32 // of these, holes on a scorecard
	Par, Score    []int32
	Putts         []int32
	FairwaysHit   []int32
	Fairways      []int32 // holes with a fairway to hit
	Greens        []int32 // in regulation
	Penalties     []int32
	StrokesGained []float64
	ByClass       [ClassCount][]float64 // strokes gained
	Complete      []bool                // every hole is, and there are 9, 18, 27 or 36

	// The first that a record of the round has, NaN where none has, and the row of the
	// first that names the tees, or the first row.
	CourseRating, SlopeRating []float64
	TeesRow                   []int32
}

// Len is the number of rounds.
func (r *Rounds) Len() int { return len(r.From) }

// scored says which rounds have a complete hole.
func (r *Rounds) scored() []bool {
	any := make([]bool, r.Len())
	for round, holes := range r.Holes {
		any[round] = holes > 0
	}
	return any
}

// RoundRowRange is the rows [from, to) of a round.
func (s *Shots) RoundRowRange(round int) (from, to int) {
	if round+1 < s.Rounds.Len() {
		return int(s.Rounds.From[round]), int(s.Rounds.From[round+1])
	}
	return int(s.Rounds.From[round]), s.N
}

// HoleRange is the holes [from, to) of a round.
func (r *Rounds) HoleRange(round int, holes *Holes) (from, to int) {
	if round+1 < len(r.FromHole) {
		return int(r.FromHole[round]), int(r.FromHole[round+1])
	}
	return int(r.FromHole[round]), holes.Len()
}

// addRounds adds complete holes up to rounds.
func (s *Shots) addRounds() {
	r, h := &s.Rounds, &s.Holes
	n := r.Len()
	for _, column := range []*[]int32{&r.HolesLogged, &r.Holes, &r.Scorecards, &r.Par, &r.Score, &r.Putts, &r.FairwaysHit, &r.Fairways, &r.Greens, &r.Penalties, &r.TeesRow} {
		*column = make([]int32, n)
	}
	r.StrokesGained, r.Complete = make([]float64, n), make([]bool, n)
	r.CourseRating, r.SlopeRating = make([]float64, n), make([]float64, n)
	for class := range r.ByClass {
		r.ByClass[class] = make([]float64, n)
	}
	for round := range n {
		rows := s.roundRows(round)
		r.CourseRating[round], r.SlopeRating[round] = firstNumber(s.CourseRating, rows), firstNumber(s.SlopeRating, rows)
		r.TeesRow[round] = s.teesRow(rows)
		from, to := r.HoleRange(round, h)
		r.HolesLogged[round] = int32(to - from)
		for hole := from; hole < to; hole++ {
			if !h.Complete[hole] {
				continue
			}
			first, end := s.RowRange(hole)
			r.Holes[round]++
			r.Par[round] += s.Par[first]
			r.Score[round] += h.Score[hole]
			r.Putts[round] = plus(r.Putts[round], h.Putts[hole])
			r.Penalties[round] = plus(r.Penalties[round], h.Penalties[hole])
			if h.FairwayHit[hole] != Unknown {
				r.Fairways[round]++
			}
			r.FairwaysHit[round] += count(h.FairwayHit[hole])
			r.Greens[round] = plus(r.Greens[round], int32(h.GreenInReg[hole]))
			r.StrokesGained[round] += h.StrokesGained[hole]
			if h.IsScorecard(hole) {
				r.Scorecards[round]++
				for class := range r.ByClass {
					r.ByClass[class][round] = math.NaN()
				}
				continue
			}
			for row := first; row < end; row++ {
				r.ByClass[s.Class[row]][round] += s.StrokesGained[row]
			}
		}
		if r.Scorecards[round] > 0 && r.Fairways[round] == 0 {
			r.Fairways[round], r.FairwaysHit[round] = -1, -1
		}
		r.Complete[round] = int(r.Holes[round]) == to-from && (to-from)%9 == 0
	}
}

func (s *Shots) roundRows(round int) span {
	from, to := s.RoundRowRange(round)
	return span{from, to}
}

// teesRow is the first row that names tees, or the first row.
func (s *Shots) teesRow(rows span) int32 {
	for row := rows.from; row < rows.to; row++ {
		if s.Tees.Codes[row] >= 0 {
			return int32(row)
		}
	}
	return int32(rows.from)
}

// RoundTees are the tees of a round, "" where no record names any.
func (s *Shots) RoundTees(round int) string { return s.Tees.At(int(s.Rounds.TeesRow[round])) }

// plus adds numbers of which -1 is not known.
func plus(sum, more int32) int32 {
	if sum < 0 || more < 0 {
		return -1
	}
	return sum + more
}

func count(k Known) int32 { return max(int32(k), 0) }

// RoundSeason is the season of a round.
func (s *Shots) RoundSeason(round int) int32 { return s.Season[s.Rounds.From[round]] }

// RoundOrder is a key by which rounds stand in the order of date, player,
// round, then course.
func (s *Shots) RoundOrder(round int) string {
	row := int(s.Rounds.From[round])
	const beforeAllDates = 1 << 20
	return strings.Join([]string{
		fmt.Sprintf("%010d", s.Date[row]+beforeAllDates), s.Player.At(row), s.Round.At(row), s.Course.At(row),
	}, "\x00")
}
