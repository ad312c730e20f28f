package metrics

// handicapHole is a complete hole. Stroke index 0 is none.
type handicapHole struct{ par, score, strokeIndex int8 }

const (
	firstMaximum    = 5 // over par, before there is an index
	netDoubleBogey  = 2
	holesOfHandicap = 18
)

// adjustedGross is the gross score with no hole above its maximum: par + 5
// before there is an index, then net double bogey, par + 2 + the strokes
// received there: Rule 3.1.
func adjustedGross(holes []handicapHole, maximum func(handicapHole) int) (gross, adjusted int) {
	for _, hole := range holes {
		gross += int(hole.score)
		adjusted += min(int(hole.score), maximum(hole))
	}
	return gross, adjusted
}

// mostWithoutIndex is the most that a hole counts before there is an index.
func mostWithoutIndex(hole handicapHole) int { return int(hole.par) + firstMaximum }

// mostWithIndex is the most that a hole counts at a Course Handicap.
func mostWithIndex(courseHandicap int) func(handicapHole) int {
	return func(hole handicapHole) int {
		return int(hole.par) + netDoubleBogey + strokesReceived(courseHandicap, int(hole.strokeIndex))
	}
}

// strokesReceived is how many handicap strokes a player receives on a hole, or
// below zero gives: one on each hole for every 18 of the Course Handicap, and
// one more on as many holes as are left over, from stroke index 1 up. Strokes
// are given back from stroke index 18 down, which is the same sum.
func strokesReceived(courseHandicap, strokeIndex int) int {
	each := floorDivision(courseHandicap, holesOfHandicap)
	if left := courseHandicap - holesOfHandicap*each; strokeIndex <= left {
		return each + 1
	}
	return each
}

// hasStrokeIndexes reports whether 18 holes have the stroke indexes 1 to 18,
// each once.
func hasStrokeIndexes(holes []handicapHole) bool {
	var seen [holesOfHandicap + 1]bool
	for _, hole := range holes {
		if at := hole.strokeIndex; at < 1 || at > holesOfHandicap || seen[at] {
			return false
		}
		seen[hole.strokeIndex] = true
	}
	return len(holes) == holesOfHandicap
}
