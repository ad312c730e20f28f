package ingest

import (
	"encoding/binary"
	"hash/fnv"
	"math"
)

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

// appendRoundKey appends the identity of a record's round, equal across batches.
func (r *rows) appendRoundKey(key []byte, row int) []byte {
	key = binary.LittleEndian.AppendUint32(key, uint32(r.roundDay(row)))
	for _, f := range keyTexts {
		key = append(key, r.text(f, row)...)
		key = append(key, 0)
	}
	return key
}

// roundDay is the day of a record, one of its own where it has none.
func (r *rows) roundDay(row int) int32 {
	if day := r.number(date, row); !isMissing(day) {
		return int32(day)
	}
	return math.MinInt32
}

// roundCodes are the identity of a record's round among these rows.
type roundCodes struct {
	day   int32
	texts [len(keyTexts)]int32
}

func (r *rows) roundCodes(row int) roundCodes {
	codes := roundCodes{day: r.roundDay(row)}
	for i, f := range keyTexts {
		codes.texts[i] = noWord
		if column := r.texts[f].codes; column != nil {
			codes.texts[i] = column[row]
		}
	}
	return codes
}

func (r *rows) roundKey(row int) string { return string(r.appendRoundKey(nil, row)) }

// A roundHash tells rounds apart by a number, which costs less to keep than a
// key. Two rounds may have the same one.
type roundHash func(key []byte) uint64

// hashRound is FNV-1a with its bits mixed, so that any of them can choose a
// partition. It is the same in every run: so is the order of gathered rounds.
func hashRound(key []byte) uint64 {
	h := fnv.New64a()
	h.Write(key)
	const golden = 0x9E3779B97F4A7C15 // Knuth's multiplicative hashing
	mixed := h.Sum64()
	mixed = (mixed ^ mixed>>32) * golden
	return mixed ^ mixed>>32
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
