package ingest

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// drawRows are records with any values, some columns without any.
func drawRows(t *rapid.T, n int) *rows {
	r := &rows{}
	r.reserve(n)
	number := rapid.OneOf(
		rapid.Just(missing), rapid.Float64Range(-1e9, 1e9), rapid.Map(rapid.IntRange(-200, 200), func(v int) float64 { return float64(v) }),
		rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 127, 128, -129, 32768, 1 << 31, math.MaxFloat64, math.SmallestNonzeroFloat64}))
	word := rapid.OneOf(rapid.Just(""), rapid.SampledFrom([]string{"tee", "green", "Wenlo"}), rapid.StringN(1, 9, -1))
	yes := rapid.Bool()
	kinds := map[field]int{}
	for f := range fieldCount {
		kinds[f] = rapid.IntRange(0, 2).Draw(t, "kind of column")
	}
	for row := range n {
		r.next(rapid.IntRange(0, 400).Draw(t, "file"), rapid.IntRange(0, math.MaxInt32).Draw(t, "line"))
		for f := range fieldCount {
			switch {
			case kinds[f] == 0:
			case !f.isText() && kinds[f] == 1:
				r.setNumber(f, row, number.Draw(t, "number"))
			case !f.isText():
				r.setNumber(f, row, float64(rapid.IntRange(0, 300).Draw(t, "whole")))
			default:
				if w := word.Draw(t, "word"); w != "" {
					r.setText(f, row, r.texts[f].add(w))
				}
			}
		}
		for _, flags := range r.flags() {
			(*flags)[row] = yes.Draw(t, "flag")
		}
	}
	r.trim()
	return r
}

// What is put aside comes back as it was, one piece behind another.
func TestPackedRowsComeBackAsTheyWere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p rowPacker
		var u rowUnpacker
		var packed [][]byte
		var expected []*rows
		all := 0
		for range rapid.IntRange(1, 3).Draw(t, "pieces") {
			r := drawRows(t, rapid.IntRange(1, 12).Draw(t, "records"))
			from := rapid.IntRange(0, r.n-1).Draw(t, "from")
			to := rapid.IntRange(from+1, r.n).Draw(t, "to")
			packed = append(packed, p.pack(nil, r, from, to))
			expected = append(expected, r.slice(from, to))
			all += to - from
		}
		back := &rows{}
		back.reserve(all)
		for _, piece := range packed {
			if err := u.unpack(piece, back); err != nil {
				t.Fatal(err)
			}
		}
		back.trim()
		row := 0
		for _, r := range expected {
			for at := range r.n {
				for f := range fieldCount {
					if f.isText() && back.text(f, row) != r.text(f, at) {
						t.Fatalf("%s of record %d is %q, expected %q", f, row, back.text(f, row), r.text(f, at))
					}
					if !f.isText() && math.Float64bits(back.number(f, row)) != math.Float64bits(r.number(f, at)) {
						t.Fatalf("%s of record %d is %v, expected %v", f, row, back.number(f, row), r.number(f, at))
					}
				}
				if back.line[row] != r.line[at] || back.file[row] != r.file[at] {
					t.Fatalf("record %d is of line %d, file %d, expected %d, %d", row, back.line[row], back.file[row], r.line[at], r.file[at])
				}
				for i, flags := range back.flags() {
					if (*flags)[row] != (*r.flags()[i])[at] {
						t.Fatalf("flag %d of record %d differs", i, row)
					}
				}
				row++
			}
		}
	})
}

// A round is put together from wherever its records stand, in their order, and
// rounds are in the order of their first records.
func TestRoundsArePutTogetherInTheOrderOfTheInput(t *testing.T) {
	r := parsedLog(t, roundLog("2026-05-02", 1, 1)+roundLog("2026-05-01", 1, 2)+roundLog("2026-05-02", 2, 2)+roundLog("2026-05-03", 1, 1))
	together, starts := r.byRound()
	if !slices.Equal(starts, []int{0, 6, 12}) || !slices.Equal(together.line, []int32{1, 2, 3, 10, 11, 12, 4, 5, 6, 7, 8, 9, 13, 14, 15}) {
		t.Errorf("rounds from %v, lines %v", starts, together.line)
	}
}
