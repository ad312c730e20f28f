package store

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Codes are places in the list of different values, which are in the order in which they were met; a numbering begins
// anew with every column, also when its turns are all used up.
func TestANumberingListsWhatDiffers(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	var last, n numbering
	last.begin()
	last.turn = math.MaxUint32 - 1
	for _, length := range []int{0, 1, 2, 9, 1000, 20_000} {
		for _, different := range []int{1, 2, 50, 5 * fewestSlots} {
			for _, scale := range []uint64{1, 1 << 40, 0x9e3779b97f4a7c15} {
				values, want := make([]uint64, length), []uint64(nil)
				places := map[uint64]int32{}
				for i := range values {
					values[i] = scale * random.Uint64N(uint64(different))
					if _, met := places[values[i]]; !met {
						places[values[i]] = int32(len(want))
						want = append(want, values[i])
					}
				}
				if random.IntN(2) == 0 {
					n = numbering{slices.Clone(last.slots), last.turn}
				}
				list, codes, few := codesOf(&n, values, nil, nil, len(want))
				if !few || !slices.Equal(list, want) || len(codes) != length {
					t.Fatalf("%d values of %d, by %d: %v, %d codes, %d different of %d", length, different, scale, few, len(codes), len(list), len(want))
				}
				for i, code := range codes {
					if code != places[values[i]] {
						t.Fatalf("%d has the code of %d", values[i], list[code])
					}
				}
				if len(want) > 0 {
					if _, _, few := codesOf(&n, values, nil, nil, len(want)-1); few {
						t.Fatalf("%d different values pass for one less", len(want))
					}
				}
			}
		}
	}
}
