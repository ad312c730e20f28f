package ingest

import "fmt"

// settleLeft turns a left without unit into feet where the next shot shows that
// the ball lay on the green.
func (c *checker) settleLeft(kept []int32) {
	r := c.rows
	perYard := float64(feetPerYard)
	if c.puttUnit != NoUnit {
		perYard = units[c.puttUnit].perBase
	}
	for i, at := range kept[:len(kept)-1] {
		if r.leftOpen[at] && c.follows(at, kept[i+1]) && c.lieOf(kept[i+1]) == Green {
			r.setNumber(left, int(at), r.number(left, int(at))/perYard)
		}
	}
}

// compare remarks on distances that contradict one another.
func (c *checker) compare(kept []int32) {
	const agreeYd, agreeShare, reasonYd = 2, 0.1, 20
	r := c.rows
	for i, at := range kept[:len(kept)-1] {
		next := kept[i+1]
		if r.number(penalty, int(at)) > 0 || !c.follows(at, next) {
			continue
		}
		before, after := r.number(toHole, int(at)), r.number(toHole, int(next))
		if said := r.number(left, int(at)); max(said-after, after-said) > max(agreeYd, agreeShare*max(said, after)) {
			c.remark(at, fmt.Sprintf("left says %.1f yd, but the next shot is from %.1f yd; name the unit in the header (left_yd, left_ft) if one was misread", said, after))
		}
		if after > 2*before+reasonYd {
			c.remark(next, fmt.Sprintf("the ball is %.0f yd from the hole after a stroke from %.0f yd; a penalty or a unit may be missing", after, before))
		}
	}
}

// penaltiesMissing remarks on strokes that finished out of play and cost nothing.
func (c *checker) penaltiesMissing(kept []int32) {
	for _, at := range kept {
		if c.finishOf(at) == OutOfPlay && !(c.rows.number(penalty, int(at)) > 0) {
			c.remark(at, "the ball finished out of play and no penalty is written; write it on this stroke if there was one")
		}
	}
}

// firstPutt counts the length of the first putt of a hole, by which a misread
// unit shows.
func (c *checker) firstPutt(kept []int32) {
	for _, at := range kept {
		if c.lieOf(at) != Green {
			continue
		}
		if feet := c.rows.number(toHole, int(at)) * feetPerYard; !isMissing(feet) {
			c.batch.FirstPutts.count(feet)
		}
		return
	}
}

// lastPutt counts the length of a putt that is read as holed because nothing
// follows it, by which a log without its tap-ins shows.
func (c *checker) lastPutt(last int32) {
	r, at := c.rows, int(last)
	if c.lieOf(last) != Green || !isMissing(r.number(holed, at)) || !isMissing(r.number(left, at)) || c.finishOf(last) != NoCategory {
		return
	}
	if feet := r.number(toHole, at) * feetPerYard; !isMissing(feet) {
		c.batch.LastPutts.count(feet)
	}
}
