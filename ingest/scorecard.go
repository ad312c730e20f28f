package ingest

import (
	"fmt"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
)

// The fields of a scorecard stand together in the list of fields. Beside a
// stroke, score and putts are compared with it, fairway and green passed over:
// whatever stands there, under names so usual, is no reason to refuse the stroke.
func (f field) ofScorecard() bool { return f >= holeScore && f <= greenHit }

// strokeFields are what only a stroke says. A record with a score and none of
// these is that of a hole on a scorecard.
var strokeFields = []field{
	shot, lie, club, toHole, puttLength, left, finishLie, longShort, leftRight, aimLongShort, aimLeftRight,
	puttSlope, puttBreak, intent, fault, latitude, longitude, x, y,
}

// scoreWords are names of the score of a hole that may mean something else.
var scoreWords = []string{"strokes", "gross", "grossscore", "holescore"}

func (r *rows) saysOfAStroke(row int) bool {
	return slices.ContainsFunc(strokeFields, func(f field) bool {
		if f.isText() {
			return r.text(f, row) != ""
		}
		return !isMissing(r.number(f, row))
	})
}

func (r *rows) isScorecard(row int) bool {
	return !isMissing(r.number(holeScore, row)) && !r.saysOfAStroke(row)
}

// isScorecard reports whether the record is meant as that of a scorecard, in
// order or not. A file with a column for scores has no other records without a
// stroke.
func (p *recordParser) isScorecard() bool {
	meant := p.scores || p.onCard != nil
	for f := holeScore; f.ofScorecard(); f++ {
		meant = meant || !isMissing(p.rows.number(f, p.row))
	}
	return meant && !p.rows.saysOfAStroke(p.row)
}

func (p *recordParser) settleScorecard() {
	r, row := p.rows, p.row
	switch score, putts := r.number(holeScore, row), r.number(holePutts, row); {
	case p.onCard != nil:
	case isMissing(score):
		p.refuse(holeScore, nil, "expected a value, the cell is empty", "a record without a stroke needs the score of its hole; leave out holes that were not played")
	case putts >= score:
		p.refuse(holePutts, []byte(decimal(putts)), fmt.Sprintf("expected fewer putts than the %.0f strokes of the hole", score), "score counts every stroke and penalty")
	}
	if p.onCard != nil {
		p.reject(*p.onCard)
	}
	if !p.bad {
		p.seen.cards++
	}
}

// scorecardsApart parts the strokes of a hole from the records of scorecards,
// within their place.
func (c *checker) scorecardsApart(places []int32) (strokes, cards []int32) {
	if c.rows.numbers[holeScore.number()] == nil {
		return places, nil
	}
	strokes = places[:0]
	for _, at := range places {
		if c.rows.isScorecard(int(at)) {
			cards = append(cards, at)
		} else {
			strokes = append(strokes, at)
		}
	}
	return strokes, cards
}

// scorecards checks the scorecard records of a hole whose strokes, if there are
// any, are kept already. One that is refused leaves the hole as it is, but for
// two that contradict each other.
func (c *checker) scorecards(cards []int32) {
	const apart = "tell two rounds of a day apart in a column round"
	r := c.rows
	first, state := int32(-1), Sound
	for _, at := range cards {
		if r.refused[at] {
			continue
		}
		number := r.number(hole, int(at))
		switch {
		case len(c.kept) > 0:
			c.refuse(at, RecordScope, holeScore, fmt.Sprintf("hole %.0f is there already with its strokes, at %s", number, c.placeOf(c.kept[0])),
				"keep the strokes or the score, or "+apart)
		case first < 0:
			first = at
		case r.sameRecord(int(at), int(first)):
			c.repeat(at, first)
		default:
			state = Flawed
			c.refuse(at, RecordScope, holeScore, fmt.Sprintf("another record of hole %.0f says something else, at %s", number, c.placeOf(first)),
				"the hole is left out of scores: remove the wrong one, or "+apart)
		}
	}
	if first < 0 {
		return
	}
	tally := c.tally(int(first))
	tally.Kept++
	tally.Scorecards++
	c.cards = append(c.cards, len(c.order))
	c.order = append(c.order, first)
	c.states = append(c.states, state)
}

// strokesOf is the kept records but for those of scorecards.
func (c *checker) strokesOf(kept *rows) arrow.RecordBatch {
	states := make([]holeState, 0, len(c.states)-len(c.cards))
	cards := c.cards
	for i, state := range c.states {
		if len(cards) > 0 && cards[0] == i {
			cards = cards[1:]
			continue
		}
		states = append(states, state)
	}
	return kept.without(c.cards).record(c.files, states)
}

// compareScore remarks, once a round, on a score or putts that are written beside
// the strokes of a hole and contradict them.
func (c *checker) compareScore(kept []int32) {
	r, last := c.rows, int(kept[len(kept)-1])
	if c.differed || r.number(holed, last) == 0 || isMissing(r.number(holeScore, last)) && isMissing(r.number(holePutts, last)) {
		return
	}
	score, putts := 0.0, 0.0
	for _, at := range kept {
		score++
		if penalty := r.number(penalty, int(at)); !isMissing(penalty) {
			score += penalty
		}
		if c.lieOf(at) == Green {
			putts++
		}
	}
	for _, said := range [...]struct {
		field field
		value float64
	}{{holeScore, score}, {holePutts, putts}} {
		if value := r.number(said.field, last); !isMissing(value) && value != said.value {
			c.differed = true
			c.remark(kept[len(kept)-1], fmt.Sprintf("%s says %.0f, but the strokes of hole %.0f make %.0f, which counts; other holes of the round may differ too",
				said.field, value, r.number(hole, last), said.value))
			return
		}
	}
}
