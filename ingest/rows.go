package ingest

import "slices"

// rows holds parsed records as columns. A column that no record has filled is
// nil; an absent number is missing, an absent text has code -1.
type rows struct {
	n        int
	texts    [textCount]words
	numbers  [numberCount][]float64
	line     []int32 // line in the source file
	file     []int32 // index into the reader's files
	refused  []bool  // kept only so that its hole is known to be incomplete
	doubt    []bool  // a record nearby that could not be placed may belong to the same hole
	broken   []bool  // the hole is known to lack something, as the file says
	leftOpen []bool  // left has no unit and the record does not say on which lie it was measured
}

// reserve makes room for n records more. While records are being added the
// columns are as long as the room; trim cuts them to the records.
func (r *rows) reserve(n int) {
	room := r.n + n
	for i := range r.texts {
		if codes := r.texts[i].codes; codes != nil {
			r.texts[i].codes = append(codes[:r.n:r.n], missingWords(n)...)
		}
	}
	for i := range r.numbers {
		if numbers := r.numbers[i]; numbers != nil {
			r.numbers[i] = append(numbers[:r.n:r.n], missingNumbers(n)...)
		}
	}
	r.line = append(make([]int32, 0, room), r.line[:r.n]...)[:room]
	r.file = append(make([]int32, 0, room), r.file[:r.n]...)[:room]
	r.refused = append(make([]bool, 0, room), r.refused[:r.n]...)[:room]
	r.doubt = append(make([]bool, 0, room), r.doubt[:r.n]...)[:room]
	r.leftOpen = append(make([]bool, 0, room), r.leftOpen[:r.n]...)[:room]
	r.broken = append(make([]bool, 0, room), r.broken[:r.n]...)[:room]
}

// next opens a new record with every value absent.
func (r *rows) next(file int, line int) {
	if r.n == len(r.line) {
		r.reserve(max(64, r.n))
	}
	r.line[r.n], r.file[r.n] = int32(line), int32(file)
	r.n++
}

// drop takes the last record away again.
func (r *rows) drop() {
	r.n--
	for i := range r.texts {
		if codes := r.texts[i].codes; codes != nil {
			codes[r.n] = noWord
		}
	}
	for i := range r.numbers {
		if numbers := r.numbers[i]; numbers != nil {
			numbers[r.n] = missing
		}
	}
	r.refused[r.n], r.leftOpen[r.n], r.broken[r.n] = false, false, false
}

// trim ends the adding of records.
func (r *rows) trim() {
	for i := range r.texts {
		if r.texts[i].codes != nil {
			r.texts[i].codes = r.texts[i].codes[:r.n]
		}
	}
	for i := range r.numbers {
		if r.numbers[i] != nil {
			r.numbers[i] = r.numbers[i][:r.n]
		}
	}
	r.line, r.file = r.line[:r.n], r.file[:r.n]
	r.refused, r.doubt, r.leftOpen, r.broken = r.refused[:r.n], r.doubt[:r.n], r.leftOpen[:r.n], r.broken[:r.n]
}

func (r *rows) setNumber(f field, row int, value float64) {
	column := &r.numbers[f.number()]
	if *column == nil {
		if isMissing(value) {
			return
		}
		*column = missingNumbers(len(r.line))
	}
	(*column)[row] = value
}

func (r *rows) setText(f field, row int, code int32) {
	column := &r.texts[f]
	if column.codes == nil {
		if code == noWord {
			return
		}
		column.codes = missingWords(len(r.line))
	}
	column.codes[row] = code
}

func (r *rows) number(f field, row int) float64 {
	if column := r.numbers[f.number()]; column != nil {
		return column[row]
	}
	return missing
}

func (r *rows) text(f field, row int) string {
	if column := &r.texts[f]; column.codes != nil && column.codes[row] >= 0 {
		return column.list[column.codes[row]]
	}
	return ""
}

func missingNumbers(n int) []float64 {
	numbers := make([]float64, n)
	for i := range numbers {
		numbers[i] = missing
	}
	return numbers
}

func missingWords(n int) []int32 {
	codes := make([]int32, n)
	for i := range codes {
		codes[i] = noWord
	}
	return codes
}

// slice is the records [from, to), sharing memory.
func (r *rows) slice(from, to int) *rows {
	part := &rows{n: to - from}
	for i := range r.texts {
		part.texts[i].list = slices.Clip(r.texts[i].list)
		if r.texts[i].codes != nil {
			part.texts[i].codes = r.texts[i].codes[from:to:to]
		}
	}
	for i := range r.numbers {
		if r.numbers[i] != nil {
			part.numbers[i] = r.numbers[i][from:to:to]
		}
	}
	part.line, part.file = r.line[from:to:to], r.file[from:to:to]
	part.refused, part.doubt, part.leftOpen = r.refused[from:to:to], r.doubt[from:to:to], r.leftOpen[from:to:to]
	part.broken = r.broken[from:to:to]
	return part
}

// append copies the records of other behind these.
func (r *rows) append(other *rows) {
	for i := range r.texts {
		to, from := &r.texts[i], &other.texts[i]
		switch {
		case from.codes != nil:
			if to.codes == nil {
				to.codes = missingWords(r.n)
			}
			to.codes = to.appendRecoded(from)
		case to.codes != nil:
			to.codes = append(to.codes, missingWords(other.n)...)
		}
	}
	for i := range r.numbers {
		switch {
		case other.numbers[i] != nil:
			if r.numbers[i] == nil {
				r.numbers[i] = missingNumbers(r.n)
			}
			r.numbers[i] = append(r.numbers[i], other.numbers[i]...)
		case r.numbers[i] != nil:
			r.numbers[i] = append(r.numbers[i], missingNumbers(other.n)...)
		}
	}
	r.line = append(r.line, other.line...)
	r.file = append(r.file, other.file...)
	r.refused = append(r.refused, other.refused...)
	r.doubt = append(r.doubt, other.doubt...)
	r.leftOpen = append(r.leftOpen, other.leftOpen...)
	r.broken = append(r.broken, other.broken...)
	r.n += other.n
}

// reorder returns the records at the given places, in that order.
func (r *rows) reorder(places []int32) *rows {
	sorted := &rows{n: len(places)}
	for i := range r.texts {
		sorted.texts[i].list = r.texts[i].list
		sorted.texts[i].codes = pick(r.texts[i].codes, places)
	}
	for i := range r.numbers {
		sorted.numbers[i] = pick(r.numbers[i], places)
	}
	sorted.line, sorted.file = pick(r.line, places), pick(r.file, places)
	sorted.refused, sorted.doubt, sorted.leftOpen = pick(r.refused, places), pick(r.doubt, places), pick(r.leftOpen, places)
	sorted.broken = pick(r.broken, places)
	return sorted
}

// without returns the records but for the given ones, which are in order.
func (r *rows) without(dropped []int) *rows {
	if len(dropped) == 0 {
		return r
	}
	places := make([]int32, 0, r.n-len(dropped))
	for row := range r.n {
		if len(dropped) > 0 && dropped[0] == row {
			dropped = dropped[1:]
			continue
		}
		places = append(places, int32(row))
	}
	return r.reorder(places)
}

func pick[V any](values []V, places []int32) []V {
	if values == nil {
		return nil
	}
	picked := make([]V, len(places))
	for i, place := range places {
		picked[i] = values[place]
	}
	return picked
}
