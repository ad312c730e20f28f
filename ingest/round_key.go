package ingest

import "strconv"

// The fields that tell rounds apart.
var keyTexts = [...]field{player, course, round}

// sameRound reports whether two records belong to one round.
func (r *rows) sameRound(a, b int) bool {
	if r.number(date, a) != r.number(date, b) && !(isMissing(r.number(date, a)) && isMissing(r.number(date, b))) {
		return false
	}
	for _, f := range keyTexts {
		if codes := r.texts[f].codes; codes != nil && codes[a] != codes[b] {
			return false
		}
	}
	return true
}

// roundKey is the identity of a record's round, equal across batches.
func (r *rows) roundKey(row int) string {
	key := make([]byte, 0, 64)
	key = strconv.AppendFloat(key, r.number(date, row), 'f', 0, 64)
	for _, f := range keyTexts {
		key = append(key, 0)
		key = append(key, r.text(f, row)...)
	}
	return string(key)
}

// unplaced reports whether a record was refused without saying where it
// belongs.
func (r *rows) unplaced(row int) bool {
	return r.refused[row] && (isMissing(r.number(date, row)) || isMissing(r.number(hole, row)))
}

// inheritKey places a record in the round and hole of another one, which may be
// of other rows.
func (r *rows) inheritKey(row int, from *rows, at int) {
	for _, f := range keyTexts {
		code := noWord
		if word := from.text(f, at); word != "" {
			code = r.texts[f].add(word)
		}
		r.setText(f, row, code)
	}
	for _, f := range []field{date, hole} {
		r.setNumber(f, row, from.number(f, at))
	}
}

// sameRecord reports whether two records say the same.
func (r *rows) sameRecord(a, b int) bool {
	for f := range firstNumber {
		if r.text(f, a) != r.text(f, b) {
			return false
		}
	}
	for f := firstNumber; f < fieldCount; f++ {
		x, y := r.number(f, a), r.number(f, b)
		if x != y && !(isMissing(x) && isMissing(y)) {
			return false
		}
	}
	return true
}

// roundStarts finds where a round begins: where the key changes.
func (r *rows) roundStarts() []int {
	starts := []int{0}
	for i := 1; i < r.n; i++ {
		if !r.sameRound(i, i-1) {
			starts = append(starts, i)
		}
	}
	return starts
}
