package ingest

import "fmt"

// judge names the first thing that keeps a hole from being complete.
func (c *checker) judge(kept []int32) holeState {
	r := c.rows
	first := kept[0]
	number := func(f field, at int32) float64 { return r.number(f, int(at)) }
	if n := number(shot, first); n != 1 {
		c.refuse(first, HoleScope, shot, "expected shot 1 first", "add the shots before it")
		return Flawed
	}
	if c.lieOf(first) != Tee {
		c.refuse(first, HoleScope, lie, "expected the first shot of a hole to be from the tee", "write tee, or add the shots before it")
		return Flawed
	}
	length := number(holeLength, first)
	for i, at := range kept[1:] {
		before := kept[i]
		if isMissing(length) {
			length = number(holeLength, at)
		}
		switch {
		case !c.follows(before, at):
			c.refuse(at, HoleScope, shot, fmt.Sprintf("expected shot %.0f after shot %.0f", number(shot, before)+1, number(shot, before)), "add the missing shots, or number them 1, 2, 3")
			return Flawed
		case number(par, at) != number(par, first):
			c.refuse(at, HoleScope, par, fmt.Sprintf("expected par %.0f as for the first shot of the hole", number(par, first)), "")
			return Flawed
		case !isMissing(number(holeLength, at)) && number(holeLength, at) != length:
			c.refuse(at, HoleScope, holeLength, fmt.Sprintf("expected %s yd as for the shots before", decimal(length)), "")
			return Flawed
		case number(holed, before) == 1:
			c.refuse(before, HoleScope, holed, fmt.Sprintf("expected no shot after the one that was holed, found shot %.0f", number(shot, at)), "only the last shot of a hole is holed")
			return Flawed
		case c.counted && c.lieOf(at) == Tee && !(number(penalty, before) > 0):
			c.refuse(at, HoleScope, lie, "expected one stroke from the tee, found another without a penalty before it", "number the shots, or tell two rounds of a day apart in a column round")
			return Flawed
		}
	}
	return c.judgeEnd(kept)
}

// judgeEnd asks whether the last record of a hole can have been the last
// stroke. Nobody holes out from beyond longestHoleOut without saying so.
func (c *checker) judgeEnd(kept []int32) holeState {
	const longestHoleOut, usualHoleOut = 250, 50
	last := kept[len(kept)-1]
	r, at := c.rows, int(last)
	if !isMissing(r.number(holed, at)) {
		return Sound
	}
	finish := c.finishOf(last)
	stated := r.number(left, at) > 0 || finish != NoCategory && finish != Holed
	from := c.yardsFrom(kept, at)
	onGreen := c.lieOf(last) == Green
	known := r.number(left, at) == 0 || finish != NoCategory
	switch {
	case stated:
		c.refuse(last, HoleScope, shot, fmt.Sprintf("hole %.0f has no end: the last record does not finish in the hole", r.number(hole, at)),
			"add the shots that are missing, or write holed = no if it was picked up")
		return Endless
	case known || onGreen:
	case isMissing(from):
		c.refuse(last, HoleScope, shot, fmt.Sprintf("hole %.0f has no end: how far from the hole its last record lies is not known", r.number(hole, at)),
			"write where the hole is, or holed = yes")
		return Endless
	case from > longestHoleOut:
		c.refuse(last, HoleScope, shot, fmt.Sprintf("hole %.0f has no end: the last record is a stroke from %.0f yd", r.number(hole, at), from),
			"add the shots that are missing, or write holed = yes")
		return Endless
	case from > usualHoleOut:
		c.remark(last, fmt.Sprintf("hole %.0f ends with a stroke from %.0f yd, read as holed; write holed = yes to confirm, or add the shots that are missing", r.number(hole, at), from))
	}
	return Sound
}

// follows reports whether a shot's number directly follows the one before,
// with or without penalty strokes counted in the numbering.
func (c *checker) follows(before, at int32) bool {
	r := c.rows
	step := r.number(shot, int(at)) - r.number(shot, int(before))
	return step == 1 || r.number(penalty, int(before)) > 0 && step == 1+r.number(penalty, int(before))
}
