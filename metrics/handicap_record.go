package metrics

import (
	"math"
	"slices"
)

// tenths is a Score Differential or a Handicap Index in tenths of a stroke, the
// step that both are rounded to: whole numbers, so that no rounding is left to
// how a decimal fraction is stored.
type tenths int

func (t tenths) strokes() float64 { return float64(t) / 10 }

// The Rules of Handicapping (R&A and USGA, 2024), in tenths of a stroke.
const (
	highestIndex = tenths(540) // Rule 5.3

	recordLength     = 20  // scores that an index looks back on, Rule 5.2
	lowIndexDays     = 365 // Rule 5.7
	softCapOver      = tenths(30)
	hardCapOver      = tenths(50) // Rule 5.8
	exceptional      = tenths(70)
	veryExceptional  = tenths(100) // Rule 5.9
	exceptionalTakes = tenths(10)
)

// Caps on an upward movement.
const (
	SoftCap    = "soft"
	HardCap    = "hard"
	MaximumCap = "maximum" // of 54.0
)

// countedOf is how many of the lowest differentials count, by the number of
// scores in the record, and what is added to their mean: Rule 5.2a.
var countedOf = [recordLength + 1]struct {
	lowest     int
	adjustment tenths
}{
	3: {1, -20}, 4: {1, -10}, 5: {1, 0}, 6: {2, -10}, 7: {2, 0}, 8: {2, 0},
	9: {3, 0}, 10: {3, 0}, 11: {3, 0}, 12: {4, 0}, 13: {4, 0}, 14: {4, 0},
	15: {5, 0}, 16: {5, 0}, 17: {6, 0}, 18: {6, 0}, 19: {7, 0}, 20: {8, 0},
}

// roundedUp is numerator / denominator to the nearest whole number, the half
// going up: for a plus value that is towards zero, as Rule 5.1 has it.
func roundedUp(numerator, denominator int) int {
	return floorDivision(2*numerator+denominator, 2*denominator)
}

// floorDivision rounds down where Go's division rounds towards zero.
func floorDivision(a, b int) int {
	quotient := a / b
	if a%b < 0 {
		quotient--
	}
	return quotient
}

// A ratedCourse is what the figures need to know of a set of tees.
type ratedCourse struct {
	ratingHundredths int // Course Rating: a tenth is the rule, a hundredth is taken
	slope            int
}

func ratedAs(courseRating, slopeRating float64) ratedCourse {
	return ratedCourse{int(math.Round(100 * courseRating)), int(math.Round(slopeRating))}
}

// differential is the Score Differential of 18 holes, (113 / Slope Rating) x
// (adjusted gross score - Course Rating), to a tenth: Rule 5.1a. The playing
// conditions calculation is left out: it needs the scores of everybody who
// played that day.
func (c ratedCourse) differential(adjustedGross int) tenths {
	return tenths(roundedUp(113*(100*adjustedGross-c.ratingHundredths), 10*c.slope))
}

// courseHandicap is Handicap Index x (Slope Rating / 113) + (Course Rating -
// par), to the nearest stroke: Rule 6.1a. Below zero the player gives strokes.
func (c ratedCourse) courseHandicap(index tenths, par int) int {
	return roundedUp(10*int(index)*c.slope+113*(c.ratingHundredths-100*par), 100*113)
}

// A scoringRecord is the differentials of a player and what became of the index.
type scoringRecord struct {
	differentials []tenths     // oldest first, exceptional score reductions taken off
	indexes       []datedIndex // one a day that a score came in, oldest first
}

type datedIndex struct {
	day   int32
	index tenths
}

// inForce is the index that a player had on a day: a score is played to the
// index that the scores of earlier days gave (Rule 5.4). False before there is
// one.
func (r *scoringRecord) inForce(day int32) (tenths, bool) {
	for _, at := range slices.Backward(r.indexes) {
		if at.day < day {
			return at.index, true
		}
	}
	return 0, false
}

// low is the Low Handicap Index, the lowest in the 365 days before the day of
// the most recent score: Rule 5.7. False under 20 scores, and for a player who
// had no score in those days.
func (r *scoringRecord) low(day int32) (low tenths, known bool) {
	if len(r.differentials) < recordLength {
		return 0, false
	}
	for _, at := range slices.Backward(r.indexes) {
		if at.day < day-lowIndexDays {
			break
		}
		if at.day < day && (!known || at.index < low) {
			low, known = at.index, true
		}
	}
	return low, known
}

// posted is what a score did to the record.
type posted struct {
	reduction tenths // taken off each of the last 20 differentials for an exceptional score
	counted   int    // differentials that count
	hasIndex  bool
	index     tenths
	hasLow    bool
	low       tenths
	capped    string // SoftCap, HardCap, MaximumCap or ""
}

// post adds a differential played on a day, not before the last one.
func (r *scoringRecord) post(day int32, differential tenths) (p posted) {
	r.differentials = append(r.differentials, differential)
	recent := r.differentials[max(0, len(r.differentials)-recordLength):]
	if index, known := r.inForce(day); known {
		p.reduction = exceptionalReduction(index - differential)
		for i := range recent {
			recent[i] -= p.reduction
		}
	}
	rule := countedOf[len(recent)]
	p.counted = rule.lowest
	if p.counted == 0 {
		return p
	}
	sum := 0
	for _, counting := range slices.Sorted(slices.Values(recent))[:rule.lowest] {
		sum += int(counting)
	}
	p.hasIndex = true
	p.index = tenths(roundedUp(sum, rule.lowest)) + rule.adjustment
	if p.low, p.hasLow = r.low(day); p.hasLow {
		p.index, p.capped = cappedIndex(p.index, p.low)
	}
	if p.index > highestIndex {
		p.index, p.capped = highestIndex, MaximumCap
	}
	r.keep(datedIndex{day, p.index})
	return p
}

// keep notes the index of a day: of several, the last is the one in force.
func (r *scoringRecord) keep(index datedIndex) {
	if last := len(r.indexes) - 1; last >= 0 && r.indexes[last].day == index.day {
		r.indexes[last] = index
		return
	}
	r.indexes = append(r.indexes, index)
}

// exceptionalReduction is what a score so much better than the index in force
// takes off the differentials: Rule 5.9.
func exceptionalReduction(better tenths) tenths {
	switch {
	case better >= veryExceptional:
		return 2 * exceptionalTakes
	case better >= exceptional:
		return exceptionalTakes
	}
	return 0
}

// cappedIndex holds an index back: of what it rises past 3.0 over the Low
// Handicap Index only half counts, and nothing past 5.0. Rule 5.8.
func cappedIndex(index, low tenths) (tenths, string) {
	soft := low + softCapOver
	if index <= soft {
		return index, ""
	}
	halved := tenths(roundedUp(int(2*soft+(index-soft)), 2))
	if hard := low + hardCapOver; halved > hard {
		return hard, HardCap
	}
	return halved, SoftCap
}
