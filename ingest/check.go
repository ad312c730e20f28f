package ingest

import (
	"cmp"
	"fmt"
	"slices"
)

// holeState is what the reader knows of a record's hole, stored in the raw
// batch as hole_state.
type holeState = int32

const (
	// Sound: every record of the hole was read, numbered from the tee on.
	Sound holeState = iota
	// Flawed: a record is missing or refused, but the last one is the last stroke.
	Flawed
	// Endless: what came after the last record is not known.
	Endless
)

// A checker judges whole rounds: it puts holes and shots in order, refuses
// what is there twice and names the holes that cannot be complete.
type checker struct {
	files    []*file
	lies     Lies
	puttUnit Unit
	narrow   Narrow
	rows     *rows
	batch    *Batch
	order    []int32 // the kept records, in order of play
	states   []holeState
	repeated bool // this round has records that stand in the log twice
}

// round checks the records [from, to), all of one round.
func (c *checker) round(from, to int) {
	r := c.rows
	if !c.narrow.admits(r, from) {
		for i := from; i < to; i++ {
			if !r.refused[i] {
				c.tally(i).Narrowed++
			}
		}
		return
	}
	places := make([]int32, to-from)
	for i := range places {
		places[i] = int32(from + i)
	}
	byHole := func(a, b int32) int { return cmp.Compare(r.number(hole, int(a)), r.number(hole, int(b))) }
	if !slices.IsSortedFunc(places, byHole) {
		slices.SortStableFunc(places, byHole)
	}
	c.repeated = false
	for len(places) > 0 {
		n := 1
		for n < len(places) && byHole(places[n], places[0]) == 0 {
			n++
		}
		c.hole(places[:n])
		places = places[n:]
	}
}

// hole checks the records of one hole and appends the kept ones to the order.
func (c *checker) hole(places []int32) {
	r := c.rows
	c.numberShots(places)
	flawed := false
	kept := make([]int32, 0, len(places))
	for _, at := range places {
		flawed = flawed || r.refused[at] || r.doubt[at]
		if !r.refused[at] {
			kept = append(kept, at)
		}
	}
	byShot := func(a, b int32) int { return cmp.Compare(r.number(shot, int(a)), r.number(shot, int(b))) }
	if !slices.IsSortedFunc(kept, byShot) {
		slices.SortStableFunc(kept, byShot)
	}
	kept = c.dropRepeats(kept)
	kept = c.fillLies(kept)
	if len(kept) == 0 {
		return
	}
	last := r.number(shot, int(kept[len(kept)-1]))
	state := Sound
	for _, at := range places {
		if !r.refused[at] && !r.doubt[at] {
			continue
		}
		state = max(state, Flawed)
		if n := r.number(shot, int(at)); r.doubt[at] || isMissing(n) || n > last {
			state = Endless
		}
	}
	if !flawed && state == Sound {
		state = c.judge(kept)
	}
	c.settleLeft(kept)
	c.compare(kept)
	c.firstPutt(kept)
	for _, at := range kept {
		c.tally(int(at)).Kept++
		c.order = append(c.order, at)
		c.states = append(c.states, state)
	}
}

// numberShots numbers the records of a hole in file order when none of them
// has a number, and refuses the ones without when only some do.
func (c *checker) numberShots(places []int32) {
	r := c.rows
	numbered := slices.ContainsFunc(places, func(at int32) bool { return !isMissing(r.number(shot, int(at))) })
	for i, at := range places {
		switch {
		case !isMissing(r.number(shot, int(at))):
		case !numbered:
			r.setNumber(shot, int(at), float64(i+1))
		case !r.refused[at]:
			c.refuse(at, RecordScope, shot, "expected a number, as other records of this hole have one", "")
		}
	}
}

// dropRepeats keeps one of each shot number: a record that says the same again
// is dropped with a note, one that says something else is refused.
func (c *checker) dropRepeats(kept []int32) []int32 {
	r := c.rows
	unique := kept[:0]
	for _, at := range kept {
		if len(unique) == 0 || r.number(shot, int(at)) != r.number(shot, int(unique[len(unique)-1])) {
			unique = append(unique, at)
			continue
		}
		first := unique[len(unique)-1]
		where := place(c.files[r.file[first]].name, int(r.line[first]), "")
		if r.file[at] != r.file[first] && r.sameRecord(int(at), int(first)) {
			c.tally(int(at)).Repeated++
			if !c.repeated {
				c.repeated = true
				c.remark(at, fmt.Sprintf("the same records of this round also stand at %s: kept once", where))
			}
			continue
		}
		c.refuse(at, RecordScope, shot, fmt.Sprintf("shot %.0f of hole %.0f is there already, at %s", r.number(shot, int(at)), r.number(hole, int(at)), where),
			"number the shots of a hole 1, 2, 3 in order of play, or remove the copy")
	}
	return unique
}

// fillLies takes the first shot to be from the tee when no lie is written.
func (c *checker) fillLies(kept []int32) []int32 {
	r := c.rows
	return slices.DeleteFunc(kept, func(at int32) bool {
		if r.text(lie, int(at)) != "" {
			return r.refused[at]
		}
		if r.number(shot, int(at)) == 1 {
			r.setText(lie, int(at), r.texts[lie].add(Tee.String()))
			return false
		}
		if !r.refused[at] {
			c.refuse(at, RecordScope, lie, "expected where the ball lay, the cell is empty", "only the first shot of a hole is taken to be from the tee")
		}
		return true
	})
}

// judge names the first thing that keeps a hole from being complete.
func (c *checker) judge(kept []int32) holeState {
	r := c.rows
	first, last := kept[0], kept[len(kept)-1]
	number := func(f field, at int32) float64 { return r.number(f, int(at)) }
	if slices.ContainsFunc(kept, func(at int32) bool { return r.refused[at] }) {
		return Flawed
	}
	if n := number(shot, first); n != 1 {
		c.refuse(first, HoleScope, shot, "expected shot 1 first", "add the shots before it")
		return Flawed
	}
	if c.lies[r.text(lie, int(first))] != Tee {
		c.refuse(first, HoleScope, lie, "expected the first shot of a hole to be from the tee", "write tee, or add the shots before it")
		return Flawed
	}
	for i, at := range kept[1:] {
		before := kept[i]
		switch {
		case !c.follows(before, at):
			c.refuse(at, HoleScope, shot, fmt.Sprintf("expected shot %.0f after shot %.0f", number(shot, before)+1, number(shot, before)), "add the missing shots, or number them 1, 2, 3")
			return Flawed
		case number(par, at) != number(par, first):
			c.refuse(at, HoleScope, par, fmt.Sprintf("expected par %.0f as for the first shot of the hole", number(par, first)), "")
			return Flawed
		case number(holeLength, at) != number(holeLength, first) && !isMissing(number(holeLength, at)) && !isMissing(number(holeLength, first)):
			c.refuse(at, HoleScope, holeLength, "expected the same length as for the first shot of the hole", "")
			return Flawed
		case number(holed, before) == 1:
			c.refuse(before, HoleScope, holed, fmt.Sprintf("expected no shot after the one that was holed, found shot %.0f", number(shot, at)), "only the last shot of a hole is holed")
			return Flawed
		}
	}
	return c.judgeEnd(last)
}

// judgeEnd asks whether the last record of a hole can have been the last
// stroke. Nobody holes out from beyond longestHoleOut without saying so.
func (c *checker) judgeEnd(last int32) holeState {
	const longestHoleOut, usualHoleOut = 250, 50
	r, at := c.rows, int(last)
	if !isMissing(r.number(holed, at)) {
		return Sound
	}
	finish := r.text(finishLie, at)
	stated := r.number(left, at) > 0 || finish != "" && c.lies.FinishCategory(finish) != Holed
	from := r.number(toHole, at)
	onGreen := c.lies[r.text(lie, at)] == Green
	known := r.number(left, at) == 0 || finish != ""
	switch {
	case stated:
		c.refuse(last, HoleScope, shot, fmt.Sprintf("hole %.0f has no end: the last record does not finish in the hole", r.number(hole, at)),
			"add the shots that are missing, or write holed = no if it was picked up")
		return Endless
	case known || onGreen:
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

// settleLeft turns a left without unit into feet where the next shot shows that
// the ball lay on the green.
func (c *checker) settleLeft(kept []int32) {
	r := c.rows
	perYard := float64(feetPerYard)
	if c.puttUnit != NoUnit {
		perYard = units[c.puttUnit].perBase
	}
	for i, at := range kept[:len(kept)-1] {
		if r.leftOpen[at] && c.follows(at, kept[i+1]) && c.lies[r.text(lie, int(kept[i+1]))] == Green {
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

// firstPutt counts the length of the first putt of a hole, by which a misread
// unit shows.
func (c *checker) firstPutt(kept []int32) {
	for _, at := range kept {
		if c.lies[c.rows.text(lie, int(at))] != Green {
			continue
		}
		if feet := c.rows.number(toHole, int(at)) * feetPerYard; !isMissing(feet) {
			c.batch.FirstPutts.count(feet)
		}
		return
	}
}

func (c *checker) tally(at int) *Tally {
	return c.batch.tallyOf(int(c.rows.file[at]))
}

func (c *checker) refuse(at int32, scope Scope, f field, expected, hint string) {
	r := c.rows
	value := ""
	if f.isText() {
		value = r.text(f, int(at))
	} else if number := r.number(f, int(at)); !isMissing(number) {
		value = decimal(number)
	}
	c.batch.Rejects = append(c.batch.Rejects, Reject{
		Scope: scope, File: c.files[r.file[at]].name, Line: int(r.line[at]),
		Field: f.String(), Value: shown(value), Expected: expected, Hint: hint,
	})
	if scope == RecordScope {
		r.refused[at] = true
		c.tally(int(at)).Refused++
	}
}

func (c *checker) remark(at int32, text string) {
	c.batch.Notes = append(c.batch.Notes, Note{File: c.files[c.rows.file[at]].name, Line: int(c.rows.line[at]), Text: text})
}
