package store

import (
	"bytes"
	"slices"
	"testing"

	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/parquet-go/parquet-go/encoding/rle"
	"pgregory.net/rapid"
)

// "Encodings" of the Apache Parquet format has 0 to 7 in three bits as its example.
func TestPackedCodesAreThoseOfTheFormat(t *testing.T) {
	header, packed := byte(1<<1|1), []byte{0b10001000, 0b11000110, 0b11111010}
	if got, want := appendHybrid(nil, []int32{0, 1, 2, 3, 4, 5, 6, 7}, 3), append([]byte{header}, packed...); !bytes.Equal(got, want) {
		t.Errorf("%08b, the format has %08b", got, want)
	}
}

// Codes in runs of any length and of any width read back with parquet-go.
func TestCodesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(1, 31).Draw(t, "width")
		code := rapid.Int32Range(0, int32(1)<<width-1)
		var codes []int32
		for range rapid.IntRange(0, 20).Draw(t, "stretches") {
			if rapid.Bool().Draw(t, "a run") {
				codes = append(codes, slices.Repeat([]int32{code.Draw(t, "code")}, rapid.IntRange(1, 3*shortestRun).Draw(t, "length"))...)
			} else {
				codes = append(codes, rapid.SliceOfN(code, 1, 20).Draw(t, "codes")...)
			}
		}
		got, err := (&rle.Encoding{BitWidth: width}).DecodeInt32(nil, appendHybrid(nil, codes, width))
		if err != nil || len(got) < len(codes) || len(got) > len(codes)+7 || !slices.Equal(got[:len(codes)], codes) {
			t.Fatalf("%v: %v reads back as %v", err, codes, got)
		}
	})
}

func TestRunsAreShort(t *testing.T) {
	codes := slices.Concat([]int32{5, 6, 7}, slices.Repeat([]int32{9}, 100_000), []int32{1})
	if got := appendHybrid(nil, codes, 17); len(got) > 1+17+3+3+1+17 {
		t.Errorf("a long run between a few codes takes %d bytes", len(got))
	}
}

func TestLevelsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		levels := rapid.SliceOfN(rapid.SampledFrom(rapid.SampledFrom([][]uint8{{0}, {1}, {0, 1}}).Draw(t, "levels")), 1, 100).Draw(t, "rows")
		present, there := make([]byte, bitutil.BytesForBits(int64(len(levels)))), 0
		for row, level := range levels {
			bitutil.SetBitTo(present, row, level == 1)
			there += int(level)
		}
		got, err := (&rle.Encoding{BitWidth: 1}).DecodeLevels(nil, appendLevels(nil, present, there, len(levels)))
		if err != nil || len(got) < len(levels) || !slices.Equal(got[:len(levels)], levels) {
			t.Fatalf("%v: %v reads back as %v", err, levels, got)
		}
	})
}
