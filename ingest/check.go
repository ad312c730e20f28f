package ingest

import (
	"cmp"
	"fmt"
	"slices"
	"time"
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
	cards    []int   // places of scorecards in the order
	places   []int32 // of this round
	kept     []int32 // of this hole
	repeated bool    // this round has records that stand in the log twice
	differed bool    // a score or putts written beside strokes of this round say otherwise
	counted  bool    // the shots of this hole are numbered by their order in the file
	onLie    wordCategories
	onFinish wordCategories
}

func newChecker(r *Reader, records *rows, batch *Batch) *checker {
	lies := r.options.Lies
	return &checker{
		files: r.files, lies: lies, puttUnit: r.options.PuttUnit, narrow: r.options.Narrow, rows: records, batch: batch,
		order: make([]int32, 0, records.n), states: make([]holeState, 0, records.n),
		onLie: wordCategories{of: lies.Category}, onFinish: wordCategories{of: lies.FinishCategory},
	}
}

// lieOf is the category of the lie of a record, finishOf of where it ended.
func (c *checker) lieOf(at int32) Category { return c.onLie.at(&c.rows.texts[lie], int(at)) }
func (c *checker) finishOf(at int32) Category {
	return c.onFinish.at(&c.rows.texts[finishLie], int(at))
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
	places := c.places[:0]
	for i := from; i < to; i++ {
		places = append(places, int32(i))
	}
	c.places = places
	byHole := func(a, b int32) int { return cmp.Compare(r.number(hole, int(a)), r.number(hole, int(b))) }
	if !slices.IsSortedFunc(places, byHole) {
		slices.SortStableFunc(places, byHole)
	}
	c.repeated, c.differed = false, false
	for len(places) > 0 {
		n := 1
		for n < len(places) && byHole(places[n], places[0]) == 0 {
			n++
		}
		c.hole(places[:n])
		places = places[n:]
	}
}

// hole checks the records of one hole and appends the kept ones to the order:
// its strokes, or the one of a scorecard.
func (c *checker) hole(places []int32) {
	strokes, cards := c.scorecardsApart(places)
	c.strokes(strokes)
	c.scorecards(cards)
}

func (c *checker) strokes(places []int32) {
	r := c.rows
	c.numberShots(places)
	kept := c.kept[:0]
	for _, at := range places {
		if !r.refused[at] {
			kept = append(kept, at)
		}
	}
	c.kept = kept
	byShot := func(a, b int32) int { return cmp.Compare(r.number(shot, int(a)), r.number(shot, int(b))) }
	if !slices.IsSortedFunc(kept, byShot) {
		slices.SortStableFunc(kept, byShot)
	}
	kept = c.dropRepeats(kept)
	kept = c.refuseFar(c.fillLies(kept))
	c.kept = kept
	if len(kept) == 0 {
		return
	}
	state := c.stateAfterRefusals(places, kept[len(kept)-1])
	if state != Sound {
		c.tally(int(kept[0])).LeftOut++
	}
	switch {
	case slices.ContainsFunc(kept, func(at int32) bool { return r.broken[at] }):
		state = c.stateAsSaid(kept[len(kept)-1])
	case state == Sound:
		state = c.judge(kept)
	}
	c.settleLeft(kept)
	c.compare(kept)
	c.penaltiesMissing(kept)
	c.firstPutt(kept)
	if state == Sound {
		c.lastPutt(kept[len(kept)-1])
		c.compareScore(kept)
	}
	for _, at := range kept {
		c.tally(int(at)).Kept++
		c.order = append(c.order, at)
		c.states = append(c.states, state)
	}
}

// stateAfterRefusals is what the refused records leave of a hole: without an
// end when one of them may have come after the last one that is kept.
func (c *checker) stateAfterRefusals(places []int32, last int32) holeState {
	r, state := c.rows, Sound
	for _, at := range places {
		n := r.number(shot, int(at))
		switch {
		case r.refused[at] && c.standsElsewhere(at):
		case r.doubt[at], r.refused[at] && (isMissing(n) || n > r.number(shot, int(last))):
			return Endless
		case r.refused[at]:
			state = Flawed
		}
	}
	return state
}

// standsElsewhere reports whether a refused record of the hole is kept from
// another file, such as the list of rejects after it was mended.
func (c *checker) standsElsewhere(at int32) bool {
	r := c.rows
	return slices.ContainsFunc(c.kept, func(other int32) bool {
		return r.file[other] != r.file[at] && r.number(shot, int(other)) == r.number(shot, int(at))
	})
}

// stateAsSaid is the state of a hole that its file says to lack something.
func (c *checker) stateAsSaid(last int32) holeState {
	if isMissing(c.rows.number(holed, int(last))) {
		return Endless
	}
	return Flawed
}

// numberShots numbers the records of a hole in file order when none of them
// has a number, and refuses the ones without when only some do. Each file
// counts for itself, so that a round that stands in two is noticed.
func (c *checker) numberShots(places []int32) {
	r := c.rows
	c.counted = !slices.ContainsFunc(places, func(at int32) bool { return !isMissing(r.number(shot, int(at))) })
	n := 0
	for i, at := range places {
		switch {
		case c.counted:
			if n++; i > 0 && r.file[at] != r.file[places[i-1]] {
				n = 1
			}
			r.setNumber(shot, int(at), float64(n))
		case isMissing(r.number(shot, int(at))) && !r.refused[at]:
			c.refuse(at, RecordScope, shot, "expected a number, as other records of this hole have one", "")
		}
	}
}

// dropRepeats keeps one of each shot number: a record that says the same again in
// another file, or as all of its hole do, is dropped with a note. Others are
// refused: one record alone that stands twice may be another stroke misnumbered.
func (c *checker) dropRepeats(kept []int32) []int32 {
	r := c.rows
	copied := c.copied(kept)
	unique := kept[:0]
	for _, at := range kept {
		if len(unique) == 0 || r.number(shot, int(at)) != r.number(shot, int(unique[len(unique)-1])) {
			unique = append(unique, at)
			continue
		}
		first := unique[len(unique)-1]
		if copied || r.file[at] != r.file[first] && r.sameRecord(int(at), int(first)) {
			c.repeat(at, first)
			continue
		}
		c.refuse(at, RecordScope, shot, fmt.Sprintf("shot %.0f of hole %.0f is there already, at %s", r.number(shot, int(at)), r.number(hole, int(at)), c.placeOf(first)),
			"number the shots of a hole 1, 2, 3 in order of play, or remove the copy")
	}
	return unique
}

// copied reports whether every record of the hole, in order, stands there as often
// as the first, and more than once, the same each time.
func (c *checker) copied(kept []int32) bool {
	r, times := c.rows, 0
	for from := 0; from < len(kept); from += times {
		end := from + 1
		for end < len(kept) && r.number(shot, int(kept[end])) == r.number(shot, int(kept[from])) {
			if !r.sameRecord(int(kept[end]), int(kept[from])) {
				return false
			}
			end++
		}
		if end-from == 1 || times > 0 && times != end-from {
			return false
		}
		times = end - from
	}
	return times > 1
}

// repeat counts a record that says the same as one that is kept, with a note on
// the first of its round.
func (c *checker) repeat(at, first int32) {
	c.tally(int(at)).Repeated++
	if !c.repeated {
		c.repeated = true
		c.remark(at, fmt.Sprintf("the same records of this round also stand at %s: kept once", c.placeOf(first)))
	}
}

func (c *checker) placeOf(at int32) string {
	return place(c.files[c.rows.file[at]].name, int(c.rows.line[at]), "")
}

// fillLies takes the first shot to be from the tee when no lie is written.
func (c *checker) fillLies(kept []int32) []int32 {
	r := c.rows
	return slices.DeleteFunc(kept, func(at int32) bool {
		switch {
		case r.text(lie, int(at)) != "":
			return false
		case r.number(shot, int(at)) == 1:
			r.setText(lie, int(at), r.texts[lie].add(Tee.String()))
			return false
		}
		c.refuse(at, RecordScope, lie, "expected where the ball lay, the cell is empty", "only the first shot of a hole is taken to be from the tee")
		return true
	})
}

func (c *checker) tally(at int) *Tally {
	return c.batch.tallyOf(int(c.rows.file[at]))
}

func (c *checker) refuse(at int32, scope Scope, f field, expected, hint string) {
	r := c.rows
	value := ""
	switch number := 0.0; {
	case f.isText():
		value = r.text(f, int(at))
	case f == holed:
		value = "yes" // a no is never wrong
	default:
		if number = r.number(f, int(at)); !isMissing(number) {
			value = decimal(number)
		}
	}
	c.batch.Rejects = append(c.batch.Rejects, Reject{
		Scope: scope, File: c.files[r.file[at]].name, Line: int(r.line[at]),
		Field: f.String(), Value: shown(value), Expected: expected, Hint: hint,
		hole:   fmt.Sprintf("hole %.0f of %s", r.number(hole, int(at)), dateOf(r.number(date, int(at))).Format(time.DateOnly)),
		record: c.writtenOut(at),
	})
	if scope == RecordScope {
		r.refused[at] = true
		c.tally(int(at)).Refused++
	}
}

func (c *checker) remark(at int32, text string) {
	c.batch.Notes = append(c.batch.Notes, Note{File: c.files[c.rows.file[at]].name, Line: int(c.rows.line[at]), Text: text})
}

// inOrder is the kept records in order of play.
func (c *checker) inOrder() *rows {
	if len(c.order) == c.rows.n && slices.IsSorted(c.order) {
		return c.rows
	}
	return c.rows.reorder(c.order)
}
